"""Folders and archives of numbered pictures, good and hostile."""

import struct
import zipfile
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from scenekit.errors import ImageReadError
from scenekit.images import read_pictures
from scenekit.images.numbered import natural_key


def png(shade, size=(4, 3)):
    data = BytesIO()
    Image.new("L", size, shade).save(data, "PNG")
    return data.getvalue()


def archive(tmp_path, entries, *, name="walk.zip", method=zipfile.ZIP_DEFLATED):
    path = tmp_path / name
    with zipfile.ZipFile(path, "w", method) as file:
        for entry, data in entries:
            file.writestr(entry, data)
    return path


NAMES = ["walk10.png", "walk2.png", "walk1.png"]


def test_natural_order():
    names = ["b1", "a10", "a2", "A1", "a02", "a2b", "a", "10", "9"]
    assert sorted(names, key=natural_key) == ["9", "10", "a", "A1", "a02", "a2", "a2b", "a10", "b1"]


def test_folder_in_natural_order(tmp_path):
    for number, name in enumerate(NAMES):
        (tmp_path / name).write_bytes(png(10 * number))
    (tmp_path / "notes.txt").write_text("not a picture")
    (tmp_path / ".hidden.png").write_bytes(b"junk")
    (tmp_path / "inner.png").mkdir()
    pictures = read_pictures(tmp_path)
    assert [picture.name for picture in pictures] == ["walk1", "walk2", "walk10"]
    assert [int(picture.pixels[0, 0, 0]) for picture in pictures] == [20, 10, 0]
    assert [finding.code for finding in pictures[0].findings] == ["passed-over"]


@pytest.mark.parametrize("folder", ["", "walk/"])
def test_archive_in_natural_order(tmp_path, folder):
    path = archive(tmp_path, [(folder + name, png(10 * i)) for i, name in enumerate(NAMES)])
    pictures = read_pictures(path, key=(20, 20, 20))
    assert [picture.name for picture in pictures] == ["walk1", "walk2", "walk10"]
    assert [int(picture.pixels[0, 0, 3]) for picture in pictures] == [0, 255, 255]


def test_archive_is_known_by_its_first_bytes(tmp_path):
    path = archive(tmp_path, [("a.png", png(1))], name="walk.bin")
    assert len(read_pictures(path)) == 1


def test_folders_of_packing_programs_are_passed_over(tmp_path):
    path = archive(tmp_path, [("a.png", png(1)), ("__extra/._a.png", b"junk"), (".b.png", b"junk")])
    assert [picture.name for picture in read_pictures(path)] == ["a"]


def test_pixel_limit_counts_all_pictures(tmp_path):
    path = archive(tmp_path, [(f"{i}.png", png(i)) for i in range(5)])
    assert len(read_pictures(path, max_pixels=60)) == 5
    with pytest.raises(ImageReadError, match="at most 11 are allowed"):
        read_pictures(path, max_pixels=59)


@pytest.mark.parametrize(
    ("entries", "message"),
    [
        ([], "no picture"),
        ([("notes.txt", b"words")], "no picture"),
        ([("../a.png", png(1))], "points outside"),
        ([("a/../../b.png", png(1))], "points outside"),
        ([("/a.png", png(1))], "points outside"),
        ([("..\\a.png", png(1))], "points outside"),
        ([("c:\\a.png", png(1))], "points outside"),
        ([("a/1.png", png(1)), ("b/2.png", png(1))], "2 folders"),
        ([("a.png", png(1)), ("inner.zip", b"PK")], "archive in an archive"),
        ([("a.png", b"")], "empty"),
        ([("a.png", b"words")], "not a picture"),
        ([("a.png", png(1)[:-30])], "damaged"),
        ([(f"{i}.png", b"") for i in range(4097)], "4097 entries"),
    ],
)
def test_bad_archives(tmp_path, entries, message):
    with pytest.raises(ImageReadError, match=message) as caught:
        read_pictures(archive(tmp_path, entries))
    assert "\n" not in str(caught.value)


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_doubled_names(tmp_path):
    with pytest.raises(ImageReadError, match="comes twice"):
        read_pictures(archive(tmp_path, [("a.png", png(1)), ("a.png", png(2))]))


def test_unusual_packing(tmp_path):
    with pytest.raises(ImageReadError, match="deflate"):
        read_pictures(archive(tmp_path, [("a.png", png(1))], method=zipfile.ZIP_BZIP2))


