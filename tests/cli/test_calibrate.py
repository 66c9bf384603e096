"""The commands calibrate, simulate and advise."""

import random
import tempfile
from pathlib import Path

import pytest

from scenekit.calibration.benchmark import checksum, write_benchmark
from scenekit.calibration.benchscene import bench_build
from scenekit.model.store import load


def invented_log(game: Path, seed: int = 3) -> str:
    """Return the log of a machine on which everything costs a little more than its profile says."""
    chosen = random.Random(seed)
    project = load(game)
    with tempfile.TemporaryDirectory() as folder:
        bench = write_benchmark(bench_build(project, project.target(None), Path(folder)), 1)
    prices = bench.build.machine.costs_in(bench.build.mode.name)
    lines = ["READY", "RUN", "0", f"{bench.identity}", "1", f"{checksum(0, bench.identity, 1)}"]
    for number, measure in enumerate(bench.measures, 1):
        time_us = 1.0
        for (operation, part), amount in measure.work:
            cost = prices[operation]
            each = {"call": cost.per_call_us, "row": cost.per_row_us, "pixel": cost.per_pixel_us}[part]
            time_us += amount * each * 1.1
        time_us *= 1 + abs(chosen.gauss(0, 0.01))
        turns = 2
        while turns * time_us < 100_000:
            turns *= 2
        took = int(turns * time_us / 1000)
        lines += [str(number), str(turns), str(took), str(checksum(number, turns, took))]
    return "\n".join(lines) + "\n"


def test_write_says_how_long_it_takes(call, game: Path, tmp_path: Path) -> None:
    called = call("calibrate", game, "--write", tmp_path / "b")
    assert called.code == 0
    assert "runs for about" in called.out.splitlines()[0]
    assert (tmp_path / "b" / "bench.words").is_file()
    first = (tmp_path / "b" / "bench.words").read_bytes()
    call("calibrate", game, "--write", tmp_path / "c")
    assert (tmp_path / "c" / "bench.words").read_bytes() == first


def test_a_log_becomes_a_profile_that_the_target_uses(call, game: Path, tmp_path: Path) -> None:
    log = tmp_path / "log.txt"
    log.write_text(invented_log(game))
    plot = tmp_path / "fit.png"
    common = ("calibrate", game, "--from", log, "--date", "2026-03-01", "--driver", "a made-up board")
    called = call(*common, "--plot", plot, "--use")
    assert called.code == 0, called.err
    assert called.out.startswith("good: ")
    assert plot.read_bytes().startswith(b"\x89PNG")
    profile = (game / "indexed-board-measured.toml").read_text()
    assert "measured: 2026-03-01, a made-up board, benchmark" in profile
    assert load(game).target(None).machine == "indexed-board-measured.toml"
    simulated = call("simulate", game, "--json").json()
    assert simulated["worst"]["half_width_ms"] > 0
    assert simulated["worst"]["spare_ms"] is not None
    assert set(simulated["time_line"]["percentiles_ms"]) == {"50", "90", "95", "99", "100"}
    again = call(*common, "--profile", "mine", "--json").json()
    assert again["profile"] == "mine.toml"
    assert again["verdict"].startswith("good")


def test_half_a_log_can_be_used(call, game: Path, tmp_path: Path) -> None:
    lines = invented_log(game).splitlines()
    log = tmp_path / "log.txt"
    log.write_text("\n".join(lines[: len(lines) * 3 // 4]))
    called = call("calibrate", game, "--from", log)
    assert called.code == 0, called.err
    assert "records are missing" in called.err


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), "one of --write, --from and --run"),
        (("--from", "nowhere.txt"), "no such file"),
        (("--run",), "not the machine"),
        (("--write", "x", "--run"), "one of --write, --from and --run"),
        (("--write", "x", "--target", "nobody"), "unknown name"),
        (("--write", "x", "--date", 'a"b'), "plain characters"),
    ],
)
def test_bad_input_is_said_in_a_line(call, game: Path, arguments: tuple[str, ...], words: str) -> None:
    called = call("calibrate", game, *arguments)
    assert called.code == 2
    assert words in called.err


def test_a_log_of_nonsense_is_refused(call, game: Path, tmp_path: Path) -> None:
    log = tmp_path / "log.txt"
    log.write_bytes(bytes(range(256)) * 50)
    called = call("calibrate", game, "--from", log)
    assert called.code == 2
    assert "no record" in called.err


def test_advise_applies_what_it_says(call, game: Path) -> None:
    said = call("advise", game, "--apply", "--json").json()
    assert said["after"]["fits"]
    worst = call("simulate", game, "--json").json()
    assert worst["worst"]["work_ms"] == said["after"]["worst_ms"]
    memory = {row["memory"]: row["used_bytes"] for row in worst["memory"]}
    assert memory == said["after"]["memory"]
