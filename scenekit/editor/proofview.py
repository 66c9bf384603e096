"""A proof in pictures: the screens that the program drew, and where they differ from what is shown."""

from typing import TYPE_CHECKING

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.exporting import Run, Shot
from scenekit.editor.ui import Column

if TYPE_CHECKING:
    from scenekit.verify.prove import Proof

SIDES = ("the program's screen", "awaited", "what differs")
THUMB = 92


def draw_proof(desk: Desk, column: Column, run: Run | None) -> None:
    """Draw what a run proved, and its screens to choose among."""
    ui = desk.ui
    if run is None or not run.done:
        return
    ui.heading(column, "Proof", f"{run.scene} for {run.target}")
    if run.document is not desk.session.document:
        ui.paragraph(column, "The project changed since; run it again.", "small", ui.look.quiet)
    if run.error or run.proof is None:
        ui.paragraph(column, run.error, colour=ui.look.alarm)
        return
    _verdict(desk, column, run.proof)
    if run.shots:
        _strip(desk, column, run)
        _large(desk, column, run)


def _verdict(desk: Desk, column: Column, proof: "Proof") -> None:
    ui = desk.ui
    x, y, _w, h = column.take(ui.px(30), ui.px(4))
    ui.lamp(x + ui.px(7), y + h / 2, "good" if proof.passed else "alarm")
    if proof.passed:
        words = "The same, pixel by pixel" if proof.ticks else "The same values; it draws no screens"
    else:
        words = "Not the same"
    colour = ui.look.ink if proof.passed else ui.look.alarm
    ui.text(x + ui.px(22), y + h / 2, words, "head", weight="bold", colour=colour)
    wrong = sum(tick.different for tick in proof.ticks)
    pixels = sum(tick.pixels for tick in proof.ticks)
    said = (
        f"{proof.interpreter} {proof.version} drew {len(proof.ticks)} screens: {wrong} of {pixels} pixels "
        f"differ; {proof.different} of {proof.values} values differ; {proof.seconds:.1f} s."
    )
    ui.paragraph(column, said, "small", ui.look.quiet, 17)
    column.y += ui.px(8)


def _strip(desk: Desk, column: Column, run: Run) -> None:
    """Every screen small, in the order of time; the one that is pressed is shown large."""
    ui = desk.ui
    fit = max(1, min(5, int(column.w // ui.px(THUMB))))
    wide = (column.w - (fit - 1) * 6) / fit
    assert run.proof is not None
    for first in range(0, len(run.shots), fit):
        row = run.shots[first : first + fit]
        high = round(wide * row[0].drawn.shape[0] / row[0].drawn.shape[1])
        x, y, _w, _h = column.take(high + ui.px(20), ui.px(4))
        for number, shot in enumerate(row, first):
            place = (round(x + (number - first) * (wide + 6)), y, round(wide), high)
            _thumb(desk, run, number, shot, place)


def _thumb(desk: Desk, run: Run, number: int, shot: Shot, place: Box) -> None:
    ui, session = desk.ui, desk.session
    assert run.proof is not None
    different = run.proof.ticks[number].different
    words = "equal" if not different else f"{different} pixels differ, within {run.proof.ticks[number].box}"
    felt = ui.press(f"proof:{shot.tick}", place, f"Tick {shot.tick}: {words}. Press to see it large.")
    ui.backend.image(desk.picture(shot.drawn), place)
    chosen = desk.local.get("proof-at", 0) == number
    if chosen or felt.focused:
        ui.frame(place, ui.look.accent, 2)
    x, y, w, h = place
    ui.lamp(x + ui.px(6), y + h + ui.px(10), "good" if not different else "alarm")
    ui.text(x + ui.px(16), y + h + ui.px(10), f"tick {shot.tick}", "small", ui.look.quiet, room=w - ui.px(16))
    if felt.clicked:
        desk.local["proof-at"] = number
        if session.scene is not None and session.scene.name == run.scene:
            session.playing.go(shot.tick, session.scene.ticks)


def _large(desk: Desk, column: Column, run: Run) -> None:
    """One screen as large as there is room, with crisp pixels: drawn, awaited, or what differs."""
    ui = desk.ui
    shot = run.shots[min(desk.local.get("proof-at", 0), len(run.shots) - 1)]
    side = desk.local.get("proof-side", SIDES[0])
    picked = ui.segments("proof:side", column.take(ui.px(28), ui.px(6)), SIDES, side)
    if picked:
        desk.local["proof-side"] = side = picked
    picture = {SIDES[0]: shot.drawn, SIDES[1]: shot.wanted, SIDES[2]: shot.marked}[side]
    high, wide = picture.shape[:2]
    zoom = max(1, int(column.w // wide)) if wide <= column.w else column.w / wide
    x, y, _w, _h = column.take(round(high * zoom), ui.px(10))
    ui.backend.image(desk.picture(picture), (x, y, round(wide * zoom), round(high * zoom)))
