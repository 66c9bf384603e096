"""What a benchmark times: each measure with the work that one turn of it does."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from scenekit.build import Build
from scenekit.plan.stepwork import step_counts
from scenekit.plan.work import Work

EMPTY, PIECE, PLANE, SPRITE, FILL, PAGE, STEP, PALETTE, LOOK, BOX, ADD, MOVE, MAPS, CELLS = range(14)
SCROLLS = ((0, 0), (5, 3), (37, 11))
FAR_SCROLLS = ((0, 0), (30_000, 0), (37, 11))
AWAY = ((500, 0), (500, 500), (-8, 8))
"""Places from which a plane that does not repeat shows rows without cells, nothing, and a part."""

SHORT_MOVES = ((1, 0), (2, 0), (4, 0), (-1, 0), (-2, 0), (-4, 0), (0, 1), (1, -1))
"""How far a picture is moved in one turn, as games do it; how long that takes can depend on it by much."""

STEP_TICKS = 60
LOOP = "loop"
"""The turn of the loop around each measure; fitted with the costs, and left out of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One thing that is timed.

    kind   which part of the benchmark's routine does it
    terms  its four parameters
    work   (operation, part) -> how often in one turn; part is "call", "row" or "pixel"
    words  what it is, for people
    """

    kind: int
    terms: tuple[int, int, int, int]
    work: tuple[tuple[tuple[str, str], float], ...]
    words: str


def measures_of(build: Build) -> tuple[Measure, ...]:
    """Return everything that the benchmark of a build times, in order."""
    return tuple(
        measure
        for part in (_plain, _pieces, _planes, _sprites, _steps, _changes, _maps)
        for measure in part(build)
    )


def _measure(kind: int, terms: Sequence[int], work: Sequence[Work], words: str) -> Measure:
    sums: dict[tuple[str, str], float] = {}
    for item in work:
        for part, amount in (("call", item.calls), ("row", item.rows), ("pixel", item.pixels)):
            if amount and _counts(item.operation, part):
                sums[item.operation, part] = sums.get((item.operation, part), 0.0) + amount
    padded = (*terms, 0, 0, 0, 0)
    return Measure(
        kind=kind,
        terms=(padded[0], padded[1], padded[2], padded[3]),
        work=tuple(sorted(sums.items())),
        words=words,
    )


def _counts(operation: str, part: str) -> bool:
    """Say whether a part of an operation has a cost of its own; rows of runs are their calls."""
    if part == "call":
        return True
    if operation.startswith("blit") or operation == "move":
        return True
    return part == "pixel" and operation in ("run", "fill")


def _work(operation: str, calls: int = 1, rows: int = 0, pixels: int = 0) -> Work:
    return Work(name="", operation=operation, calls=calls, rows=rows, pixels=pixels)


def _plain(build: Build) -> Iterator[Measure]:
    yield _measure(EMPTY, (), (), "an empty turn")
    width, height = build.planner.view
    for w, h in ((8, 8), (64, 8), (8, 64), (width, height), (width // 2, height)):
        yield _measure(FILL, (0, 0, w, h), (_work("fill", 1, h, w * h),), f"box of {w} x {h} px")
    entries = (_work("entry", build.planner.moving),) if build.abilities.recolours else ()
    page = [_work("page"), *_looked(build)]
    yield _measure(PAGE, (0,), page, "an empty picture")
    if build.abilities.recolours:
        words = "an empty picture, entries looked at"
        yield _measure(PAGE, (build.planner.moving,), (*page, *entries), words)
        yield _measure(PALETTE, (), (_work("palette"), *entries), "an entry written")


def _pieces(build: Build) -> Iterator[Measure]:
    """Pieces of every size: whole, mirrored and cut; the frames, and one tile of each plane."""
    planner, pieces = build.planner, build.pieces
    view_w, view_h = planner.view
    tiles = [next(cell // 4 for cell in cells if cell >= 0) for cells in pieces.maps]
    frames = range(pieces.tiles, len(pieces.pictures))
    flips = sorted(build.abilities.flips) if build.scheme.copies else [0, 1, 2, 3]
    if build.scheme.copies:
        yield _measure(PIECE, (frames[0], view_w + 8, 8, 0), (_work("piece"),), "piece out of view")
    for piece in (*dict.fromkeys(tiles), *frames):
        h, w = pieces.pictures[piece].shape
        if w > view_w or h > view_h:
            continue
        flip = flips[1 + piece % (len(flips) - 1)] if len(flips) > 1 else 0
        places = [(4, 2, 0), (4, 2, flip)] if flip else [(4, 2, 0)]
        if piece % 2:
            places += [(-(w // 2), 2, 0), (4, view_h - h // 2, flip)]
        for x, y, turned in places:
            work = [_work("piece"), *planner.piece_work(piece, x, y, turned)]
            yield _measure(PIECE, (piece, x, y, turned), work, f"piece of {w} x {h} px at {x}, {y}")


def _planes(build: Build) -> Iterator[Measure]:
    for number, plane in enumerate(build.scene.planes):
        in_file = build.windows[number] is not None
        for scroll in FAR_SCROLLS if in_file else SCROLLS if plane.wrap[0] else AWAY:
            work = build.planner.plane_work(number, scroll)
            yield _measure(PLANE, (number, *scroll), work, f"plane {plane.name} at {scroll[0]}, {scroll[1]}")


def _sprites(build: Build) -> Iterator[Measure]:
    shown = build.planner.looks.at(0)
    for number in range(0, len(shown), 3):
        work = build.planner.sprite_work(shown[number])
        yield _measure(SPRITE, (number,), work, f"sprite {build.scene.placed[number].name}")


def _steps(build: Build) -> Iterator[Measure]:
    planes, sprites = len(build.scene.planes), len(build.scene.placed)
    few = sprites // 3
    for p, s, cycles in ((1, 0, 0), (planes, 0, 0), (1, few, 0), (1, sprites, 0), (planes, sprites, 1)):
        scene = replace(build.scene, planes=build.scene.planes[:p], placed=build.scene.placed[:s])
        art = replace(build.reduced, cycles=build.reduced.cycles[:cycles])
        work = [_work(name, count) for name, count in step_counts(scene, art, 0, STEP_TICKS).items()]
        measure = _measure(STEP, (p, s, cycles), work, f"a tick of {p} planes and {s} sprites")
        shares = tuple((key, amount / STEP_TICKS) for key, amount in measure.work)
        yield replace(measure, work=shares)


def _looked(build: Build) -> list[Work]:
    """Return the work of a picture that nothing changed of, beside its page."""
    planes, sprites = len(build.scene.planes), len(build.scene.placed)
    maps = [_work("map-plane", sum(window is not None for window in build.windows))]
    return [*(_seen(planes, sprites) if build.changes else ()), *(maps if build.extras.map_file else ())]


def _seen(planes: int, sprites: int) -> tuple[Work, ...]:
    return _work("changes"), _work("seen-plane", planes), _work("seen-sprite", sprites)


def _changes(build: Build) -> Iterator[Measure]:
    """Pictures looked at for changes, boxes that are added and drawn, pictures moved along."""
    if not build.changes:
        return
    (width, height), planes, sprites = build.planner.view, len(build.scene.planes), len(build.scene.placed)
    for p, s in ((1, 0), (planes, 0), (1, sprites), (planes, sprites)):
        words = f"{p} planes and {s} sprites looked at for changes"
        yield _measure(LOOK, (p, s), _seen(p, s), words)
    clears = [build.planner.clear_work((16, 16))] if build.planner.clears else []
    for x, p, s in ((0, 0, 0), (8, 1, 0), (8, planes, 0), (0, 0, 3), (0, 0, 6)):
        work = [*clears, _work("box"), _work("box-sprite", s), _work("box-plane", 2 * p if x else 0)]
        yield _measure(BOX, (x, 0, p, s), work, f"a box of {p} planes and {s} sprites")
    for boxes in (0, 1, 6, 20):
        work = [_work("box-added"), _work("box-pair", boxes)]
        yield _measure(ADD, (boxes,), work, f"a box added to {boxes}")
    for across, down in ((1, 1), (2, 1), (1, 2), (2, 2), (1, 4), (4, 4)):
        w, h = width // across, height // down
        sides = [(w - abs(x), h - abs(y)) for x, y in SHORT_MOVES]
        work = [_work("move", 1, high, wide * high) for wide, high in sides]
        yield _measure(MOVE, (w, h), work, f"picture of {w} x {h} px moved to all sides")


def _maps(build: Build) -> Iterator[Measure]:
    """Cells that are read from a map in a file."""
    for number, window in enumerate(build.windows):
        if window is not None:
            yield _measure(MAPS, (), [_work("map-plane")], "a map in a file looked at")
            for cells, asked in ((window[0], window[0]), (max(1, window[0] // 2),) * 2, (window[1], 0)):
                work = [_work("map-cell", cells)]
                yield _measure(CELLS, (number, asked), work, f"{cells} cells of a map read from a file")
