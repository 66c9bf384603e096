"""A list of folders and files inside the window, to choose a picture or a folder."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

from scenekit.editor.desk import Desk
from scenekit.images.decode import SUFFIXES

MOST_ROWS = 400


def ask_path(
    desk: Desk,
    title: str,
    start: Path,
    done: Callable[[Path], None],
    *,
    folder: bool = False,
    also: tuple[str, ...] = (),
) -> None:
    """Ask for a picture file, or with folder for a folder; `done` is called with it.

    also   endings of files besides pictures
    """
    while not start.is_dir() and start != start.parent:
        start = start.parent
    desk.ask = ("path", {"title": title, "at": start, "done": done, "folder": folder, "also": also})


def entries(folder: Path, folders_only: bool, also: tuple[str, ...] = ()) -> list[tuple[str, bool]]:
    """Return the names in a folder that can be chosen and whether each is a folder, sorted."""
    found = []
    try:
        with os.scandir(folder) as items:
            for item in items:
                if item.name.startswith("."):
                    continue
                inner = item.is_dir()
                suffix = os.path.splitext(item.name)[1].lower()
                if inner or (not folders_only and (suffix in SUFFIXES or suffix in (".zip", *also))):
                    found.append((item.name, inner))
    except OSError:
        return []
    return sorted(found, key=lambda entry: (not entry[1], entry[0].lower()))[:MOST_ROWS]


def draw(desk: Desk, state: Any) -> None:
    """Draw the dialog."""
    ui = desk.ui
    wide, high = ui.backend.surface.get_size()
    w, h = min(ui.px(620), wide - 40), min(ui.px(520), high - 40)
    box = ((wide - w) // 2, (high - h) // 2.4, w, h)
    chosen: Path | None = None
    leave = False
    with ui.backend.dialog("path", box):
        x, y, w, h = box
        ui.fill(box, ui.look.ground)
        ui.frame(box, ui.look.quiet)
        left, inner = x + ui.px(24), w - ui.px(48)
        ui.text(left, y + ui.px(34), state["title"], "title", weight="bold")
        if not state.get("begun"):
            state["begun"] = True
            ui.focus_next = "path:text"
        place, tip = (left, y + ui.px(58), inner, ui.px(32)), "A path; Enter goes there."
        typed = ui.field("path:text", place, str(state["at"]), lambda t: t, tip=tip)
        if typed is not None:
            path = Path(os.path.expanduser(typed.strip()))
            if path.is_dir():
                state["at"] = path
                if state["folder"]:
                    chosen = path
            elif path.is_file() or state["folder"]:
                chosen = path
            else:
                desk.session.say(f"{path}: no such file", "alarm")
        chosen = _rows(desk, state, (left, y + ui.px(100), inner, h - ui.px(166))) or chosen
        foot = y + h - ui.px(54)
        if ui.button(
            "path:leave", (x + w - ui.px(24 + 110), foot, ui.px(110), ui.px(32)), "Leave it", kind="quiet"
        ):
            leave = True
        if state["folder"] and ui.button(
            "path:here", (left, foot, ui.px(150), ui.px(32)), "This folder", kind="main"
        ):
            chosen = state["at"]
        if chosen is not None or leave:
            ui.backend.close_dialog()
    if chosen is not None or leave:
        desk.ask = None
    if chosen is not None:
        state["done"](chosen)


def _rows(desk: Desk, state: Any, box: tuple[float, float, float, float]) -> Path | None:
    ui = desk.ui
    row = ui.px(26)
    here: Path = state["at"]
    also: tuple[str, ...] = state.get("also", ())
    names = desk.remember(
        "path-entries", lambda: entries(here, state["folder"], also), here, state["folder"], also
    )
    shown = [("one folder up", True), *names]
    picked: Path | None = None
    with ui.backend.region("path-rows", box, scrolls=True) as scroll:
        x, y, w, h = box
        for number, (name, folder) in enumerate(shown):
            top = y + number * row - scroll
            if top + row < y - row or top > y + h + row:
                continue
            felt = ui.row(f"path:{name}", (x, top, w - ui.px(12), row), chosen=False)
            ui.text(
                x + 8,
                top + row / 2,
                name,
                weight="bold" if folder else "regular",
                colour=ui.look.quiet if number == 0 else None,
                room=w - ui.px(90),
            )
            if folder and number:
                ui.text(x + w - ui.px(20), top + row / 2, "folder", "small", ui.look.quiet, anchor="right")
            if felt.clicked and folder:
                state["at"] = here.parent if number == 0 else here / name
            elif felt.clicked:
                picked = here / name
        ui.backend.extent(y + len(shown) * row - scroll)
    return picked
