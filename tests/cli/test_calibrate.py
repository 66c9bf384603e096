"""The commands calibrate, simulate and advise."""

from pathlib import Path

import pytest
from invented_log import invented_log

from scenekit.model.store import load


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
