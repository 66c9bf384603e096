"""The one module that speaks to the widget binding: window, input, primitives to draw and to press with."""

import ctypes
import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
os.environ.setdefault("SDL_WINDOWS_DPI_AWARENESS", "permonitorv2")
os.environ.setdefault("SDL_FRAMEBUFFER_ACCELERATION", "0")

# pygame asks for an old part of setuptools that takes longer to load than pygame itself, and does without it.
_absent = sys.modules.setdefault("pkg_resources", None)  # type: ignore[arg-type]
import pygame  # noqa: E402

if _absent is None:
    del sys.modules["pkg_resources"]

from slimgui import imgui as _imgui  # noqa: E402

from scenekit.editor.painter import DrawList, Painter, Texture  # noqa: E402
from scenekit.editor.theme import SIZES, Colour, Theme  # noqa: E402

imgui: Any = _imgui
Box = tuple[float, float, float, float]
Point = tuple[float, float]
FIRST_OWN_TEXTURE = 1000
_NAV, _LEFT_ONLY = imgui.ButtonFlags.ENABLE_NAV, imgui.ButtonFlags.MOUSE_BUTTON_LEFT
_LEFT = imgui.MouseButton.LEFT
_RESTING = imgui.HoveredFlags.STATIONARY | imgui.HoveredFlags.DELAY_SHORT
_PADDING = imgui.StyleVar.FRAME_PADDING
_WITHIN = imgui.HoveredFlags.CHILD_WINDOWS
_SELECTS = imgui.InputTextFlags.AUTO_SELECT_ALL
_FLAT = imgui.ChildFlags.NAV_FLATTENED
_SCROLLS = imgui.WindowFlags.NONE
_FIXED = imgui.WindowFlags.NO_SCROLLBAR | imgui.WindowFlags.NO_SCROLL_WITH_MOUSE

_NAMED_KEYS = {
    "TAB": "tab",
    "LEFT_ARROW": "left",
    "RIGHT_ARROW": "right",
    "UP_ARROW": "up",
    "DOWN_ARROW": "down",
    "PAGE_UP": "page up",
    "PAGE_DOWN": "page down",
    "HOME": "home",
    "END": "end",
    "INSERT": "insert",
    "DELETE": "delete",
    "BACKSPACE": "backspace",
    "SPACE": "space",
    "ENTER": "return",
    "ESCAPE": "escape",
    "COMMA": ",",
    "MINUS": "-",
    "PERIOD": ".",
    "SLASH": "/",
    "EQUAL": "=",
    "LEFT_BRACKET": "[",
    "RIGHT_BRACKET": "]",
    "KEYPAD_ENTER": "enter",
}


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


