"""What of its picture a plane shows, and how it is stored: key colour, rows, tile sizes, bank."""

from dataclasses import replace

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, one_colour, parted, read_name
from scenekit.editor.parts.mapping import cells_of
from scenekit.errors import SceneKitError
from scenekit.model.palette import Colour
from scenekit.model.scene import Plane
from scenekit.model.store import inside

LEAST_TILE, MOST_TILE, MOST_ROW = 4, 256, 32_767
KEY_TIP = "The colour of the picture that stands for clear, as rrggbb; empty for none."
BANK_TIP = "Pictures that name one bank share palette entries of their own; empty: the entries of all others."


def draw_plane_art(desk: Desk, form: Form, plane: Plane) -> Plane | None:
    """Draw key colour, rows, tile size and bank of a plane; return it changed."""
    new: Plane | None = None
    if plane.picture:
        key = draw_key(desk, form, plane.picture, plane.key)
        if key is not None:
            new = replace(plane, key=key[0])
    if not plane.turns:
        rows = _rows(desk, form, plane)
        if rows is not None:
            new = replace(plane, rows=rows[0])
    tile = _tile(form, plane)
    if tile is not None:
        new = replace(plane, tile=tile)
    bank = draw_bank(form, form.line("bank"), plane.bank)
    if bank is not None:
        new = replace(plane, bank=bank)
    return new if plane.map else _credit(form, plane) or new


def _credit(form: Form, plane: Plane) -> Plane | None:
    """Who drew the picture of a plane, under which licence, and where it is from."""
    author, licence = form.split("credit", (1.4, 1))
    by = form.text("author", author, plane.author, str, hint="who drew it", tip="Who drew the picture.")
    if by is not None:
        return replace(plane, author=by)
    under = form.text("licence", licence, plane.licence, str, hint="licence", tip="Its licence, such as CC0.")
    if under is not None:
        return replace(plane, licence=under)
    source = form.text(
        "source", form.line("", 12), plane.source, str, hint="where it is from", tip="Its source."
    )
    return None if source is None else replace(plane, source=source)


def draw_key(
    desk: Desk, form: Form, file: str, key: Colour | None, box: Box | None = None
) -> tuple[Colour | None] | None:
    """Draw a picture's key colour, with a button that takes its corner's; return it when changed."""
    ui = form.ui
    typed, corner = parted(box or form.line("key colour"), (1.5, 1))
    x, y, w, h = typed
    if key is not None:
        ui.fill((x, y, ui.px(20), h), key)
        ui.frame((x, y, ui.px(20), h), ui.look.rule)
        typed = (x + ui.px(24), y, w - ui.px(24), h)
    now = bytes(key).hex() if key is not None else ""
    text = form.text("key", typed, now, _key_text, hint="none", tip=KEY_TIP)
    if text is not None and text != now:
        return (one_colour(text) if text else None,)
    if form.button("corner", corner, "Corner", tip="Take the colour of the picture's top left corner."):
        found = _corner(desk, file)
        if found is not None and found != key:
            return (found,)
    return None


def draw_bank(form: Form, box: Box, bank: str) -> str | None:
    """Draw the name of a bank; return it when changed."""
    text: str | None = form.text(
        "bank", box, bank, lambda t: read_name(t) if t.strip() else "", hint="shared with all", tip=BANK_TIP
    )
    return None if text == bank else text


def _key_text(text: str) -> str:
    return bytes(one_colour(text)).hex() if text.strip() else ""


def _corner(desk: Desk, file: str) -> Colour | None:
    """Return the colour of a picture's first pixel; None, with the reason said, where there is none."""
    from scenekit.images.flat import read_picture

    try:
        pixel = read_picture(inside(desk.session.document.folder, file)).pixels[0, 0]
    except SceneKitError as error:
        desk.session.say(str(error), "alarm")
        return None
    if not pixel[3]:
        desk.session.say("the corner is clear already")
        return None
    return int(pixel[0]), int(pixel[1]), int(pixel[2])


def whole_height(desk: Desk, plane: Plane) -> int | None:
    """Return how many rows the whole picture or map of a plane has; None where it cannot be read."""
    document = desk.session.document
    if plane.map:
        cells = cells_of(desk, plane)
        sheet = next((s for s in document.sheets if s.name == plane.sheet), None)
        return len(cells) * sheet.frames[0].box[3] if cells and sheet is not None and sheet.frames else None

    def read() -> int | None:
        from scenekit.images.flat import read_picture

        try:
            return int(read_picture(inside(document.folder, plane.picture)).pixels.shape[0])
        except SceneKitError:
            return None

    made: int | None = desk.remember(f"height {plane.picture}", read, plane.picture, desk.session.files)
    return made


def _rows(desk: Desk, form: Form, plane: Plane) -> tuple[tuple[int, int] | None] | None:
    """The rows that a plane shows: from one on, up to another; return them when changed."""
    high = whole_height(desk, plane)
    most = high if high is not None else MOST_ROW
    first, end = plane.rows or (0, most)
    boxes = form.split("shows rows", (1, 1, 0.8))
    start = form.whole("row-first", boxes[0], first, 0, max(0, end - 1), unit="from", tip="First row shown.")
    stop = form.whole(
        "row-end", boxes[1], min(end, most) if high is not None else end, first + 1, most, unit="up to",
        tip="The row after the last that is shown.",
    )  # fmt: skip
    if form.button("row-all", boxes[2], "All", kind="quiet", on=plane.rows is not None, tip="Show all rows."):
        return (None,)
    if start is None and stop is None:
        return None
    made = (start if start is not None else first, stop if stop is not None else end)
    return (None if made == (0, most) else made,)


def _tile(form: Form, plane: Plane) -> tuple[int, int] | None:
    """Width and height of the tiles that a plane is cut into for the machine; return them when changed."""
    wide, high = form.split("tiles", (1, 1))
    tip = "Equal tiles are stored once. Budget says under Advice which size takes least."
    made = list(plane.tile)
    for axis, box, word in ((0, wide, "wide"), (1, high, "high")):
        value = form.whole(
            f"tile-{word}", box, plane.tile[axis], LEAST_TILE, MOST_TILE, unit=f"px {word}", tip=tip
        )
        if value is not None:
            made[axis] = value
    return None if tuple(made) == plane.tile else (made[0], made[1])
