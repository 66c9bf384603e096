"""The guide to a BASIC of one's own names what there is, and answers alone bring one to a proof."""

import re
import shutil
from pathlib import Path

import pytest

import scenekit
from scenekit.cli.main import COMMANDS, outcome
from scenekit.dialects.answers import questions, read_answers

GUIDE = Path(scenekit.__file__).parent / "manual/own_target.md"


ANSWERS = Path(__file__).parent.parent / "reference/basic256_answers.toml"


def test_answers_that_were_tried_can_be_read():
    assert len(read_answers(ANSWERS)) > 50


def test_it_shows_no_whole_file_of_answers():
    assert "```toml" not in GUIDE.read_text(encoding="utf-8")


def test_it_names_commands_options_and_questions_that_exist():
    text = GUIDE.read_text(encoding="utf-8")
    for name in re.findall(r"scenekit (\w+)", text):
        assert name in COMMANDS or name in ("can", "does", "knew", "needs", "avoids", "to"), name
    keys = {question.key for question in questions()}
    for key in (
        "first",
        "stops_open",
        "reserved",
        "command",
        "carried_by",
        "file_names",
        "line_end",
        "baud",
        "clock",
    ):
        assert f"`{key}" in text
        assert key in keys


def test_the_example_from_a_blank_file_to_a_proved_scene(tmp_path, capsys):
    """By answers alone, in an interpreter that no dialect is shipped for."""
    if shutil.which("basic256") is None:
        pytest.skip("interpreter basic256 is missing; to install it: apt-get install basic256")
    from small_scene import small_project

    small_project(tmp_path / "game")
    answers = tmp_path / "answers.toml"
    answers.write_text(
        ANSWERS.read_text(encoding="utf-8").replace('"320x200"', '"64x48"').replace("320,200", "64,48"),
        encoding="utf-8",
    )

    def call(*arguments):
        capsys.readouterr()
        code = outcome([str(argument) for argument in arguments])
        printed = capsys.readouterr()
        assert code == 0, printed.out + printed.err
        return printed.out

    call("target", "new", tmp_path / "game", "own", "--answers", answers)
    checked = call("target", "check", tmp_path / "game", "--target", "own", "--trust")
    assert "words: 27 passed, 0 failed, 0 unproven" in checked
    proof = call("verify", tmp_path / "game", "--target", "own", "--trust", "--count", "--ticks", "0,9,30")
    assert proof.startswith("passed: ")
    assert "screens: 3 compared, 0 pixels differ" in proof
