"""The window that everything is drawn in: opening, style, events, and frames."""

import ctypes
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from typing import Any

from scenekit.editor.binding import Box, Point, imgui, pygame
from scenekit.editor.drawing import Drawing
from scenekit.editor.keyboard import Keyboard, key_map
from scenekit.editor.painter import Painter
from scenekit.editor.pictures import FIRST_OWN_TEXTURE, Pictures
from scenekit.editor.pressing import Press, Pressing
from scenekit.editor.theme import SIZES, Theme
from scenekit.editor.triangles import DrawList

__all__ = ["Backend", "Box", "Point", "Press"]


class Backend(Drawing, Pressing, Pictures, Keyboard):
    """A window whose parts are drawn anew in every frame, and painted only where they changed.

    later   whether a frame leaves all but pictures of new content to be painted by the next `refresh`
    """

    def __init__(self, size: tuple[int, int], title: str, theme: Theme, scale: float = 1.0) -> None:
        pygame.display.init()
        pygame.display.set_caption(title)
        self.surface = pygame.display.set_mode(size, pygame.RESIZABLE)
        pygame.key.set_repeat(300, 40)
        pygame.key.start_text_input()
        self.theme, self.scale = theme, scale
        self.context = imgui.create_context()
        self.io = imgui.get_io()
        self.io.ini_filename = None
        self.io.log_filename = None
        self.io.backend_flags |= imgui.BackendFlags.RENDERER_HAS_TEXTURES
        self.io.config_flags |= imgui.ConfigFlags.NAV_ENABLE_KEYBOARD
        self.io.config_nav_escape_clear_focus_item = False  # else Tab finds nothing after Escape
        self.io.config_input_text_cursor_blink = False
        self.painter = Painter(self.surface)
        self._next_texture = FIRST_OWN_TEXTURE
        self._fonts()
        self._keys = key_map()
        self.pressed: set[str] = set()
        self.dropped: list[str] = []
        self.wants_to_close = False
        self.painted: list[pygame.Rect] = []
        self.later = False
        self._waiting: list[DrawList] | None = None
        self._list: Any = None
        self._pointer = "arrow"
        self.style()

    def _fonts(self) -> None:
        """Load the typeface that reports use, with pygame's own for bold words and for rarer signs."""
        from PIL import ImageFont

        plain: Any = ImageFont.load_default(16)
        with open(os.path.join(os.path.dirname(pygame.__file__), "freesansbold.ttf"), "rb") as file:
            bold = file.read()

        def config(merge: bool) -> Any:
            made = imgui.FontConfig()
            made.pixel_snap_h, made.oversample_h, made.merge_mode = True, 1, merge
            return made

        add = self.io.fonts.add_font_from_memory_ttf
        regular = add(plain.font_bytes, SIZES["body"], config(False))
        add(bold, SIZES["body"], config(True))
        self.fonts = {"regular": regular, "bold": add(bold, SIZES["body"], config(False))}

    def style(self, theme: Theme | None = None, scale: float | None = None) -> None:
        """Take a theme and a scale; everything is flat, square and without borders of the toolkit's own."""
        self.theme, self.scale = theme or self.theme, scale or self.scale
        style, look = imgui.get_style(), self.theme
        for name in ("window", "child", "popup", "frame", "scrollbar", "grab", "tab"):
            setattr(style, f"{name}_rounding", 0.0)
        for name in ("window", "child", "popup", "frame"):
            setattr(style, f"{name}_border_size", 0.0)
        style.popup_border_size = 1.0
        style.anti_aliased_lines = style.anti_aliased_fill = style.anti_aliased_lines_use_tex = False
        style.font_scale_main = self.scale
        style.window_padding = style.item_spacing = style.item_inner_spacing = (0.0, 0.0)
        style.frame_padding = (7 * self.scale, 5 * self.scale)
        style.scrollbar_size, style.grab_min_size = 10 * self.scale, 24 * self.scale
        style.hover_stationary_delay, style.hover_delay_short = 0.12, 0.35
        colours = {
            "TEXT": look.ink,
            "TEXT_DISABLED": look.quiet,
            "WINDOW_BG": look.ground,
            "POPUP_BG": look.sheet,
            "BORDER": look.quiet,
            "FRAME_BG": look.sheet,
            "FRAME_BG_HOVERED": look.sheet,
            "FRAME_BG_ACTIVE": look.sheet,
            "SCROLLBAR_BG": look.shade,
            "SCROLLBAR_GRAB": look.rule,
            "SCROLLBAR_GRAB_HOVERED": look.quiet,
            "SCROLLBAR_GRAB_ACTIVE": look.accent,
            "NAV_CURSOR": look.accent,
            "INPUT_TEXT_CURSOR": look.accent,
        }
        for name, colour in colours.items():
            style.colors[getattr(imgui.Col, name)] = (*(part / 255 for part in colour), 1.0)
        style.colors[imgui.Col.CHILD_BG] = (0.0, 0.0, 0.0, 0.0)
        style.colors[imgui.Col.TEXT_SELECTED_BG] = (*(part / 255 for part in look.accent), 0.35)
        style.colors[imgui.Col.MODAL_WINDOW_DIM_BG] = (*(part / 255 for part in look.well), 0.62)
        style.colors[imgui.Col.NAV_WINDOWING_DIM_BG] = (0.0, 0.0, 0.0, 0.0)
        self.painter.forget()

    # frames

    def feed(self, events: Sequence[pygame.event.Event]) -> None:
        """Take what happened since the last frame."""
        self.pressed, self.dropped = set(), []
        for event in events:
            if event.type == pygame.QUIT:
                self.wants_to_close = True
            elif event.type == pygame.VIDEORESIZE or event.type in (
                pygame.WINDOWEXPOSED,
                pygame.WINDOWSIZECHANGED,
            ):
                self.surface = pygame.display.get_surface() or self.surface
                self.painter.surface = self.surface
                self.painter.forget()
            elif event.type == pygame.MOUSEMOTION:
                self.io.add_mouse_pos_event(*(float(part) for part in event.pos))
            elif event.type in (pygame.MOUSEBUTTONDOWN, pygame.MOUSEBUTTONUP) and event.button <= 3:
                self.io.add_mouse_pos_event(*(float(part) for part in event.pos))
                down = event.type == pygame.MOUSEBUTTONDOWN
                self.io.add_mouse_button_event({1: 0, 2: 2, 3: 1}[event.button], down)
            elif event.type == pygame.MOUSEWHEEL:
                self.io.add_mouse_wheel_event(float(event.x), float(event.y))
            elif event.type in (pygame.KEYDOWN, pygame.KEYUP):
                self._key(event)
            elif event.type == pygame.TEXTINPUT:
                self.io.add_input_characters_utf8(event.text)
            elif event.type == pygame.DROPFILE:
                self.dropped.append(event.file)
            elif event.type == pygame.WINDOWFOCUSLOST:
                self.io.add_focus_event(False)
            elif event.type == pygame.WINDOWFOCUSGAINED:
                self.io.add_focus_event(True)

    @contextmanager
    def frame(self, delta_s: float) -> Iterator[None]:
        """Draw one frame inside this; it is painted at the end."""
        width, height = self.surface.get_size()
        self.io.display_size = (float(width), float(height))
        self.io.delta_time = max(delta_s, 1e-4)
        imgui.new_frame()
        self._list = None
        imgui.set_next_window_pos((0, 0))
        imgui.set_next_window_size((float(width), float(height)))
        flags = imgui.WindowFlags
        imgui.begin(
            "all",
            False,
            flags.NO_DECORATION
            | flags.NO_MOVE
            | flags.NO_SAVED_SETTINGS
            | flags.NO_BRING_TO_FRONT_ON_FOCUS
            | flags.NO_SCROLL_WITH_MOUSE,
        )
        self._list = None
        try:
            yield
        finally:
            imgui.end()
            imgui.render()
        self._present()

    def _present(self) -> None:
        data = imgui.get_draw_data()
        for texture in data.textures:
            self._font_texture(texture)
        copied = (_copied(drawn) for drawn in data.commands_lists)
        self._waiting = [drawn for drawn in copied if drawn is not None]
        if self.later:
            self._show(self.painter.refresh())
        else:
            self.refresh()

    def refresh(self) -> None:
        """Paint what the last frame left to be painted, else pictures that have new content."""
        waiting, self._waiting = self._waiting, None
        self._show(self.painter.refresh() if waiting is None else self.painter.paint(waiting))

    def _show(self, painted: list[pygame.Rect]) -> None:
        self.painted = painted
        if self.painted:
            pygame.display.update(self.painted)

    def events(self, wait_ms: int = 0) -> list[pygame.event.Event]:
        """Return what happened; with a time, wait so long for something to happen."""
        found = [pygame.event.wait(wait_ms)] if wait_ms else []
        return [event for event in [*found, *pygame.event.get()] if event.type != pygame.NOEVENT]

    @staticmethod
    def touched(events: Sequence[pygame.event.Event]) -> bool:
        """Say whether somebody did something."""
        return any(event.type != pygame.USEREVENT for event in events)

    @staticmethod
    def wake() -> None:
        """End the wait for something to happen; from any thread."""
        if pygame.display.get_init():
            pygame.event.post(pygame.event.Event(pygame.USEREVENT))

    def close(self) -> None:
        """Take the window away."""
        imgui.destroy_context(self.context)
        pygame.display.quit()

    def set_pointer(self, shape: str) -> None:
        """Choose the pointer's shape: arrow, hand, move, across, updown."""
        shapes = {
            "arrow": pygame.SYSTEM_CURSOR_ARROW,
            "hand": pygame.SYSTEM_CURSOR_HAND,
            "move": pygame.SYSTEM_CURSOR_SIZEALL,
            "across": pygame.SYSTEM_CURSOR_SIZEWE,
            "updown": pygame.SYSTEM_CURSOR_SIZENS,
        }
        if shape != self._pointer:
            self._pointer = shape
            with suppress(pygame.error):
                pygame.mouse.set_cursor(shapes[shape])


def _copied(drawn: Any) -> DrawList | None:
    if not drawn.idx_buffer_size:
        return None
    vertices = ctypes.string_at(drawn.vtx_buffer_data, drawn.vtx_buffer_size * imgui.VERTEX_SIZE)
    indices = ctypes.string_at(drawn.idx_buffer_data, drawn.idx_buffer_size * imgui.INDEX_SIZE)
    runs = tuple(
        (tuple(run.clip_rect), run.tex_ref.get_tex_id(), run.idx_offset, run.elem_count, run.vtx_offset)
        for run in drawn.commands
    )
    return DrawList(vertices=vertices, indices=indices, runs=runs)
