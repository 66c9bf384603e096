"""The window: one loop that listens, draws and waits."""

import gc
import signal
import sys
import time
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from scenekit.editor import care, dialogs, drafts, exporting, frameparts, lock, recovery, stage
from scenekit.editor.backend import Backend, Box
from scenekit.editor.desk import Desk
from scenekit.editor.head import draw_head
from scenekit.editor.history import Edit
from scenekit.editor.keys import global_keys
from scenekit.editor.panels import panels
from scenekit.editor.parts.camera import leave_steering
from scenekit.editor.preview import update_preview
from scenekit.editor.products import Product
from scenekit.editor.session import Session, open_session
from scenekit.editor.settings import Settings, read_settings, settings_file, write_settings
from scenekit.editor.theme import EDGE, HEAD_HEIGHT, RAIL_WIDTH, TAPE_HEIGHT, THEMES
from scenekit.editor.ui import Ui
from scenekit.errors import SceneKitError

if TYPE_CHECKING:
    import pygame

LEAST = (900, 560)
REST_S = 0.2
QUICK_FRAMES = 3
"""So many ticks of a playing scene are drawn alone before the rest of the window follows."""

AFTERGLOW_S = 0.7
"""For so long frames go on after the last event, so that hints can appear."""


class Window:
    """One window on one project."""

    def __init__(
        self,
        session: Session,
        size: tuple[int, int] = (1280, 800),
        settings: Settings | None = None,
        settings_path: Path | None = None,
    ) -> None:
        self.settings_path = settings_path or settings_file()
        settings = settings or read_settings(self.settings_path)
        title = f"{session.document.name}: scenekit"
        self.backend = Backend(size, title, THEMES[settings.theme], settings.scale)
        self.desk = Desk(ui=Ui(self.backend), session=session, settings=settings)
        self.panels = panels()
        self.woken = False
        session.products.wake = self._wake
        self.last_event_s = 0.0
        self.seen: Product | None = None
        self.kept: Product | None = None
        self.quick = 0
        if session.document.scenes and not settings.toured:
            self.desk.ask = ("tour", {})
        care.meet_others(self.desk)

    def _wake(self) -> None:
        """Let the loop notice that something was made in the background."""
        self.woken = True
        self.backend.wake()

    def frame(self, events: "Sequence[pygame.event.Event]", passed_s: float) -> None:
        """Take events and draw one frame."""
        desk, session = self.desk, self.desk.session
        if self._only_the_scene(events, passed_s):
            return
        desk.delta_s = passed_s
        desk.now_s = session.clock()
        self.backend.feed(events)
        self._settings()
        global_keys(desk, self.backend.pressed, self.backend.typing)
        self._play(passed_s)
        session.wish()
        desk.ahead.clear()
        desk.ui.begin()
        edit: Edit | None = None
        with self.backend.frame(passed_s):
            edit = self._draw()
        self.backend.set_pointer(desk.ui.pointer)
        session.apply(edit)
        self._close_when_wished()
        care.look_after(desk)
        self._spare_the_collector()

    def _spare_the_collector(self) -> None:
        """Keep what was just made out of later searches for garbage, which would hold up a frame."""
        if self.desk.product is not self.kept:
            self.kept = self.desk.product
            gc.freeze()

    def _only_the_scene(self, events: "Sequence[pygame.event.Event]", passed_s: float) -> bool:
        """While a scene plays and nobody does anything, draw every tick of it, and the rest every few.

        Return whether that was done, and no whole frame is needed.
        """
        desk, session = self.desk, self.desk.session
        product = desk.product
        quiet = not events and session.playing.plays and desk.ask is None and session.notice is None
        self.backend.later = quiet and product is self.seen
        if not quiet or product is not self.seen or self.quick >= QUICK_FRAMES or not desk.preview_key:
            self.seen, self.quick = product, 0
            return False
        if session.document is not desk.preview_key[0] or desk.local.get("wants-play"):
            return False
        self.quick += 1
        self._play(passed_s)
        shown = update_preview(desk)
        if QUICK_FRAMES - self.quick < len(desk.ahead):
            desk.ahead[QUICK_FRAMES - self.quick]()
        if shown:
            self.backend.refresh()
        return True

    def _draw(self) -> Edit | None:
        desk, ui = self.desk, self.desk.ui
        width, height = (float(side) for side in self.backend.surface.get_size())
        rail, head, tape = ui.px(RAIL_WIDTH), ui.px(HEAD_HEIGHT), ui.px(TAPE_HEIGHT)
        ui.fill((0, 0, width, height), ui.look.ground)
        frameparts.draw_rail(desk, (0, 0, rail, height), self.panels)
        draw_head(desk, (rail, 0, width - rail, head))
        ui.mark("tape", (rail, head, width - rail, tape))
        frameparts.draw_tape(desk, (rail, head, width - rail, tape))
        top = head + tape + ui.px(10)
        ui.fill((rail, top - ui.px(6), width - rail, 1), ui.look.rule)
        panel = next((p for p in self.panels if p.name == desk.session.station), self.panels[0])
        if panel.name != "planes":
            leave_steering(desk)
        edge = ui.px(EDGE)
        area: Box = (rail + edge, top, width - rail - 2 * edge, height - top - ui.px(6))
        wide = min(stage.width_wanted(desk, self._half(area, panel.wide), large=True), area[2] * 0.78)
        right = (area[0] + area[2] - wide, top, wide, area[3])
        left = (area[0], top, area[2] - wide - edge, area[3])
        ui.mark("ruler", (right[0] + right[2] - ui.px(160), top, ui.px(160), right[3] * 0.7))
        edits: list[Edit | None] = []
        for part in ("panel", "stage"):
            try:
                drawn = panel.draw(desk, left) if part == "panel" else stage.draw_stage(desk, right, panel)
                edits.append(drawn)
            except SceneKitError as error:
                desk.session.say(str(error), "alarm")
        self._notice((right[0], height - ui.px(10), right[2], 0))
        desk.local["tour-spots"] = dict(ui.marks)
        dialogs.draw_dialog(desk)
        return next((edit for edit in edits if edit is not None), None)

    def _half(self, area: Box, wide: bool) -> Box:
        """Return the room that the scene may take: what a station needs at least is kept free."""
        kept = self.desk.ui.px(580 if wide else 272)
        return area[0], area[1], area[2] - kept, area[3]

    def _notice(self, box: Box) -> None:
        ui, session = self.desk.ui, self.desk.session
        if session.notice is None:
            return
        if session.clock() > session.notice.until_s:
            session.notice = None
            return
        lines = ui.lines(session.notice.text, box[2] - ui.px(24))
        high = ui.px(14) + len(lines) * ui.px(18)
        box = (box[0], box[1] - high, box[2], high)
        with self.backend.region("notice", box):
            alarm = session.notice.level == "alarm"
            ui.fill(box, ui.look.alarm if alarm else ui.look.ink)
            for number, words in enumerate(lines):
                middle = box[1] + ui.px(16) + number * ui.px(18)
                ui.text(box[0] + ui.px(12), middle, words, colour=ui.look.ground, room=box[2] - ui.px(24))
            if ui.press("notice", box, "Press to put it away.").clicked:
                session.notice = None

    def _settings(self) -> None:
        settings = self.desk.settings
        if settings.theme != self.backend.theme.name or settings.scale != self.backend.scale:
            self.backend.style(THEMES[settings.theme], settings.scale)
        if self.desk.local.pop("settings-changed", False):
            write_settings(self.settings_path, settings)

    def _play(self, passed_s: float) -> None:
        desk, session = self.desk, self.desk.session
        product, scene = desk.product, session.scene
        if desk.local.pop("wants-play", False) and scene is not None:
            session.playing.toggle()
        if session.playing.plays and scene is not None and scene.name not in session.flash_seen:
            doubt = partial(care.flash_doubt, session)
            why = desk.remember("flash-doubt", doubt, session.document, scene.name)
            if why:
                session.playing.toggle()
                desk.ask = ("flash", {"why": why})
        if product is not None and product.mode is not None and scene is not None and desk.ask is None:
            session.playing.advance(passed_s, float(product.mode.timing.refresh_hz), scene.ticks)
            session.playing.tick = min(session.playing.tick, scene.ticks - 1)

    def _close_when_wished(self) -> None:
        """Take what was dropped, and close when that is wished and nothing is lost by it."""
        desk, session = self.desk, self.desk.session
        for path in self.backend.dropped:
            desk.local["dropped"] = path
            session.station = "sheets" if session.station not in ("sheets", "planes") else session.station
        if self.backend.wants_to_close or desk.closing:
            self.backend.wants_to_close = False
            desk.closing = True
            if not session.dirty:
                desk.closed = True
            elif desk.ask is None or desk.ask[0] != "close":
                desk.ask = ("close", {})

    def run(self) -> None:
        """Work until the window is closed."""
        old = sys.getswitchinterval()
        sys.setswitchinterval(0.0005)
        gc.collect()
        gc.freeze()
        last = time.perf_counter()
        session = self.desk.session
        kept_before = care.end_by_exception()
        try:
            while not self.desk.closed:
                events = self._wait(last)
                now = time.perf_counter()
                self.frame(events, now - last)
                last = now
            if self.desk.local.get("discard"):
                recovery.drop(session.document.folder, session.recovery_own)
            drafts.forget(session.document.folder)
        except BaseException as error:
            care.keep_work(session, error)
            raise
        finally:
            sys.setswitchinterval(old)
            if kept_before is not None:
                signal.signal(signal.SIGTERM, kept_before)
            lock.release(session.document.folder)
            exporting.end_runs(self.desk.local)
            self.backend.close()

    def _wait(self, last: float) -> "list[pygame.event.Event]":
        """Wait for the next refresh while something moves, else for an event."""
        desk, session = self.desk, self.desk.session
        product = desk.product
        if session.playing.plays or desk.local.pop("animating", False):
            hz = (
                float(product.mode.timing.refresh_hz)
                if product is not None and product.mode is not None
                else 60.0
            )
            time.sleep(max(0.0, last + 1 / hz - time.perf_counter()))
            events = self.backend.events()
        else:
            glowing = time.perf_counter() - self.last_event_s < AFTERGLOW_S
            events = self.backend.events(16 if glowing else int(REST_S * 1000))
        if self.backend.touched(events):
            self.last_event_s = time.perf_counter()
        return events


def open_window(folder: Path, size: tuple[int, int] = (1280, 800)) -> None:
    """Open a project in a window and work until it is closed.

    raises   ProjectError, UnknownNameError: it cannot be read
    """
    session = open_session(folder)
    Window(session, size).run()
