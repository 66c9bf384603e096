"""Facts about a document that need no build: unused things, missing credits, camera limits."""

from collections.abc import Iterator
from itertools import pairwise

from scenekit.errors import SceneKitError
from scenekit.findings import Finding
from scenekit.model.credits import NO_ADVICE, ledger
from scenekit.model.paths import Path
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.usage import frames_in_use
from scenekit.motion.paths import place_at


def document_findings(project: Project) -> Iterator[Finding]:
    """Yield what is worth knowing about a document."""
    if not project.targets:
        yield _finding("warning", "no-target", "project", "has no target yet; add one: scenekit add target")
    if not project.scenes:
        yield _finding("warning", "no-scene", "project", "has no scene yet; add a plane: scenekit add plane")
    yield from _credits(project)
    yield from _unused(project)
    for scene in project.scenes:
        yield from _motion(project, scene)
        yield from _moving_colours(project, scene)


def _finding(level: str, code: str, where: str, text: str) -> Finding:
    return Finding(level=level, code=code, where=where, text=text)


def _credits(project: Project) -> Iterator[Finding]:
    """Yield what is missing on record, and what licences ask for."""
    for credit in ledger(project):
        if credit.missing:
            shown = " and ".join(credit.missing) if len(credit.missing) < 3 else "author, licence and source"
            options = " ".join(f"--{part} ..." for part in credit.missing)
            text = f"no {shown} on record; add it by: scenekit credits PROJECT --of NAME {options}"
            yield _finding("note", "no-credit", credit.what, text)
        for ask in credit.asks:
            yield _finding("note", "licence", credit.what, f"{credit.licence} {ask} ({NO_ADVICE})")


def _unused(project: Project) -> Iterator[Finding]:
    used = frames_in_use(project)
    for sheet in project.sheets:
        left = [frame.name for frame in sheet.frames if (sheet.name, frame.name) not in used]
        if left:
            shown = ", ".join(left[:4]) + (", ..." if len(left) > 4 else "")
            yield _finding(
                "note",
                "unused-frames",
                f"sheet {sheet.name}",
                f"{len(left)} frames are shown nowhere: {shown}",
            )
    placed = {placed.sprite for scene in project.scenes for placed in scene.placed}
    for sprite in project.sprites:
        if sprite.name not in placed:
            yield _finding("note", "unused-sprite", f"sprite {sprite.name}", "stands in no scene")


def _motion(project: Project, scene: Scene) -> Iterator[Finding]:
    """Yield what hinders a scene's motion: shapes that cannot be sampled, a camera out of its limits."""
    if not scene.plain:
        from scenekit.motion.expand import expand_scene

        try:
            scene = expand_scene(project, scene)
        except SceneKitError as error:
            yield _finding("error", "motion", f"scene {scene.name}", str(error))
            return
    yield from _camera(scene)


def _camera(scene: Scene) -> Iterator[Finding]:
    """Yield the first tick at which the camera leaves its limits."""
    limits = scene.camera.limits
    if limits is None or scene.camera.keeps:  # one that keeps a sprite is held by its limits
        return
    path = scene.camera.path

    def leaves(tick: int) -> bool:
        place = place_at(path, scene.camera.start, tick)
        return not (limits[0] <= place.x <= limits[2] and limits[1] <= place.y <= limits[3])

    for first, last in _stretches(path, scene.ticks):
        if leaves(first) or leaves(last):
            tick = next(tick for tick in range(first, last + 1) if leaves(tick))
            place = place_at(path, scene.camera.start, tick)
            text = f"the camera is at {place.x}, {place.y} at tick {tick}; its limits are {list(limits)}"
            yield _finding("error", "camera-limits", f"scene {scene.name}", text)
            return


def _stretches(path: Path, ticks: int) -> Iterator[tuple[int, int]]:
    """Yield first and last tick of stretches that together show every place of a path.

    Within one a place goes only one way along each axis, so that its ends are its farthest places.
    """
    edges = [edge[0] for edge in path.edges]
    total = edges[-1]
    laps = range(0, ticks, total) if path.repeat == "onward" and total else (0,)
    for lap in laps:
        for first, end in pairwise(edges):
            if lap + first < ticks:
                yield lap + first, min(lap + end, ticks) - 1
    if path.repeat == "no" and total < ticks:
        yield total, total


def _moving_colours(project: Project, scene: Scene) -> Iterator[Finding]:
    """Yield a caution for palettes that change fast."""
    fast = [cycle.name for cycle in project.cycles if cycle.ticks < 10]
    fast += [event.name for event in scene.events if event.ticks_per_step < 10 and event.steps == 1]
    if fast:
        text = (
            f"colours of {', '.join(fast)} change often; more than three flashes a second over a large "
            "part of the screen can harm people who are sensitive to light: look at it with care"
        )
        yield _finding("note", "fast-colours", f"scene {scene.name}", text)
