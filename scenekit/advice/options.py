"""The separate choices that a scene has on a target, each tried by building: tiles, copies, encoding."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scenekit.advice.choose import Option
from scenekit.build import Build, run_stages
from scenekit.costs.estimate import estimate
from scenekit.costs.pricing import PriceList, sound_share, time_us
from scenekit.costs.worst import camera_places, plane_times, worst_case
from scenekit.costs.worstsprites import sprite_numbers, sprite_work
from scenekit.errors import SceneKitError
from scenekit.model.edits import put
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.target import HOLES, Target
from scenekit.plan.counting import counter_of

TILES = ((8, 8), (16, 16), (32, 32), (48, 48), (64, 64), (64, 32), (128, 32))
MOST_CASES = 4000
UNITS_PER_US = 100
"""Times are whole hundredths of a microsecond to the integer program."""

Progress = Callable[[str, int, int], None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Way:
    """An option of the integer program and what it stands for.

    words    what it changes, for people; "" as it is
    apply    gives a changed target and scene
    """

    option: Option
    words: str
    apply: Callable[[Target, Scene], tuple[Target, Scene]]


def as_it_is(target: Target, scene: Scene) -> tuple[Target, Scene]:
    """Change nothing."""
    return target, scene


def ways_of(base: Build, document: Project, progress: Progress | None = None) -> tuple[tuple[Way, ...], ...]:
    """Return the groups of choices of a build: tiles of each plane, mirrored art, redraw, encoding of tables.

    The first way of each group is as it is.
    document  the project as written, of which the build is
    """
    scene = document.scene(base.scene.name)
    groups = [_tiles(base, document, plane.name, progress) for plane in scene.planes]
    prices = base.machine.costs_in(base.mode.name)
    cases = len(cases_of(base)[0][0])
    still = _way(base, base, "", as_it_is, (0,) * cases, 0)
    flips = "stored" if base.target.flips == "drawn" else "drawn"
    turned = _rebuilt(base, document, replace(base.target, flips=flips))
    if turned is not None:
        words = f"mirrored art {'stored as copies' if flips == 'stored' else 'drawn mirrored'}"

        def mirror(target: Target, scene: Scene) -> tuple[Target, Scene]:
            return replace(target, flips=flips), scene

        way = _way(base, turned, words, mirror, _turning(base, turned, prices), 1)
        if any(way.option.times) or any(way.option.memory):
            groups.append((still, way))
    redraws = _redraws(base, document, cases)
    groups += [(still, *redraws)] if redraws else []
    groups.append((still, *_encodings(base, document, cases)))
    return tuple(groups)


def cases_of(base: Build) -> tuple[tuple["np.ndarray[tuple[int], np.dtype[np.int64]]", ...], bool]:
    """Return x and y of the places of the camera that are weighed, and whether these are all."""
    (x, y), complete = camera_places(base.scene)
    step = max(1, -(-len(x) // MOST_CASES))
    return (x[::step], y[::step]), complete and step == 1


def _redraws(base: Build, document: Project, cases: int) -> list[Way]:
    """Return drawing everything in place of the changes, where the worst picture does not keep its time.

    The worst picture is drawn whole either way; looking for what changed makes it dearer, and others cheaper.
    """
    if not base.changes:
        return []
    now = _worst_us(base)
    if now is None or now <= float(base.mode.timing.period_ms) * 1000 * base.scene.ticks_per_update:
        return []
    built = _rebuilt(base, document, replace(base.target, redraw="everything"))
    then = None if built is None else _worst_us(built)
    if built is None or then is None:
        return []

    def change(target: Target, scene: Scene) -> tuple[Target, Scene]:
        return replace(target, redraw="everything"), scene

    free = 1 - sound_share(base.machine.costs_in(base.mode.name))
    units = round((then - now) * free * UNITS_PER_US)
    words = "everything drawn in each picture, changes not looked for"
    return [_way(base, built, words, change, (units,) * cases, 1)]


def _worst_us(build: Build) -> float | None:
    """Return what the worst picture of a build takes in us, None while a price is unknown."""
    line = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    worst = worst_case(build.project, build.scene, build.planner, build.machine, build.mode, line)
    return None if worst.work_ms is None else worst.work_ms * 1000


def _encodings(base: Build, document: Project, cases: int) -> list[Way]:
    found = []
    for encode, words in (("always", "all tables encoded"), ("never", "no table encoded")):
        if encode == base.target.encode:
            continue
        built = _rebuilt(base, document, replace(base.target, encode=encode))
        if built is not None and built.memory != base.memory:

            def change(target: Target, scene: Scene, encode: str = encode) -> tuple[Target, Scene]:
                return replace(target, encode=encode), scene

            found.append(_way(base, built, words, change, (0,) * cases, 1))
    return found


def _tiles(base: Build, document: Project, name: str, progress: Progress | None) -> tuple[Way, ...]:
    """Return a plane's tiles: as they are, and every other size, tried by building; the rearmost plane's
    each with its holes clear and filled with the backdrop.
    """
    scene = document.scene(base.scene.name)
    place = scene.plane_number(name)
    plane, parts = scene.planes[place], parts_of(base.scene, name)
    ways = [_way(base, base, "", as_it_is, _plane_units(base, parts), 0)]
    held = base.target.holes
    seen = {(_real(base, parts, plane.tile), held)}
    for count, tile in enumerate((plane.tile, *TILES)):
        if progress is not None:
            progress(f"plane {name}", place * len(TILES) + count, len(scene.planes) * len(TILES))
        for holes in _holes(base, parts):
            if (_real(base, parts, tile), holes) in seen:
                continue
            seen.add((_real(base, parts, tile), holes))

            def change(
                target: Target, scene: Scene, tile: tuple[int, int] = tile, holes: str = holes
            ) -> tuple[Target, Scene]:
                planes = tuple(replace(p, tile=tile) if p.name == name else p for p in scene.planes)
                return replace(target, holes=holes) if 0 in parts else target, replace(scene, planes=planes)

            built = build_as(base, document, *change(base.target, scene))
            words = f"plane {name}: {_told(plane.tile, tile, holes if holes != held else '')}"
            ways.append(_way(base, built, words, change, _plane_units(built, parts), 1))
    return tuple(ways)


def _told(old: tuple[int, int], tile: tuple[int, int], holes: str) -> str:
    """Return in words which tiles a plane gets, and what becomes of its holes."""
    told = [] if tile == old else [f"tiles of {tile[0]} x {tile[1]} px instead of {old[0]} x {old[1]}"]
    filled = "holes filled with the backdrop, drawn opaque"
    return ", ".join([*told, *([filled if holes == "filled" else "holes left clear"] if holes else [])])


def _holes(base: Build, parts: Sequence[int]) -> tuple[str, ...]:
    """Return what can become of the holes of a plane: of those in front, nothing else than what is."""
    key = (base.scene.name, base.scene.planes[0].name)
    if list(parts) != [0] or base.reduced.turning.get(key):
        return (base.target.holes,)
    return HOLES if np.any(base.reduced.planes[key] == base.reduced.transparent) else (base.target.holes,)


def parts_of(expanded: Scene, name: str) -> list[int]:
    """Return the numbers of the planes that a plane of the document becomes: itself, or its bands."""
    names = [plane.name for plane in expanded.planes]
    if name in names:
        return [names.index(name)]
    return [number for number, part in enumerate(names) if part.startswith(f"{name[:34]}-band")]


def _real(base: Build, parts: Sequence[int], tile: tuple[int, int]) -> tuple[tuple[int, int], ...]:
    """Return the tiles that the parts of a plane get, which are no larger than their pictures."""
    cuts = [base.pieces.planes[number] for number in parts]
    return tuple((min(tile[0], cut.width_px), min(tile[1], cut.height_px)) for cut in cuts)


def build_as(base: Build, document: Project, target: Target, scene: Scene) -> Build:
    """Build a changed scene for a changed target, with all that stays the same."""
    return run_stages(changed_project(document, target, scene), target.name, scene.name, shared=base)


def changed_project(project: Project, target: Target, scene: Scene) -> Project:
    """Return a project with a target and a scene in the place of its own."""
    targets = tuple(target if old.name == target.name else old for old in project.targets)
    return replace(project, targets=targets, scenes=put(project.scenes, scene))


def _rebuilt(base: Build, document: Project, target: Target) -> Build | None:
    """Return the build for a changed target, or None where that cannot be."""
    try:
        return build_as(base, document, target, document.scene(base.scene.name))
    except SceneKitError:
        return None


def _plane_units(build: Build, parts: Sequence[int]) -> tuple[int, ...]:
    """Return the times of a plane's parts together, of each case; the rearmost with its backdrop."""
    places, _ = cases_of(build)
    prices, counter = build.machine.costs_in(build.mode.name), counter_of(build.planner)
    total = np.zeros(len(places[0]))
    for number in parts:
        total += plane_times(counter, build.scene, number, (places[0], places[1]), prices)[0]
        if number == 0 and build.planner.clears:
            total += time_us([build.planner.clear_work(build.size)], prices)
    return tuple(np.rint(total * UNITS_PER_US).astype(np.int64).tolist())


def _turning(base: Build, turned: Build, prices: PriceList) -> tuple[int, ...]:
    """Return what another way to mirror adds in each case, with the tiles that planes have now."""
    sprites = round((_sprite_us(turned, prices) - _sprite_us(base, prices)) * UNITS_PER_US)
    numbers = range(len(base.scene.planes))
    return tuple(
        new - old + sprites
        for new, old in zip(_plane_units(turned, numbers), _plane_units(base, numbers), strict=True)
    )


def _sprite_us(build: Build, prices: PriceList) -> float:
    held = sprite_numbers(build.scene, {})
    return time_us(sprite_work(build.project, build.planner, prices, held), prices)


def _way(
    base: Build,
    built: Build,
    words: str,
    apply: Callable[[Target, Scene], tuple[Target, Scene]],
    times: Sequence[int],
    changes: int,
) -> Way:
    memory = tuple(
        new.used_bytes - old.used_bytes for new, old in zip(built.memory, base.memory, strict=True)
    )
    option = Option(name=words or "as it is", times=tuple(times), memory=memory, changes=changes)
    return Way(option=option, words=words, apply=apply)
