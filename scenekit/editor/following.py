"""A sheet whose picture others changed: its frames follow what they show, in one step."""

from typing import TYPE_CHECKING

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.history import Edit
from scenekit.errors import SceneKitError
from scenekit.model.arrays import Pixels
from scenekit.model.edits import put_sheet
from scenekit.model.project import Project
from scenekit.model.sprites import Sheet

if TYPE_CHECKING:
    from scenekit.slicing.cut import Cut, SliceOptions

KIND_WORDS = {"moved": "moved", "recoloured": "in other colours", "grown": "of another size",
              "redrawn": "drawn anew", "new": "new", "gone": "gone"}  # fmt: skip


def draw_following(desk: Desk, sheet: Sheet, pixels: Pixels, box: Box) -> Edit | None:
    """Say that a sheet's picture changed, and offer to let its frames follow."""
    ui, session = desk.ui, desk.session
    x, y, w, h = box
    ui.lamp(x + ui.px(7), y + h / 2, "note")
    ui.text(x + ui.px(20), y + h / 2, "Its picture changed on disk.", room=w - ui.px(290))
    tip = "Looks for what each frame shows in the new picture; names, pivots and hit boxes go along."
    old = session.old_pictures.get(sheet.file)
    place = (x + w - ui.px(262), y, ui.px(150), h)
    if ui.button("follow:do", place, "Let frames follow", tip=tip, on=old is not None and old is not pixels):
        assert old is not None
        try:
            changed, words = followed(session.document, sheet, old, pixels)
        except SceneKitError as error:
            session.say(str(error), "alarm")
            return None
        _forget(desk, sheet)
        session.say(f"{sheet.name}: {words}")
        return Edit(document=changed, label=f"frames of {sheet.name} following their art")
    if ui.button("follow:leave", (x + w - ui.px(104), y, ui.px(104), h), "Leave boxes", kind="quiet"):
        _forget(desk, sheet)
    return None


def _forget(desk: Desk, sheet: Sheet) -> None:
    desk.session.changed_pictures.discard(sheet.file)
    desk.session.old_pictures.pop(sheet.file, None)


def followed(document: Project, sheet: Sheet, old: Pixels, new: Pixels) -> tuple[Project, str]:
    """Return a document in which a sheet's frames lie where their art is in a new picture, and what moved.

    old, new   (H, W, 4) uint8
    raises     ProjectError: something in use would be lost
    """
    from scenekit.sheets.recut import followed_sheet, likest, recut
    from scenekit.slicing.cut import SliceOptions

    keys = () if sheet.key is None else (sheet.key,)
    options = SliceOptions(where=f"sheet {sheet.name}", keys=keys)
    cuts = _cuts(sheet, old, new, options)
    result = recut(document, sheet, old, new, likest(sheet, old, new, cuts))
    changed = put_sheet(document, followed_sheet(sheet, result, sheet.file, sheet.key))
    counts = [
        f"{count} {words}" for kind, words in KIND_WORDS.items() if (count := result.reimport.count(kind))
    ]
    return changed, ", ".join(counts) or "every frame is where it was"


def _cuts(sheet: Sheet, old: Pixels, new: Pixels, options: "SliceOptions") -> "list[Cut]":
    """Return the cuts of the new picture that may suit: the old grid, that grid moved, and a guess."""
    from scenekit.sheets.recut import moved_grid, options_like_before
    from scenekit.slicing import cut_sheet
    from scenekit.slicing.guess import cut_guess

    cuts = []
    like = options_like_before(sheet, options)
    for told in (like, moved_grid(like, old, new)) if like is not None else ():
        try:
            cuts.append(cut_sheet(new, told, method="cells"))
        except SceneKitError:
            continue
    return [*cuts, cut_guess(new, options)]
