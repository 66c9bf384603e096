"""Our own widgets: words, lamps, fields and choices, each with a name that tests and keys can find."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from scenekit.editor.backend import Box, Press
from scenekit.editor.shapes import LAMPS
from scenekit.editor.words import Column, Words, mixed
from scenekit.errors import SceneKitError

__all__ = ["LAMPS", "Column", "Typed", "Ui"]

LEAST_TYPED = 40
"""A field leaves out the word for its unit where less than this would be left to type in, unscaled px."""


@dataclass(slots=True)
class Typed:
    """What stands in a text field while it is being typed."""

    text: str = ""
    active: bool = False
    error: str = ""
    shown_for: str = ""


@dataclass(slots=True, eq=False)
class Ui(Words):
    """Widgets of one window.

    marks   the box of everything that can be pressed or was marked, by name, as of the last frame
    """

    marks: dict[str, Box] = field(default_factory=dict)
    typed: dict[str, Typed] = field(default_factory=dict)
    focus_next: str = ""
    pointer: str = "arrow"

    def begin(self) -> None:
        """Begin a frame."""
        self.marks.clear()
        self.pointer = "arrow"

    def mark(self, name: str, box: Box) -> None:
        """Remember where something is."""
        self.marks[name] = box

    def press(self, name: str, box: Box, tip: str = "", **how: bool) -> Press:
        """Make a box that can be pressed, with words that explain it."""
        self.mark(name, box)
        made = self.backend.press(name, box, **how)
        if tip and (made.hovered or made.focused):
            self.backend.hint(tip, self.px(280))
        return made

    def button(
        self, name: str, box: Box, label: str, *, tip: str = "", kind: str = "plain", on: bool = True
    ) -> bool:
        """Make a word that can be pressed; kind is plain, main or quiet."""
        look = self.look
        x, y, w, h = box
        if not on:
            self.mark(name, box)
            if kind != "quiet":
                self.frame(box, look.rule)
            self.text(
                x + w / 2,
                y + h / 2,
                label,
                colour=mixed(look.quiet, look.ground, 0.45),
                anchor="middle",
                room=w,
            )
            return False
        felt = self.press(name, box, tip)
        if felt.hovered:
            self.pointer = "hand"
        if kind == "main":
            ground = mixed(look.accent, look.ink, 0.25) if felt.hovered or felt.held else look.accent
            self.fill(box, ground)
            self.text(
                x + w / 2, y + h / 2, label, colour=look.on_accent, weight="bold", anchor="middle", room=w - 8
            )
        elif kind == "quiet":
            if felt.hovered:
                self.fill(box, look.hover)
            self.text(x + w / 2, y + h / 2, label, anchor="middle", room=w)
            self.fill((x + 6, y + h - 5, w - 12, 1), look.rule if not felt.hovered else look.quiet)
        else:
            self.fill(box, look.hover if felt.hovered else look.sheet)
            self.frame(box, look.quiet if felt.hovered else look.rule)
            self.text(x + w / 2, y + h / 2, label, anchor="middle", room=w - 8)
        if felt.focused:
            self.frame((x - 2, y - 2, w + 4, h + 4), look.accent, 2)
        return felt.clicked

    def field(
        self, name: str, box: Box, value: str, read: Callable[[str], Any], *, tip: str = "", hint: str = "",
        unit: str = "",
    ) -> Any:  # fmt: skip
        """Make a text field; return what `read` makes of the text once it is confirmed or left, else None.

        What `read` refuses stays in the field with the reason under it.
        """
        state = self.typed.setdefault(name, Typed())
        if not state.active and not state.error:
            state.text = value
        elif state.error and state.shown_for != value:
            state.error, state.text = "", value
        x, y, w, h = box
        if unit and w < self.width(unit, "small") + self.px(LEAST_TYPED):
            unit = ""
        inner = w - (self.width(unit, "small") + 10 if unit else 0)
        self.fill(box, self.look.sheet)
        self.mark(name, box)
        text, done, active = self.backend.edit_text(
            name, (x, y, inner, h), state.text, hint, self.focus_next == name
        )
        if self.focus_next == name:
            self.focus_next = ""
        seen = self.backend.last_is_visible()
        if tip:
            self.backend.hint(tip, self.px(280))
        if unit:
            if self.backend.press(f"{name}:unit", (x + inner, y, w - inner, h), keyboard=False).clicked:
                self.focus_next = name
            self.text(x + w - 7, y + h / 2, unit, "small", self.look.quiet, anchor="right")
        state.text, state.active = text, active
        line = self.look.alarm if state.error else self.look.accent if active else self.look.quiet
        self.fill(
            (x, y + h - (2 if active or state.error else 1), w, 2 if active or state.error else 1), line
        )
        if state.error and seen:
            self._refusal(box, state.error)
        if not done or text == value:
            if done:
                state.error = ""
            return None
        try:
            made = read(text)
        except SceneKitError as error:
            state.error, state.shown_for = str(error), value
            return None
        state.error = ""
        return made

    def _refusal(self, box: Box, words: str) -> None:
        """Say under a field why its text was refused, in front of what stands there."""
        x, y, _, h = box
        wide = min(self.width(words, "small") + 12, self.px(420))
        left = max(0.0, min(x, self.backend.surface.get_width() - wide))
        with self.backend.in_front():
            self.fill((left, y + h, wide, self.px(18)), self.look.alarm)
            self.text(left + 6, y + h + self.px(9), words, "small", self.look.ground, room=wide - 12)

    def choice(
        self,
        name: str,
        box: Box,
        options: Sequence[str],
        current: str,
        *,
        tip: str = "",
        hint: str = "none yet",
    ) -> str | None:
        """Make a word that opens a list of others; return the chosen one."""
        look = self.look
        x, y, w, h = box
        felt = self.press(name, box, tip)
        self.fill(box, look.hover if felt.hovered else look.sheet)
        self.fill((x, y + h - 1, w, 1), look.quiet)
        colour = look.ink if current else look.quiet
        self.text(x + 8, y + h / 2, current or hint, colour=colour, room=w - 30)
        self.shape("down", x + w - 13, y + h / 2, self.px(9), look.quiet)
        if felt.focused:
            self.frame((x - 2, y - 2, w + 4, h + 4), look.accent, 2)
        row = self.px(26)
        high = min(row * max(1, len(options)) + 8, self.px(360))
        bottom = self.backend.surface.get_height()
        top = y + h if y + h + high < bottom else max(0, y - high)
        if not self.backend.begin_list(
            f"{name}-list", (x, top, max(w, self.px(120)), high), felt.clicked and bool(options)
        ):
            return None
        picked = None
        for number, option in enumerate(options):
            place = (x + 1, top + 4 + number * row - self.scrolled(), max(w, self.px(120)) - 2, row)
            item = self.press(f"{name}:{option}", place)
            if item.hovered or item.focused:
                self.fill(place, look.hover)
            if option == current:
                self.fill((place[0], place[1] + 5, 3, row - 10), look.accent)
            self.text(place[0] + 10, place[1] + row / 2, option, room=place[2] - 14)
            if item.clicked:
                picked = option
                self.backend.close_dialog()
        self.backend.end_list()
        return picked if picked != current else None

    def scrolled(self) -> float:
        """Return how far the part that is being drawn is scrolled."""
        return self.backend.scroll()

    def segments(
        self, name: str, box: Box, options: Sequence[str], current: str, *, tip: str = ""
    ) -> str | None:
        """Make a few words side by side of which one is chosen."""
        look = self.look
        x, y, w, h = box
        words = [self.width(option) + 12 for option in options]
        parts = [w / len(options)] * len(options)
        if max(words) > parts[0]:
            parts = [w * word / sum(words) for word in words]
        picked = None
        end = x
        for option, part in zip(options, parts, strict=True):
            left = round(end)
            end += part
            place = (left, y, round(end) - left, h)
            felt = self.press(f"{name}:{option}", place, tip)
            chosen = option == current
            self.fill(place, look.ink if chosen else look.hover if felt.hovered else look.sheet)
            self.text(
                place[0] + place[2] / 2, y + h / 2, option, colour=look.ground if chosen else look.ink,
                anchor="middle", room=place[2] - 6,
            )  # fmt: skip
            if felt.focused:
                self.frame(place, look.accent, 2)
            if felt.clicked and not chosen:
                picked = option
        self.frame(box, look.rule)
        return picked

    def row(self, name: str, box: Box, *, chosen: bool, tip: str = "") -> Press:
        """Make a row of a list; its words are drawn by the caller."""
        felt = self.press(name, box, tip)
        x, y, _, h = box
        if chosen:
            self.fill(box, self.look.hover)
            self.fill((x, y, 3, h), self.look.accent)
        elif felt.hovered:
            self.fill(box, self.look.shade)
        if felt.focused:
            self.frame(box, self.look.accent, 2)
        return felt
