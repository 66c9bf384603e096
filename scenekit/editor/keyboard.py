"""What the keys of a keyboard are called, in the binding and in the words of the window."""

from typing import Any

from scenekit.editor.binding import imgui, pygame

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

_GOING = frozenset({"left", "right", "up", "down", "page up", "page down", "home", "end"})

_MODIFIERS = ((pygame.KMOD_CTRL, "ctrl"), (pygame.KMOD_SHIFT, "shift"), (pygame.KMOD_ALT, "alt"))


class Keyboard:
    """Feeds keys to the binding, and says in words which were pressed."""

    io: Any
    pressed: set[str]
    _keys: dict[int, Any]

    def _key(self, event: pygame.event.Event) -> None:
        down = event.type == pygame.KEYDOWN
        for flag, word in _MODIFIERS:
            self.io.add_key_event(getattr(imgui.Key, f"MOD_{word.upper()}"), bool(event.mod & flag))
        if event.key in self._keys and not (down and event.mod & pygame.KMOD_CTRL and self._goes(event.key)):
            self.io.add_key_event(self._keys[event.key], down)
        if down and event.key == pygame.K_ESCAPE and not self.typing:
            imgui.set_nav_cursor_visible(False)
        if down:
            parts = [word for flag, word in _MODIFIERS if event.mod & flag]
            self.pressed.add("+".join([*parts, pygame.key.name(event.key)]))

    def _goes(self, key: int) -> bool:
        """Say whether a key would move the mark of the keys: with Ctrl it means something of the window."""
        return not self.typing and pygame.key.name(key) in _GOING

    def is_down(self, name: str) -> bool:
        """Say whether a key is held down just now."""
        return bool(imgui.is_key_down(self._keys[pygame.key.key_code(name)]))

    def walk_by_keys(self, on: bool) -> None:
        """Let arrow keys walk from thing to thing, or leave them to whoever steers by them."""
        flag = imgui.ConfigFlags.NAV_ENABLE_KEYBOARD
        self.io.config_flags = self.io.config_flags | flag if on else self.io.config_flags & ~flag

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


def key_map() -> dict[int, Any]:
    found = {pygame.key.key_code(name): getattr(imgui.Key, f"KEY_{key}") for key, name in _NAMED_KEYS.items()}
    for letter in "abcdefghijklmnopqrstuvwxyz0123456789":
        found[pygame.key.key_code(letter)] = getattr(imgui.Key, f"KEY_{letter.upper()}")
    for side, name in (("L", "LEFT"), ("R", "RIGHT")):
        for word, key in (("ctrl", "CTRL"), ("shift", "SHIFT"), ("alt", "ALT")):
            found[getattr(pygame, f"K_{side}{word.upper()}")] = getattr(imgui.Key, f"KEY_{name}_{key}")
    return found
