"""Palettes from lists of colours and from indexed pictures."""

import pytest
from PIL import Image

from scenekit.colour.given import colours_of_file, colours_of_text
from scenekit.errors import PaletteError

COLOURS = ((1, 2, 3), (255, 0, 170), (0, 0, 0))


def test_lists():
    assert colours_of_text("#010203, ff00AA\n;nothing\n000 ; black") == COLOURS
    assert len(colours_of_text("fff " * 256)) == 256


@pytest.mark.parametrize(
    "text", ["", "; only a remark", "12345", "#12345g", "0x112233", "fff " * 257, "１２３"]
)
def test_other_text_is_refused(text):
    with pytest.raises(PaletteError, match="palette"):
        colours_of_text(text)


@pytest.mark.parametrize("kind", ["png", "bmp"])
def test_palettes_of_pictures(tmp_path, kind):
    picture = Image.new("P", (2, 2))
    picture.putpalette([part for colour in COLOURS for part in colour])
    path = tmp_path / f"art.{kind}"
    picture.save(path)
    assert colours_of_file(path) == COLOURS


def test_palette_of_a_gif(tmp_path):
    picture = Image.new("P", (2, 2))
    picture.putpalette([part for colour in COLOURS for part in colour])
    for place, entry in enumerate((1, 2, 0)):
        picture.putpixel((place % 2, place // 2), entry)
    picture.save(tmp_path / "art.gif", optimize=False)
    assert colours_of_file(tmp_path / "art.gif")[:3] == COLOURS


def test_list_in_a_file(tmp_path):
    path = tmp_path / "colours.txt"
    path.write_bytes(b"\xef\xbb\xbf010203\r\nff00aa 000\r\n")
    assert colours_of_file(path) == COLOURS


def test_bad_files_are_refused(tmp_path):
    whole = tmp_path / "whole.png"
    Image.new("RGB", (2, 2)).save(whole)
    cases = {
        "true.png": whole.read_bytes(),
        "cut.png": whole.read_bytes()[:20],
        "long.txt": b"fff " * 20000,
        "odd.bin": b"\xff\xfe\x00\x01",
        "words.txt": b"hello",
    }
    for name, content in cases.items():
        (tmp_path / name).write_bytes(content)
        with pytest.raises(PaletteError, match=name):
            colours_of_file(tmp_path / name)
    with pytest.raises(PaletteError, match=r"none\.txt"):
        colours_of_file(tmp_path / "none.txt")
    with pytest.raises(PaletteError):
        colours_of_file(tmp_path)
