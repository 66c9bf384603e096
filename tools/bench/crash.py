"""Kills a working window with SIGKILL at random moments, and looks at what is left of the work.

Run it: python3 tools/bench/crash.py [RUNS] [SEED]
The window's clock is turned by hand, 3 s for each edit, so that half a minute of work passes quickly. It
tells of every edit and save before and after; what it last told is compared with what the folder holds.
"""

import json
import os
import random
import shutil
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scenekit.model.project import Project

ROOT = Path(__file__).resolve().parents[2]
STEP_S, MOST_LOST_S = 3.0, 30.0
MOST_TOLD, MOST_WAIT_S = 120, 0.01


@dataclass(slots=True)
class Told:
    """What a window said before it was killed: numbers of edits and the time of its clock."""

    edit: int = 0
    begun: int = 0
    saved: int = 0
    ended: bool = False
    times: list[float] | None = None


def work(folder: Path, seed: int) -> None:
    """Edit, save and keep copies in a window until killed; every edit writes its number as the credit."""
    from scenekit.editor.history import Edit
    from scenekit.editor.session import open_session
    from scenekit.editor.settings import Settings
    from scenekit.editor.window import Window

    now = [0.0]
    session = open_session(folder, lambda: now[0])
    window = Window(session, (900, 560), Settings(toured=True), folder / "window.json")
    chance = random.Random(seed)
    often = chance.choice((0.02, 0.1, 0.4))
    number = 0

    def tell(*words: object) -> None:
        os.write(1, (json.dumps(words) + "\n").encode())

    while True:
        number += 1
        now[0] += STEP_S
        sheets = (replace(session.document.sheets[0], author=f"{number}"), *session.document.sheets[1:])
        tell("edit", number, now[0])
        session.apply(Edit(document=replace(session.document, sheets=sheets), label="a credit"))
        window.frame([], 1 / 60)
        if chance.random() < often:
            tell("save", number)
            session.save()
            tell("saved", number)


def killed(folder: Path, seed: int) -> Told:
    """Let a window work in a folder, kill it at a random moment, and return what it told."""
    chance = random.Random(seed)
    environment = {**os.environ, "SDL_VIDEODRIVER": "dummy"}
    worker = subprocess.Popen(
        [sys.executable, str(Path(__file__).resolve()), "--work", str(folder), str(seed)],
        stdout=subprocess.PIPE, env=environment, cwd=ROOT,
    )  # fmt: skip
    assert worker.stdout is not None
    told = Told(times=[0.0])
    try:
        for _ in range(chance.randint(1, MOST_TOLD)):
            line = worker.stdout.readline()
            if not line:
                told.ended = True  # by itself, which is a fault
                break
            _take(told, line)
        time.sleep(chance.random() * MOST_WAIT_S)
    finally:
        worker.kill()
        rest, _ = worker.communicate()
    for line in rest.splitlines(keepends=True):
        _take(told, line)
    return told


def _take(told: Told, line: bytes) -> None:
    if not line.endswith(b"\n"):
        return
    kind, number, *more = json.loads(line)
    if kind == "edit":
        told.edit = number
        assert told.times is not None
        told.times.append(more[0])
    elif kind == "save":
        told.begun = number
    else:
        told.saved = number


def _number(document: "Project") -> int:
    author = document.sheets[0].author
    return int(author) if author.isdigit() else 0


def judge(folder: Path, told: Told) -> str:
    """Return "" when at most the last half minute is lost and what was saved is whole, else what is wrong."""
    from scenekit.editor import lock, recovery
    from scenekit.errors import SceneKitError
    from scenekit.model.store import load

    if told.ended:
        return "the window ended by itself"
    try:
        saved = _number(load(folder))
    except SceneKitError as error:
        return f"the project cannot be opened: {error}"
    if saved not in {told.saved, told.begun}:
        return f"edit {told.saved} was saved, {told.begun} was being saved, and {saved} is there"
    copies = recovery.left_copies(folder)
    kept = max([saved, *(_number(document) for _, document in copies)])
    assert told.times is not None
    lost_s = told.times[told.edit] - told.times[min(kept, told.edit)]
    if lost_s > MOST_LOST_S:
        return f"{lost_s:g} s of work are lost: edit {told.edit} was made, {kept} was kept"
    return "" if lock.other_window(folder) is None else "the dead window still counts as open"


def main(runs: int, seed: int) -> list[str]:
    """Kill so many windows and return what went wrong."""
    wrong = []
    for number in range(runs):
        with tempfile.TemporaryDirectory(prefix="scenekit-") as temporary:
            folder = Path(temporary) / "demo"
            shutil.copytree(ROOT / "demo_assets", folder, ignore=shutil.ignore_patterns("out"))
            told = killed(folder, seed + number)
            found = judge(folder, told)
            if found:
                wrong.append(f"run {number}, seed {seed + number}: {found}")
    return wrong


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    if sys.argv[1:2] == ["--work"]:
        work(Path(sys.argv[2]), int(sys.argv[3]))
    RUNS = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    WRONG = main(RUNS, int(sys.argv[2]) if len(sys.argv) > 2 else 1)
    print(*WRONG, f"{RUNS} windows killed, {len(WRONG)} with losses", sep="\n")
    sys.exit(bool(WRONG))
