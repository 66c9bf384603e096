"""Undo and redo as a list of whole documents, grouped by gesture."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from scenekit.model.project import Project

MOST_STEPS = 12_000
PAUSE_S = 0.8
"""A repeated key belongs to one step until it rests for so long."""

Clock = Callable[[], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """A change: the whole new document, what was done in words, and the gesture it is part of.

    gesture   edits of one name that follow each other are one step; "" is a step of its own
    held      the gesture lasts until another begins, however long it pauses
    """

    document: Project
    label: str
    gesture: str = ""
    held: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Step:
    document: Project
    label: str
    gesture: str
    held: bool
    time_s: float


class History:
    """The documents that were, the one that is, and those that can come back."""

    def __init__(self, document: Project, clock: Clock) -> None:
        self.clock = clock
        self.steps = [_Step(document=document, label="", gesture="", held=False, time_s=clock())]
        self.place = 0

    @property
    def document(self) -> Project:
        """Return the document as it is now."""
        return self.steps[self.place].document

    @property
    def undo_label(self) -> str:
        """Say what undo would take back; "" when nothing."""
        return self.steps[self.place].label if self.place else ""

    @property
    def redo_label(self) -> str:
        """Say what redo would do again; "" when nothing."""
        return self.steps[self.place + 1].label if self.place + 1 < len(self.steps) else ""

    def newest(self, sound: Callable[[Project], bool]) -> Project:
        """Return the newest document up to now that is sound; the present one when none is."""
        steps = reversed(self.steps[: self.place + 1])
        return next((step.document for step in steps if sound(step.document)), self.document)

    def put(self, edit: Edit) -> None:
        """Take an edit; what could be redone is forgotten."""
        if edit.document is self.document:
            return
        now, top = self.clock(), self.steps[self.place]
        joins = bool(edit.gesture) and edit.gesture == top.gesture and self.place > 0
        joins = joins and (top.held or now - top.time_s <= PAUSE_S)
        step = _Step(
            document=edit.document, label=edit.label, gesture=edit.gesture, held=edit.held, time_s=now
        )
        del self.steps[self.place + (0 if joins else 1) :]
        self.steps.append(step)
        if len(self.steps) > MOST_STEPS:
            del self.steps[1]
        self.place = len(self.steps) - 1

    def rewrite(self, change: Callable[[Project], Project]) -> None:
        """Change every document that was, is or can come back, the same one in the same way."""
        known: dict[int, Project] = {}
        for number, step in enumerate(self.steps):
            key = id(step.document)
            if key not in known:
                known[key] = change(step.document)
            if known[key] is not step.document:
                self.steps[number] = replace(step, document=known[key])

    def undo(self) -> bool:
        """Go one step back, if there is one."""
        if not self.place:
            return False
        self.place -= 1
        return True

    def redo(self) -> bool:
        """Go one step forward, if there is one."""
        if self.place + 1 >= len(self.steps):
            return False
        self.place += 1
        return True
