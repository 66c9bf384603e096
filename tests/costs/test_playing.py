"""Pictures that wait for a refresh, by every way in which pages take turns."""

from dataclasses import replace

import pytest

from scenekit.build import Build, run_stages
from scenekit.costs.estimate import Estimate, estimate
from scenekit.costs.playing import flipped, time_line, ways_of_turns
from scenekit.machines.cost import Cost
from scenekit.model.project import Project


@pytest.fixture(scope="module")
def board(demo: Project) -> Build:
    return run_stages(demo, "board")


@pytest.fixture(scope="module")
def line(board: Build) -> Estimate:
    return estimate(board.planner, board.machine, board.mode, board.scene, range(board.scene.ticks))


def test_late_pictures_wait_for_the_next_refresh(board: Build, line: Estimate) -> None:
    period = line.period_ms
    # three pictures: in time, a little late (two refreshes), very late (three)
    made = replace(line, ticks=(0, 1, 2), work_ms=(0.5 * period, 1.01 * period, 2.5 * period))
    played = time_line(made, board.scene)
    assert played is not None
    assert (played.pictures, played.refreshes, played.wanted) == (3, 6, 3)
    assert played.missed_a_minute == pytest.approx(3 / (6 * period / 60_000))
    assert played.percentiles_ms[50] == pytest.approx(1.01 * period)
    assert played.percentiles_ms[100] == pytest.approx(2.5 * period)
    calm = replace(board.scene, ticks_per_update=3)
    assert time_line(made, calm).refreshes == 9  # type: ignore[union-attr]


def test_an_unknown_cost_leaves_the_time_line_unknown(board: Build, line: Estimate) -> None:
    unknown = replace(line, work_ms=(None, *line.work_ms[1:]))
    assert time_line(unknown, board.scene) is None
    ways = ways_of_turns(unknown, board.scene, board.machine, board.mode, 2)
    assert {way.missed_a_minute for way in ways} == {None}


def test_a_third_page_carries_a_late_picture_over() -> None:
    """Times in periods of 10 ms. Two pages: 5 takes one refresh, 15 two, 5 one: 4 in all.

    Three pages: the second is begun at 5 and done at 20, shown at 20; the third is begun at 20 and done at
    25, shown at 30. So 3 in all, as many as wanted. Then a run of 15s: two refreshes each with two pages;
    with three, drawing never stops, so that 4 x 15 = 60 ms of work are shown within 6 refreshes.
    """
    assert flipped([5, 15, 5], 10, 1, 2) == 4
    assert flipped([5, 15, 5], 10, 1, 3) == 3
    assert flipped([15] * 4, 10, 1, 2) == 8
    assert flipped([15] * 4, 10, 1, 3) == 6
    assert flipped([1] * 7, 10, 1, 3) == 7
    assert flipped([1] * 7, 10, 2, 3) == 14
    assert flipped([10] * 7, 10, 1, 2) == 7


def test_ways_of_pages(board: Build, line: Estimate) -> None:
    period = line.period_ms
    made = replace(line, ticks=(0, 1), work_ms=(0.5 * period, 0.9 * line.quiet_ms))
    one, copied, two, three = ways_of_turns(made, board.scene, board.machine, board.mode, 2)
    assert [way.pages for way in (one, copied, two, three)] == [1, 2, 2, 3]
    assert [way.used for way in (one, copied, two, three)] == [False, False, True, False]
    assert one.in_sight == 1  # the one that takes longer than the time without picture lines
    assert two.in_sight == three.in_sight == 0
    assert copied.missed_a_minute is not None
    assert two.memory_bytes == 2 * board.mode.page_bytes
    few = replace(board.machine, abilities=replace(board.machine.abilities, pages=2))
    assert [way.possible for way in ways_of_turns(made, board.scene, few, board.mode, 2)] == [
        True,
        True,
        True,
        False,
    ]
    bare = replace(board.machine, prices=tuple(p for p in board.machine.prices if p.operation != "blit"))
    copied = ways_of_turns(made, board.scene, bare, board.mode, 2)[1]
    assert (copied.possible, copied.missed_a_minute, copied.in_sight) == (True, None, None)
    words = board.machine.abilities.words - {"page"}
    still = replace(board.machine, abilities=replace(board.machine.abilities, words=words))
    ways = ways_of_turns(made, board.scene, still, board.mode, 1)
    assert [way.possible for way in ways] == [True, True, False, False]


def test_a_copy_slower_than_the_beam_is_seen(board: Build, line: Estimate) -> None:
    period = line.period_ms
    made = replace(line, ticks=(0,), work_ms=(0.1 * period,))
    for share, seen in ((0.8, 0), (1.2, 1)):
        cost = Cost(operation="blit", per_call_us=share * period * 1000, provenance="estimated: test")
        prices = (*(p for p in board.machine.prices if p.operation != "blit"), cost)
        ways = ways_of_turns(made, board.scene, replace(board.machine, prices=prices), board.mode, 2)
        assert ways[1].in_sight == seen
