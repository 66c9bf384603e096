"""Banks: groups of pictures that have runs of the palette to themselves."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.depth import Depth
from scenekit.colour.histogram import Mask, Pixels, merge, tally_seen
from scenekit.colour.quantise import Reduction, reduce_pictures
from scenekit.colour.selection import Colour
from scenekit.errors import PaletteError


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bank:
    """One group of pictures, such as a plane or a group of sprites.

    entries  what it may fill; () for as many as `bank_sizes` gives it
    weights  how much each picture counts; () for 1 each
    seen     (H, W) of the pixels that count in each picture, or None for all of it; () for all of all
    """

    name: str
    pictures: tuple[Pixels, ...]
    entries: tuple[int, ...] = ()
    weights: tuple[int, ...] = ()
    seen: tuple[Mask | None, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BankedReduction:
    """Groups of pictures as entries of one palette.

    palette     (entries, 3) uint8, read-only
    reductions  of each bank by name; their palettes hold the bank's own entries and the locked ones
    entries     entries of each bank by name
    """

    palette: NDArray[np.uint8]
    reductions: Mapping[str, Reduction]
    entries: Mapping[str, tuple[int, ...]]


def reduce_banks(
    banks: Sequence[Bank],
    *,
    entries: int,
    depth: Depth,
    transparent: int = 0,
    locked: Mapping[int, Colour] | None = None,
) -> BankedReduction:
    """Reduce each group to its own entries of one palette; all share the transparent and locked entries.

    raises  PaletteError: banks that overlap, take reserved entries, have equal names, or find no room
    """
    fixed = {transparent, *(locked or {})}
    shares = _shares_of(banks, entries, fixed)
    palette = np.zeros((entries, 3), dtype=np.uint8)
    reductions: dict[str, Reduction] = {}
    for bank in banks:
        reductions[bank.name] = got = reduce_pictures(
            bank.pictures,
            entries=entries,
            depth=depth,
            transparent=transparent,
            locked=locked,
            weights=bank.weights or None,
            seen=bank.seen or None,
            allowed=shares[bank.name],
        )
        own = [*shares[bank.name], *sorted(fixed)]
        palette[own] = got.palette[own]
    palette.flags.writeable = False
    return BankedReduction(palette=palette, reductions=reductions, entries=shares)


def bank_sizes(needs: Sequence[int], room: int) -> tuple[int, ...]:
    """Share entries: who needs less than an even share gets what it needs, the rest shares evenly.

    needs    different colours of each bank
    raises   PaletteError: fewer entries than banks that need one
    """
    sizes = [0] * len(needs)
    open_ones = sorted(
        (index for index, need in enumerate(needs) if need), key=lambda index: (needs[index], index)
    )
    if len(open_ones) > room:
        raise PaletteError(f"banks: {len(open_ones)} groups for {room} free entries; allowed one group each")
    while open_ones:
        index = open_ones.pop(0)
        sizes[index] = min(needs[index], room // (len(open_ones) + 1))
        room -= sizes[index]
    return tuple(sizes)


def _shares_of(banks: Sequence[Bank], entries: int, fixed: set[int]) -> dict[str, tuple[int, ...]]:
    names = [bank.name for bank in banks]
    if len(set(names)) != len(names):
        raise PaletteError(f"banks: names {', '.join(names)}; allowed names that all differ")
    taken: dict[int, str] = {}
    for bank in banks:
        for entry in bank.entries:
            if not 0 <= entry < entries or entry in fixed or entry in taken:
                owner = (
                    f"it is taken by bank {taken[entry]}" if entry in taken else "it is reserved or not there"
                )
                raise PaletteError(f"bank {bank.name}: entry {entry} cannot be used, {owner}")
            taken[entry] = bank.name
    free = [entry for entry in range(entries) if entry not in fixed and entry not in taken]
    loose = [bank for bank in banks if not bank.entries]
    sizes = bank_sizes([_colours_of(bank) for bank in loose], len(free))
    out = {bank.name: tuple(sorted(bank.entries)) for bank in banks}
    for bank, size in zip(loose, sizes, strict=True):
        out[bank.name] = tuple(free[:size])
        del free[:size]
    return out


def _colours_of(bank: Bank) -> int:
    tallies = tally_seen(bank.pictures, bank.seen or None)
    return len(merge(tallies, [1] * len(tallies))[0])
