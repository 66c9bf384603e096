"""A palette being filled: what is reserved, what is free, and which colours get in."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.clusters import choose, nearest, squared_distance
from scenekit.colour.depth import Depth
from scenekit.colour.fixed_oklab import bytes_to_fixed, fixed_to_bytes
from scenekit.colour.histogram import Packed, Whole, binned, pack, unpack
from scenekit.errors import PaletteError

Colour = tuple[int, int, int]

_LARGEST_MASS = 1 << 26
"""Weights are halved until their sum is below this, so that sums stay exact."""


@dataclass(slots=True, kw_only=True)
class Filling:
    """A palette being filled.

    reserved          locked entries that may be drawn, rising
    reserved_colours  their colours, not rounded to the depth
    free              entries to fill, or filled by a given palette
    held              entries that hold a colour
    """

    depth: Depth
    transparent: int
    palette: NDArray[np.uint8]
    reserved: tuple[int, ...]
    reserved_colours: Packed
    free: list[int]
    held: set[int]
    given: bool

    def usable(self, share_locked: bool) -> list[int]:
        """Return the entries that any opaque pixel may take, rising."""
        free = [entry for entry in self.free if entry in self.held]
        return sorted({*free, *self.reserved}) if share_locked else free


def filling(
    entries: int,
    depth: Depth,
    transparent: int,
    locked: Mapping[int, Colour],
    given: Sequence[Colour] | None,
    allowed: Sequence[int] | None,
) -> Filling:
    """Return a palette with its locked and given colours in place.

    raises  PaletteError: sizes, entries or colours that do not fit
    """
    _check_sizes(entries, transparent, locked, given, allowed)
    palette = np.zeros((entries, 3), dtype=np.uint8)
    held = {transparent, *locked}
    if given is not None:
        for entry, colour in enumerate(given):
            palette[entry] = _checked(colour, f"given colour {entry}")
            held.add(entry)
    for entry, colour in locked.items():
        palette[entry] = _checked(colour, f"locked entry {entry}")
    reserved = tuple(entry for entry in sorted(locked) if entry != transparent)
    reserved_colours = pack(palette[list(reserved)])
    usable = set(range(entries) if given is None else range(len(given)))
    if allowed is not None:
        usable &= set(allowed)
    return Filling(
        depth=depth,
        transparent=transparent,
        palette=depth.round_trip(palette),
        reserved=reserved,
        reserved_colours=reserved_colours,
        free=[entry for entry in sorted(usable) if entry != transparent and entry not in locked],
        held=held,
        given=given is not None,
    )


def _check_sizes(
    entries: int,
    transparent: int,
    locked: Mapping[int, Colour],
    given: Sequence[Colour] | None,
    allowed: Sequence[int] | None,
) -> None:
    if not 2 <= entries <= 256:
        raise PaletteError(f"palette: {entries} entries; allowed 2 to 256")
    if len(locked) > entries:
        raise PaletteError(f"palette: {len(locked)} locked entries; the palette has {entries}")
    if given is not None and len(given) > entries:
        raise PaletteError(f"palette: {len(given)} given colours; the palette has {entries} entries")
    for name, numbers in (
        ("transparent", [transparent]),
        ("locked", sorted(locked)),
        ("allowed", allowed or []),
    ):
        for entry in numbers:
            if not 0 <= entry < entries:
                raise PaletteError(f"palette: {name} entry {entry}; allowed 0 to {entries - 1}")


def _checked(colour: Colour, name: str) -> Colour:
    if len(colour) != 3 or not all(0 <= int(part) <= 255 for part in colour):
        raise PaletteError(f"palette: {name} is {tuple(colour)!r}; allowed three numbers 0 to 255")
    return colour


def fill(plan: Filling, colours: Packed, mass: Whole, share_locked: bool) -> None:
    """Give the free entries their colours, the most used first."""
    if plan.given or not colours.size:
        if colours.size and not plan.free and not (share_locked and plan.reserved):
            raise PaletteError("palette: opaque pixels, but the given colours leave no entry for them")
        return
    if not plan.free:
        if share_locked and plan.reserved:
            return
        raise PaletteError(
            f"palette: {colours.size} colours, but all {len(plan.palette)} entries are transparent or locked"
        )
    rounded, where = np.unique(pack(plan.depth.round_trip(unpack(colours))), return_inverse=True)
    amounts = np.zeros(len(rounded), dtype=np.int64)
    np.add.at(amounts, where, mass)
    if len(rounded) > len(plan.free):
        fixed = (
            bytes_to_fixed(plan.palette[list(plan.reserved)]) if share_locked else np.zeros((0, 3), np.int64)
        )
        rounded, amounts = _few(plan.depth, colours, mass, len(plan.free), fixed)
    order = np.lexsort((rounded, -amounts))
    for entry, colour in zip(plan.free, unpack(rounded[order]), strict=False):
        plan.palette[entry] = colour
        plan.held.add(entry)


def _few(depth: Depth, colours: Packed, mass: Whole, count: int, fixed: Whole) -> tuple[Packed, Whole]:
    """Return at most `count` colours of the depth and the weight each serves."""
    while int(mass.sum()) > _LARGEST_MASS + len(mass):
        mass = np.maximum(mass >> 1, 1)
    points, weights = binned(colours, mass)
    chosen = np.unique(pack(depth.round_trip(fixed_to_bytes(choose(points, weights, count, fixed)))))
    for _ in range(4):
        spare = count - len(chosen)
        if spare <= 0:
            break
        chosen = _widen(depth, colours, mass, chosen, fixed, spare)
    served = nearest(points, np.vstack([bytes_to_fixed(unpack(chosen)), fixed]))
    amounts = np.bincount(served, weights, len(chosen))[: len(chosen)].astype(np.int64)
    return chosen[amounts > 0], amounts[amounts > 0]


def _widen(depth: Depth, colours: Packed, mass: Whole, chosen: Packed, fixed: Whole, spare: int) -> Packed:
    """Add the colours that are served worst, weighted by use, when rounding made chosen ones equal."""
    points = bytes_to_fixed(unpack(colours))
    centres = np.vstack([bytes_to_fixed(unpack(chosen)), fixed])
    loss = squared_distance(points, centres[nearest(points, centres)]) * mass
    wanted, where = np.unique(pack(depth.round_trip(unpack(colours))), return_inverse=True)
    total = np.zeros(len(wanted), dtype=np.int64)
    np.add.at(total, where, loss)
    total[np.isin(wanted, chosen)] = 0
    order = np.lexsort((wanted, -total))[:spare]
    return np.union1d(chosen, wanted[order[total[order] > 0]])


def entries_of(plan: Filling, colours: Packed, share_locked: bool) -> NDArray[np.uint8]:
    """Return the entry of each colour: a locked one of that very colour, one that shows it, the nearest."""
    usable = plan.usable(share_locked)
    out = np.zeros(len(colours), dtype=np.uint8)
    open_ones = np.ones(len(colours), dtype=bool)
    shown = pack(plan.depth.round_trip(unpack(colours)))
    for keys, entries, wanted in (
        (plan.reserved_colours, plan.reserved, colours),
        (pack(plan.palette[usable]), usable, shown),
    ):
        if not len(entries):
            continue
        values, first = np.unique(keys, return_index=True)
        at = np.minimum(np.searchsorted(values, wanted), len(values) - 1)
        hit = open_ones & (values[at] == wanted)
        out[hit] = np.array(entries, dtype=np.uint8)[first[at[hit]]]
        open_ones &= ~hit
    if open_ones.any():
        centres = bytes_to_fixed(plan.palette[usable])
        served = nearest(bytes_to_fixed(unpack(colours[open_ones])), centres)
        out[open_ones] = np.array(usable, dtype=np.uint8)[served]
    return out
