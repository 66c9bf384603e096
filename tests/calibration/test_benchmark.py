"""Benchmark programs, their logs whole and damaged, and what is fitted to them."""

import tomllib
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from random_scenes import random_project
from timed_board import COPIES, benchmark, invented

from scenekit.build import Build, run_stages
from scenekit.calibration.benchmark import (
    MOST_TURNS,
    Benchmark,
    _tables,
    checksum,
    parts_of,
    read_log,
    read_numbers,
    spell_program,
)
from scenekit.calibration.costs import calibrate
from scenekit.calibration.measures import STEP
from scenekit.calibration.profiles import measured_profile
from scenekit.calibration.scenetime import foretell, timing_program
from scenekit.costs.pricing import price_amounts
from scenekit.errors import MachineError
from scenekit.interpreters import readers
from scenekit.interpreters.executor import Machine as Executor
from scenekit.interpreters.outcome import Run
from scenekit.machines.abilities import OPERATIONS
from scenekit.machines.cost import Cost
from scenekit.machines.machine import Machine
from scenekit.machines.profile import PROFILES_FOLDER, machine_from_table
from scenekit.plan.counting import Counter
from scenekit.plan.stepwork import step_counts
from scenekit.programs.parts import COUNTED, counters, reset_counts
from scenekit.routines.language import Call, Name, Number, Statement, Word

RECORD = "measured: 2026-03-01, a test"


@pytest.fixture(scope="module")
def board(tmp_path_factory: pytest.TempPathFactory) -> Benchmark:
    return benchmark(tmp_path_factory.mktemp("b") / "board", "indexed-board", "320x200", "plain")


@pytest.fixture(scope="module")
def runs(tmp_path_factory: pytest.TempPathFactory) -> Benchmark:
    return benchmark(tmp_path_factory.mktemp("b") / "runs", "brandy-pc", "320x200-colour", "brandy")


@pytest.mark.parametrize("which", ["board", "runs"])
def test_a_machine_of_known_costs_is_found_again(which: str, request: pytest.FixtureRequest) -> None:
    bench: Benchmark = request.getfixturevalue(which)
    done = calibrate(bench, read_log(bench, invented(bench)), RECORD)
    assert done.residual_percent < 1
    assert done.verdict.startswith("good")
    assert done.unknown == ()
    prices = bench.build.machine.costs_in(bench.build.mode.name)
    for cost in done.costs:
        true = prices[cost.operation]
        close = 4 * cost.standard_errors_us[0] + 0.03 * true.per_call_us + 1e-4
        assert abs(cost.per_call_us - true.per_call_us) <= close, cost
    assert {"piece", "cell", "tick-sprite", "page", "fill"} <= {cost.operation for cost in done.costs}


def test_noise_is_covered_by_the_errors(runs: Benchmark) -> None:
    prices = runs.build.machine.costs_in(runs.build.mode.name)
    inside = total = 0
    for seed in range(5):
        done = calibrate(runs, read_log(runs, invented(runs, noise=0.02, seed=seed)), RECORD)
        for cost in done.costs:
            total += 1
            error = max(cost.standard_errors_us[0], 1e-6)
            inside += (
                abs(cost.per_call_us - prices[cost.operation].per_call_us)
                <= 3 * error + 0.02 * cost.per_call_us
            )
    assert inside / total > 0.95


def test_every_program_says_what_the_host_reads(tmp_path: Path) -> None:
    small = benchmark(tmp_path / "one", "indexed-board", "320x200", "plain", repeats=1)
    text = small.files[small.program_file].decode("ascii")
    text = text.replace("bench_least = 40 + 8 * sk_bench_grain", "bench_least = 1")
    assert "sk_bench_least = 1" in text
    (tmp_path / "run").mkdir()
    for name, data in {**small.files, small.program_file: text.encode()}.items():
        (tmp_path / "run" / name).write_bytes(data)
    task = Run(
        folder=tmp_path / "run",
        program=small.program_file,
        dialect=small.build.dialect,
        screens=0,
        time_limit_s=120,
    )
    log = read_log(small, readers()["executor"].run(task).said)
    assert log.missing == ()
    assert log.notes == ()
    assert set(log.runs) == set(range(len(small.measures)))


