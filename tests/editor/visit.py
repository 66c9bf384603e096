"""A visit with real mouse and keys: from an empty project to a proof. Run by test_window.py under Xvfb."""

import json
import subprocess
import sys
import time
from pathlib import Path

import pygame

from scenekit.editor.session import open_session
from scenekit.editor.settings import Settings
from scenekit.editor.window import Window

LIMIT_S = 120


class Visitor:
    """Somebody at the mouse and the keys, whose events come from the X server."""

    def __init__(self, folder: Path, settings: Path) -> None:
        self.window = Window(open_session(folder), (1280, 800), Settings(toured=True), settings)
        self.desk = self.window.desk
        self.started = time.monotonic()
        self.frames(10)
        subprocess.run(
            ["xdotool", "search", "--name", "scenekit", "windowfocus"],
            check=False,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        self.frames(10)

    def frames(self, count: int) -> None:
        for _ in range(count):
            self.window.frame(pygame.event.get(), 1 / 60)
            time.sleep(0.004)
        if time.monotonic() - self.started > LIMIT_S:
            raise SystemExit(f"not done after {LIMIT_S} s; notice: {self.desk.session.notice}")

    def until(self, what: str, is_so) -> None:
        end = time.monotonic() + 30
        while not is_so():
            self.frames(2)
            if time.monotonic() > end:
                raise SystemExit(f"waited in vain for {what}; notice: {self.desk.session.notice}")

    def tool(self, *words: object) -> None:
        subprocess.run(["xdotool", *map(str, words)], check=True)
        self.frames(5)

    def click(self, name: str) -> None:
        self.frames(4)
        self.until(f"{name} on the screen", lambda: name in self.desk.ui.marks)
        for _ in range(60):
            x, y, w, h = self.desk.ui.marks[name]
            middle = y + h / 2
            if 130 < middle < 785 or name.startswith(("station:", "head:", "tape:")):
                break
            self.tool("mousemove", round(x + w / 2), 450, "click", 5 if middle >= 785 else 4)
        x, y, w, h = self.desk.ui.marks[name]
        self.tool("mousemove", round(x + w / 2), round(y + h / 2))
        self.tool("mousedown", 1)
        self.tool("mouseup", 1)

    def type(self, name: str, text: str) -> None:
        self.click(name)
        self.tool("key", "ctrl+a")
        self.tool("type", "--delay", 8, "--", text)
        self.frames(6)
        self.tool("key", "Return")

    def choose(self, name: str, option: str) -> None:
        self.click(name)
        self.frames(4)
        self.click(f"{name}:{option}")

    def open(self, path: Path) -> None:
        self.tool("key", "ctrl+o")
        self.until("the list of files", lambda: "path:text" in self.desk.ui.marks)
        self.frames(4)
        self.tool("key", "ctrl+a")
        self.tool("type", "--delay", 8, "--", str(path))
        self.frames(6)
        self.tool("key", "Return")


def machine(v: Visitor) -> None:
    """Look at another mode, and take that back."""
    target = v.desk.session.target
    v.click("station:machine")
    v.type("target:colours", "16*2")
    v.until("fewer colours", lambda: v.desk.session.target.colours == 32)
    v.tool("mousemove", 640, 790)
    v.tool("key", "ctrl+z")
    v.until("all colours", lambda: v.desk.session.target == target)


def frames(v: Visitor) -> None:
    """Move a pivot by typing and by dragging, and give a hit box."""
    v.click("station:frames")
    v.click("frame:" + v.desk.session.sheet.frames[1].name)
    v.type("frame:pivot-across", "3*2-2")
    v.type("frame:hit-left", "2")
    v.type("frame:hit-wide", "8")


def colours(v: Visitor) -> None:
    """Let two colours of the art turn, and add a fade; look at the scene as others see it."""
    v.click("station:colours")
    for way in ("no green", "errors", "DAC"):
        v.click(f"seen:way:{way}")
        v.until("the other picture", lambda: "seen:picture" in v.desk.ui.marks)
    v.type("cycle:new", "141e96 144696")
    v.until("the cycle", lambda: len(v.desk.session.document.cycles) == 1)
    v.click("event:fade")


def score(v: Visitor) -> None:
    """Make a value of the game."""
    v.click("station:score")
    v.click("value:add")
    v.type("value:score:high", "10*10-1")


def budget(v: Visitor) -> None:
    """Ask what if everything were drawn anew, read the answer, and go back."""
    target = v.desk.session.target
    v.click("station:budget")
    v.until("the budget", lambda: v.desk.product is not None and v.desk.product.done)
    v.click("what-if:redraw:everything")
    v.until("the other way", lambda: v.desk.session.target.redraw == "everything")
    v.until("its budget", lambda: v.desk.product is not None and v.desk.product.done)
    v.tool("key", "ctrl+z")
    v.until("as it was", lambda: v.desk.session.target == target)


def cut(v: Visitor, art: Path) -> None:
    """Bring in a sheet, and keep the cut that fits."""
    session = v.desk.session
    v.click("station:sheets")
    v.open(art / "walker.png")
    v.until("ways to cut", lambda: v.desk.local.get("cutting") is not None and v.desk.local["cutting"].done)
    cutting = v.desk.local["cutting"]
    v.frames(4)
    like = next(
        n for n, cut in enumerate(cutting.cuts) if {frame.box[2:] for frame in cut.frames} == {(12, 16)}
    )
    if like:
        v.click(f"cut:{like}")
    v.type("cut:author", "A. Painter")
    v.type("cut:licence", "CC0")
    v.click("cut:keep")
    v.until("the sheet", lambda: len(session.document.sheets) == 1)


def animate(v: Visitor) -> None:
    """Make all frames an animation that is mirrored."""
    v.click("station:motion")
    v.type("new:sprite", "walker")
    v.type("new:name", "walk")
    v.type("new:ticks", "2*4")
    v.click("new:make")


def planes(v: Visitor, art: Path) -> None:
    """Put two planes behind each other, and let the camera go there and back."""
    session = v.desk.session
    v.click("station:planes")
    for name in ("sky", "wall"):
        v.open(art / f"{name}.png")
        v.until(
            f"plane {name}",
            lambda name=name: session.scene is not None and session.scene.planes[-1].name == name,
        )
    v.click("plane:sky")
    v.type("plane:ratio", "1/4")
    v.click("plane:corner")
    v.click("plane:wall")
    v.type("plane:ratio", "3/4")
    v.type("plane:at-down", "64+10")
    v.click("camera:add")
    v.type("camera:0:ticks", "100")
    v.click("camera:add")
    v.type("camera:1:x", "-1")
    v.click("camera:repeat:from-start")
    v.type("scene:ticks", "200")


def place(v: Visitor) -> None:
    """Put the sprite into the scene, on a way there and back."""
    v.click("station:motion")
    v.click("placed:add")
    v.type("placed:across", "30")
    v.type("placed:down", "40")
    v.click("way:add")
    v.type("way:0:ticks", "90")
    v.type("way:0:x", "3/2")
    v.choose("way:0:animation", "walk")
    v.choose("way:0:facing", "right")
    v.click("way:add")
    v.type("way:1:x", "-3/2")
    v.choose("way:1:facing", "left")
    v.click("way:repeat:from-start")


def export(v: Visitor, result: Path) -> None:
    """Prove the scene, write its files, and put them on a card."""
    v.click("station:export")
    v.click("export:verify")
    v.until("the proof", lambda: v.desk.local.get("run prove") is not None and v.desk.local["run prove"].done)
    v.click("export:write")
    v.until("the files", lambda: v.desk.local.get("run write") is not None and v.desk.local["run write"].done)
    v.type("export:board", str(result.with_name("card")))
    v.click("export:send")
    v.until("the card", lambda: v.desk.local.get("run send") is not None and v.desk.local["run send"].done)


def visit(folder: Path, art: Path, result: Path) -> None:
    v = Visitor(folder, result.with_name("window.json"))
    session = v.desk.session
    cut(v, art)
    animate(v)
    machine(v)
    frames(v)
    planes(v, art)
    place(v)
    colours(v)
    score(v)
    budget(v)
    v.tool("key", "ctrl+s")
    v.until("the save", lambda: not session.dirty)
    export(v, result)
    proof, written = v.desk.local["run prove"], v.desk.local["run write"]
    pygame.image.save(v.window.backend.surface, str(result.with_suffix(".png")))
    result.write_text(json.dumps({
        "driver": pygame.display.get_driver(),
        "proof": proof.proof.as_dict() if proof.proof else None,
        "error": proof.error or written.error or v.desk.local["run send"].error,
        "screens": len(proof.shots),
        "card": [name for name, _, _ in v.desk.local["run send"].files],
        "files": [name for name, _, _ in written.files],
        "folder": v.desk.local["export"]["folder"],
        "steps": session.history.place,
    }))  # fmt: skip
    v.window.backend.close()


if __name__ == "__main__":
    visit(Path(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3]))
