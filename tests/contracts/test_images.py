"""What every image kind owes: listed, named after its module, and never anything but its own error."""

from importlib import import_module

import pytest

from scenekit import images
from scenekit.errors import ImageReadError, UnknownNameError
from scenekit.images.picture import ImageKind, ReadOptions
from scenekit.registry import iterate_modules

KINDS = images.image_kinds()

JUNK = {
    "empty.png": b"",
    "words.png": b"words",
    "cut.png": b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR",
    "cut.gif": b"GIF89a\x01\0",
    "cut.zip": b"PK\x03\x04",
    "cut.ora": b"PK\x03\x04",
    "cut.webp": b"RIFF\0\0\0\0WEBP",
    "nothing": b"\0" * 64,
}


def test_every_module_with_a_plugin_is_listed():
    modules = iterate_modules("scenekit.images")
    having = {name for name in modules if hasattr(import_module(f"scenekit.images.{name}"), "PLUGIN")}
    assert having == set(images.MODULES)
    assert all(isinstance(kind, ImageKind) and kind.name == name for name, kind in KINDS.items())


@pytest.mark.parametrize("name", KINDS)
@pytest.mark.parametrize("junk", JUNK)
def test_junk_gives_one_line(tmp_path, name, junk):
    path = tmp_path / junk
    path.write_bytes(JUNK[junk])
    KINDS[name].accepts(path)
    with pytest.raises(ImageReadError) as caught:
        KINDS[name].read(path, ReadOptions())
    assert "\n" not in str(caught.value)
    assert junk in str(caught.value)


@pytest.mark.parametrize("name", KINDS)
def test_missing_and_empty_places(tmp_path, name):
    for path in (tmp_path / "nothing.png", tmp_path / "nothing", tmp_path):
        KINDS[name].accepts(path)
        with pytest.raises(ImageReadError):
            KINDS[name].read(path, ReadOptions())


def test_unknown_kind_and_unknown_file(tmp_path):
    (tmp_path / "a.txt").write_text("words")
    with pytest.raises(UnknownNameError, match="flat"):
        images.read_pictures(tmp_path / "a.txt", kind="flatt")
    with pytest.raises(ImageReadError, match="not a picture source"):
        images.read_pictures(tmp_path / "a.txt")


@pytest.mark.parametrize("name", KINDS)
def test_summaries_are_one_line(name):
    assert KINDS[name].summary
    assert "\n" not in KINDS[name].summary
    assert KINDS[name].summary.isascii()
