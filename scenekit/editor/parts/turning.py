"""Tiles of a map that take turns: water, lights and the like, as rows of frames with their ticks."""

from dataclasses import replace

from scenekit.editor.form import Form, parted, read_name
from scenekit.errors import ProjectError
from scenekit.model.planes import Turn
from scenekit.model.scene import Plane
from scenekit.model.sprites import Sheet

LEAST_FRAMES, MOST_FRAMES, USUAL_TICKS = 2, 64, 12


def draw_turning(form: Form, plane: Plane, sheet: Sheet) -> Plane | None:
    """Draw the turns of a map's tiles; return the plane changed."""
    new: Plane | None = None
    for number, turn in enumerate(plane.turns):
        made = _turn(form, number, turn, sheet)
        if made is not None:
            turns = [*plane.turns]
            turns[number : number + 1] = made
            new = replace(plane, turns=tuple(turns))
    if plane.bands or plane.rows is not None:
        return new
    names = [frame.name for frame in sheet.frames]
    free = [name for name in names if not any(name in turn.frames for turn in plane.turns)]
    box = form.column.take(form.ui.px(28), form.ui.px(8))
    tip = "Frames that take turns in the cells that hold one of them, such as two of water."
    if form.button(
        "turn-add", box, "Let tiles take turns", kind="quiet", on=len(free) >= LEAST_FRAMES, tip=tip
    ):
        turn = Turn(frames=tuple(free[:LEAST_FRAMES]), ticks=USUAL_TICKS)
        new = replace(plane, turns=(*plane.turns, turn), tile=sheet.frames[0].box[2:])
    return new


def _turn(form: Form, number: int, turn: Turn, sheet: Sheet) -> list[Turn] | None:
    """One row; return what stands in its place."""
    ui = form.ui
    frames, ticks, drop = parted(form.column.take(ui.px(28), ui.px(6)), (1.8, 0.9, 0.5), 4)
    names = [frame.name for frame in sheet.frames]
    text = form.text(
        f"turn-{number}:frames", frames, " ".join(turn.frames), lambda t: read_frames(t, names),
        tip="Names of 2 to 64 frames, in the order of their turns.",
    )  # fmt: skip
    if text is not None:
        return [replace(turn, frames=text)]
    count = form.whole(
        f"turn-{number}:ticks", ticks, turn.ticks, 1, 9999, unit="ticks", tip="How long each stays."
    )
    if count is not None:
        return [replace(turn, ticks=count)]
    return (
        []
        if form.button(f"turn-{number}:drop", drop, "Out", kind="quiet", tip="These stay as they are.")
        else None
    )


def read_frames(text: str, known: list[str]) -> tuple[str, ...]:
    """Return names of frames that take turns.

    raises   ProjectError: too few or many, one twice, or one that the sheet has not
    """
    names = tuple(read_name(word) for word in text.replace(",", " ").split())
    if not LEAST_FRAMES <= len(names) <= MOST_FRAMES or len(set(names)) != len(names):
        raise ProjectError(
            f"got {len(names)} frames; must be {LEAST_FRAMES} to {MOST_FRAMES} that all differ"
        )
    strange = next((name for name in names if name not in known), None)
    if strange is not None:
        raise ProjectError(f"got {strange!r}; must be frames of the sheet, such as {known[0]}")
    return names
