"""Transitions turn every cell exactly once, and their boxes cover exactly their cells."""

from fractions import Fraction

import numpy as np
import pytest

from scenekit.motion.transitions import (
    KINDS,
    MAX_CELLS,
    TAPS,
    dissolve_order,
    even_cells,
    fade_weights,
    merge_cells,
    next_state,
    register_bits,
    turnover,
)


@pytest.mark.parametrize("bits", list(TAPS))
def test_register_passes_every_state_but_zero(bits: int) -> None:
    state, seen = 1, 0
    while True:
        state = next_state(state, bits)
        seen += 1
        if state == 1 or seen > 1 << bits:
            break
    assert seen == (1 << bits) - 1


@pytest.mark.parametrize(("width", "height"), [(320, 200), (640, 400)])
def test_dissolve_visits_every_pixel_exactly_once(width: int, height: int) -> None:
    order = dissolve_order(width * height)
    assert len(order) == width * height
    assert np.array_equal(np.sort(order), np.arange(width * height))


@pytest.mark.parametrize("cells", [1, 2, 3, 4, 7, 8, 1000])
def test_dissolve_of_any_count(cells: int) -> None:
    assert sorted(dissolve_order(cells).tolist()) == list(range(cells))


@pytest.mark.parametrize("cells", [0, -1, MAX_CELLS])
def test_dissolve_of_impossible_count(cells: int) -> None:
    with pytest.raises(ValueError, match="cells"):
        register_bits(cells)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("ticks", [1, 7, 30, 400])
def test_every_cell_turns_once_and_boxes_cover_them(kind: str, ticks: int) -> None:
    made = turnover(kind, (320, 200), (8, 8), ticks)
    assert made.ticks == ticks
    painted = np.zeros((200, 320), dtype=np.int32)
    for tick in range(ticks):
        cells = made.cells_at(tick)
        wanted = np.zeros((25, 40), dtype=np.int32)
        wanted.flat[cells] = 1
        shown = np.zeros((200, 320), dtype=np.int32)
        for x, y, w, h in made.boxes_at(tick):
            shown[y : y + h, x : x + w] += 1
        assert np.array_equal(shown, np.kron(wanted, np.ones((8, 8), dtype=np.int32)))
        painted += shown
    assert (painted == 1).all()


def test_dissolve_spreads_its_cells_evenly() -> None:
    made = turnover("dissolve", (320, 200), (1, 1), 60)
    counts = {len(made.cells_at(tick)) for tick in range(60)}
    assert counts <= {1066, 1067}


@pytest.mark.parametrize(
    ("direction", "first", "last"),
    [
        ("right", (0, 0, 8, 200), (312, 0, 8, 200)),
        ("left", (312, 0, 8, 200), (0, 0, 8, 200)),
        ("down", (0, 0, 320, 8), (0, 192, 320, 8)),
        ("up", (0, 192, 320, 8), (0, 0, 320, 8)),
    ],
)
def test_wipe_is_one_box_a_tick(direction: str, first: tuple[int, ...], last: tuple[int, ...]) -> None:
    ticks = 40 if direction in ("right", "left") else 25
    made = turnover("wipe", (320, 200), (8, 8), ticks, direction=direction)
    assert all(len(made.boxes_at(tick)) == 1 for tick in range(ticks))
    assert made.boxes_at(0) == (first,)
    assert made.boxes_at(ticks - 1) == (last,)


def test_iris_opens_from_its_centre() -> None:
    made = turnover("iris", (320, 200), (8, 8), 20, centre_px=(20, 28))
    assert 3 * 40 + 2 in made.cells_at(0).tolist()
    assert 24 * 40 + 39 in made.cells_at(19).tolist()


def test_cut_is_one_box() -> None:
    made = turnover("cut", (320, 200), (8, 8), 5)
    assert made.boxes_at(0) == ((0, 0, 320, 200),)
    assert all(made.boxes_at(tick) == () for tick in range(1, 5))


def test_boxes_of_rows_that_touch_at_the_edge_stay_apart() -> None:
    cells = np.array([3, 4], dtype=np.int32)  # the end of row 0 and the start of row 1
    assert merge_cells(cells, 4) == [(3, 0, 1, 1), (0, 1, 1, 1)]


@pytest.mark.parametrize(
    ("kind", "size", "cell", "ticks"),
    [
        ("melt", (320, 200), (8, 8), 5),
        ("cut", (320, 200), (7, 8), 5),
        ("cut", (320, 200), (0, 8), 5),
        ("cut", (320, 200), (8, 8), 0),
        ("cut", (2048, 2048), (1, 1), 5),
        ("dissolve", (320, 200), (8, 8), 10**6),
    ],
)
def test_impossible_transition(kind: str, size: tuple[int, int], cell: tuple[int, int], ticks: int) -> None:
    with pytest.raises(ValueError):
        turnover(kind, size, cell, ticks)


def test_fade_ends_at_the_new_colours() -> None:
    assert fade_weights(4) == (Fraction(1, 4), Fraction(1, 2), Fraction(3, 4), Fraction(1))
    with pytest.raises(ValueError, match="ticks"):
        fade_weights(0)


def test_even_cells() -> None:
    assert even_cells((320, 200), 1000) == (8, 8)
    assert even_cells((320, 200), 64000) == (1, 1)
    assert even_cells((320, 200), 1) == (40, 40)


def test_iris_opens_from_the_middle_by_itself_and_evenly() -> None:
    made = turnover("iris", (320, 200), (4, 4), 10)
    corners = {0, 79, 49 * 80, 49 * 80 + 79}
    assert corners <= set(made.cells_at(9).tolist())
    assert {24 * 80 + 39, 24 * 80 + 40, 25 * 80 + 39, 25 * 80 + 40} <= set(made.cells_at(0).tolist())
    for tick in range(10):
        cells = set(made.cells_at(tick).tolist())
        assert cells == {cell // 80 * 80 + 79 - cell % 80 for cell in cells}, "the same left and right"
        assert cells == {(49 - cell // 80) * 80 + cell % 80 for cell in cells}, "the same above and below"
