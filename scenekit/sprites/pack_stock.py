"""Keeps boxes that wait to be packed, and finds the next one by size."""

from bisect import bisect_right, insort
from collections.abc import Callable, Sequence

Pair = tuple[int, int]
Order = Callable[[int, int], tuple[int, ...]]

FAR = 1 << 40
"""Farther than any page reaches."""

ORDERS: tuple[Order, ...] = (
    lambda w, h: (h, w),
    lambda w, h: (max(w, h), min(w, h)),
    lambda w, h: (w + h, h),
    lambda w, h: (w * h, h),
    lambda w, h: (w * w * h, h),
)
"""Largest first by height, longer side, half the outline, area, area times width."""


class Stock:
    """Boxes not placed yet, found by size."""

    def __init__(self, sizes: Sequence[Pair], turn: bool, key: Order) -> None:
        ways = [(index, w, h, False) for index, (w, h) in enumerate(sizes)]
        if turn:
            ways += [(index, h, w, True) for index, (w, h) in enumerate(sizes) if w != h]
        self.left = len(sizes)
        self._ways = sorted(ways, key=lambda way: key(way[1], way[2]), reverse=True)
        self._slots: list[list[int]] = [[] for _ in sizes]
        self._exact: dict[int, list[Pair]] = {}
        self._base = 1 << max(1, len(ways) - 1).bit_length()
        self._widths = [FAR] * (2 * self._base)
        self._heights = [FAR] * (2 * self._base)
        for slot, (index, w, h, _) in enumerate(self._ways):
            self._slots[index].append(slot)
            insort(self._exact.setdefault(w, []), (h, -slot))
            self._widths[self._base + slot] = w
            self._heights[self._base + slot] = h
        for tree in (self._widths, self._heights):
            for node in range(self._base - 1, 0, -1):
                tree[node] = min(tree[2 * node], tree[2 * node + 1])

    def take(self, width: int, height: int) -> tuple[int, int, int, bool] | None:
        """Take out the tallest box of just this width, else the first in order that fits; None if none does.

        returns  (box, w, h, turned)
        """
        slot = self._exactly(width, height)
        if slot is None:
            slot = self._first(width, height)
        if slot is None:
            return None
        way = self._ways[slot]
        for other in self._slots[way[0]]:
            self._remove(other)
        self.left -= 1
        return way

    def _exactly(self, width: int, height: int) -> int | None:
        column = self._exact.get(width)
        if not column:
            return None
        at = bisect_right(column, (height, 0)) - 1
        return -column[at][1] if at >= 0 else None

    def _first(self, width: int, height: int) -> int | None:
        widths, heights, base = self._widths, self._heights, self._base
        stack = [1]
        while stack:
            node = stack.pop()
            if widths[node] > width or heights[node] > height:
                continue
            if node >= base:
                return node - base
            stack += (2 * node + 1, 2 * node)
        return None

    def _remove(self, slot: int) -> None:
        _, w, h, _ = self._ways[slot]
        column = self._exact[w]
        del column[bisect_right(column, (h, -slot)) - 1]
        for tree in (self._widths, self._heights):
            node = self._base + slot
            tree[node] = FAR
            while node > 1:
                node //= 2
                least = min(tree[2 * node], tree[2 * node + 1])
                if tree[node] == least:
                    break
                tree[node] = least
