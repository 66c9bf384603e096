"""`scenekit target` from blank answers to grades, and what strangers send."""

import random
from pathlib import Path

import pytest

from scenekit.dialects.answers import questions
from scenekit.dialects.dialect import load_dialect
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.model.store import load
from scenekit.programs.records import record_sums

PLAIN_LIKE = (
    'screen = "320x200"\nmemory = "400000"\ndepth = "4-4-4"\ntransparent = "0"\nimage_format = "bmp"\n'
)


@pytest.fixture
def folder(call, tmp_path: Path) -> Path:
    """Return a project with a target of its own, like the executor's."""
    assert call("new", tmp_path / "g").code == 0
    answers = tmp_path / "a.toml"
    answers.write_text(PLAIN_LIKE, encoding="utf-8")
    called = call("target", "new", tmp_path / "g", "mine", "--like", "plain", "--answers", answers)
    assert called.code == 0, called.err
    return tmp_path / "g"


def test_a_target_of_ones_own_is_in_the_project(call, folder):
    target = load(folder).target("mine")
    assert (target.machine, target.mode) == ("targets/mine/mine-machine.toml", "320x200")
    assert load_dialect(target.dialect, folder).words == load_dialect("plain", folder).words
    assert (folder / "targets/mine/answers.toml").read_text(encoding="utf-8").count("=") == 5
    answers = folder.parent / "a.toml"
    twice = call("target", "new", folder, "mine", "--like", "plain", "--answers", answers)
    assert twice.code == 2
    assert "--again" in twice.err
    assert call("target", "new", folder, "mine", "--like", "plain", "--answers", answers, "--again").code == 0
    assert len(load(folder).targets) == 2


def test_nothing_is_proven_before_it_is_run(call, folder):
    called = call("target", "check", folder, "--target", "mine", "--json")
    data = called.json()
    assert called.code == 0
    assert {row["grade"] for row in data["words"]} == {"unproven"}
    assert any(row["name"] == "art_open" and not row["needed"] for row in data["missing"])


def test_the_tests_are_run_where_they_may(call, folder):
    words = call("target", "check", folder, "--target", "mine", "--trust", "--json").json()["words"]
    # Nothing answered about mirrored copies, so none is tried; two words belong to other screens.
    assert sum(row["grade"] == "passed" for row in words) == 43
    assert [row["word"] for row in words if row["grade"] != "passed"] == ["mode_direct", "ink_rgb"]


def test_a_command_of_a_stranger_runs_only_after_it_is_trusted(call, folder, tmp_path):
    path = folder / "targets/mine/mine.toml"
    text = path.read_text(encoding="utf-8")
    marker = tmp_path / "marker"
    run = f'[run]\ncommand = ["touch", "{marker}", "{{program}}"]\nreader = "screenfile"\n'
    path.write_text(text.split("[run]")[0] + run, encoding="utf-8")
    call("target", "check", folder, "--target", "mine")
    assert not marker.exists()
    called = call("target", "check", folder, "--target", "mine", "--trust", "--json")
    assert called.code == 1
    assert marker.exists()
    assert not any(row["grade"] == "passed" for row in called.json()["words"])


def board_log(call, folder, tmp_path):
    """Return the log of all written tests, run one after the other as on a board, and their screens."""
    out = tmp_path / "tests"
    assert call("target", "check", folder, "--target", "mine", "--write", out).code == 0
    dialect = load_dialect("targets/mine/mine.toml", folder)
    said, names = [], []
    for line in (out / "TESTS.txt").read_text(encoding="ascii").splitlines():
        program = line.split("  ", 1)[0]
        text = (out / program).read_text(encoding="ascii")
        number = int(program[4:6])
        (out / program).write_text(text.replace(f"save_screen {number}", "save_screen 0"), encoding="ascii")
        task = Run(folder=out, program=program, dialect=dialect, screens=1, time_limit_s=20)
        outcome = (
            readers()["executor"].run(task)
            if "save_screen" in text
            else readers()["executor"].run(
                Run(folder=out, program=program, dialect=dialect, screens=0, time_limit_s=20)
            )
        )
        said += outcome.said
        if outcome.screens:
            from PIL import Image

            Image.fromarray(outcome.screens[0]).save(tmp_path / f"shot{number}.bmp")
            names.append(tmp_path / f"shot{number}.bmp")
    return said, names


