"""Reduction of pictures to one palette of a display mode."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.depth import Depth
from scenekit.colour.difference import ciede2000
from scenekit.colour.histogram import (
    OPAQUE_WORD,
    Mask,
    Packed,
    Pixels,
    Whole,
    merge,
    pixel_words,
    swapped,
    tally,
    tally_seen,
    unpack,
)
from scenekit.colour.selection import Colour, entries_of, fill, filling
from scenekit.colour.space import bytes_to_lab
from scenekit.errors import PaletteError


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reduction:
    """Pictures as entries of one palette.

    palette     (entries, 3) uint8 sRGB as the depth shows it, read-only; unused entries are black
    used        entries that hold a colour, the transparent and the locked ones included
    indices     (H, W) uint8 for each picture, read-only
    counts      opaque pixels seen of all pictures on each entry; the transparent entry counts its pixels
    entry_error for each entry, the same over the opaque pixels on it
    mean_error  for each picture, mean CIEDE2000 over opaque pixels against the picture's own colours,
                to six digits
    open_entries  entries that any opaque pixel may take: not the transparent one, nor a reserved one
    exact       True when each opaque pixel shows its own colour, rounded to the depth
    """

    palette: NDArray[np.uint8]
    used: int
    indices: tuple[NDArray[np.uint8], ...]
    counts: tuple[int, ...]
    entry_error: tuple[float, ...]
    mean_error: tuple[float, ...]
    open_entries: tuple[int, ...]
    exact: bool


def reduce_pictures(
    pictures: Sequence[Pixels],
    *,
    entries: int,
    depth: Depth,
    transparent: int = 0,
    locked: Mapping[int, Colour] | None = None,
    weights: Sequence[int] | None = None,
    seen: Sequence[Mask | None] | None = None,
    given: Sequence[Colour] | None = None,
    share_locked: bool = False,
    allowed: Sequence[int] | None = None,
) -> Reduction:
    """Reduce pictures to one palette, chosen in Oklab over opaque pixels.

    pictures      each (H, W, 4) uint8
    entries       size of the palette, 2 to 256
    depth         what the palette can hold; every entry is rounded to it
    transparent   entry of pixels with alpha below OPAQUE_ALPHA; no opaque pixel takes it
    locked        entries with a colour of their own; an opaque pixel takes one only when its
                  colour is exactly that, the lowest such entry first
    weights       how much each picture counts, at least 1; default 1 each
    seen          (H, W) of the pixels of each picture that count, or None for all of it; the others take
                  the entry that is nearest
    given         colours of entries 0, 1, 2 ... instead of chosen ones; locked entries win
    share_locked  lets other opaque pixels fall on locked entries too, where they are nearest
    allowed       the only entries that may be filled; default all
    raises        PaletteError: sizes, entries or colours that do not fit
    """
    plan = filling(entries, depth, transparent, locked or {}, given, allowed)
    shares = _shares(pictures, weights)
    tallies = tally_seen(pictures, seen)
    colours, mass = merge(tallies, shares)
    if seen is not None:
        colours, mass = _with_unseen(pictures, shares, colours, mass)
    loose = ~np.isin(colours, plan.reserved_colours) & (mass > 0)
    fill(plan, colours[loose], mass[loose], share_locked)
    entry_of = entries_of(plan, colours, share_locked)
    indices = _indices(pictures, colours, entry_of, transparent)
    counts = count_entries(indices, seen, entries)
    palette = plan.palette.copy()
    palette.flags.writeable = False
    shown = palette[entry_of]
    errors = ciede2000(bytes_to_lab(unpack(colours)), bytes_to_lab(palette)[entry_of])
    return Reduction(
        palette=palette,
        used=len(plan.held),
        indices=indices,
        counts=counts,
        entry_error=_entry_error(tallies, colours, errors, entry_of, entries),
        mean_error=tuple(_mean_error(part, colours, errors) for part in tallies),
        open_entries=tuple(plan.usable(share_locked)),
        exact=bool(np.array_equal(shown[mass > 0], depth.round_trip(unpack(colours[mass > 0])))),
    )


def count_entries(
    indices: Sequence[NDArray[np.uint8]], seen: Sequence[Mask | None] | None, entries: int
) -> tuple[int, ...]:
    """Return how many pixels that are seen stand on each entry."""
    parts = [None] * len(indices) if seen is None else seen
    total = np.zeros(entries, dtype=np.int64)
    for picture, part in zip(indices, parts, strict=True):
        total += np.bincount(picture.ravel() if part is None else picture[part], minlength=entries)
    return tuple(total.tolist())


def _with_unseen(
    pictures: Sequence[Pixels], shares: Sequence[int], seen_colours: Packed, mass: Whole
) -> tuple[Packed, Whole]:
    """Return the colours of whole pictures, and their mass, which is 0 where none of it is seen."""
    colours = merge([tally(picture, n) for n, picture in enumerate(pictures)], shares)[0]
    return colours, _spread(colours, seen_colours, mass)


def _spread(colours: Packed, own: Packed, mass: Whole) -> Whole:
    """Return the mass of each of the colours, 0 of those that are not among its own."""
    if len(own) == len(colours):
        return mass
    out = np.zeros(len(colours), dtype=np.int64)
    out[np.searchsorted(colours, own)] = mass
    return out


def _shares(pictures: Sequence[Pixels], weights: Sequence[int] | None) -> Sequence[int]:
    shares = [1] * len(pictures) if weights is None else list(weights)
    if len(shares) != len(pictures):
        raise PaletteError(f"palette: {len(shares)} weights for {len(pictures)} pictures")
    if any(share < 1 or share > 1 << 20 for share in shares):
        raise PaletteError(f"palette: a weight of {min(shares)} to {max(shares)}; allowed 1 to {1 << 20}")
    return shares


def _indices(
    pictures: Sequence[Pixels], colours: Packed, entry_of: NDArray[np.uint8], transparent: int
) -> tuple[NDArray[np.uint8], ...]:
    """Return pictures as entries, by a table of all colours there can be."""
    table = np.zeros(1 << 24, dtype=np.uint8)
    table[swapped(colours)] = entry_of
    return tuple(_index(picture, table, transparent) for picture in pictures)


def _index(picture: Pixels, table: NDArray[np.uint8], transparent: int) -> NDArray[np.uint8]:
    words = pixel_words(picture)
    entries: NDArray[np.uint8] = table[words & 0xFFFFFF]
    entries[words < OPAQUE_WORD] = transparent
    entries = entries.reshape(picture.shape[:2])
    entries.flags.writeable = False
    return entries


def _entry_error(
    tallies: Sequence[tuple[Packed, Whole]],
    colours: Packed,
    errors: NDArray[np.float64],
    entry_of: NDArray[np.uint8],
    entries: int,
) -> tuple[float, ...]:
    counts = _spread(colours, *merge(tallies, [1] * len(tallies)))
    total = np.bincount(entry_of, counts, entries)
    lost = np.bincount(entry_of, errors * counts, entries)
    return tuple(np.round(lost / np.maximum(total, 1), 6).tolist())


def _mean_error(tallied: tuple[Packed, Whole], colours: Packed, errors: NDArray[np.float64]) -> float:
    own, counts = tallied
    if not own.size:
        return 0.0
    return round(float(errors[np.searchsorted(colours, own)] @ counts / counts.sum()), 6)
