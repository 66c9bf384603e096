"""The parts that are always there: stations at the left edge, title, tape."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from scenekit.editor.arithmetic import whole
from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Panel
from scenekit.editor.theme import EDGE, PAD
from scenekit.errors import ProjectError
from scenekit.motion.parallax import camera_at
from scenekit.report.paper import PURPLE, plain_ms


def draw_rail(desk: Desk, box: Box, panels: list[Panel]) -> None:
    """Draw the stations as words, in the order of the work, each with its lamp."""
    ui, session = desk.ui, desk.session
    x, y, w, h = box
    with ui.backend.region("rail", box):
        ui.fill(box, ui.look.rail)
        row = ui.px(52) if h > ui.px(620) else ui.px(44)
        top = y + ui.px(14)
        for number, panel in enumerate(panels):
            place = (x, top + number * row, w, row)
            chosen = session.station == panel.name
            felt = ui.press(f"station:{panel.name}", place, TIPS[panel.name])
            if chosen:
                ui.fill(place, ui.look.ground)
                ui.fill((x, place[1], ui.px(4), row), ui.look.ink)
            elif felt.hovered:
                ui.fill(place, ui.look.hover)
                ui.pointer = "hand"
            if felt.focused:
                ui.frame(place, ui.look.accent, 2)
            middle = place[1] + row / 2
            weight = "bold" if chosen else "regular"
            ui.text(x + ui.px(EDGE), middle - ui.px(9), panel.title, "station", weight=weight)
            lamp = panel.lamp(desk)
            ui.lamp(x + ui.px(EDGE + 5), middle + ui.px(12), lamp.level)
            colour = ui.look.alarm if lamp.level == "alarm" else ui.look.quiet
            ui.text(
                x + ui.px(EDGE + 17),
                middle + ui.px(12),
                lamp.word,
                "small",
                colour,
                room=w - ui.px(EDGE + 24),
            )
            if felt.clicked:
                session.station = panel.name
        _rail_foot(desk, (x, y + h - ui.px(84), w, ui.px(76)))


TIPS = {
    "machine": "What the scene must run on: a machine, one of its display modes, and a BASIC.",
    "sheets": "Pictures that hold frames: bring them in, and see how they are cut.",
    "frames": "Each frame's name, the pivot it stands on, and the box that hits.",
    "motion": "Frames in time: steps, facings, and the way a sprite takes through the scene.",
    "planes": "What lies behind what, and how fast each layer slides.",
    "colours": "Where the palette goes, colours that turn and change, and how others see them.",
    "score": "The part of the screen that stands still: strings, numbers, bars, icons, and their fonts.",
    "budget": "Whether the machine keeps up, and what would help.",
    "export": "Write the program for the machine, run it, and compare its screen with this one.",
}


def _rail_foot(desk: Desk, box: Box) -> None:
    ui, settings = desk.ui, desk.settings
    x, y, w, _ = box
    high = ui.px(24)
    names = (
        ("keys", "Keys", "Every key, on one page. F1"),
        ("look", "Look", "Light or dark, the size of words, and whether things keep still."),
        ("tour", "Tour", "A walk through the window in a few sentences."),
    )
    for number, (name, word, tip) in enumerate(names):
        place = (x + ui.px(EDGE - 6), y + number * high, w - ui.px(2 * (EDGE - 6)), high)
        felt = ui.press(f"foot:{name}", place, tip)
        if felt.hovered:
            ui.fill(place, ui.look.hover)
        ui.text(place[0] + 6, place[1] + high / 2, word, "body", ui.look.quiet)
        if felt.focused:
            ui.frame(place, ui.look.accent, 2)
        if felt.clicked:
            desk.ask = (name, {})
    del settings


def draw_tape(desk: Desk, box: Box) -> None:
    """Draw the scene's time: work of every tick, the camera, palette events, and where we are."""
    ui, session = desk.ui, desk.session
    scene, product = session.scene, desk.product
    x, y, w, h = box
    with ui.backend.region("tape", box):
        ui.fill(box, ui.look.ground)
        if scene is None:
            ui.text(
                x + ui.px(EDGE), y + h / 2, "No scene yet: the first plane makes one.", colour=ui.look.quiet
            )
            return
        _play_button(desk, (x + ui.px(EDGE), y + ui.px(8), ui.px(76), ui.px(30)))
        field = (x + ui.px(EDGE + 84), y + ui.px(8), ui.px(84), ui.px(30))
        at = ui.field(
            "tape:tick",
            field,
            str(session.playing.tick),
            lambda text: _tick(text, scene.ticks),
            tip="The tick on show, counted from 0. Sums such as 60*3 are understood.",
            unit="tick",
        )
        if at is not None:
            session.playing.go(at, scene.ticks)
        words = _rate_words(desk)
        ui.text(x + ui.px(EDGE), y + ui.px(50), words, "small", ui.look.quiet, room=ui.px(172))
        left = x + ui.px(EDGE + 184)
        track = (left, y + ui.px(8), w - (left - x) - ui.px(EDGE), h - ui.px(26))
        felt = ui.press("tape:track", track, "", keyboard=False)
        if felt.held:
            session.playing.go(int(felt.at[0] / track[2] * scene.ticks), scene.ticks)
        budget = product.budget if product is not None else None
        size = (round(track[2]), round(track[3]))
        pixels = desk.remember(
            "tape", lambda: _track(desk, size, scene, budget), scene, budget, size, ui.look.name
        )
        ui.backend.image(desk.picture(pixels), track)
        ui.frame(track, ui.look.rule)
        _marks(desk, track, scene, budget)


