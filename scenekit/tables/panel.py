"""The tables of a score panel: values, their changes, items, strings, digits."""

from scenekit.images.reduced import ReducedArt
from scenekit.model.panel import KINDS
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.routines.language import Table
from scenekit.sprites.lettering import DIGITS, Letters, place_text
from scenekit.sprites.panels import ItemPlace, place_items, string_of
from scenekit.tables.pieces import Pieces


def value_tables(project: Project, scene: Scene) -> tuple[Table, ...]:
    """Return the tables of values and of their changes."""
    numbers = {value.name: n for n, value in enumerate(project.values)}
    changes = sorted(scene.changes, key=lambda change: change.tick)
    return (
        Table("value_start", tuple(v.start for v in project.values), "start of each value"),
        Table("value_low", tuple(v.low for v in project.values), "its lowest"),
        Table("value_high", tuple(v.high for v in project.values), "its highest"),
        Table("change_tick", tuple(c.tick for c in changes), "tick of each change"),
        Table("change_value", tuple(numbers[c.value] for c in changes), "value that it changes"),
        Table("change_add", tuple(c.add for c in changes), "what it adds"),
    )


def panel_tables(project: Project, scene: Scene, art: ReducedArt, pieces: Pieces) -> tuple[Table, ...]:
    """Return the tables of a panel's items, the strings and the digits that they show."""
    places = place_items(project, scene, art.sheets, art.transparent)
    numbers = {value.name: n for n, value in enumerate(project.values)}
    texts = [place for place in places if place.item.kind == "text"]
    fonts: dict[str, Letters] = {}
    for place in places:
        if place.item.kind == "number" and place.letters is not None:
            fonts.setdefault(place.item.font, place.letters)
    what, other, count, step = list[int](), list[int](), list[int](), list[int]()
    for place in places:
        row = _item(project, art, pieces, place, texts, list(fonts))
        for column, value in zip((what, other, count, step), row, strict=True):
            column.append(value)
    return (
        Table(
            "item_kind",
            tuple(KINDS.index(p.item.kind) for p in places),
            "0 string 1 number 2 bar 3 icons 4 picture",
        ),
        *(
            Table(f"item_{side}", tuple(p.box[n] for p in places), "on the screen" if n == 0 else "")
            for n, side in enumerate("xywh")
        ),
        Table("item_value", tuple(numbers.get(p.item.value, -1) for p in places), "value it shows, -1 none"),
        Table("item_what", tuple(what), "string, font, entry or frame"),
        Table("item_other", tuple(other), "dark frame or -1; leading zeros of a number"),
        Table("item_count", tuple(count), "digits, icons, or a bar's highest value"),
        Table("item_step", tuple(step), "pixels between icons"),
        *_string_tables(project, pieces, texts),
        *_digit_tables(pieces, fonts),
    )


def _item(
    project: Project,
    art: ReducedArt,
    pieces: Pieces,
    place: ItemPlace,
    texts: list[ItemPlace],
    fonts: list[str],
) -> tuple[int, int, int, int]:
    item = place.item
    if item.kind == "text":
        return texts.index(place), -1, 1, 0
    if item.kind == "number":
        return fonts.index(item.font), int(item.zeros), item.digits, 0
    if item.kind == "bar":
        high = next(value.high for value in project.values if value.name == item.value)
        return art.covers[item.colour], -1, max(1, high), 0
    dark = pieces.frame_number(item.sheet, item.dark) if item.dark else -1
    return pieces.frame_number(item.sheet, item.lit), dark, item.count, item.step


def _string_tables(project: Project, pieces: Pieces, texts: list[ItemPlace]) -> tuple[Table, ...]:
    first, length, frames, lefts = list[int](), list[int](), list[int](), list[int]()
    for place in texts:
        assert place.letters is not None
        letters, _ = place_text(place.letters, string_of(project, place.item), place.item.name)
        first.append(len(frames))
        length.append(len(letters))
        for name, x in letters:
            frames.append(pieces.frame_number(place.letters.font.sheet, name))
            lefts.append(x)
    return (
        Table("string_first", tuple(first), "first letter of each string"),
        Table("string_length", tuple(length), "its letters"),
        Table("letter_frame", tuple(frames), "frame of each letter"),
        Table("letter_x", tuple(lefts), "its place in the string"),
    )


def _digit_tables(pieces: Pieces, fonts: dict[str, Letters]) -> tuple[Table, ...]:
    frames, lefts, steps = list[int](), list[int](), list[int]()
    for letters in fonts.values():
        for digit in DIGITS:
            frames.append(pieces.frame_number(letters.font.sheet, letters.frames[digit].name))
            lefts.append(letters.lefts[digit])
        steps.append(letters.digit_step)
    return (
        Table("digit_frame", tuple(frames), "frames of 0 to 9 of each font"),
        Table("digit_left", tuple(lefts), "columns left out at the left of each"),
        Table("digit_step", tuple(steps), "pixels from digit to digit"),
    )
