"""Packs boxes into pages of a given width, close together and the same way every time."""

from collections.abc import Sequence
from dataclasses import dataclass

from scenekit.errors import ExportError
from scenekit.sprites.pack_stock import FAR, ORDERS, Order, Stock

Pair = tuple[int, int]

MAX_BOXES = 1 << 16
LARGEST_SIDE_PX = 1 << 15
DENSE_ENOUGH = 0.98


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a box went.

    position   (x, y) of its top left on the page
    turned     True when it lies on its side, a quarter turn
    """

    page: int
    position: Pair
    turned: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Packing:
    """Boxes in their places.

    width        px of a page
    heights      px used of each page
    places       one for each box, in the order given
    density      area of all boxes, each with its gutter, to area of all pages used so far as they are used
    """

    width: int
    heights: tuple[int, ...]
    places: tuple[Place, ...]
    density: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """What boxes have to obey on a page."""

    width: int
    height: int
    gutter: int
    align: int
    turn: bool

    def padded(self, side: int) -> int:
        """Return a side with its gutter, up to the next aligned pixel."""
        return -(-(side + self.gutter) // self.align) * self.align


def pack(
    sizes: Sequence[Pair],
    width: int,
    height: int | None = None,
    *,
    gutter: int = 0,
    align: int = 1,
    turn: bool = False,
    max_pages: int | None = None,
    names: Sequence[str] | None = None,
) -> Packing:
    """Pack boxes into as few rows of as few pages as a quick search finds.

    sizes      (w, h) of each box, px, at least 1 x 1
    width      of a page
    height     of a page; None: one page as high as it takes
    gutter     empty pixels between boxes; none are needed at the edges of a page
    align      x and y of every box are multiples of this
    turn       boxes may lie on their side
    max_pages  how many pages there may be
    names      what messages call the boxes
    raises     ExportError: a box larger than a page, more pages than allowed, too many boxes
    source     best fit on a skyline: Burke, Kendall, Whitwell, A new placement heuristic for the orthogonal
               stock-cutting problem, Operations Research 52(4), 2004; the choice of boxes is our own
    """
    page = _Page(width=width, height=FAR if height is None else height, gutter=gutter, align=align, turn=turn)
    _check(sizes, page, names)
    best: tuple[tuple[int, int], list[Place], list[int]] | None = None
    for key in ORDERS:
        places, heights = _fill(sizes, page, key)
        rank = (len(heights), heights[-1] if heights else 0)
        if best is None or rank < best[0]:
            best = rank, places, heights
        if _density(sizes, page, best[2]) >= DENSE_ENOUGH:
            break
    assert best is not None
    if max_pages is not None and len(best[2]) > max_pages:
        raise ExportError(
            f"packing: {len(sizes)} boxes need {len(best[2])} pages; at most {max_pages} are allowed"
        )
    return Packing(
        width=width,
        heights=tuple(best[2]),
        places=tuple(best[1]),
        density=_density(sizes, page, best[2]),
    )


def _density(sizes: Sequence[Pair], page: _Page, heights: list[int]) -> float:
    area = sum((w + page.gutter) * (h + page.gutter) for w, h in sizes)
    used = sum((page.width + page.gutter) * (height + page.gutter) for height in heights)
    return area / used if used else 1.0


def _check(sizes: Sequence[Pair], page: _Page, names: Sequence[str] | None) -> None:
    if page.width < 1 or page.height < 1 or page.gutter < 0 or page.align < 1:
        raise ExportError(
            f"packing: page {page.width} x {page.height} px, gutter {page.gutter}, aligned to {page.align}; "
            "sides and alignment must be at least 1, the gutter at least 0"
        )
    if len(sizes) > MAX_BOXES:
        raise ExportError(f"packing: {len(sizes)} boxes; at most {MAX_BOXES} are packed")
    for index, (w, h) in enumerate(sizes):
        if not (1 <= w <= LARGEST_SIDE_PX and 1 <= h <= LARGEST_SIDE_PX):
            raise ExportError(
                f"packing: {_name(index, names)} is {w} x {h} px; sides of 1 to {LARGEST_SIDE_PX} fit"
            )
        fits = (w <= page.width and h <= page.height) or (page.turn and h <= page.width and w <= page.height)
        if not fits:
            limit = f"{page.width} px wide" if page.height == FAR else f"{page.width} x {page.height} px"
            raise ExportError(f"packing: {_name(index, names)} is {w} x {h} px; a page is {limit}")


def _name(index: int, names: Sequence[str] | None) -> str:
    return names[index] if names else f"box {index}"


def _fill(sizes: Sequence[Pair], page: _Page, key: Order) -> tuple[list[Place], list[int]]:
    """Fill page after page."""
    stock = Stock(sizes, page.turn, key)
    places: list[Place | None] = [None] * len(sizes)
    heights: list[int] = []
    while stock.left:
        bottom = 0
        for index, x, y, turned in _fill_page(stock, page):
            places[index] = Place(page=len(heights), position=(x, y), turned=turned)
            bottom = max(bottom, y + sizes[index][0 if turned else 1])
        heights.append(bottom)
    return [place for place in places if place is not None], heights


def _fill_page(stock: Stock, page: _Page) -> list[tuple[int, int, int, bool]]:
    """Fill one page: always in the lowest gap, at its taller neighbour; returns (box, x, y, turned) of each.

    xs, ys and ends are the skyline: from x to end everything under y is taken.
    """
    right = page.padded(page.width)
    xs, ends, ys = [0], [right], [0]
    done: list[tuple[int, int, int, bool]] = []
    while stock.left:
        y = min(ys)
        if y >= page.height:
            break
        k = ys.index(y)
        x, end = xs[k], ends[k]
        before = ys[k - 1] if k else FAR
        after = ys[k + 1] if k + 1 < len(ys) else FAR
        found = stock.take(min(end - x - page.gutter, page.width - x), page.height - y)
        if found is None:
            if before == after == FAR:
                break
            ys[k] = min(before, after)
            _merge(xs, ends, ys, k, k)
            continue
        index, w, h, turned = found
        wide, top = page.padded(w), y + page.padded(h)
        if before >= after or (end == right and page.align > 1):
            done.append((index, x, y, turned))
            parts = [(x, x + wide, top), (x + wide, end, y)]
        else:
            done.append((index, end - wide, y, turned))
            parts = [(x, end - wide, y), (end - wide, end, top)]
        parts = [part for part in parts if part[0] < part[1]]
        xs[k : k + 1], ends[k : k + 1], ys[k : k + 1] = (list(column) for column in zip(*parts, strict=True))
        _merge(xs, ends, ys, k, k + len(parts) - 1)
    return done


def _merge(xs: list[int], ends: list[int], ys: list[int], first: int, last: int) -> None:
    """Join parts first to last of the skyline with each other and their neighbours of equal height."""
    for k in range(min(last + 1, len(ys) - 1), max(first, 1) - 1, -1):
        if ys[k - 1] == ys[k]:
            ends[k - 1] = ends[k]
            del xs[k], ends[k], ys[k]
