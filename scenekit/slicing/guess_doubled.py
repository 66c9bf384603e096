"""Read a sheet whose packer repeated every sprite's outermost pixels once around it."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Pixels = npt.NDArray[np.uint8]
Mask = npt.NDArray[np.bool_]
Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]
Region = tuple[int, int, int, int]
Pair = tuple[bool, bool]
LEAST_JUMPING = 0.4
"""Least share of a seam's drawn pixels that jump across it."""
MOST_SEAMS = 0.3
"""Share of a piece's lines that may be seams; more of them are enlarged pixels."""
RINGED: Pair = (True, True)
BARE: Pair = (False, False)

LEAST_SIDE_PX = 3
"""Narrower pieces are borders within a sprite."""
JUMP = 3
"""Smaller steps of a channel are shading."""
LEAST_GAP_PX = 5
"""Parts of one sprite may lie nearer to each other."""
LEAST_RINGED = 12
LEAST_SHARE = 0.5
"""Least share of the sprites that must touch their rings."""
CORNERS = 8
"""So many times more pixels differ at a seam than at the lines beside it, but for two corners."""
MOST_LOOKED = 48
"""So many times the sheet's pixels are looked at at most, which bounds the work."""
LOOK_PX = 1 << 20
"""Larger sheets are not looked through."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A stretch of a sheet: left, top, right, bottom, and which of these sides end with repeated pixels."""

    ends: Region
    ringed: tuple[bool, bool, bool, bool]

    @property
    def area_px(self) -> int:
        """Width times height."""
        return (self.ends[2] - self.ends[0]) * (self.ends[3] - self.ends[1])

    def along(self, axis: int) -> tuple[int, int]:
        """Return where it begins and ends along x or y."""
        return self.ends[axis], self.ends[axis + 2]

    def without_ring(self, side: int) -> "Piece":
        """Return the piece with one side that does not end with repeated pixels."""
        left, top, right, bottom = (ring and at != side for at, ring in enumerate(self.ringed))
        return Piece(ends=self.ends, ringed=(left, top, right, bottom))

    def part(self, axis: int, start: int, end: int, ringed: Pair) -> "Piece":
        """Return the stretch from one line of an axis to another; sides that move get the given rings."""
        ends, rings = list(self.ends), list(self.ringed)
        for side, place, ring in ((axis, start, ringed[0]), (axis + 2, end, ringed[1])):
            if ends[side] != place:
                ends[side], rings[side] = place, ring
        return Piece(
            ends=(ends[0], ends[1], ends[2], ends[3]), ringed=(rings[0], rings[1], rings[2], rings[3])
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Doubled:
    """Sprites with repeated edges.

    boxes   (N, 4) left, top, right, bottom, without the repeated pixels
    ringed  how many of them touch their rings
    """

    boxes: Integers
    ringed: int


def doubled_edges(pixels: Pixels, mask: Mask) -> Doubled | None:
    """Return the sprites that lie in rings of their repeated edges; None where it is no such sheet.

    pixels  (H, W, 4) uint8
    """
    if mask.size > LOOK_PX or not mask.any():
        return None
    whole = Piece(ends=(0, 0, mask.shape[1], mask.shape[0]), ringed=(True, True, True, True))
    whole = Piece(ends=tight(mask, whole).ends, ringed=(True, True, True, True))
    drawn = np.where(mask[..., None], pixels, np.uint8(0))
    steps, masks = (steps_of(drawn), steps_of(drawn.swapaxes(0, 1))), (mask, mask.T)
    whole_ones: list[Piece] = []
    waiting, looked_px = [whole], 0
    while waiting:
        piece = waiting.pop()
        looked_px += piece.area_px
        if looked_px > MOST_LOOKED * mask.size:
            return None
        lines = [seam_lines(steps[axis], masks[axis], piece, axis) for axis in (0, 1)]
        if any(np.count_nonzero(own) > MOST_SEAMS * own.size for own in lines):
            return None
        best = max((float(own.max(initial=0)), -axis) for axis, own in enumerate(lines))
        if best[0]:
            axis = -best[1]
            place = piece.ends[axis] + int(np.argmax(lines[axis]))
            start, end = piece.along(axis)
            cut = [piece.part(axis, start, place, RINGED), piece.part(axis, place, end, RINGED)]
        else:
            cut = gap_parts(mask, piece)
        if cut:
            waiting += [tight(mask, part) for part in cut if art_in(mask, part)]
            continue
        whole_ones.append(piece)
    boxes: list[Region] = []
    ringed = 0
    for piece in without_cut_rings(steps, mask, whole_ones):
        box, ring = inner(steps, mask, piece)
        ringed += ring and box is not None
        boxes += [box] if box is not None else []
    if ringed < LEAST_RINGED or ringed < LEAST_SHARE * len(boxes):
        return None
    return Doubled(boxes=np.array(sorted(boxes, key=lambda box: (box[1], box[0])), np.int64), ringed=ringed)


def steps_of(pixels: Pixels) -> Pixels:
    """Return how far each pixel is from the next in its row, in its most different channel: (H, W - 1)."""
    left, right = pixels[:, :-1], pixels[:, 1:]
    far = np.maximum(left, right) - np.minimum(left, right)
    steps: Pixels = np.maximum(np.maximum(far[..., 0], far[..., 1]), np.maximum(far[..., 2], far[..., 3]))
    steps[(left[..., 3] > 0) != (right[..., 3] > 0)] = 255
    return steps


def art_in(mask: Mask, piece: Piece) -> bool:
    """Say whether a piece holds art."""
    left, top, right, bottom = piece.ends
    return bool(mask[top:bottom, left:right].any())


def tight(mask: Mask, piece: Piece) -> Piece:
    """Return a piece without its empty sides; where one goes no ring is known."""
    left, top, right, bottom = piece.ends
    part = mask[top:bottom, left:right]
    across, down = np.flatnonzero(part.any(axis=0)), np.flatnonzero(part.any(axis=1))
    piece = piece.part(0, left + int(across[0]), left + int(across[-1]) + 1, BARE)
    return piece.part(1, top + int(down[0]), top + int(down[-1]) + 1, BARE)


def lacks_corners(line: Mask, cut: Pair = (False, False)) -> bool:
    """Say whether a line is drawn but for its two ends; an end that was cut off may be drawn."""
    first, last = bool(line[0]), bool(line[-1])
    return bool(line[1:-1].all()) and cut != (True, True) and first <= cut[0] and last <= cut[1]


def seam_lines(steps: Pixels, mask: Mask, piece: Piece, axis: int) -> Floats:
    """Count for each line of a piece how many pixels jump across it, where both sides are repeated all along.

    steps    (H, W - 1) from steps_of; turned for y
    returns  (length,) by the distance from the piece's beginning; 0 where the line is no seam
    """
    start, end = piece.along(axis)
    low, high = piece.along(1 - axis)
    part = steps[low:high, start : end - 1]
    counts = np.zeros(end - start, np.float64)
    least = LEAST_SIDE_PX + 2
    if counts.size < 2 * least:
        return counts
    jumps, differing = np.count_nonzero(part > JUMP, axis=0), np.count_nonzero(part, axis=0)
    beside = np.maximum(differing[:-2], differing[2:])
    drawn = np.count_nonzero(mask[low:high, start : end - 1] | mask[low:high, start + 1 : end], axis=0)
    shares = jumps / np.maximum(drawn, 1)
    seam = (beside <= np.maximum(jumps[1:-1] // CORNERS, 2)) & (shares[1:-1] >= LEAST_JUMPING)
    seam &= jumps[1:-1] >= LEAST_SIDE_PX + 2
    counts[2:-1] = shares[1:-1] * seam
    notched = np.ones(counts.size - 3, np.bool_)
    for row in (mask[low, start:end], mask[high - 1, start:end]):
        notched &= row[:-3] & ~row[1:-2] & ~row[2:-1] & row[3:]
    counts[2:-1] = np.where(notched & (CORNERS * beside < drawn[1:-1]), 1.0, counts[2:-1])
    counts[:least] = 0
    counts[counts.size - least + 1 :] = 0
    return counts


def gap_parts(mask: Mask, piece: Piece) -> list[Piece]:
    """Return a piece in two at its widest empty stretch; none where there is no wide one."""
    left, top, right, bottom = piece.ends
    part = mask[top:bottom, left:right]
    best = (LEAST_GAP_PX - 1, 0, 0)
    for axis in (0, 1):
        lines = np.flatnonzero(part.any(axis=axis))
        gaps = np.diff(lines) - 1
        if gaps.size and int(gaps.max()) > best[0]:
            best = (int(gaps.max()), axis, int(lines[int(np.argmax(gaps))]) + 1)
    gap, axis, place = best
    if not place:
        return []
    start, end = piece.along(axis)
    return [
        piece.part(axis, start, start + place, BARE),
        piece.part(axis, start + place + gap, end, BARE),
    ]


def without_cut_rings(steps: tuple[Pixels, Pixels], mask: Mask, pieces: list[Piece]) -> list[Piece]:
    """Return pieces without rings at a side of the picture where most lack them: it was cut off there."""
    limits = (0, 0, mask.shape[1], mask.shape[0])
    out = pieces
    for side, limit in enumerate(limits):
        here = [piece for piece in pieces if piece.ends[side] == limit]
        repeated = [sides_of(steps, mask, piece)[side] for piece in here]
        if 2 * sum(repeats_once(step) for step, _ in repeated) < len(here):
            out = [piece.without_ring(side) if piece.ends[side] == limit else piece for piece in out]
    return out


def repeats_once(step: Pixels) -> bool:
    """Say whether the outermost line of a side is drawn twice, and the next one is another.

    step   (N, 2) how far its pixels are from those of the next line, and those from the next but one
    """
    differing = np.count_nonzero(step, axis=0).tolist()
    return len(differing) == 2 and differing[0] <= 2 and 2 * differing[1] > len(step)


def sides_of(steps: tuple[Pixels, Pixels], mask: Mask, piece: Piece) -> tuple[tuple[Pixels, Mask], ...]:
    """Return for each side of a piece the steps across its two outermost lines, and the outer one's art."""
    left, top, right, bottom = piece.ends
    across, down = steps[0][top:bottom, left : right - 1], steps[1][left:right, top : bottom - 1]
    return (
        (across[:, :2], mask[top:bottom, left]),
        (down[:, :2], mask[top, left:right]),
        (across[:, ::-1][:, :2], mask[top:bottom, right - 1]),
        (down[:, ::-1][:, :2], mask[bottom - 1, left:right]),
    )


def inner(steps: tuple[Pixels, Pixels], mask: Mask, piece: Piece) -> tuple[Region | None, bool]:
    """Return a piece without its repeated pixels, None where nothing is left; and whether that is sure.

    Where the art is of one colour a repeated line shows only by its missing corners.
    """
    left, top, right, bottom = piece.ends
    takes, sure = [], False
    limits = (0, 0, mask.shape[1], mask.shape[0])
    cut = [one == two and not ring for one, two, ring in zip(piece.ends, limits, piece.ringed, strict=True)]
    for side, (step, drawn) in enumerate(sides_of(steps, mask, piece)):
        ring, cornered = piece.ringed[side], lacks_corners(drawn, (cut[1 - side % 2], cut[3 - side % 2]))
        differing = np.count_nonzero(step, axis=0).tolist()
        taken = (ring or cornered) and len(differing) == 2 and differing[0] <= 2
        takes.append(int(taken))
        sure |= taken and (cornered or 2 * differing[1] > drawn.size)
    box = (left + takes[0], top + takes[1], right - takes[2], bottom - takes[3])
    return (box if box[2] > box[0] and box[3] > box[1] else None), sure