def _play_button(desk: Desk, box: Box) -> None:
    ui, session = desk.ui, desk.session
    plays = session.playing.plays
    felt = ui.press("tape:play", box, "Play at the display's true rate, or stop. Space")
    x, y, _w, h = box
    ui.fill(box, ui.look.hover if felt.hovered else ui.look.sheet)
    ui.frame(box, ui.look.accent if felt.focused else ui.look.quiet)
    ui.shape("pause" if plays else "play", x + ui.px(18), y + h / 2, ui.px(14), ui.look.ink)
    ui.text(x + ui.px(32), y + h / 2, "Stop" if plays else "Play")
    if felt.clicked:
        desk.local["wants-play"] = True


def _tick(text: str, ticks: int) -> int:
    try:
        return whole(text, 0, ticks - 1)
    except ProjectError as error:
        raise ProjectError(str(error)) from None


def _rate_words(desk: Desk) -> str:
    product, scene = desk.product, desk.session.scene
    if product is None or product.mode is None or scene is None:
        return "reading the art"
    hz = float(product.mode.timing.refresh_hz)
    return f"{scene.ticks} ticks, {scene.ticks / hz:.1f} s at {hz:.2f} Hz"


def _track(desk: Desk, size: tuple[int, int], scene: Any, budget: Any) -> NDArray[np.uint8]:
    """Return the picture of the whole tape: columns of work against the refresh, and the camera's way."""
    wide, high = max(size[0], 2), max(size[1], 8)
    look = desk.ui.look
    picture = np.empty((high, wide, 3), dtype=np.uint8)
    picture[:] = look.sheet
    ticks = np.minimum(np.arange(wide) * scene.ticks // wide, scene.ticks - 1)
    if budget is not None and None not in budget.work_ms:
        work = np.array(budget.work_ms, dtype=float)
        allowed = budget.period_ms * scene.ticks_per_update
        ceiling = max(allowed * 1.2, float(work.max()) * 1.05)
        places = np.searchsorted(budget.ticks, ticks, side="right") - 1
        ends = np.append(places[1:], len(work))
        rows = np.arange(high)[::-1] + 0.5
        for column in range(wide):
            value = work[places[column] : max(places[column] + 1, ends[column])].max()
            filled = rows < value / ceiling * high
            over = filled & (rows > allowed / ceiling * high)
            picture[filled, column] = look.rule
            picture[over, column] = look.alarm
        level = high - 1 - round(allowed / ceiling * high)
        picture[max(0, level), ::6] = picture[max(0, level), 1::6] = picture[max(0, level), 2::6] = look.quiet
    xs = np.array([camera_at(scene, int(tick))[0] for tick in ticks])
    if np.ptp(xs):
        ys = np.rint((high - 5) - (xs - xs.min()) / np.ptp(xs) * (high - 10)).astype(int)
        for column in range(1, wide):
            low, top = sorted((int(ys[column - 1]), int(ys[column])))
            picture[low : top + 2, column] = look.accent
    for event in scene.events:
        first = event.tick * wide // scene.ticks
        last = min(wide, (event.tick + event.steps * event.ticks_per_step) * wide // scene.ticks + 1)
        picture[:4, max(0, first) : last] = PURPLE
    return picture


def _marks(desk: Desk, track: Box, scene: Any, budget: Any) -> None:
    ui, session = desk.ui, desk.session
    x, y, w, h = track
    under = y + h + ui.px(9)
    if budget is not None and budget.worst_ms is not None:
        place = x + (budget.worst_tick + 0.5) * w / scene.ticks
        late = budget.worst_ms > budget.period_ms * scene.ticks_per_update
        words = f"worst: tick {budget.worst_tick}, {plain_ms(budget.worst_ms)}"
        colour = ui.look.alarm if late else ui.look.quiet
        wide = ui.width(words, "small")
        left = min(max(place - wide / 2, x + ui.px(130)), x + w - wide)
        if ui.press("tape:worst", (left, under - ui.px(9), wide, ui.px(18)), "Show the worst tick.").clicked:
            session.playing.go(budget.worst_tick, scene.ticks)
        ui.fill((round(place) - 1, y + h, 3, ui.px(4)), colour)
        ui.text(left, under, words, "small", colour)
    ui.fill((x, under - 1, ui.px(12), 2), ui.look.accent)
    ui.text(x + ui.px(17), under, "camera", "small", ui.look.quiet)
    if scene.events:
        ui.fill((x + ui.px(70), under - 2, ui.px(12), 4), PURPLE)
        ui.text(x + ui.px(87), under, "colours", "small", ui.look.quiet)
    at = x + (session.playing.tick + 0.5) * w / scene.ticks
    ui.fill((round(at) - 1, y - ui.px(4), 2, h + ui.px(8)), ui.look.ink)
    ui.fill((round(at) - 4, y - ui.px(4), 8, ui.px(4)), ui.look.ink)


PADDING = PAD
