"""Tests of the words that draw: neutral text beside the screen that it must show, painted on its own."""

from dataclasses import replace

import numpy as np

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.drafts import Draft
from scenekit.dialects.painter import ART, COLOURS, Display, Painter
from scenekit.tables.image_files import indexed_file


def screen_drafts(dialect: Dialect, display: Display) -> tuple[Draft, ...]:
    """Return tests of the words that draw; none where the screen or its palette is too small for them."""
    width, height = display.size
    if width < 64 or height < 32 or (display.mode.indexed and display.mode.entries < 5):
        return ()
    colour = ("mode", "palette", "ink") if display.mode.indexed else ("mode_direct", "ink_rgb")
    drafts = [_boxes(dialect, display, word) for word in (colour[0], colour[-1], "fill", "save_screen")]
    drafts += [_rows(dialect, display)]
    if display.mode.indexed:
        drafts.append(_palette(dialect, display))
    if "move_part" in dialect.words:
        drafts.append(_moved(dialect, display))
    if "see" in dialect.words:
        drafts.append(_seen(dialect, display))
    drafts += [_pages(dialect, display, word) for word in ("begin_frame", "end_frame")]
    words = (
        ("load_image", "keyed_entry", "blit", "blit_keyed")
        if "load_image" in dialect.words
        else ("art_open", "art_fill", "art_run", "art_close", "blit", "blit_keyed")
    )
    return (*drafts, *(_copies(dialect, display, word) for word in words))


def _boxes(dialect: Dialect, display: Display, word: str) -> Draft:
    painter = Painter(dialect, display, filling=word == "fill")
    width, height = display.size
    painter.box(1, 3, 2, 7, 5)
    painter.box(2, 5, 4, 1, 1)
    painter.box(3, width - 4, height - 3, 4, 3)
    painter.box(1, 0, height - 1, 2, 1)
    painter.box(2, 20, 3, 1, 9)
    painter.box(3, 30, 4, 11, 1)
    painter.box(2, 44, 12, 12, 9)
    painter.box(3, 10, 14, 2, 2)
    painter.box(1, 14, 14, 13, 2)
    painter.box(3, 30, 10, 9, 13)
    return painter.draft(word)


def _rows(dialect: Dialect, display: Display) -> Draft:
    painter = Painter(dialect, display)
    width, height = display.size
    painter.row(1, 0, 0, width)
    painter.row(2, 5, 7, 1)
    painter.row(1, 9, 9, 2)
    painter.row(3, 11, 11, 35)
    painter.row(3, width - 6, height - 1, 6)
    painter.row(2, 17, 13, 30)
    painter.row(2, 30, 9, 3)
    return painter.draft("run")


def _seen(dialect: Dialect, display: Display) -> Draft:
    """Read pixels at the corners of the screen, of a box and beside it."""
    painter = Painter(dialect, display)
    width, height = display.size
    for number, box in ((1, (3, 2, 7, 5)), (2, (width - 2, 0, 2, 1)), (3, (0, height - 1, 1, 1))):
        painter.box(number, *box)
    painter.say("end_frame 0")
    said = []
    for x, y in ((3, 2), (9, 6), (10, 6), (9, 7), (width - 1, 0), (0, height - 1), (width - 1, height - 1)):
        painter.say(f"see a, {x}, {y}\nsay a")
        red, green, blue = (int(part) for part in painter.picture[y, x])
        number = painter.colours.index((red, green, blue))
        direct = red + 256 * green + 65536 * blue
        said.append(display.entries[number] if display.mode.indexed else direct)
    return Draft(word="see", main="\n".join(painter.lines) + "\n", said=tuple(said))