def patched(path, find, offset, value):
    """Overwrite bytes behind every occurrence of a signature."""
    data = bytearray(path.read_bytes())
    start = data.find(find)
    while start >= 0:
        data[start + offset : start + offset + len(value)] = value
        start = data.find(find, start + 1)
    path.write_bytes(data)
    return path


def test_encrypted(tmp_path):
    path = patched(archive(tmp_path, [("a.png", png(1))]), b"PK\x01\x02", 8, b"\x01\0")
    with pytest.raises(ImageReadError, match="encrypted"):
        read_pictures(path)


def test_a_bomb_that_states_its_size(tmp_path):
    path = archive(tmp_path, [("a.png", b"")])
    patched(path, b"PK\x01\x02", 24, struct.pack("<I", 300 << 20))
    with pytest.raises(ImageReadError, match="at most 268435456"):
        read_pictures(path)


def test_a_bomb_that_lies_about_its_size(tmp_path):
    path = archive(tmp_path, [("a.png", b"\0" * 50_000_000)])
    patched(path, b"PK\x01\x02", 24, struct.pack("<I", 100))
    with pytest.raises(ImageReadError, match=r"damaged|more bytes|not a picture"):
        read_pictures(path)


def test_many_entries_that_inflate(tmp_path, monkeypatch):
    monkeypatch.setattr("scenekit.images.archive.MAX_TOTAL_BYTES", 150)
    path = archive(tmp_path, [(f"{i}.png", png(i)) for i in range(5)])
    with pytest.raises(ImageReadError, match="more bytes than allowed"):
        read_pictures(path)


def test_a_directory_too_large_to_list(tmp_path):
    path = archive(tmp_path, [("a.png", png(1))])
    patched(path, b"PK\x05\x06", 12, struct.pack("<I", 100 << 20))
    with pytest.raises(ImageReadError, match="too many entries"):
        read_pictures(path)


def test_archives_of_the_wide_kind(tmp_path):
    path = archive(tmp_path, [("a.png", png(1))])
    data = path.read_bytes()
    end = data.find(b"PK\x05\x06")
    path.write_bytes(data[:end] + b"PK\x06\x07" + b"\0" * 16 + data[end:])
    with pytest.raises(ImageReadError, match="64-bit"):
        read_pictures(path)


@pytest.mark.parametrize("share", [0.2, 0.6, 0.95])
def test_truncated_archives(tmp_path, share):
    path = archive(tmp_path, [("a.png", png(1)), ("b.png", png(2))])
    path.write_bytes(path.read_bytes()[: int(path.stat().st_size * share)])
    with pytest.raises(ImageReadError, match="damaged or truncated"):
        read_pictures(path)


def test_words_named_zip(tmp_path):
    (tmp_path / "a.zip").write_text("words")
    with pytest.raises(ImageReadError, match="not a zip archive"):
        read_pictures(tmp_path / "a.zip")


def test_empty_folder(tmp_path):
    with pytest.raises(ImageReadError, match="no picture"):
        read_pictures(tmp_path)


def test_random_damage_never_leaves_the_error_class(tmp_path):
    whole = archive(tmp_path, [("a.png", png(1)), ("b.png", png(2))]).read_bytes()
    draw = np.random.default_rng(2)
    for turn in range(150):
        data = bytearray(whole)
        for place in draw.integers(0, len(data), 4):
            data[place] = draw.integers(0, 256)
        path = tmp_path / f"{turn}.zip"
        path.write_bytes(data)
        try:
            read_pictures(path, kind="numbered")
        except ImageReadError:
            continue


def test_an_entry_without_a_name_is_passed_over(tmp_path):
    """Found by spoilt archives: such an entry ended in a traceback."""
    import io
    import zipfile

    from PIL import Image

    buffer = io.BytesIO()
    Image.new("RGBA", (3, 3), (1, 2, 3, 255)).save(buffer, "PNG")
    path = tmp_path / "a.zip"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("a-1.png", buffer.getvalue())
        archive.writestr("z-9", b"nothing")
    path.write_bytes(path.read_bytes().replace(b"z-9", b"\0-9"))  # a name ends at its first zero byte
    from scenekit.images import read_pictures

    assert len(read_pictures(path)) == 1
