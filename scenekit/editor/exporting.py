"""An export or a proof that runs beside the window, and showing its folder."""

import os
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np

from scenekit.errors import SceneKitError
from scenekit.model.project import Project


@dataclass(slots=True, eq=False)
class Run:
    """An export or a proof that runs beside the window."""

    kind: str
    document: Project
    target: str
    scene: str
    stage: str = "beginning"
    error: str = ""
    files: list[tuple[str, int, bool]] = field(default_factory=list)
    proof: Any = None
    pictures: list[tuple[str, Any]] = field(default_factory=list)
    done: bool = False


def open_folder(folder: Path) -> None:
    """Show a folder in the system's own way, where there is one."""
    if sys.platform == "win32":
        os.startfile(folder)
        return
    program = "open" if sys.platform == "darwin" else "xdg-open"
    try:
        subprocess.Popen([program, str(folder)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    except OSError:
        return


def work(run: Run, wish: dict[str, Any], wake: Any) -> None:
    from scenekit.build import BuildOptions, run_stages
    from scenekit.export import write_export

    def progress(stage: str, _done: int, _total: int) -> None:
        run.stage = stage
        wake()

    try:
        play = run.kind == "verify" or wish["play"] == "with a player"
        options = BuildOptions(prefix=wish["prefix"], first_line=wish["line"], play=play)
        build = run_stages(run.document, run.target, run.scene, options=options, progress=progress)
        if run.kind == "write":
            changed = write_export(Path(wish["folder"]), build.files)
            run.files = [(name, len(data), name in changed) for name, data in build.files.items()]
        else:
            _prove(run, build, progress)
    except (SceneKitError, OSError) as error:
        run.error = str(error)
    except (ArithmeticError, LookupError, TypeError, ValueError, AttributeError, AssertionError) as error:
        run.error = f"this could not be done: {type(error).__name__}: {error}"
    run.done = True
    wake()


def _prove(run: Run, build: Any, progress: Any) -> None:
    """Run the program and keep pictures of what its screen showed, beside what it should show."""
    import tempfile

    from scenekit.verify.prove import can_run, prove

    if not can_run(build):
        program = (
            build.dialect.command[0] if build.dialect.command else build.dialect.reader or "an interpreter"
        )
        raise SceneKitError(f"{program} is not on this machine, so that the program cannot be run here")
    last = build.scene.ticks - 1
    ticks = sorted({round(last * part / 9) for part in range(10)})
    progress("running the program", 0, 1)
    with tempfile.TemporaryDirectory(prefix="scenekit-") as folder:
        run.proof = prove(build, ticks, pictures=Path(folder))
        for name in run.proof.pictures[:4]:
            from scenekit.images.flat import read_picture

            run.pictures.append((name, np.array(read_picture(Path(folder) / name).pixels)))
