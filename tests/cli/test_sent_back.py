"""`export --proof` and `verify --from`: the way to a board and back, with the executor as the board."""

from pathlib import Path

import pytest
from PIL import Image

from scenekit.build import run_stages
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.model.store import load


def test_an_export_for_proof_is_judged_by_what_comes_back(call, game, tmp_path):
    out = tmp_path / "out"
    assert call("export", game, "--out", out, "--proof", "0,7,31").code == 0
    build = run_stages(load(game))
    task = Run(
        folder=out,
        program=build.play_file,
        dialect=build.dialect,
        screens=3,
        time_limit_s=60,
        flips=build.abilities.flips,
    )
    outcome = readers()["executor"].run(task)
    log = tmp_path / "log.txt"
    log.write_text("\n".join(f"] {value}" for value in outcome.said), encoding="ascii")
    sent = ["--from", log]
    called = call("verify", game, "--ticks", "0,7,31", *sent)
    assert called.code == 1
    assert called.out.startswith("incomplete: ")
    assert "screens of ticks 0, 7, 31" in called.out
    for number, screen in enumerate(outcome.screens):
        Image.fromarray(screen).save(tmp_path / f"shot{number}.bmp")
        sent += ["--from", tmp_path / f"shot{number}.bmp"]
    called = call("verify", game, "--ticks", "0,7,31", *sent)
    assert called.code == 0, called.out
    assert called.out.startswith("passed: ")
    assert call("verify", game, "--ticks", "0,7,31", *sent, "--json").json()["verdict"] == "passed"
    screen = outcome.screens[2].copy()
    screen[5, 6] = 255 - screen[5, 6]
    Image.fromarray(screen).save(tmp_path / "shot2.bmp")
    called = call("verify", game, "--ticks", "0,7,31", *sent)
    assert called.code == 1
    assert "tick 31: 1 of 64000 pixels differ" in called.out
    assert call("verify", game, "--ticks", "0,7,32", *sent).out.startswith("FAILED: ")


def test_all_scenes_are_proved_by_one_program(call, demo, tmp_path):
    """Without --scene the program enters quay, pier and quay again; with it, one scene is proved alone."""
    out = tmp_path / "out"
    ticks = ("--target", "board", "--ticks", "0,40")
    assert call("export", demo.folder, "--target", "board", "--out", out, "--proof", "0,40").code == 0
    stops = [int(line) for line in (out / "stops.txt").read_text(encoding="ascii").split()]
    assert stops == [-2, 0, 40, -3, 0, 40, -2, 0, 40]
    build = run_stages(demo, "board", "quay", last="plan")
    program = f"{demo.name}-play.words"
    flips = build.abilities.flips
    task = Run(folder=out, program=program, dialect=build.dialect, screens=6, time_limit_s=90, flips=flips)
    outcome = readers()["executor"].run(task)
    log = tmp_path / "log.txt"
    log.write_text("\n".join(f"> {value}" for value in outcome.said), encoding="ascii")
    called = call("verify", demo.folder, *ticks, "--from", log)
    assert (called.code, called.out.split(":")[0]) == (1, "incomplete")
    assert "not sent: screens 0, 1, 2, 3, 4, 5" in called.out
    sent = ["--from", log]
    for number, screen in enumerate(outcome.screens):
        Image.fromarray(screen).save(tmp_path / f"shot{number}.png")
        sent += ["--from", tmp_path / f"shot{number}.png"]
    called = call("verify", demo.folder, *ticks, *sent)
    assert called.code == 0, called.out
    assert called.out.startswith("passed: all scenes for board")
    swapped = [*sent[:2], "--from", f"2={tmp_path / 'shot0.png'}"]
    called = call("verify", demo.folder, *ticks, *swapped)
    assert called.code == 1
    assert "pier, tick 0: " in called.out
    assert call("verify", demo.folder, *ticks, "--from", f"6={tmp_path / 'shot0.png'}").code == 2
    alone = call("verify", demo.folder, *ticks, "--scene", "pier", *sent)
    assert alone.code == 2
    assert "the stops are 0 to 1" in alone.err


def test_it_refuses_in_one_line(call, game, tmp_path):
    for options in (["--proof", "x"], ["--proof", "0", "--count"], ["--proof", "9:1"]):
        called = call("export", game, "--out", tmp_path / "o", *options)
        assert called.code == 2
    called = call("verify", game, "--from", tmp_path / "nothing.txt")
    assert (called.code, called.err.count("\n")) == (2, 1)


def test_what_never_ends_is_not_read_whole(call, game):
    if not Path("/dev/zero").exists():
        pytest.skip("no device without an end here")
    for arguments in (
        ("verify", game, "--ticks", "0", "--from", "/dev/zero"),
        ("target", "new", game, "mine", "--answers", "/dev/zero"),
    ):
        called = call(*arguments)
        assert called.code == 2
        assert "must be at most" in called.err


def test_a_target_that_cannot_be_leaves_nothing_behind(call, game, tmp_path):
    before = sorted(path for path in game.rglob("*"))
    answers = tmp_path / "answers.toml"
    answers.write_text('name = "x"\n', encoding="utf-8")
    assert call("target", "new", game, "mine", "--answers", answers).code == 2
    answers.write_text("", encoding="utf-8")
    called = call(
        "target",
        "new",
        game,
        "mine",
        "--like",
        "plain",
        "--answers",
        answers,
        "--machine",
        "indexed-board",
        "--mode",
        "no-such-mode",
    )
    assert called.code == 2
    assert "no-such-mode" in called.err
    assert sorted(path for path in game.rglob("*")) == before


def test_sums_without_what_they_belong_to_are_refused(call, tmp_path):
    assert (
        call(
            "new", tmp_path / "g", "--machine", "indexed-board", "--mode", "320x200", "--dialect", "plain"
        ).code
        == 0
    )
    for arguments in (
        ("verify", tmp_path / "g", "--sums"),
        ("export", tmp_path / "g", "--out", tmp_path / "o", "--sums"),
    ):
        called = call(*arguments)
        assert called.code == 2
        assert "--sums goes with" in called.err
    assert not (tmp_path / "o").exists()