class Backend:
    """A window whose parts are drawn anew in every frame, and painted only where they changed."""

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
        self.io.config_input_text_cursor_blink = False
        self.painter = Painter(self.surface)
        self._next_texture = FIRST_OWN_TEXTURE
        self._fonts()
        self._keys = _key_map()
        self.pressed: set[str] = set()
        self.dropped: list[str] = []
        self.wants_to_close = False
        self.painted: list[pygame.Rect] = []
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

    # textures

    def add_picture(self, pixels: NDArray[np.uint8]) -> int:
        """Keep a picture, (H, W, 3 or 4) uint8, to draw with; return its number."""
        self._next_texture += 1
        self.painter.textures[self._next_texture] = Texture(picture=_surface(pixels))
        return self._next_texture

    def add_mask(self, mask: NDArray[np.uint8]) -> int:
        """Keep a mask, (H, W) uint8, that is drawn in any colour."""
        self._next_texture += 1
        self.painter.textures[self._next_texture] = Texture(mask=mask)
        return self._next_texture

    def set_picture(self, number: int, pixels: NDArray[np.uint8]) -> None:
        """Give a kept picture new content."""
        texture = self.painter.textures[number]
        texture.picture = _surface(pixels)
        texture.version += 1

    def set_indexed(self, number: int, indices: NDArray[np.uint8], palette: NDArray[np.uint8]) -> None:
        """Give a kept picture the content of palette entries."""
        high, wide = indices.shape
        view = pygame.image.frombuffer(np.ascontiguousarray(indices).tobytes(), (wide, high), "P")
        view.set_palette([tuple(row) for row in palette.tolist()])
        texture = self.painter.textures[number]
        texture.picture = view.convert(self.surface)
        texture.version += 1

    def drop_picture(self, number: int) -> None:
        """Forget a kept picture."""
        self.painter.textures.pop(number, None)

    def picture_size(self, number: int) -> tuple[int, int]:
        """Return (width, height) of a kept picture."""
        return self.painter.textures[number].size

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

    def _key(self, event: pygame.event.Event) -> None:
        down = event.type == pygame.KEYDOWN
        for flag, name in (
            (pygame.KMOD_CTRL, "CTRL"),
            (pygame.KMOD_SHIFT, "SHIFT"),
            (pygame.KMOD_ALT, "ALT"),
        ):
            self.io.add_key_event(getattr(imgui.Key, f"MOD_{name}"), bool(event.mod & flag))
        if event.key in self._keys:
            self.io.add_key_event(self._keys[event.key], down)
        if down:
            parts = [
                w
                for f, w in (
                    (pygame.KMOD_CTRL, "ctrl"),
                    (pygame.KMOD_SHIFT, "shift"),
                    (pygame.KMOD_ALT, "alt"),
                )
                if event.mod & f
            ]
            self.pressed.add("+".join([*parts, pygame.key.name(event.key)]))

    @property
    def typing(self) -> bool:
        """Whether keys go into a text field."""
        return bool(self.io.want_text_input)

    @property
    def held(self) -> set[str]:
        """Return which of ctrl, shift and alt are held down."""
        words = (("ctrl", self.io.key_ctrl), ("shift", self.io.key_shift), ("alt", self.io.key_alt))
        return {word for word, down in words if down}

    @property
    def walking(self) -> bool:
        """Whether something is marked by the keys, so that Space presses it."""
        return bool(self.io.nav_visible)

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
        lists = [_copied(drawn) for drawn in data.commands_lists]
        changed = self.painter.paint([drawn for drawn in lists if drawn is not None])
        if changed:
            pygame.display.update(changed)
        self.painted = changed

    def refresh(self) -> None:
        """Paint pictures that have new content, and nothing else."""
        self.painted = self.painter.refresh()
        if self.painted:
            pygame.display.update(self.painted)

    def _font_texture(self, texture: Any) -> None:
        status = imgui.TextureStatus
        if texture.status == status.OK:
            return
        if texture.status == status.WANT_DESTROY:
            self.painter.textures.pop(texture.get_tex_id(), None)
            texture.set_tex_id(0)
            texture.set_status(status.DESTROYED)
            return
        pixels = np.array(texture.get_pixels()).reshape(texture.height, texture.width, -1)[..., -1]
        if texture.status == status.WANT_CREATE:
            number = 1 + max((n for n in self.painter.textures if n < FIRST_OWN_TEXTURE), default=0)
            self.painter.textures[number] = Texture(mask=pixels.copy())
            texture.set_tex_id(number)
        else:
            self.painter.textures[texture.get_tex_id()].mask = pixels.copy()
        texture.set_status(status.OK)

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

    # primitives

    def _drawn(self) -> Any:
        """Return where the part that is open now draws."""
        if self._list is None:
            self._list = imgui.get_window_draw_list()
        return self._list

    def fill(self, box: Box, colour: Colour, alpha: int = 255) -> None:
        """Fill a box."""
        x, y, w, h = box
        if w > 0 and h > 0:
            self._drawn().add_rect_filled((x, y), (x + w, y + h), _packed(colour, alpha))

    def draw_text(self, place: Point, text: str, size: str, colour: Colour, weight: str = "regular") -> None:
        """Write one line."""
        imgui.push_font(self.fonts[weight], SIZES[size])
        self._drawn().add_text((round(place[0]), round(place[1])), _packed(colour), text)
        imgui.pop_font()

    def text_size(self, text: str, size: str, weight: str = "regular") -> tuple[float, float]:
        """Return the width and height that a line takes."""
        imgui.push_font(self.fonts[weight], SIZES[size])
        measured = imgui.calc_text_size(text)
        imgui.pop_font()
        return float(measured[0]), float(measured[1])

    def polygon(self, points: Sequence[Point], colour: Colour) -> None:
        """Fill a convex polygon."""
        self._drawn().add_convex_poly_filled(list(points), _packed(colour))

    def line(self, one: Point, two: Point, colour: Colour, width: float = 1.0) -> None:
        """Draw a line."""
        self._drawn().add_line(one, two, _packed(colour), width)

    def image(self, number: int, box: Box, uv: Box = (0, 0, 1, 1), tint: Colour = (255, 255, 255)) -> None:
        """Draw a kept picture, or the part (left, top, right, bottom, each 0 to 1) of it, into a box."""
        x, y, w, h = box
        drawn = self._drawn()
        drawn.add_image(number, (x, y), (x + w, y + h), uv[:2], uv[2:], _packed(tint))

    @contextmanager
    def clipped(self, box: Box) -> Iterator[None]:
        """Draw inside a box only."""
        x, y, w, h = box
        imgui.push_clip_rect((x, y), (x + w, y + h), True)
        try:
            yield
        finally:
            imgui.pop_clip_rect()

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

    def scroll(self) -> float:
        """Return how far the part that is being drawn is scrolled."""
        return float(imgui.get_scroll_y())

    def give_up_focus(self) -> None:
        """Take the keys away from whatever has them."""
        imgui.set_window_focus()


def _packed(colour: Colour, alpha: int = 255) -> int:
    return colour[0] | colour[1] << 8 | colour[2] << 16 | alpha << 24


def _surface(pixels: NDArray[np.uint8]) -> pygame.Surface:
    high, wide, depth = pixels.shape
    data = np.ascontiguousarray(pixels).tobytes()
    made = pygame.image.frombuffer(data, (wide, high), "RGBA" if depth == 4 else "RGB")
    return made.convert_alpha() if depth == 4 else made.convert()


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


def _key_map() -> dict[int, Any]:
    found = {pygame.key.key_code(name): getattr(imgui.Key, f"KEY_{key}") for key, name in _NAMED_KEYS.items()}
    for letter in "abcdefghijklmnopqrstuvwxyz0123456789":
        found[pygame.key.key_code(letter)] = getattr(imgui.Key, f"KEY_{letter.upper()}")
    for side, name in (("L", "LEFT"), ("R", "RIGHT")):
        for word, key in (("ctrl", "CTRL"), ("shift", "SHIFT"), ("alt", "ALT")):
            found[getattr(pygame, f"K_{side}{word.upper()}")] = getattr(imgui.Key, f"KEY_{name}_{key}")
    return found
