"""An export, a proof or a shipment to a board that runs beside the window and can be stopped."""

import os
import subprocess
import sys
import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from scenekit.errors import SceneKitError, StoppedError
from scenekit.model.arrays import Pixels, freeze
from scenekit.model.project import Project

if TYPE_CHECKING:
    from scenekit.build import Build
    from scenekit.verify.prove import Proof

KINDS = ("write", "prove", "send")
PROOF_TICKS = 10
WAIT_AT_END_S = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What is asked of an export.

    into     folder for the files
    board    folder of a board's card, "" for none; check: whether a program there checks the files
    """

    into: str
    play: bool = True
    prefix: str = "sk_"
    first_line: int = 1000
    board: str = ""
    check: bool = True


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shot:
    """A screen of the run: what the preview shows, what the program drew, and where they differ."""

    tick: int
    wanted: Pixels
    drawn: Pixels
    marked: Pixels


@dataclass(slots=True, eq=False)
class Run:
    """Something that is made beside the window.

    stage, part  what it is at, and how far, 0 to 1
    files        (name, bytes, whether it is new or changed)
    names        exported name -> name on the board, where they differ
    """

    kind: str
    document: Project
    target: str
    scene: str
    wishes: Wishes
    stage: str = "beginning"
    part: float = 0.0
    error: str = ""
    files: list[tuple[str, int, bool]] = field(default_factory=list)
    names: dict[str, str] = field(default_factory=dict)
    seconds: float | None = None
    proof: "Proof | None" = None
    shots: list[Shot] = field(default_factory=list)
    done: bool = False
    wake: Callable[[], None] = lambda: None
    _stop: threading.Event = field(default_factory=threading.Event)
    _thread: threading.Thread | None = None

    def start(self) -> None:
        """Begin."""
        self._thread = threading.Thread(target=self._work, daemon=True)
        self._thread.start()

    def stop(self, wait_s: float = 0.0) -> None:
        """End as soon as possible; nothing half-written stays behind."""
        self._stop.set()
        if self._thread is not None and wait_s:
            self._thread.join(wait_s)

    @property
    def stopped(self) -> bool:
        """Whether somebody wished it to end."""
        return self._stop.is_set()

    def _progress(self, stage: str, done: int, total: int) -> None:
        if self.stopped:
            raise StoppedError(stage)
        self.stage, self.part = stage, done / max(1, total)
        self.wake()

    def _work(self) -> None:
        try:
            self._make()
        except StoppedError:
            self.error = "stopped; nothing was written" if self.kind != "prove" else "stopped"
        except (SceneKitError, OSError) as error:
            self.error = str(error)
        except (ArithmeticError, LookupError, TypeError, ValueError, AttributeError, AssertionError) as error:
            self.error = f"this could not be done: {type(error).__name__}: {error}"
        self.done = True
        self.wake()

    def _make(self) -> None:
        from scenekit.build import BuildOptions, run_stages

        wishes = self.wishes
        play = wishes.play or self.kind == "prove"
        options = BuildOptions(prefix=wishes.prefix, first_line=wishes.first_line, play=play)
        build = run_stages(self.document, self.target, self.scene, options=options, progress=self._progress)
        {"write": self._write, "send": self._send, "prove": self._prove}[self.kind](build)

    def _write(self, build: "Build") -> None:
        from scenekit.export import write_export

        self._progress("writing the files", 1, 1)
        changed = write_export(Path(self.wishes.into), build.files)
        self.files = [(name, len(data), name in changed) for name, data in build.files.items()]

    def _send(self, build: "Build") -> None:
        """Make the files ready for a board and put them into its folder."""
        from scenekit.export import write_export
        from scenekit.transfer import ship

        self._progress("making the files ready for the board", 1, 1)
        shipment = ship(build.files, build.dialect, self.wishes.check)
        changed = write_export(Path(self.wishes.board), shipment.files)
        self.files = [(name, len(data), name in changed) for name, data in shipment.files.items()]
        self.names = {old: new for old, new in shipment.names.items() if old != new}
        self.seconds = shipment.seconds

    def _prove(self, build: "Build") -> None:
        """Run the program and keep what its screen showed."""
        from scenekit.verify.prove import can_run, prove

        if not can_run(build):
            command = build.dialect.command
            program = command[0] if command else build.dialect.reader or "an interpreter"
            raise SceneKitError(f"{program} is not on this machine, so that the program cannot be run here")
        last = build.scene.ticks - 1
        ticks = sorted({round(last * part / (PROOF_TICKS - 1)) for part in range(PROOF_TICKS)})
        self._progress("running the program", 1, 1)
        self.proof = prove(build, ticks, seen=self._seen, stopped=self._stop.is_set)

    def _seen(self, tick: int, wanted: Pixels, drawn: Pixels) -> None:
        from scenekit.verify.compare import marked_picture

        self._progress("comparing the screens", 1, 1)
        marked = marked_picture(wanted, drawn)
        shot = Shot(tick=tick, wanted=freeze(wanted), drawn=freeze(drawn), marked=freeze(marked))
        self.shots.append(shot)


def open_folder(folder: Path) -> str:
    """Show a folder in the system's own way; return why that is not possible, or ""."""
    if sys.platform == "win32":
        os.startfile(folder)
        return ""
    program = "open" if sys.platform == "darwin" else "xdg-open"
    try:
        subprocess.Popen([program, str(folder)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    except OSError:
        return f"{program} is not on this machine; the files are in {folder}"
    return ""


def end_runs(local: dict[str, Any]) -> None:
    """Stop what still runs when the window closes."""
    run = local.get("run")
    if isinstance(run, Run) and not run.done:
        run.stop(WAIT_AT_END_S)
    asked = local.get("advice")
    if asked is not None:
        asked.stop.set()