def test_prompts_and_echo_are_passed_over(runs: Benchmark) -> None:
    said = invented(runs)
    lines = ["Ready", ">RUN"]
    for number, value in enumerate(said):
        lines.append(f" {value}" if number % 3 else f"= {value}")
        if number % 40 == 0:
            lines += ["> ", 'LOAD "BENCH"', "? 12 apples"]
    assert read_numbers("\n".join(lines)) == tuple(said)


def test_a_log_cut_short_is_still_used(runs: Benchmark) -> None:
    said = invented(runs)
    half = said[: 4 * (len(runs.measures) + 9)]
    log = read_log(runs, half)
    assert len(log.missing) == len(runs.measures) * runs.repeats - len(runs.measures) - 8
    assert "records are missing" in log.notes[0]
    assert calibrate(runs, log, RECORD).residual_percent < 1


def test_missing_and_damaged_records_are_named(runs: Benchmark) -> None:
    said = invented(runs)
    said[4 * 5 + 2] += 1
    del said[4 * 9 : 4 * 9 + 2]
    log = read_log(runs, said)
    assert log.missing == (5, 9)
    assert "2 of" in log.notes[0]
    assert "5, 9" in log.notes[0]


def test_a_second_run_adds_rounds_and_the_same_log_again_adds_none(runs: Benchmark) -> None:
    slow, calm = invented(runs, noise=0.3, seed=1), invented(runs)
    both = read_log(runs, [*slow, *calm])
    assert both.missing == ()
    assert all(len(done) > runs.repeats for done in both.runs.values())
    assert read_log(runs, [*calm, *calm]).runs == read_log(runs, calm).runs
    assert "stand twice" in read_log(runs, [*calm, *calm]).notes[0]
    alone = calibrate(runs, read_log(runs, slow), RECORD).residual_percent
    assert calibrate(runs, both, RECORD).residual_percent < alone


def test_a_clock_that_runs_backwards_is_said(runs: Benchmark) -> None:
    said = invented(runs)
    said[4 * 4 + 2], said[4 * 4 + 3] = -40, checksum(4, said[4 * 4 + 1], -40)
    assert any("ran backwards in 1 runs" in note for note in read_log(runs, said).notes)


