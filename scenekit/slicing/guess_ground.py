"""Say which pixels of a sheet are art, as a short list of readings of its background."""

from dataclasses import dataclass, field, replace

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_repeats import repeated_art

Mask = npt.NDArray[np.bool_]
Pixels = npt.NDArray[np.uint8]
Integers = npt.NDArray[np.int64]

LOOK_PX = 1 << 20
"""Most pixels that are counted when looking for the commonest colours."""
NO_GROUND_BITS = 3.0
"""The surprise that a sheet without a clear pixel has no background at all."""
CLEAR_KEY_BITS = 20.0
"""How much greater it is where one colour fills the whole picture and its rim; less by the shares of both."""
LEAST_PAINTED = 3
"""Least painted lines of one colour, columns and rows together."""
LEAST_INNER = 2
"""Least of them that lie inside the picture."""
LEAST_LINE_PX = 8
"""Shortest painted line."""
UNIFORM = 0.97
"""Share of a painted line that must have its one colour."""
ONE_WIDTH = 0.75
"""Share of the painted lines of one axis that must be equally wide; streaks within art are not."""
WIDEST_PAINTED = 8
"""Widest painted gutter."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ground:
    """One reading of the background.

    kind   "alpha", "key" or "none"
    keys   the key colours as (red, green, blue), outermost first
    mask   (H, W) bool, True where a pixel is art
    bits   how unlikely the reading is before looking at any grid
    columns, rows   painted lines, (W,) and (H,) bool; their pixels are not art
    repeats         (P, 4) from repeated_art
    """

    kind: str
    keys: tuple[tuple[int, int, int], ...]
    mask: Mask
    bits: float
    columns: Mask
    rows: Mask
    repeats: Integers = field(default_factory=lambda: np.zeros((0, 4), np.int64))

    def words(self) -> str:
        """Name the background in words."""
        if self.kind == "alpha":
            return "transparent background"
        if self.kind == "none":
            return "no background"
        names = " and ".join("#" + bytes(key).hex() for key in self.keys)
        return f"key colour{'s' if len(self.keys) > 1 else ''} {names}"


def packed_colours(pixels: Pixels) -> npt.NDArray[np.uint32]:
    """Give each pixel one number made of its four channels; all fully transparent pixels are equal.

    returns  (H, W) uint32
    """
    packed = np.ascontiguousarray(pixels).view(np.uint32)[..., 0]
    return np.where(pixels[..., 3] > 0, packed, np.uint32(0))


def key_mask(pixels: Pixels, keys: tuple[tuple[int, int, int], ...]) -> Mask:
    """Mark the pixels that are neither transparent nor of a key colour."""
    mask: Mask = pixels[..., 3] > 0
    packed = np.ascontiguousarray(pixels).view(np.uint32)[..., 0] & np.uint32(int_of((255, 255, 255), 0))
    for key in keys:
        mask = mask & (packed != np.uint32(int_of(key, 0)))
    return mask


def int_of(colour: tuple[int, int, int], alpha: int) -> int:
    """Pack a colour as this machine packs four bytes."""
    return int(np.array([*colour, alpha], np.uint8).view(np.uint32)[0])


def colour_of(packed: int) -> tuple[int, int, int]:
    """Unpack a colour."""
    red, green, blue, _ = np.array([packed], np.uint32).view(np.uint8).tolist()
    return red, green, blue


def commonest(packed: npt.NDArray[np.uint32]) -> tuple[int, float]:
    """Return the commonest value and its share."""
    values, counts = np.unique(packed, return_counts=True)
    best = int(np.argmax(counts))
    return int(values[best]), float(counts[best]) / packed.size


def grounds(pixels: Pixels, keys: tuple[tuple[int, int, int], ...] = ()) -> tuple[Ground, ...]:
    """List the readings of the background, likeliest first; at least one, at most three.

    pixels   (H, W, 4) uint8
    keys     key colours that the user names; then that reading is the only one
    """
    if keys:
        return (ground(pixels, "key", keys, key_mask(pixels, keys), 0.0),)
    opaque: Mask = pixels[..., 3] > 0
    clear_share = 1.0 - float(np.count_nonzero(opaque)) / opaque.size
    if clear_share > 0.0:
        found = [ground(pixels, "alpha", (), opaque, 0.0)]
        if clear_share > 0.02:
            return tuple(found)
    else:
        found = []
    step = max(1, int(np.sqrt(opaque.size / LOOK_PX)))
    packed = packed_colours(pixels[::step, ::step])
    rim = np.concatenate([packed[0], packed[-1], packed[:, 0], packed[:, -1]])
    clearest = 0.0
    for value, share in dict([commonest(rim), commonest(packed)]).items():
        whole = float(np.count_nonzero(packed == value)) / packed.size
        if value == 0 or whole < 0.02:
            continue
        clearest = max(clearest, whole * float(np.count_nonzero(rim == value)) / rim.size)
        key = colour_of(value)
        found.append(ground(pixels, "key", (key,), key_mask(pixels, (key,)), 2.0 - 2.0 * share))
    bits = NO_GROUND_BITS + CLEAR_KEY_BITS * clearest
    bare = ground(pixels, "none", (), np.ones(opaque.shape, np.bool_), bits)
    # where there may be a background it comes again as well, which says nothing of cells
    found.append(replace(bare, repeats=bare.repeats[:0]) if found else bare)
    return tuple(found)


def ground(
    pixels: Pixels, kind: str, keys: tuple[tuple[int, int, int], ...], mask: Mask, bits: float
) -> Ground:
    """Take the painted gutters out of a mask: several narrow lines of equal colour from side to side.

    Lines along both axes are counted together.
    """
    columns, rows = np.zeros(mask.shape[1], np.bool_), np.zeros(mask.shape[0], np.bool_)
    colours: dict[bytes, list[tuple[Mask, tuple[int, int, bytes]]]] = {}
    for lines, runs in (
        (columns, painted_runs(pixels, mask)),
        (rows, painted_runs(pixels.swapaxes(0, 1), mask.T)),
    ):
        for colour in dict.fromkeys(run[2] for run in runs):
            own = [run for run in runs if run[2] == colour]
            if one_width(own, lines.size):
                colours.setdefault(colour, []).extend((lines, run) for run in own)
    best = max(colours.values(), key=len, default=[])
    inner = [lines for lines, (start, end, _) in best if start > 0 and end < lines.size]
    if len(best) >= LEAST_PAINTED and len(inner) >= LEAST_INNER:
        for lines, (start, end, _) in best:
            lines[start:end] = True
        mask = mask & ~columns[None] & ~rows[:, None]
    repeats = repeated_art(packed_colours(pixels), mask)
    return Ground(kind=kind, keys=keys, mask=mask, bits=bits, columns=columns, rows=rows, repeats=repeats)


def one_width(runs: list[tuple[int, int, bytes]], length: int) -> bool:
    """Say whether runs are gutters that someone ruled: nearly all inside the picture have one width."""
    widths = [end - start for start, end, _ in runs if start > 0 and end < length]
    return not widths or max(widths.count(width) for width in set(widths)) >= ONE_WIDTH * len(widths)


def painted_runs(pixels: Pixels, mask: Mask) -> list[tuple[int, int, bytes]]:
    """Return the narrow runs of columns that have one colour from top to bottom, as (start, end, colour)."""
    height, width = mask.shape
    if height < LEAST_LINE_PX or width < LEAST_LINE_PX:
        return []
    rows = np.unique(np.linspace(0, height - 1, min(height, 256)).astype(np.int64))
    art = mask[rows]
    marked = art.mean(axis=0) >= UNIFORM
    columns = np.flatnonzero(marked)
    if columns.size == 0:
        return []
    part = pixels[rows[:, None], columns]
    middle = np.median(part, axis=0).astype(np.uint8)
    same = (part == middle[None]).all(axis=2) & art[:, columns]
    marked[columns] = same.mean(axis=0) >= UNIFORM
    place = np.cumsum(np.bincount(columns, minlength=width)) - 1
    return [(a, b, middle[place[a]].tobytes()) for a, b in narrow_runs(marked)]


def narrow_runs(marked: Mask) -> list[tuple[int, int]]:
    """Return the runs of marked columns that are at most WIDEST_PAINTED wide."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], marked, [False]]).astype(np.int8)))
    return [
        (a, b)
        for a, b in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True)
        if b - a <= WIDEST_PAINTED
    ]
