"""Fonts: a sheet whose frames are characters, with a line of it as it will be set."""

from dataclasses import replace
from functools import partial

from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, fresh_name, parted, read_name
from scenekit.editor.history import Edit
from scenekit.editor.preview import known_look
from scenekit.editor.ui import Column
from scenekit.errors import ProjectError, SceneKitError
from scenekit.model.project import Project
from scenekit.model.score_edits import drop_font, put_font
from scenekit.model.sprites import Font, Sheet
from scenekit.sprites.lettering import measure, place_text

WAYS = ("all as wide", "proportional")
USUAL = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
WIDEST = 64


def draw_fonts(desk: Desk, column: Column) -> Edit | None:
    """Draw the fonts of the project; return an edit."""
    ui, document = desk.ui, desk.session.document
    ui.heading(column, "Fonts", "a sheet's frames as characters")
    edit: Edit | None = None
    for font in document.fonts:
        edit = _font(desk, Form(ui, column, f"font:{font.name}"), font) or edit
    sheets = [sheet.name for sheet in document.sheets if sheet.frames]
    form = Form(ui, column, "font")
    which, add = parted(column.take(ui.px(28), ui.px(16)), (1.4, 1))
    if not sheets:
        form.note("A font needs a sheet that is cut into its characters.")
        return edit
    now = desk.local.get("font-sheet", sheets[0])
    now = now if now in sheets else sheets[0]
    picked = form.choice(
        "sheet", which, sheets, now, tip="The sheet whose frames are the characters, in order."
    )
    if picked is not None:
        desk.local["font-sheet"] = picked
    if form.button(
        "add", add, "Make a font of it", tip="Its frames are read as A to Z and 0 to 9; change that below."
    ):
        name = fresh_name(now, [font.name for font in document.fonts])
        characters = USUAL[: len(document.sheet(now).frames)]
        return _put(put_font(document, Font(name=name, sheet=now, characters=characters)), f"font {name}")
    return edit


def _put(document: Project, label: str) -> Edit:
    return Edit(document=document, label=label)


def read_characters(text: str, most: int) -> str:
    """Return the characters of a font.

    raises   ProjectError: one stands twice, or there are more than frames
    """
    if not text or len(text) > most:
        raise ProjectError(f"got {len(text)} characters; must be 1 to {most}, a frame for each")
    double = next((c for c in text if text.count(c) > 1), None)
    if double is not None or not text.isprintable():
        raise ProjectError(f"{double!r} stands twice; characters must be printable and all differ")
    return text


def read_kerning(text: str) -> tuple[tuple[str, int], ...]:
    """Return kerning from a text such as `AV -1, To -2`.

    raises   ProjectError: not pairs of characters with a number each
    """
    found: dict[str, int] = {}
    for part in text.split(", ") if text.strip() else ():
        pair, apart, number = part[:2], part[2:3], part[3:].strip()
        digits = number.lstrip("+-")
        if apart != " " or not digits.isascii() or not digits.isdigit() or abs(int(number)) > WIDEST:
            raise ProjectError(f"got {part[:20]!r}; must be two characters and pixels such as AV -1, To -2")
        found[pair] = int(number)
    return tuple(sorted(found.items()))


def _font(desk: Desk, form: Form, font: Font) -> Edit | None:
    ui, document = desk.ui, desk.session.document
    sheet = document.sheet(font.sheet)
    name, drop = form.split("name", (2, 1))
    text = form.text("name", name, font.name, read_name)
    if text is not None:
        return _put(put_font(document, replace(font, name=text), font.name), f"naming font {text}")
    if form.button("drop", drop, "Take it out", kind="quiet"):
        return _put(drop_font(document, font.name), f"taking out font {font.name}")
    new: Font | None = None
    read = partial(read_characters, most=len(sheet.frames))
    characters = form.text(
        "characters", form.line("characters"), font.characters, read,
        tip=f"One for each of the {len(sheet.frames)} frames of sheet {sheet.name}, in their order.",
    )  # fmt: skip
    if characters is not None:
        kept = tuple(pair for pair in font.kerning if set(pair[0]) <= set(characters))
        new = replace(font, characters=characters, kerning=kept)
    ways, apart = form.split("set", (2, 1))
    picked = form.either(
        "way", ways, WAYS, WAYS[font.proportional],
        tip="All as wide as their frame, or each as wide as what is drawn of it.",
    )  # fmt: skip
    if picked is not None:
        new = replace(font, proportional=picked == WAYS[1])
    spacing = form.whole("spacing", apart, font.spacing, -WIDEST, WIDEST, unit="px apart", tip="Between two.")
    if spacing is not None:
        new = replace(font, spacing=spacing)
    kerning = form.text(
        "kerning", form.line("kerning"), ", ".join(f"{p} {n}" for p, n in font.kerning), read_kerning,
        hint="such as AV -1, To -2", tip="Pixels to add between two characters.",
    )  # fmt: skip
    if kerning is not None:
        new = replace(font, kerning=kerning)
    _sample(desk, form, font, sheet)
    form.column.y += ui.px(10)
    return None if new is None else _put(put_font(document, new), f"font {font.name}")


def _sample(desk: Desk, form: Form, font: Font, sheet: Sheet) -> None:
    """Set a string of the game, or the font's own characters, as the machine will."""
    ui, document = desk.ui, desk.session.document
    look, pixels = known_look(desk), desk.sheet_pixels(sheet.name)
    if look is None or pixels is None or sheet.name not in look.sheets or not font.characters:
        return
    own = (
        string.text for string in document.strings if string.text and set(string.text) <= set(font.characters)
    )
    words = next(own, font.characters)
    try:
        letters = desk.remember(
            f"letters {font.name}",
            lambda: measure(font, sheet, look.sheets[sheet.name], look.transparent), font, sheet, look,
        )  # fmt: skip
        placed, wide = place_text(letters, words, font.name)
    except SceneKitError:
        return
    x, y, w, _ = form.line("looks like")
    zoom = 2 if wide * 2 + 16 <= w else 1
    high = letters.height * zoom + ui.px(12)
    box = (x, y, w, high)
    form.column.y = max(form.column.y, y + high + ui.px(6))
    panel = desk.session.scene.panel if desk.session.scene is not None else None
    ui.fill(box, panel.colour if panel is not None else ui.look.well)
    number = desk.picture(pixels)
    tall, broad = pixels.shape[:2]
    with ui.backend.clipped(box):
        for frame_name, left in placed:
            frame = sheet.frame(frame_name)
            if frame is None:
                continue
            a, b, c, d = frame.box
            place = (x + 8 + left * zoom, y + ui.px(6), c * zoom, d * zoom)
            ui.backend.image(number, place, (a / broad, b / tall, (a + c) / broad, (b + d) / tall))
