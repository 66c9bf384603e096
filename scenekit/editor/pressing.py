"""Parts of the window, and the places in them that can be pressed, typed into and scrolled."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from scenekit.editor.binding import Box, Point, imgui
from scenekit.editor.theme import SIZES

_NAV, _LEFT_ONLY = imgui.ButtonFlags.ENABLE_NAV, imgui.ButtonFlags.MOUSE_BUTTON_LEFT
_LEFT = imgui.MouseButton.LEFT
_RESTING = imgui.HoveredFlags.STATIONARY | imgui.HoveredFlags.DELAY_SHORT
_PADDING = imgui.StyleVar.FRAME_PADDING
_WITHIN = imgui.HoveredFlags.CHILD_WINDOWS
_SELECTS = imgui.InputTextFlags.AUTO_SELECT_ALL
_FLAT = imgui.ChildFlags.NAV_FLATTENED
_SCROLLS = imgui.WindowFlags.NONE
_FIXED = imgui.WindowFlags.NO_SCROLLBAR | imgui.WindowFlags.NO_SCROLL_WITH_MOUSE


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """What a place that can be pressed felt in this frame.

    at       the pointer, from the place's top left, in px
    started  the button went down here; ended: it came up again; moved: from where it went down
    """

    hovered: bool
    held: bool
    clicked: bool
    focused: bool
    at: Point
    started: bool
    ended: bool
    moved: Point
    double: bool = False


class Pressing:
    """What can be pressed in a frame."""

    fonts: dict[str, Any]
    scale: float
    io: Any
    _list: Any

    @contextmanager
    def region(self, name: str, box: Box, *, scrolls: bool = False) -> Iterator[float]:
        """A part with its own drawing; gives how far it is scrolled; `extent` says how long it is."""
        x, y, w, h = box
        imgui.set_cursor_screen_pos((x, y))
        imgui.begin_child(name, (w, h), _FLAT, _SCROLLS if scrolls else _FIXED)
        self._list = None
        try:
            yield float(imgui.get_scroll_y())
        finally:
            imgui.end_child()
            self._list = None

    def extent(self, bottom: float) -> None:
        """Say down to which place on the window the content of a scrolling region reaches."""
        imgui.set_cursor_screen_pos((imgui.get_window_pos()[0], bottom - 1))
        imgui.dummy((1, 1))

    def press(self, name: str, box: Box, *, keyboard: bool = True, overlap: bool = False) -> Press:
        """Make a box that can be pressed."""
        x, y, w, h = box
        imgui.set_cursor_screen_pos((x, y))
        if overlap:
            imgui.set_next_item_allow_overlap()
        clicked = imgui.invisible_button(name, (max(1.0, w), max(1.0, h)), _NAV if keyboard else _LEFT_ONLY)
        mouse = imgui.get_mouse_pos()
        held = bool(imgui.is_item_active())
        moved = imgui.get_mouse_drag_delta(_LEFT, 0.0) if held else (0.0, 0.0)
        hovered = bool(imgui.is_item_hovered())
        return Press(
            hovered=hovered,
            held=held,
            clicked=bool(clicked),
            focused=bool(imgui.is_item_focused()) and bool(self.io.nav_visible),
            at=(mouse[0] - x, mouse[1] - y),
            started=bool(imgui.is_item_activated()),
            ended=bool(imgui.is_item_deactivated()),
            moved=(float(moved[0]), float(moved[1])),
            double=hovered and bool(imgui.is_mouse_double_clicked(_LEFT)),
        )

    def edit_text(
        self, name: str, box: Box, text: str, hint: str = "", focus: bool = False
    ) -> tuple[str, bool, bool]:
        """Make a text field; return its text, whether it is done, and whether it has the keys."""
        imgui.set_cursor_screen_pos(box[:2])
        imgui.push_font(self.fonts["regular"], SIZES["body"])
        padding = max(0.0, (box[3] - imgui.get_text_line_height()) / 2)
        imgui.push_style_var(_PADDING, (7 * self.scale, padding))
        imgui.set_next_item_width(box[2])
        if focus:
            imgui.set_keyboard_focus_here()
        _, new = imgui.input_text_with_hint(f"##{name}", hint, text, _SELECTS)
        done, active = bool(imgui.is_item_deactivated_after_edit()), bool(imgui.is_item_active())
        imgui.pop_style_var()
        imgui.pop_font()
        return str(new), done, active

    def wheel(self, box: Box) -> float:
        """Return how far the wheel turned while the pointer is over a box."""
        x, y, w, h = box
        over = bool(imgui.is_mouse_hovering_rect((x, y), (x + w, y + h))) and bool(
            imgui.is_window_hovered(_WITHIN)
        )
        return float(self.io.mouse_wheel) if over else 0.0

    def hint(self, text: str, width: float) -> None:
        """Explain the last thing that can be pressed while the pointer rests on it."""
        if imgui.is_item_hovered(_RESTING) or (
            self.io.nav_visible and imgui.is_item_focused() and imgui.is_key_down(imgui.Key.KEY_LEFT_ALT)
        ):
            imgui.push_style_var(imgui.StyleVar.WINDOW_PADDING, (10 * self.scale, 7 * self.scale))
            imgui.begin_tooltip()
            self._list = None
            imgui.push_text_wrap_pos(width)
            imgui.text(text)
            imgui.pop_text_wrap_pos()
            imgui.end_tooltip()
            self._list = None
            imgui.pop_style_var()

    @contextmanager
    def dialog(self, name: str, box: Box) -> Iterator[None]:
        """A part in front of everything; the rest cannot be pressed meanwhile."""
        x, y, w, h = box
        if not imgui.is_popup_open(name):
            imgui.open_popup(name)
        imgui.set_next_window_pos((x, y))
        imgui.set_next_window_size((w, h))
        flags = (
            imgui.WindowFlags.NO_DECORATION | imgui.WindowFlags.NO_MOVE | imgui.WindowFlags.NO_SAVED_SETTINGS
        )
        shown = imgui.begin_popup_modal(name, False, flags)[0]
        self._list = None
        try:
            yield
        finally:
            if shown:
                imgui.end_popup()
                self._list = None

    def close_dialog(self) -> None:
        """Close the dialog that is being drawn."""
        imgui.close_current_popup()

    def begin_list(self, name: str, box: Box, open_now: bool) -> bool:
        """A list in front of everything that closes by itself; call `end_list` when this says True."""
        if open_now:
            imgui.open_popup(name)
        imgui.set_next_window_pos(box[:2])
        imgui.set_next_window_size(box[2:])
        flags = imgui.WindowFlags.NO_DECORATION & ~imgui.WindowFlags.NO_SCROLLBAR | imgui.WindowFlags.NO_MOVE
        self._list = None
        return bool(imgui.begin_popup(name, flags))

    def end_list(self) -> None:
        """End a list."""
        imgui.end_popup()
        self._list = None

    def scroll(self) -> float:
        """Return how far the part that is being drawn is scrolled."""
        return float(imgui.get_scroll_y())

    def give_up_focus(self) -> None:
        """Take the keys away from whatever has them."""
        imgui.set_window_focus()
