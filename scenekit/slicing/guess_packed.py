"""Part sprites of like mass that a packer laid side by side so tightly that some touch."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Mask = npt.NDArray[np.bool_]
Floats = npt.NDArray[np.floating]
Integers = npt.NDArray[np.int64]

MOST_PIECES = 4000
TYPICAL = 0.35
"""The mass below which this share of all art pixels lies is taken as that of a sprite."""
SPLIT_MASS = 1.35
LEAST_MASS = 0.4
MOST_CROSSED = 5
MOST_MOVED = 0.4
ROUNDS = 4


@dataclass(slots=True)
class Piece:
    """Some art pixels of one island: where they lie, and how many."""

    left: int
    top: int
    mask: Mask
    mass: int

    @property
    def box(self) -> tuple[int, int, int, int]:
        """Left, top, right, bottom."""
        return self.left, self.top, self.left + self.mask.shape[1], self.top + self.mask.shape[0]


def packed_boxes(mask: Mask, weight: Floats) -> Integers | None:
    """Return the boxes of packed sprites as left, top, right, bottom; None where it is no such sheet.

    mask    (H, W) bool
    weight  (H, W) float32 0 to 1: how much of each art pixel is drawn
    """
    pieces = four_connected(mask, 0, 0)
    if not 2 <= len(pieces) <= MOST_PIECES:
        return None
    masses = np.sort(np.array([piece.mass for piece in pieces], np.int64))
    typical = int(masses[np.searchsorted(np.cumsum(masses), TYPICAL * masses.sum())])
    if typical < 16:
        return None
    parted: list[Piece] = []
    waiting = pieces[::-1]
    while waiting:
        piece = waiting.pop()
        halves = split(piece, weight, typical) if piece.mass >= SPLIT_MASS * typical else None
        if halves is None:
            parted.append(piece)
        else:
            waiting += halves
    heavy = [piece for piece in parted if piece.mass >= LEAST_MASS * typical]
    light = [piece for piece in parted if piece.mass < LEAST_MASS * typical]
    owner = np.zeros(mask.shape, np.int32)
    for index, piece in enumerate(heavy):
        paint(owner, piece, index + 1)
    boxes = np.array([piece.box for piece in heavy], np.int64)
    boxes, given = attach(boxes, np.array([piece.box for piece in light], np.int64).reshape(-1, 4))
    for piece, target in zip(light, given, strict=True):
        paint(owner, piece, target + 1)
    return untangle(owner, weight, boxes)


def paint(owner: npt.NDArray[np.int32], piece: Piece, index: int) -> None:
    """Give a piece's pixels to a sprite."""
    left, top, right, bottom = piece.box
    owner[top:bottom, left:right][piece.mask] = index


def untangle(owner: npt.NDArray[np.int32], weight: Floats, boxes: Integers) -> Integers:
    """Part sprites whose boxes overlap by a straight line that crosses few pixels, until none is left.

    owner  (H, W) sprite number from 1 of each art pixel; is changed
    """
    boxes = boxes.copy()
    for _ in range(ROUNDS):
        changed = False
        for one, two in overlapping(boxes):
            if straighten(owner, weight, boxes, one, two):
                changed = True
        if not changed:
            break
    return boxes


def overlapping(boxes: Integers) -> list[tuple[int, int]]:
    """Return the pairs of boxes that share area."""
    low = np.maximum(boxes[:, None, :2], boxes[None, :, :2])
    high = np.minimum(boxes[:, None, 2:], boxes[None, :, 2:])
    shared = (high > low).all(axis=2)
    one, two = np.nonzero(np.triu(shared, 1))
    return list(zip(one.tolist(), two.tolist(), strict=True))


def straighten(owner: npt.NDArray[np.int32], weight: Floats, boxes: Integers, one: int, two: int) -> bool:
    """Part two sprites by the best straight line, if there is one; say whether anything changed."""
    low = np.minimum(boxes[one, :2], boxes[two, :2])
    high = np.maximum(boxes[one, 2:], boxes[two, 2:])
    part = owner[low[1] : high[1], low[0] : high[0]]
    share = weight[low[1] : high[1], low[0] : high[0]]
    best: tuple[float, int, int, int] | None = None
    for axis in (0, 1):
        view, drawn = (part, share) if axis == 0 else (part.T, share.T)
        first, second = view == one + 1, view == two + 1
        crossed = crossing(first, drawn) + crossing(second, drawn)
        masses = [np.cumsum(np.count_nonzero(own, axis=0))[:-1] for own in (first, second)]
        totals = [int(np.count_nonzero(own)) for own in (first, second)]
        for near, (a, b) in enumerate(((0, 1), (1, 0))):
            moved_a, moved_b = totals[a] - masses[a], masses[b]
            fits = (moved_a < MOST_MOVED * totals[a]) & (moved_b < MOST_MOVED * totals[b])
            fits &= crossed <= MOST_CROSSED
            for line in np.flatnonzero(fits).tolist():
                cost = float(crossed[line]) + float(moved_a[line] / totals[a] + moved_b[line] / totals[b])
                if best is None or cost < best[0]:
                    best = (cost, axis, line + 1, near)
    if best is None:
        return False
    _, axis, line, near = best
    view = part if axis == 0 else part.T
    both = (view == one + 1) | (view == two + 1)
    ahead, behind = (one, two) if near == 0 else (two, one)
    view[:, :line][both[:, :line]] = ahead + 1
    view[:, line:][both[:, line:]] = behind + 1
    for index in (one, two):
        rows = np.flatnonzero((part == index + 1).any(axis=1))
        columns = np.flatnonzero((part == index + 1).any(axis=0))
        boxes[index] = (
            low[0] + columns[0],
            low[1] + rows[0],
            low[0] + columns[-1] + 1,
            low[1] + rows[-1] + 1,
        )
    return True


