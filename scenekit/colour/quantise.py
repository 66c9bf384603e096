"""Reduction of pictures to one palette of a display mode."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.clusters import choose, middles, nearest
from scenekit.colour.depth import OPAQUE_ALPHA, Depth
from scenekit.colour.difference import byte_difference
from scenekit.colour.fixed_oklab import bytes_to_fixed, fixed_to_bytes
from scenekit.errors import PaletteError

Pixels = NDArray[np.uint8]
Packed = NDArray[np.uint32]
Whole = NDArray[np.int64]
Colour = tuple[int, int, int]

_FEW_COLOURS = 16384
"""Up to so many different colours the choice looks at each; above, at means of close ones."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reduction:
    """Pictures as entries of one palette.

    palette     (entries, 3) uint8 sRGB as the depth shows it, read-only; unused entries are black
    used        entries that hold a colour, the transparent and the locked ones included
    indices     (H, W) uint8 for each picture, read-only
    counts      opaque pixels of all pictures on each entry; the transparent entry counts its pixels
    mean_error  for each picture, mean CIEDE2000 over opaque pixels against the picture's own colours,
                to six digits
    exact       True when each opaque pixel shows its own colour, rounded to the depth
    """

    palette: NDArray[np.uint8]
    used: int
    indices: tuple[NDArray[np.uint8], ...]
    counts: tuple[int, ...]
    mean_error: tuple[float, ...]
    exact: bool


def reduce_pictures(
    pictures: Sequence[Pixels],
    *,
    entries: int,
    depth: Depth,
    transparent: int = 0,
    locked: Mapping[int, Colour] | None = None,
    weights: Sequence[int] | None = None,
    given: Sequence[Colour] | None = None,
    share_locked: bool = False,
) -> Reduction:
    """Reduce pictures to one palette, chosen in Oklab over opaque pixels.

    pictures      each (H, W, 4) uint8
    entries       size of the palette, 2 to 256
    depth         what the palette can hold; every entry is rounded to it
    transparent   entry of pixels with alpha below OPAQUE_ALPHA; no opaque pixel takes it
    locked        entries with a colour of their own; an opaque pixel takes one only when its
                  colour is exactly that, the lowest such entry first
    weights       how much each picture counts, at least 1; default 1 each
    given         colours of entries 0, 1, 2 ... instead of chosen ones; locked entries win
    share_locked  lets other opaque pixels fall on locked entries too, where they are nearest
    raises        PaletteError: sizes, entries or colours that do not fit
    """
    plan = _plan(entries, depth, transparent, locked or {}, given)
    shares = _shares(pictures, weights)
    tallies = [_tally(picture, index) for index, picture in enumerate(pictures)]
    colours, mass = _merge(tallies, shares)
    loose = ~np.isin(colours, plan.reserved_packed)
    _fill(plan, colours[loose], mass[loose], share_locked)
    entry_of = _entries_of(plan, colours, share_locked)
    table = np.zeros(1 << 24, dtype=np.uint8)
    table[colours] = entry_of
    indices = tuple(_index(picture, table, transparent) for picture in pictures)
    counts = sum((np.bincount(part.ravel(), minlength=entries) for part in indices), np.zeros(entries, int))
    palette = plan.palette.copy()
    palette.flags.writeable = False
    shown = palette[entry_of]
    errors = byte_difference(unpack(colours), shown)
    return Reduction(
        palette=palette,
        used=len(plan.held),
        indices=indices,
        counts=tuple(int(count) for count in counts),
        mean_error=tuple(_mean_error(tally, colours, errors) for tally in tallies),
        exact=bool(np.array_equal(shown, depth.round_trip(unpack(colours)))),
    )


def pack(rgb: NDArray[np.uint8]) -> Packed:
    """Return colours (..., 3) uint8 as numbers 0xRRGGBB."""
    wide = rgb.astype(np.uint32)
    return np.asarray((wide[..., 0] << 16) | (wide[..., 1] << 8) | wide[..., 2], dtype=np.uint32)


def unpack(packed: Packed) -> NDArray[np.uint8]:
    """Return numbers 0xRRGGBB as colours (..., 3) uint8."""
    return np.stack([packed >> 16, packed >> 8, packed], axis=-1).astype(np.uint8)


@dataclass(slots=True, kw_only=True)
class _Plan:
    """A palette being filled."""

    depth: Depth
    transparent: int
    palette: NDArray[np.uint8]
    reserved: tuple[int, ...]
    reserved_packed: Packed
    free: list[int]
    held: set[int]
    given: bool


def _plan(
    entries: int, depth: Depth, transparent: int, locked: Mapping[int, Colour], given: Sequence[Colour] | None
) -> _Plan:
    if not 2 <= entries <= 256:
        raise PaletteError(f"palette: {entries} entries; allowed 2 to 256")
    if not 0 <= transparent < entries:
        raise PaletteError(f"palette: transparent entry {transparent}; allowed 0 to {entries - 1}")
    if len(locked) > entries:
        raise PaletteError(f"palette: {len(locked)} locked entries; the palette has {entries}")
    for entry in sorted(locked):
        if not 0 <= entry < entries:
            raise PaletteError(f"palette: locked entry {entry}; allowed 0 to {entries - 1}")
    palette = np.zeros((entries, 3), dtype=np.uint8)
    held = {transparent, *locked}
    if given is not None:
        if len(given) > entries:
            raise PaletteError(f"palette: {len(given)} given colours; the palette has {entries} entries")
        for entry, colour in enumerate(given):
            palette[entry] = _checked(colour, f"given colour {entry}")
            held.add(entry)
    for entry, colour in locked.items():
        palette[entry] = _checked(colour, f"locked entry {entry}")
    reserved = tuple(entry for entry in sorted(locked) if entry != transparent)
    reserved_packed = pack(palette[list(reserved)])
    usable = range(len(given)) if given is not None else range(entries)
    return _Plan(
        depth=depth,
        transparent=transparent,
        palette=depth.round_trip(palette),
        reserved=reserved,
        reserved_packed=reserved_packed,
        free=[entry for entry in usable if entry != transparent and entry not in locked],
        held=held,
        given=given is not None,
    )