def test_a_clock_that_stands_still_ends_the_program(board: Benchmark, tmp_path: Path) -> None:
    """The executor with a clock that always says 7."""
    text = board.files[board.program_file].decode("ascii")
    for name, data in board.build.bundle.files.items():
        (tmp_path / name).write_bytes(data)
    most = min(MOST_TURNS, board.build.dialect.limits.integer_high // 4)
    assert f"sk_bench_most = {most}" in text
    text = text.replace(f"sk_bench_most = {most}", "sk_bench_most = 999")
    machine = Executor(tmp_path, text, "bench", 60.0, board.build.abilities.flips)
    words = machine.words()
    machine.words = lambda: {**words, "w_clock": lambda: 7}  # type: ignore[method-assign]
    machine.run()
    assert machine.said == [0, board.identity, 0, checksum(0, board.identity, 0)]
    with pytest.raises(MachineError, match="the clock stood still or ran backwards"):
        read_log(board, machine.said)


def test_a_clock_that_always_runs_backwards_is_refused(runs: Benchmark) -> None:
    said = invented(runs)
    for at in range(4, len(said), 4):
        said[at + 2], said[at + 3] = -said[at + 2], checksum(said[at], said[at + 1], -said[at + 2])
    with pytest.raises(MachineError, match="the clock stood still or ran backwards"):
        read_log(runs, said)


def test_a_clock_coarser_than_any_run_is_refused(runs: Benchmark) -> None:
    said = invented(runs)
    said[2], said[3] = 900_000, checksum(0, runs.identity, 900_000)
    with pytest.raises(MachineError, match="steps of 900000 ms"):
        read_log(runs, said)


def test_a_log_of_no_time_at_all_is_refused(runs: Benchmark) -> None:
    said = invented(runs)
    for at in range(4, len(said), 4):
        said[at + 2], said[at + 3] = 0, checksum(said[at], said[at + 1], 0)
    with pytest.raises(MachineError, match="the clock stood still"):
        read_log(runs, said)


def test_operations_that_took_no_time_still_have_a_cost(runs: Benchmark) -> None:
    """A machine that does boxes in no time: a cost of nothing is unknown, so the smallest stands for it."""
    prices = runs.build.machine.costs_in(runs.build.mode.name)
    free = {name: replace(cost, per_call_us=0.0) for name, cost in prices.items() if name.startswith("box")}
    done = calibrate(runs, read_log(runs, invented(runs, changed=free)), RECORD)
    cheap = [cost for cost in done.costs if cost.operation in free]
    assert {cost.operation for cost in cheap} == {"box", "box-added", "box-pair", "box-plane", "box-sprite"}
    assert all(0 < cost.per_call_us < 0.05 for cost in cheap)
    old = (PROFILES_FOLDER / "brandy-pc.toml").read_text(encoding="utf-8")
    machine_from_table("mine", "mine.toml", tomllib.loads(measured_profile(old, done, "mine")))


def test_another_benchmarks_log_is_refused(runs: Benchmark, board: Benchmark) -> None:
    assert runs.identity != board.identity
    with pytest.raises(MachineError, match=f"of benchmark {board.identity}"):
        read_log(runs, invented(board))


@pytest.mark.parametrize("numbers", [[], [1, 2, 3], [9] * 400])
def test_an_empty_log_is_refused(runs: Benchmark, numbers: list[int]) -> None:
    with pytest.raises(MachineError, match="no record"):
        read_log(runs, numbers)


def test_too_short_a_log_is_refused(runs: Benchmark) -> None:
    with pytest.raises(MachineError, match="are needed for"):
        calibrate(runs, read_log(runs, invented(runs)[: 4 * 3]), RECORD)


def test_a_machine_with_one_page_can_be_measured_too(tmp_path: Path) -> None:
    """It ends its pictures as well; a budget without the price of that would stay unknown."""
    bench = benchmark(tmp_path / "one", "yabasic-pc", "160x100", "yabasic")
    assert bench.build.abilities.pages == 1
    page = Cost(operation="page", per_call_us=30.0, provenance=RECORD)
    said = invented(bench, changed={"page": page})
    done = calibrate(bench, read_log(bench, said), RECORD)
    old = (PROFILES_FOLDER / "yabasic-pc.toml").read_text(encoding="utf-8")
    text = measured_profile(old, done, "mine")
    machine = machine_from_table("mine", "mine.toml", tomllib.loads(text))
    assert machine.cost("page") is not None
    assert bench.build.planner.plan(0)[-1].operation == "page"


def test_the_profile_holds_the_costs(runs: Benchmark) -> None:
    done = calibrate(runs, read_log(runs, invented(runs)), RECORD)
    old = (PROFILES_FOLDER / "brandy-pc.toml").read_text(encoding="utf-8")
    text = measured_profile(old, done, "mine")
    machine: Machine = machine_from_table("mine", "mine.toml", tomllib.loads(text))
    assert machine.residual_percent == pytest.approx(done.residual_percent, rel=1e-3)
    for cost in done.costs:
        assert machine.cost(cost.operation) == cost
        assert cost.measured
        assert "2026-03-01" in cost.provenance
    assert machine.cost("logic") == runs.build.machine.cost("logic")
    assert machine.cost("palette") == runs.build.machine.cost("palette")
    assert measured_profile(text, done, "mine") == text


def test_what_is_foretold_is_what_the_prices_say(runs: Benchmark) -> None:
    told = foretell(runs.build, runs.build.machine, 1)
    more = foretell(runs.build, runs.build.machine, 3)
    assert 2.5 * told.time_ms < more.time_ms < 3.5 * told.time_ms
    prices = tuple(replace(price, standard_errors_us=()) for price in runs.build.machine.prices)
    exact = replace(runs.build.machine, prices=prices, residual_percent=0.0)
    assert foretell(runs.build, exact, 1).half_width_ms == 0
    assert 0.15 < told.half_width_ms / told.time_ms < 0.3  # 1.96 x 7.9 % and 6.2 % of the shipped profile
    files = timing_program(runs.build, 3, 2)
    assert b"time_scene(3,2)" in files["time.bas"]


def test_a_turn_does_what_its_measure_says(board: Benchmark, tmp_path: Path) -> None:
    """The executor runs each measure once, and counts what the routines do."""
    build, measures = board.build, board.measures
    places = [n for n, measure in enumerate(measures) if measure.kind != STEP]
    parts = replace(parts_of(build, _tables(measures), (("bench_turn", 1),)), counting=True)
    main: list[Statement] = [Call("load", ()), Word("say_open", ())]
    for place in places:
        terms = measures[place].terms
        main += [
            Call("bench_prepare", (Number(place),)),
            *reset_counts(),
            Word("begin_frame", (Name("page"),)),
        ]
        main.append(Call("bench_turns", tuple(Number(n) for n in (measures[place].kind, *terms, 1))))
        main.append(Word("end_frame", (Name("page"),)))
        main += [Word("say", (name,)) for operation in COUNTED for name in counters(operation)]
    main += [Word("say_close", ()), Word("quit", ())]
    names = ("bench", "bench_recolour", "bench_changes", "bench_maps")
    text = spell_program(build, parts, tuple(main), names)
    for name, data in {"count.words": text, **build.bundle.files}.items():
        (tmp_path / name).write_bytes(data)
    task = Run(folder=tmp_path, program="count.words", dialect=build.dialect, screens=0, time_limit_s=120)
    said = iter(readers()["executor"].run(task).said)
    for place in places:
        counted = {(operation, part): next(said) for operation in COUNTED for part in ("call", "pixel")}
        wanted = dict(measures[place].work)
        for (operation, part), number in counted.items():
            if part == "call" or operation in ("run", "fill", "move") or operation.startswith("blit"):
                assert number == wanted.get((operation, part), 0), (measures[place].words, operation, part)
    assert {"box-pair", "seen-sprite", "move", "map-cell"} <= {o for m in measures for (o, _), _ in m.work}


def test_pages_hold_the_picture_of_the_update_before(tmp_path: Path) -> None:
    """At three ticks a picture more has changed on a page since it was drawn than at one tick before."""
    project = random_project(tmp_path / "p", 3002)
    profile = project.folder / "small.toml"
    text = profile.read_text(encoding="utf-8").replace('"page"]', '"page", "move"]')
    costs = [
        f'[[costs]]\noperation = "{operation}"\nper_call_us = 1\nprovenance = "estimated: for a test"\n'
        for operation in OPERATIONS
        if operation not in ("plot", "blit-flipped", "logic", "sound")
        and f'operation = "{operation}"' not in text
    ]
    profile.write_text("\n".join([text, *costs]), encoding="utf-8")
    one, none = (Fraction(1), Fraction(1)), (Fraction(0), Fraction(0))
    scene = project.scenes[0]
    planes = tuple(replace(plane, ratio=one, drift=none, bands=()) for plane in scene.planes)
    scene = replace(scene, planes=planes, ticks_per_update=3)
    target = replace(project.target("small"), redraw="changes")
    build = run_stages(replace(project, targets=(target,), scenes=(scene,)), last="tables")
    ticks = np.arange(0, 60, 3)
    pages = build.planner.abilities.pages * 3
    counted = Counter(build.planner).count(ticks, np.maximum(0, ticks - 3), np.maximum(-1, ticks - pages))
    times, _ = price_amounts(counted.whole, without_shares(build), 0.0)
    after = step_counts(build.scene, build.reduced, 57, 60)
    last_us = sum(without_shares(build)[o].time_us(n, 0, 0) for o, n in after.items())
    told = foretell(build, build.machine, len(ticks))
    assert told.time_ms == pytest.approx(times.sum() + last_us / 1000)


def without_shares(build: Build) -> dict[str, Cost]:
    return {o: c for o, c in build.machine.costs_in(build.mode.name).items() if not c.share_percent}


def test_pixels_all_over_the_page_cost_more_than_in_one_place(board: Benchmark) -> None:
    """What planes take more for each pixel belongs to the price of pixels, not to that of their rows."""
    far_us = 0.02
    done = calibrate(board, read_log(board, invented(board, far_us=far_us)), RECORD)
    assert done.residual_percent < 1
    prices = board.build.machine.costs_in(board.build.mode.name)
    for cost in done.costs:
        if cost.operation in COPIES:
            assert cost.per_pixel_us == pytest.approx(prices[cost.operation].per_pixel_us + far_us, rel=0.05)
        if cost.operation in ("row", "cell", "plane"):
            assert cost.per_call_us == pytest.approx(prices[cost.operation].per_call_us, rel=0.05)
