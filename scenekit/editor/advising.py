"""Advice beside the window: the cheapest changes that make a scene fit, done by one press."""

import threading
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from scenekit.editor.desk import Desk
from scenekit.editor.history import Edit
from scenekit.editor.ui import Column
from scenekit.errors import SceneKitError, StoppedError
from scenekit.model.edits import put_scene
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.report.paper import plain_bytes, plain_ms

if TYPE_CHECKING:
    from scenekit.advice.scene import Advice, Outcome

AIMS = ("least time", "least memory")


@dataclass(slots=True, eq=False)
class Asked:
    """A question for advice, and the answer once there is one."""

    document: Project
    target: str
    scene: str
    aim: str
    wake: Callable[[], None] = lambda: None
    stage: str = "reckoning it as it is"
    part: float = 0.0
    advice: "Advice | None" = None
    error: str = ""
    done: bool = False
    stop: threading.Event = field(default_factory=threading.Event)
    thread: threading.Thread | None = None

    def start(self) -> None:
        """Begin to think."""
        self.thread = threading.Thread(target=self._work, daemon=True)
        self.thread.start()

    def _work(self) -> None:
        from scenekit.advice.scene import advise

        memory = self.aim == AIMS[1]
        try:
            self.advice = advise(
                self.document, self.target, self.scene, memory_first=memory, progress=self._progress
            )
        except StoppedError:
            self.error = "stopped"
        except SceneKitError as error:
            self.error = str(error)
        except (ArithmeticError, LookupError, TypeError, ValueError, AttributeError, AssertionError) as error:
            self.error = f"this could not be reckoned: {type(error).__name__}: {error}"
        self.done = True
        self.wake()

    def _progress(self, stage: str, done: int, total: int) -> None:
        if self.stop.is_set():
            raise StoppedError(stage)
        self.stage, self.part = stage, done / max(1, total)
        self.wake()


def taken(document: Project, scene: Scene, advised: Project) -> Project:
    """Return a document with what advice changed, all else as it is.

    Of planes tiles and cadence, of the scene the ticks a picture has, of targets view, mode, flips, holes,
    redraw and encoding.
    """
    other = advised.scene(scene.name)
    known_planes = {plane.name: plane for plane in other.planes}
    planes = tuple(
        replace(plane, tile=new.tile, cadence=new.cadence)
        for plane in scene.planes
        for new in (known_planes.get(plane.name, plane),)
    )
    known = {target.name: target for target in advised.targets}
    targets = tuple(
        replace(
            old,
            view=new.view,
            mode=new.mode,
            flips=new.flips,
            encode=new.encode,
            holes=new.holes,
            redraw=new.redraw,
        )
        for old in document.targets
        for new in (known.get(old.name, old),)
    )
    changed = replace(scene, planes=planes, ticks_per_update=other.ticks_per_update)
    return put_scene(replace(document, targets=targets), changed)


def draw_advice(desk: Desk, column: Column, scene: Scene) -> Edit | None:
    """Ask for advice, say how far it is, and show it with one press to take it."""
    ui, session = desk.ui, desk.session
    ui.heading(column, "Advice")
    asked: Asked | None = desk.local.get("advice")
    if asked is not None and not asked.done:
        _thinking(desk, column, asked)
        return None
    x, y, w, h = column.take(ui.px(30), ui.px(8))
    aim = desk.local.get("advice-aim", AIMS[0])
    tip = "Tries other tiles for every plane, and fewer pictures a second where those do not suffice."
    if ui.button("advice:ask", (x, y, ui.px(150), h), "What would help", tip=tip):
        assert session.target is not None
        asked = Asked(
            document=session.document, target=session.target.name, scene=scene.name, aim=aim,
            wake=session.products.wake,
        )  # fmt: skip
        desk.local["advice"] = asked
        asked.start()
        return None
    place = (x + ui.px(160), y, min(ui.px(230), w - ui.px(160)), h)
    desk.local["advice-aim"] = (
        ui.segments("advice:aim", place, AIMS, aim, tip="What is kept smallest.") or aim
    )
    if asked is None:
        return None
    return _answer(desk, column, asked, scene)


def _thinking(desk: Desk, column: Column, asked: Asked) -> None:
    ui = desk.ui
    x, y, w, h = column.take(ui.px(30), ui.px(8))
    if ui.button("advice:stop", (x, y, ui.px(150), h), "Stop", on=not asked.stop.is_set()):
        asked.stop.set()
    left = x + ui.px(160)
    ui.text(left, y + ui.px(9), asked.stage, "small", ui.look.quiet, room=x + w - left)
    bar = (left, y + ui.px(20), x + w - left, ui.px(6))
    ui.fill(bar, ui.look.sheet)
    ui.fill((*bar[:2], max(2.0, bar[2] * asked.part), bar[3]), ui.look.accent)
    ui.frame(bar, ui.look.rule)
    desk.local["animating"] = True


def _answer(desk: Desk, column: Column, asked: Asked, scene: Scene) -> Edit | None:
    ui, document, advice = desk.ui, desk.session.document, asked.advice
    if asked.document is not document:
        ui.paragraph(column, "The project changed since; ask again.", "small", ui.look.quiet)
        return None
    if advice is None:
        ui.paragraph(column, asked.error, colour=ui.look.quiet if asked.error == "stopped" else ui.look.alarm)
        return None
    ui.paragraph(column, f"as it is: {outcome_words(advice.before)}", "small", ui.look.quiet, 17)
    if advice.after is None or advice.project is None:
        for words in advice.proof:
            ui.paragraph(column, words, line=19)
        return None
    if not advice.changes:
        ui.paragraph(column, "Nothing is better than what it has.")
        return None
    for words in advice.changes:
        ui.paragraph(column, words, line=19)
    ui.paragraph(column, f"then: {outcome_words(advice.after)}", "small", ui.look.quiet, 17)
    x, y, _w, h = column.take(ui.px(32), ui.px(8))
    tip = "All of it as one step, which can be taken back."
    if ui.button("advice:take", (x, y, ui.px(150), h), "Do all this", kind="main", tip=tip):
        return Edit(document=taken(document, scene, advice.project), label="taking advice")
    return None


def outcome_words(outcome: "Outcome") -> str:
    """Say what the worst picture and each memory take."""
    work = outcome.worst.work_ms
    time = "time not known" if work is None else f"{plain_ms(work)} of {plain_ms(outcome.allowed_ms)}"
    memory = ", ".join(f"{name} {plain_bytes(used)}" for name, used, _ in outcome.memory)
    return f"{'fits' if outcome.fits else 'does not fit'}; worst picture {time}; {memory}"