def test_what_comes_back_from_a_board_is_graded(call, folder, tmp_path):
    said, names = board_log(call, folder, tmp_path)
    log = tmp_path / "log.txt"
    log.write_text("RUN\n" + "\n".join(f"> {value}" for value in said) + "\nOK\n", encoding="ascii")
    sent = [part for path in (log, *names) for part in ("--from", path)]
    called = call("target", "check", folder, "--target", "mine", *sent, "--json")
    grades = {row["word"]: row["grade"] for row in called.json()["words"]}
    assert [word for word, grade in grades.items() if grade != "passed"] == ["quit", "mode_direct", "ink_rgb"]
    only = call("target", "check", folder, "--target", "mine", "--from", log, "--json").json()["words"]
    assert {row["why"] for row in only if row["word"] == "fill"} == {"its screen was not sent"}
    for seed in range(20):
        chosen = random.Random(seed)
        bad = list(said)
        bad[1] += 1
        bad[2:4] = record_sums(bad[0], bad[1])
        kept = [str(v) if chosen.random() > 0.1 else chosen.choice(["", "?", str(v)[:-1]]) for v in bad]
        log.write_text("\n".join(kept), encoding="ascii")
        torn = call("target", "check", folder, "--target", "mine", *sent, "--json").json()["words"]
        assert torn[0]["grade"] in ("failed", "unproven")


def test_questions_can_be_answered_at_the_terminal(call, tmp_path, monkeypatch):
    import click

    given = {question.key: question.example for question in questions()}
    given.update(screen="", routine="", **{"while": ""}, line_numbers="yes", command="")
    asked = []
    order = iter(questions())

    def prompt(*_, **__):
        from scenekit.dialects.answers import asked as due

        question = next(q for q in order if due(q, {k: given[k] for k in asked}))
        asked.append(question.key)
        return given[question.key]

    monkeypatch.setattr(click, "prompt", prompt)
    assert call("new", tmp_path / "g").code == 0
    called = call("target", "new", tmp_path / "g", "printer")
    assert called.code == 0, called.err
    assert "1. The screen" in called.out
    assert load_dialect("targets/printer/printer.toml", tmp_path / "g").numbered


@pytest.mark.parametrize(
    ("answers", "message"),
    [
        ("screen = 5\x00", "TOML"),
        ('scren = "1x1"', "did you mean 'screen'"),
        ('line_length = "80"', "answer screen"),
        ('box = "RECT 1,2,3,4"\nscreen="320x200"\nmemory="9999"', "stands for x, y, width, height"),
        ('screen = "0x0"\nmemory="9999"', "width x height"),
        ('screen = "320x200"\nmemory="9999"\ntransparent="300"', "transparent"),
    ],
)
def test_bad_answers_are_said_in_one_line(call, tmp_path, answers, message):
    assert call("new", tmp_path / "g").code == 0
    path = tmp_path / "a.toml"
    path.write_text(answers, encoding="utf-8")
    called = call("target", "new", tmp_path / "g", "bad", "--like", "plain", "--answers", path)
    assert called.code == 2
    assert called.err.count("\n") == 1
    assert message in called.err
    assert len(load(tmp_path / "g").targets) == 1


def test_bad_names_and_logs_are_said_in_one_line(call, folder, tmp_path):
    answers = folder.parent / "a.toml"
    for name in ("../x", "a b", "x" * 41, ""):
        called = call("target", "new", folder, name, "--like", "plain", "--answers", answers)
        assert (called.code, called.err.count("\n")) == (2, 1)
    binary = tmp_path / "log.bin"
    binary.write_bytes(bytes(range(256)) * 40)
    called = call("target", "check", folder, "--target", "mine", "--from", binary, "--json")
    assert {row["grade"] for row in called.json()["words"]} == {"unproven"}
    (tmp_path / "shot21.bmp").write_bytes(b"BM nothing")
    for sent in (tmp_path / "none.txt", tmp_path / "shot21.bmp", tmp_path):
        called = call("target", "check", folder, "--target", "mine", "--from", sent)
        assert (called.code, called.err.count("\n")) == (2, 1)
