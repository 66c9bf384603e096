"""Reduction of pictures in groups: those of one bank share entries that others do not use."""

from collections.abc import Mapping, Sequence

import numpy as np

from scenekit.colour.banks import Bank, reduce_banks
from scenekit.colour.depth import Depth
from scenekit.colour.dither import Dither, dither_reduction
from scenekit.colour.histogram import Mask
from scenekit.colour.quantise import Reduction, reduce_pictures
from scenekit.errors import PaletteError
from scenekit.model.arrays import Pixels
from scenekit.model.palette import Colour


def reduce_groups(
    pictures: Sequence[Pixels],
    banks: Sequence[str],
    *,
    entries: int,
    depth: Depth,
    transparent: int,
    locked: Mapping[int, Colour],
    weights: Sequence[int],
    seen: Sequence[Mask | None],
    given: Sequence[Colour],
    dither: Dither | None,
) -> Reduction:
    """Reduce pictures to one palette; each named bank fills entries of its own.

    banks   name of each picture's bank, "" for the common one
    seen    (H, W) of the pixels of each picture that count, or None for all of it
    raises  PaletteError: a given palette together with banks, or entries that do not suffice
    """
    parted = any(part is not None for part in seen)
    if not any(banks):
        whole = reduce_pictures(
            pictures,
            entries=entries,
            depth=depth,
            transparent=transparent,
            locked=locked,
            weights=weights,
            seen=seen if parted else None,
            given=given or None,
        )
        return whole if dither is None else dither_reduction(pictures, whole, dither, seen)
    if given:
        raise PaletteError("palette: a given palette has no banks; leave out one of the two")
    members = {name: [n for n, bank in enumerate(banks) if bank == name] for name in dict.fromkeys(banks)}
    groups = [
        Bank(
            name=name or "common",
            pictures=tuple(pictures[n] for n in numbers),
            weights=tuple(weights[n] for n in numbers),
            seen=tuple(seen[n] for n in numbers) if parted else (),
        )
        for name, numbers in members.items()
    ]
    found = reduce_banks(groups, entries=entries, depth=depth, transparent=transparent, locked=locked)
    parts = [found.reductions[group.name] for group in groups]
    if dither is not None:
        dithered = zip(groups, parts, strict=True)
        parts = [dither_reduction(g.pictures, part, dither, g.seen or None) for g, part in dithered]
    return _joined(list(members.values()), parts, found.palette)


def _joined(members: list[list[int]], parts: list[Reduction], palette: Pixels) -> Reduction:
    """Return the reductions of all banks as one, its pictures in their own order."""
    count = sum(len(numbers) for numbers in members)
    indices, errors = [palette] * count, [0.0] * count
    for numbers, part in zip(members, parts, strict=True):
        for n, picture, error in zip(numbers, part.indices, part.mean_error, strict=True):
            indices[n], errors[n] = picture, error
    counts = np.sum([part.counts for part in parts], axis=0)
    weighted = np.sum([np.multiply(part.counts, part.entry_error) for part in parts], axis=0)
    mean = weighted / np.maximum(counts, 1)
    return Reduction(
        palette=palette,
        used=int(np.count_nonzero(counts)),
        indices=tuple(indices),
        counts=tuple(int(n) for n in counts),
        entry_error=tuple(float(e) for e in mean),
        mean_error=tuple(errors),
        open_entries=tuple(sorted({entry for part in parts for entry in part.open_entries})),
        exact=all(part.exact for part in parts),
    )