def _moved(dialect: Dialect, display: Display) -> Draft:
    """Move parts of the page in all directions, onto themselves too."""
    painter = Painter(dialect, display)
    for number in range(24):
        painter.box(number % 4, number % 6 * 5, number // 6 * 4, 3 + number % 3, 3)
    for left, top, width, height, x, y in (
        (0, 0, 20, 9, 2, 1),
        (3, 2, 21, 8, 1, 1),
        (4, 0, 17, 11, 6, 3),
        (5, 4, 18, 7, 4, 6),
        (0, 0, 30, 16, 33, 15),
        (9, 3, 1, 5, 50, 2),
    ):
        painter.say(f"move_part {left}, {top}, {width}, {height}, {x}, {y}")
        part = painter.picture[top : top + height, left : left + width].copy()
        painter.picture[y : y + height, x : x + width] = part
    return painter.draft("move_part")


def _palette(dialect: Dialect, display: Display) -> Draft:
    painter = Painter(dialect, display)
    if display.recolours:
        painter.box(1, 3, 2, 7, 5)
        painter.palette(1, (0, 255, 255))
        painter.picture[2:7, 3:10] = (0, 255, 255)
    else:
        painter.palette(1, (0, 255, 255))
        painter.box(1, 3, 2, 7, 5)
    return painter.draft("palette")


def _pages(dialect: Dialect, display: Display, word: str) -> Draft:
    """Draw on two pages; the page that is seen at the end is painted whole, by rows that may be slow."""
    painter = Painter(dialect, display)
    width, height = display.size
    band = 24
    painter.box(1, 0, 0, width, band)
    painter.say("end_frame 0")
    other = 1 if display.pages > 1 else 0
    painter.say(f"begin_frame {other}")
    painter.box(2, 0, 0, width, height if word == "begin_frame" else band)
    painter.box(3, 9, 8, 5, 4)
    painter.say(f"end_frame {other}")
    last = other
    if word == "end_frame":
        last = 0
        painter.say("begin_frame 0")
        painter.box(1, 0, 0, width, band)
        painter.box(2, 3, 5, 9, 4)
        painter.say("end_frame 0")
    whole = painter.draft(word)
    return replace(whole, main=whole.main.replace("end_frame 0\nsave", f"end_frame {last}\nsave"))


def _copies(dialect: Dialect, display: Display, word: str) -> Draft:
    painter = Painter(dialect, display)
    files: tuple[tuple[str, bytes], ...] = ()
    start = len(painter.lines)
    if "load_image" in dialect.words:
        name = f"TEST.{(display.image_format or 'bmp').upper()}"
        files = ((name, _image(display)),)
        painter.say(f'load_image 0, "{name}"')
        painter.say(f"keyed_entry {display.transparent}")
    else:
        _hidden_art(painter, display)
    loading, painter.lines = painter.lines[start:], painter.lines[:start]
    painter.lines[1:1] = loading
    painter.box(3, 0, 0, *display.size)
    painter.box(1, 8, 6, 9, 8)
    painter.copy((8, 0, 2, 2), 10, 9, None)
    for flip in sorted(display.flips):
        painter.copy((2, 1, 7, 6), 20 + 10 * flip, 12, flip)
    painter.copy((0, 0, 12, 8), 40, 20, 0)
    return painter.draft(word, files)


def _image(display: Display) -> bytes:
    """Return the art as an image file, with the palette that the tests set."""
    entries = [
        display.transparent if sign == "." else display.entries[int(sign)] for row in ART for sign in row
    ]
    palette = np.zeros((8, 3), dtype=np.uint8)
    for number, colour in enumerate(COLOURS):
        palette[display.entries[number]] = colour
    pixels = np.array(entries, dtype=np.uint8).reshape(len(ART), len(ART[0]))
    rows = max(display.transparent + 1, 8)
    whole = np.zeros((rows, 3), dtype=np.uint8)
    whole[:8] = palette
    return indexed_file(pixels, whole, display.image_format or "bmp", display.transparent)


def _hidden_art(painter: Painter, display: Display) -> None:
    """Draw the art on the hidden page, masks below it."""
    width, height = len(ART[0]), len(ART)
    painter.say(f"art_open {width}, {height}")
    painter.say(f"art_fill 0, 0, 0, {width}, {height}")
    painter.say(f"art_fill {display.mode.entries - 1}, 0, {height}, {width}, {height}")
    for y, row in enumerate(ART):
        for x, sign in enumerate(row):
            if sign != ".":
                painter.say(f"art_run {display.entries[int(sign)]}, {x}, {y}, 1")
                painter.say(f"art_run 0, {x}, {height + y}, 1")
    painter.say("art_close")


def art_constants() -> dict[str, int]:
    """Return what spellings of copies may ask of the art of these tests."""
    return {"art_height": len(ART), "widest": len(ART[0]), "highest": len(ART)}
