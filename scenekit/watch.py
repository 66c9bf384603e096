"""Builds a project again whenever one of its files changes, and says in a line what it costs."""

import os
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from scenekit.build import Build, BuildOptions, Kept, run_stages
from scenekit.costs.estimate import estimate
from scenekit.errors import ProjectError, SceneKitError
from scenekit.export import write_export
from scenekit.findings import worst_level
from scenekit.game import Game, build_game
from scenekit.model.store import load
from scenekit.transfer import ship

MOST_FILES = 20_000
SKIPPED = ("out", "__pycache__")
Seen = dict[str, tuple[int, int]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One look at the project.

    line     what to print, or "" when nothing changed
    changed  names of files written
    failed   the project could not be built
    """

    line: str
    changed: tuple[str, ...]
    failed: bool


class Watcher:
    """Looks at a project; every look that finds a change builds it and writes what differs.

    Without a scene, all of them are built as one game, as an export does.
    """

    def __init__(
        self, folder: Path, to: Path, target: str | None, scene: str | None, options: BuildOptions
    ) -> None:
        self.folder, self.to = folder, to
        self.target, self.scene, self.options = target, scene, options
        self.seen: Seen | None = None
        self.kept = Kept()

    def look(self) -> Pass:
        """Look once.

        raises   ProjectError: the folder is gone, or holds too many files
        """
        now = snapshot(self.folder, self.to)
        if now == self.seen:
            return Pass(line="", changed=(), failed=False)
        self.seen = now
        try:
            made, builds = self._build()
            changed = write_export(self.to, ship(made.files, builds[0].dialect).files)
            line = summary(made, builds, changed)
        except SceneKitError as error:
            return Pass(line=f"error: {error}", changed=(), failed=True)
        except OSError as error:
            # A file may vanish between looking and reading; the next look finds it so.
            return Pass(line=f"error: {error.filename}: {error.strerror}", changed=(), failed=True)
        return Pass(line=line, changed=changed, failed=False)

    def _build(self) -> tuple[Build | Game, tuple[Build, ...]]:
        """Build the project, and return the builds of its scenes, too."""
        project = load(self.folder)
        if self.scene is None and len(project.scenes) > 1:
            game = build_game(project, self.target, options=self.options, kept=self.kept)
            return game, game.scenes
        build = run_stages(project, self.target, self.scene, options=self.options, kept=self.kept)
        return build, (build,)


def watch(
    watcher: Watcher, tell: Callable[[str], None], wait: Callable[[], None], looks: int | None = None
) -> int:
    """Look until looks run out or somebody interrupts; returns how often it was built.

    tell   takes each line
    wait   waits until the next look; raises KeyboardInterrupt to stop
    """
    built = done = 0
    try:
        while looks is None or done < looks:
            if done:
                wait()
            done += 1
            found = watcher.look()
            if found.line:
                built += not found.failed
                tell(found.line)
    except KeyboardInterrupt:
        pass
    return built


def summary(made: Build | Game, builds: Sequence[Build], changed: tuple[str, ...]) -> str:
    """Return one line: the rate of each scene, memory, files changed."""
    rates, findings = [], list(made.findings)
    for build in builds:
        result = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
        findings += result.findings
        if result.rate_hz is None:
            rate = "rate not known"
        else:
            short = "" if result.holds_target else f", too slow for {result.target_hz:.2f}"
            rate = f"{result.rate_hz:.2f} pictures a second{short}"
        rates.append(f"{build.scene.name} for {build.target.name}: {rate}")
    memory = ", ".join(
        f"{part.memory} {part.used_bytes * 100 // part.capacity_bytes} % of {part.capacity_bytes} bytes"
        for part in made.memory
    )
    more = "; see scenekit check and budget" if worst_level(findings) == "error" else ""
    names = ", ".join(changed[:4]) + (", ..." if len(changed) > 4 else "")
    files = f"{len(changed)} files changed: {names}" if changed else "no file changed"
    return f"{'; '.join(rates)}; {memory or 'memory not known'}; {files}{more}"


def snapshot(folder: Path, to: Path) -> Seen:
    """Return time and size of every file of a project by its path, results and hidden files left out.

    raises   ProjectError: no such folder, or more files than a project has
    """
    if not folder.is_dir():
        raise ProjectError(f"{folder}: no such project folder")
    found: Seen = {}
    for path in _files(folder, to.resolve()):
        try:
            facts = path.stat()
        except OSError:
            continue
        found[str(path.relative_to(folder))] = (facts.st_mtime_ns, facts.st_size)
        if len(found) > MOST_FILES:
            raise ProjectError(
                f"{folder}: more than {MOST_FILES} files; give the project a folder of its own"
            )
    return found


def _files(folder: Path, to: Path) -> Iterator[Path]:
    for place, folders, names in os.walk(folder):
        folders[:] = sorted(
            name
            for name in folders
            if not name.startswith(".") and name not in SKIPPED and (Path(place) / name).resolve() != to
        )
        for name in sorted(names):
            if not name.startswith(".") and not name.endswith((".previous", ".part")):
                yield Path(place) / name