def _checked(colour: Colour, name: str) -> Colour:
    if len(colour) != 3 or not all(0 <= int(part) <= 255 for part in colour):
        raise PaletteError(f"palette: {name} is {tuple(colour)!r}; allowed three numbers 0 to 255")
    return colour


def _shares(pictures: Sequence[Pixels], weights: Sequence[int] | None) -> Sequence[int]:
    shares = [1] * len(pictures) if weights is None else list(weights)
    if len(shares) != len(pictures):
        raise PaletteError(f"palette: {len(shares)} weights for {len(pictures)} pictures")
    if any(share < 1 or share > 1 << 20 for share in shares):
        raise PaletteError(f"palette: a weight of {min(shares)} to {max(shares)}; allowed 1 to {1 << 20}")
    return shares


def _tally(picture: Pixels, index: int) -> tuple[Packed, Whole]:
    """Return the different opaque colours of a picture, rising, and how often each is there."""
    if picture.ndim != 3 or picture.shape[2] != 4 or picture.dtype != np.uint8:
        raise PaletteError(
            f"palette: picture {index} is {picture.dtype} {picture.shape}; allowed uint8 (H, W, 4)"
        )
    packed = np.sort(pack(picture[picture[..., 3] >= OPAQUE_ALPHA]), axis=None)
    if not packed.size:
        return packed, np.zeros(0, dtype=np.int64)
    starts = np.flatnonzero(np.concatenate([[True], packed[1:] != packed[:-1]]))
    return packed[starts], np.diff(np.append(starts, packed.size))


def _merge(tallies: Sequence[tuple[Packed, Whole]], shares: Sequence[int]) -> tuple[Packed, Whole]:
    if not tallies:
        return np.zeros(0, dtype=np.uint32), np.zeros(0, dtype=np.int64)
    if len(tallies) == 1:
        return tallies[0][0], tallies[0][1] * shares[0]
    colours = np.unique(np.concatenate([colours for colours, _ in tallies]))
    mass = np.zeros(len(colours), dtype=np.int64)
    for (own, counts), share in zip(tallies, shares, strict=True):
        mass[np.searchsorted(colours, own)] += counts * share
    return colours, mass


def _fill(plan: _Plan, colours: Packed, mass: Whole, share_locked: bool) -> None:
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
    points, weights = _binned(colours, mass)
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
    apart = points - centres[nearest(points, centres)]
    loss = (apart * apart).sum(axis=1) // (1 << 8) * mass
    wanted, where = np.unique(pack(depth.round_trip(unpack(colours))), return_inverse=True)
    total = np.zeros(len(wanted), dtype=np.int64)
    np.add.at(total, where, loss)
    total[np.isin(wanted, chosen)] = 0
    order = np.lexsort((wanted, -total))[:spare]
    return np.union1d(chosen, wanted[order[total[order] > 0]])


def _binned(colours: Packed, mass: Whole) -> tuple[Whole, Whole]:
    """Return fewer points for the choice: colours that agree in 6 bits a channel become their mean."""
    points = bytes_to_fixed(unpack(colours))
    if len(colours) <= _FEW_COLOURS:
        return points, mass
    bins = ((colours >> 6) & 0x3F000) | ((colours >> 4) & 0xFC0) | ((colours >> 2) & 0x3F)
    _, where = np.unique(bins, return_inverse=True)
    count = int(where.max()) + 1
    weights = np.bincount(where, mass, count).astype(np.int64)
    return middles(points, mass, where, np.zeros((count, 3), dtype=np.int64)), weights


def _entries_of(plan: _Plan, colours: Packed, share_locked: bool) -> NDArray[np.uint8]:
    """Return the entry of each colour: a locked one of that very colour, one that shows it, the nearest."""
    free = [entry for entry in plan.free if entry in plan.held]
    usable = sorted({*free, *plan.reserved}) if share_locked else free
    out = np.zeros(len(colours), dtype=np.uint8)
    open_ones = np.ones(len(colours), dtype=bool)
    shown = pack(plan.depth.round_trip(unpack(colours)))
    for keys, entries, wanted in (
        (plan.reserved_packed, plan.reserved, colours),
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


def _index(picture: Pixels, table: NDArray[np.uint8], transparent: int) -> NDArray[np.uint8]:
    entries = table[pack(picture)]
    entries[picture[..., 3] < OPAQUE_ALPHA] = transparent
    entries.flags.writeable = False
    return entries


def _mean_error(tally: tuple[Packed, Whole], colours: Packed, errors: NDArray[np.float64]) -> float:
    own, counts = tally
    if not own.size:
        return 0.0
    return round(float(errors[np.searchsorted(colours, own)] @ counts / counts.sum()), 6)
