"""Art after colour reduction: entry numbers for every picture, and the palette of the target."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from scenekit.colour.depth import OPAQUE_ALPHA, Depth
from scenekit.colour.dither import Dither
from scenekit.colour.fixed_oklab import bytes_to_fixed
from scenekit.colour.histogram import Mask
from scenekit.colour.quantise import Reduction
from scenekit.errors import PaletteError
from scenekit.images.art import Art
from scenekit.images.grouped import reduce_groups
from scenekit.images.recolouring import Change, Turning, changes_of, turnings
from scenekit.images.weights import screen_weights, seen_parts
from scenekit.model.arrays import Indices, Pixels
from scenekit.model.palette import Colour
from scenekit.model.project import Project
from scenekit.model.scene import Scene

MOST_ENTRIES = 256


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReducedArt:
    """A project's pictures as palette entries.

    palette      (entries, 3) uint8, as the display shows it
    used         number of entries that hold a colour
    transparent  entry that is never drawn
    backdrops    entry of each scene's backdrop
    covers       entry of each colour that transitions, panels and bars fill with
    cycles       for every scene
    changes      palette events by scene
    mean_error   mean CIEDE2000 of all opaque pixels that are seen against their own colours
    turning      cells of maps whose frames take turns (see tiles.turning), by (scene, plane)
    counts, entry_error, picture_error   pixels seen on each entry, and the mean error by entry and by picture
                 of which anything is seen
    """

    palette: np.ndarray[tuple[int, int], np.dtype[np.uint8]]
    used: int
    transparent: int
    sheets: dict[str, Indices]
    planes: dict[tuple[str, str], Indices]
    backdrops: dict[str, int]
    covers: dict[Colour, int]
    cycles: tuple[Turning, ...]
    changes: dict[str, tuple[Change, ...]]
    mean_error: float
    counts: tuple[int, ...]
    entry_error: tuple[float, ...]
    picture_error: dict[str, float]
    turning: dict[tuple[str, str], tuple[tuple[int, int, int, int, int], ...]] = field(default_factory=dict)

    def palette_at(self, scene: str, tick: int) -> np.ndarray[tuple[int, int], np.dtype[np.uint8]]:
        """Return the palette at a tick: its base, then cycles, then events."""
        palette = self.palette.copy()
        for cycle in self.cycles:
            run = slice(cycle.first, cycle.first + cycle.count)
            palette[run] = np.roll(self.palette[run], cycle.shift_at(tick), axis=0)
        for change in self.changes[scene]:
            done = change.done_at(tick)
            if done:
                palette[list(change.entries)] = change.colours[done - 1]
        return palette


def reduce_art(
    project: Project,
    art: Art,
    *,
    entries: int,
    depth: Depth,
    transparent: int,
    given: tuple[Colour, ...] = (),
    reserved: Mapping[int, Colour] | None = None,
    dither: Dither | None = None,
    view: tuple[int, int] = (320, 200),
) -> ReducedArt:
    """Reduce all art of a project to one palette.

    Colours of cycles and events keep entries of their own; where a small palette cannot hold all
    colours of events, close ones are merged first.
    reserved   entries that art takes only where it has exactly that colour
    view       (width, height) in pixels: pictures count by their share of it
    raises     PaletteError: the entries do not suffice
    """
    own = dict(reserved or {})
    locked, merged = _locked(project, entries, {transparent, *own})
    locked |= own
    flat = _filled_with(project)
    pictures = [
        _merge(p, merged) for p in (*art.sheets.values(), *art.planes.values(), *map(_one_pixel, flat))
    ]
    seen = (*seen_parts(project, art), *(None for _ in flat))
    reduction = reduce_groups(
        pictures,
        [*(s.bank for s in project.sheets), *plane_banks(project, art), *("" for _ in flat)],
        entries=entries,
        depth=depth,
        transparent=transparent,
        locked=locked,
        weights=[*screen_weights(project, art, view), *(1 for _ in flat)],
        seen=seen,
        given=given,
        dither=dither,
    )
    by_colour = {colour: entry for entry, colour in locked.items()}
    used = [e for e, n in enumerate(reduction.counts) if n and e != transparent]
    changes = {
        scene.name: changes_of(scene, by_colour, merged, depth, reduction.palette, used)
        for scene in project.scenes
    }
    opaque = [_opaque(picture, part) for picture, part in zip(pictures, seen, strict=True)]
    return _taken_apart(
        project, art, flat, opaque, reduction, transparent, turnings(project, by_colour), changes
    )


def _taken_apart(
    project: Project,
    art: Art,
    flat: Sequence[Colour],
    opaque: Sequence[int],
    reduction: Reduction,
    transparent: int,
    cycles: tuple[Turning, ...],
    changes: dict[str, tuple[Change, ...]],
) -> ReducedArt:
    """Return reduced art by sheet, plane and colour; it was reduced as one list in this order.

    opaque   pixels of each picture that are opaque and seen
    """
    sheets, planes = len(art.sheets), len(art.sheets) + len(art.planes)
    indices = reduction.indices
    entry_of = {colour: int(entry[0, 0]) for colour, entry in zip(flat, indices[planes:], strict=True)}
    names = picture_names(art)
    weights = [error * size for error, size in zip(reduction.mean_error, opaque, strict=True)]
    return ReducedArt(
        palette=reduction.palette,
        used=reduction.used,
        transparent=transparent,
        sheets=dict(zip(art.sheets, indices[:sheets], strict=True)),
        planes=dict(zip(art.planes, indices[sheets:planes], strict=True)),
        backdrops={scene.name: entry_of[scene.backdrop] for scene in project.scenes},
        covers={colour: entry_of[colour] for scene in project.scenes for colour in flat_colours(scene)},
        cycles=cycles,
        changes=changes,
        mean_error=sum(weights) / max(1, sum(opaque)),
        counts=reduction.counts,
        entry_error=reduction.entry_error,
        picture_error={name: reduction.mean_error[n] for n, name in enumerate(names) if opaque[n]},
    )


def _opaque(picture: Pixels, seen: Mask | None) -> int:
    """Return how many opaque pixels of a picture are seen."""
    opaque = picture[..., 3] >= OPAQUE_ALPHA
    return int(np.count_nonzero(opaque if seen is None else opaque & seen))


def picture_names(art: Art) -> list[str]:
    """Return what messages call each sheet, then each plane."""
    names = [f"sheet {name}" for name in art.sheets]
    return names + [f"scene {scene}: plane {plane}" for scene, plane in art.planes]


def plane_banks(project: Project, art: Art) -> list[str]:
    """Return the bank of each plane, in the order of the art."""
    banks = {(scene.name, plane.name): plane.bank for scene in project.scenes for plane in scene.planes}
    return [banks[key] for key in art.planes]


def flat_colours(scene: Scene) -> list[Colour]:
    """Return the colours that a scene fills boxes with: transitions, panel, bars."""
    colours = [transition.colour for transition in scene.transitions]
    if scene.panel is not None:
        colours.append(scene.panel.colour)
        colours += [item.colour for item in scene.panel.items if item.kind == "bar"]
    return colours


def _filled_with(project: Project) -> list[Colour]:
    """Return the colours that are filled with: every backdrop, then those of `flat_colours`."""
    backdrops = [scene.backdrop for scene in project.scenes]
    return [*backdrops, *(colour for scene in project.scenes for colour in flat_colours(scene))]


def _one_pixel(colour: Colour) -> Pixels:
    return np.array([[[*colour, 255]]], dtype=np.uint8)


def _locked(
    project: Project, entries: int, taken: set[int]
) -> tuple[dict[int, Colour], dict[Colour, Colour]]:
    """Return the locked entries, and which event colours another one stands for."""
    cycling = [colour for cycle in project.cycles for colour in cycle.colours]
    if len(set(cycling)) != len(cycling):
        raise PaletteError("cycles: a colour stands in two cycles; each colour can turn in one only")
    events = [c for scene in project.scenes for event in scene.events for c in event.colours]
    changing = [colour for colour in dict.fromkeys(events) if colour not in cycling]
    room = max(1, (entries - len(taken) - len(cycling)) // 3)
    merged = _merge_close(changing, room) if len(changing) > room else {}
    kept = [colour for colour in changing if colour not in merged]
    free = [entry for entry in range(entries) if entry not in taken]
    runs = [len(cycle.colours) for cycle in project.cycles]
    if len(cycling) + len(kept) >= len(free):
        raise PaletteError(
            f"palette: {len(cycling)} colours of cycles and {len(kept)} of events leave no entry of "
            f"{entries} for the art; use a mode with more entries or shorter cycles"
        )
    placed = _contiguous(free, runs) if runs else []
    rest = [entry for entry in free if entry not in placed]
    # Locked entries stand at the end, so that the art's own colours come first.
    tail = rest[len(rest) - len(kept) :] if kept else []
    return {**dict(zip(placed, cycling, strict=True)), **dict(zip(tail, kept, strict=True))}, merged


def _contiguous(free: list[int], runs: list[int]) -> list[int]:
    """Return entries for runs of cycles, each run without a gap, as high as possible."""
    placed: list[int] = []
    end = free[-1] + 1
    for length in reversed(runs):
        start = end - length
        while start >= 0 and any(entry not in free for entry in range(start, start + length)):
            start -= 1
        if start < 0:
            raise PaletteError(f"palette: no run of {length} entries side by side is free for a cycle")
        placed = [*range(start, start + length), *placed]
        end = start
    return placed


def _merge_close(colours: list[Colour], room: int) -> dict[Colour, Colour]:
    """Merge the closest pair again and again until `room` colours are left; the earlier one stays."""
    oklab = bytes_to_fixed(np.array(colours, dtype=np.uint8))
    kept = list(range(len(colours)))
    stands_for = {number: number for number in kept}
    while len(kept) > room:
        pairs = [
            (int(((oklab[a] - oklab[b]) ** 2).sum()), a, b) for i, a in enumerate(kept) for b in kept[i + 1 :]
        ]
        _, a, b = min(pairs)
        kept.remove(b)
        stands_for = {n: a if s == b else s for n, s in stands_for.items()}
    return {colours[n]: colours[s] for n, s in stands_for.items() if n != s}


def _merge(pixels: Pixels, merged: dict[Colour, Colour]) -> Pixels:
    if not merged:
        return pixels
    result = pixels.copy()
    for old, new in merged.items():
        hit = (pixels[..., :3] == old).all(axis=-1) & (pixels[..., 3] >= OPAQUE_ALPHA)
        result[hit, :3] = new
    return result
