"""The keys of the window: what each does, and the page that lists them."""

from collections.abc import Callable

from scenekit.editor.desk import Desk

KEYS: tuple[tuple[str, str, str], ...] = (
    ("Ctrl+Page Down, Ctrl+Page Up", "next station, the one before", "everywhere"),
    ("Tab, arrows, Space or Enter", "walk through what can be pressed, and press it", "everywhere"),
    ("Space", "play or stop the scene", "unless the keys mark something"),
    ("Ctrl+Right, Ctrl+Left", "one tick on, one back", "everywhere"),
    ("Ctrl+Home, Ctrl+End", "first tick, worst tick", "everywhere"),
    ("Ctrl+Z, Ctrl+Shift+Z", "take back, do again", "everywhere"),
    ("Ctrl+S", "save", "everywhere"),
    ("Ctrl+O", "open a picture file", "Sheets, Planes"),
    ("Ctrl+A, Shift+drag", "choose all boxes, those within a frame; Alt lets no edge snap", "Sheets"),
    ("Arrows", "move what is chosen by one pixel; with Shift by eight", "Sheets, Frames"),
    ("Alt+arrows", "change the size of the chosen box by one pixel", "Sheets"),
    ("Alt+arrows", "move the chosen item of the panel by one pixel", "Score"),
    ("Alt+arrows, Alt+Enter", "move the mark of a map's cell, paint it; Alt+Delete empties it", "Planes"),
    ("Delete", "take the chosen thing out", "Sheets, Motion, Planes"),
    ("Plus, Minus", "larger, smaller", "Sheets, Frames"),
    ("Ctrl+Down, Ctrl+Up", "the chosen plane nearer, farther", "Planes"),
    ("Left, Right over the scene", "go along the scene, four ticks a press", "Planes"),
    ("Ctrl+E, then arrows", "steer the camera; with Shift four times as fast; Ctrl+E ends", "Planes"),
    ("F1", "this page", "everywhere"),
    ("Escape", "leave a field, list or question", "everywhere"),
    ("Ctrl+Q", "close the window", "everywhere"),
)


def global_keys(desk: Desk, pressed: set[str], typing: bool) -> None:
    """Do what keys say that mean the same everywhere."""
    session = desk.session
    if desk.ask is not None:
        if "escape" in pressed:
            desk.local["ask-escape"] = True
        return
    table: dict[str, Callable[[], object]] = {
        "ctrl+page down": lambda: session.walk(1),
        "ctrl+page up": lambda: session.walk(-1),
        "ctrl+s": session.save,
        "f1": lambda: setattr(desk, "ask", ("keys", {})),
        "ctrl+q": lambda: setattr(desk, "closing", True),
    }
    if not typing:
        scene = session.scene
        ticks = scene.ticks if scene else 1
        playing, product = session.playing, desk.product
        worst = product.budget.worst_tick if product is not None and product.budget is not None else 0
        table |= {
            "ctrl+z": session.undo,
            "ctrl+shift+z": session.redo,
            "ctrl+right": lambda: playing.go((playing.tick + 1) % ticks, ticks),
            "ctrl+left": lambda: playing.go((playing.tick - 1) % ticks, ticks),
            "ctrl+home": lambda: playing.go(0, ticks),
            "ctrl+end": lambda: playing.go(worst, ticks),
        }
        if not desk.ui.backend.walking:
            table["space"] = lambda: desk.local.__setitem__("wants-play", True)
    for key, act in table.items():
        if key in pressed:
            act()
