"""The head of the window: the title, which scene and target are looked at, and what can be taken back."""

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.theme import EDGE

HIGH = 28


def draw_head(desk: Desk, box: Box) -> None:
    """Draw the title, what is looked at, and what can be taken back."""
    ui, session = desk.ui, desk.session
    x, y, w, h = box
    with ui.backend.region("head", box):
        ui.fill(box, ui.look.ground)
        middle = y + h / 2
        left = _title(desk, x + ui.px(EDGE), middle, w * 0.25)
        scene, target = session.scene, session.target
        picked, left = _choice(
            desk, "scene", "scene", (left, middle, min(ui.px(130), w * 0.13)),
            [other.name for other in session.document.scenes], scene.name if scene else "",
            "The scene that is shown and reckoned.",
        )  # fmt: skip
        if picked:
            session.show_scene(picked)
        picked, left = _choice(
            desk, "target", "for", (left, middle, min(ui.px(150), w * 0.15)),
            [other.name for other in session.document.targets], target.name if target else "",
            "The target: colours, sizes and times are those of its machine.",
        )  # fmt: skip
        if picked:
            session.target_name = picked
        _buttons(desk, x + w - ui.px(EDGE), middle)


def _title(desk: Desk, left: float, middle: float, room: float) -> float:
    """Write the project's name and whether it is saved; return where that ends."""
    ui, session = desk.ui, desk.session
    left += ui.text(left, middle, session.document.name, "title", weight="bold", room=room) + ui.px(10)
    if session.dirty:
        ui.lamp(left + ui.px(5), middle + 2, "note")
        left += ui.px(15)
    state = "not saved" if session.dirty else "saved"
    return left + ui.text(left, middle + 2, state, "small", ui.look.quiet) + ui.px(22)


def _choice(
    desk: Desk,
    name: str,
    word: str,
    place: tuple[float, float, float],
    options: list[str],
    now: str,
    tip: str,
) -> tuple[str | None, float]:
    """Draw a word and a choice after it; return what was chosen, and where it ends."""
    ui = desk.ui
    left, middle, wide = place
    ui.text(left, middle + 1, word, "small", ui.look.quiet)
    left += ui.width(word, "small") + 6
    high = ui.px(HIGH)
    picked = ui.choice(f"head:{name}", (left, middle - high / 2, wide, high), options, now, tip=tip)
    return picked, left + wide + ui.px(14)


def _buttons(desk: Desk, right: float, middle: float) -> None:
    """Draw what saves, and what takes back and does again."""
    ui, session = desk.ui, desk.session
    undo, redo = session.history.undo_label, session.history.redo_label
    high = ui.px(HIGH)
    for name, word, on, kind, tip in (
        ("save", "Save", session.dirty, "main", "Write the project's files. Ctrl+S"),
        ("redo", "Redo", bool(redo), "quiet", f"Do again: {redo}. Ctrl+Shift+Z"),
        ("undo", "Undo", bool(undo), "quiet", f"Take back: {undo}. Ctrl+Z"),
    ):
        wide = ui.px(72 if name == "save" else 56)
        right -= wide
        box = (right, middle - high / 2, wide, high)
        if ui.button(f"head:{name}", box, word, tip=tip, kind=kind, on=on):
            getattr(session, name)()
        right -= ui.px(6)