def four_connected(mask: Mask, left: int, top: int) -> list[Piece]:
    """Return the pieces whose pixels touch at their sides."""
    from scipy import ndimage

    labels, _ = ndimage.label(mask)
    out = []
    for index, part in enumerate(ndimage.find_objects(labels), start=1):
        own = labels[part] == index
        out.append(Piece(left + part[1].start, top + part[0].start, own, int(np.count_nonzero(own))))
    return out


def crossing(own: Mask, weight: Floats) -> Floats:
    """Return how much runs across each line between two columns: for each pair of pixels its lesser weight.

    returns  (W - 1,) float32
    """
    both = own[:, 1:] & own[:, :-1]
    crossed: Floats = np.where(both, np.minimum(weight[:, 1:], weight[:, :-1]), 0).sum(axis=0)
    return crossed


def split(piece: Piece, weight: Floats, typical: int) -> list[Piece] | None:
    """Cut a piece along the line that crosses the fewest pixels and leaves a sprite's mass on both sides."""
    best: tuple[float, int, int] | None = None
    left, top, right, bottom = piece.box
    share = weight[top:bottom, left:right]
    for axis, own, drawn in ((0, piece.mask, share), (1, piece.mask.T, share.T)):
        if own.shape[1] < 2:
            continue
        crossed = crossing(own, drawn)
        before = np.cumsum(np.count_nonzero(own, axis=0))[:-1]
        small = np.minimum(before, piece.mass - before)
        fits = (crossed <= MOST_CROSSED) & (small >= LEAST_MASS * typical)
        for line in np.flatnonzero(fits).tolist():
            cost = float(crossed[line]) - 0.001 * float(small[line]) / typical
            if best is None or cost < best[0]:
                best = (cost, axis, line + 1)
    if best is None:
        return None
    _, axis, line = best
    if axis == 0:
        near, far = piece.mask[:, :line], piece.mask[:, line:]
        return four_connected(near, piece.left, piece.top) + four_connected(far, piece.left + line, piece.top)
    near, far = piece.mask[:line], piece.mask[line:]
    return four_connected(near, piece.left, piece.top) + four_connected(far, piece.left, piece.top + line)


def attach(heavy: Integers, light: Integers) -> tuple[Integers, list[int]]:
    """Give every light piece to a near sprite whose box then covers little of others, the nearest first."""
    heavy, given = heavy.copy(), [0] * len(light)
    costs, targets = np.full(len(light), np.inf), np.full(len(light), -1, np.int64)
    stale = np.ones(len(light), np.bool_)
    done = np.zeros(len(light), np.bool_)
    while not done.all():
        for index in np.flatnonzero(stale & ~done).tolist():
            every = growth(heavy, light[index])
            targets[index] = int(np.argmin(every))
            costs[index] = float(every[targets[index]])
        index = int(np.argmin(np.where(done, np.inf, costs)))
        target = int(targets[index])
        heavy[target, :2] = np.minimum(heavy[target, :2], light[index, :2])
        heavy[target, 2:] = np.maximum(heavy[target, 2:], light[index, 2:])
        given[index] = target
        done[index] = True
        stale = targets == target
    return heavy, given


def growth(heavy: Integers, piece: Integers) -> npt.NDArray[np.float64]:
    """Return for each sprite what it costs to take in a piece: the gap, and a lot for covering others."""
    across = np.maximum(heavy[:, 0], piece[0]) - np.minimum(heavy[:, 2], piece[2])
    down = np.maximum(heavy[:, 1], piece[1]) - np.minimum(heavy[:, 3], piece[3])
    costs = np.maximum(np.maximum(across, down), 0).astype(np.float64)
    for target in np.argsort(costs, kind="stable")[:6].tolist():
        low, high = np.minimum(heavy[target, :2], piece[:2]), np.maximum(heavy[target, 2:], piece[2:])
        shared = np.maximum(np.minimum(heavy[:, 2:], high) - np.maximum(heavy[:, :2], low), 0).prod(axis=1)
        shared[target] = 0
        costs[target] += float(np.sqrt(shared.sum())) * 2
    result: npt.NDArray[np.float64] = costs
    return result
