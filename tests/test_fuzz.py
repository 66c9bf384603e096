"""Spoilt files of every kind end in a reading or in one line, in bounded time and memory, and touch no other.

The long run of a hundred thousand cases is tools/bench/fuzz.py.
"""

import string
import sys
from pathlib import Path

import click
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some

from scenekit.cli.shared import fraction, pair
from scenekit.errors import SceneKitError
from scenekit.model.fields import Fields
from scenekit.model.project import read_project
from scenekit.model.scene import read_scene
from scenekit.motion.easing import parse_easing

if sys.platform == "win32":
    pytest.skip("needs limits of time and memory that this system has not", allow_module_level=True)

from fuzzing import Sandbox, cases, hand_made

CASES = 450
HAND_MADE = list(hand_made())


@pytest.fixture(scope="module")
def sandbox(tmp_path_factory):
    return Sandbox(tmp_path_factory.mktemp("fuzz"), longest_s=30)


def test_spoilt_files(sandbox):
    wrong = [f"{kind} {name}: {fault}" for kind, name, _, fault in cases(sandbox, 0, CASES) if fault]
    assert wrong == []


@pytest.mark.parametrize("number", range(len(HAND_MADE)))
def test_hand_made_files(sandbox, number):
    kind, name, data = HAND_MADE[number]
    assert sandbox.try_file(sandbox.kinds[kind], name, data) == "", f"{kind} {name} {data[:40]!r}"


def test_the_sandbox_notices_what_it_is_there_for(sandbox, tmp_path):
    """A check that cannot fail is none."""
    evil = tmp_path / "evil"
    assert "writes" in sandbox.watched(lambda: evil.write_text("x"))
    assert "os.mkdir" in sandbox.watched(lambda: (tmp_path / "made").mkdir())
    assert "ZeroDivisionError" in sandbox.watched(lambda: 1 // 0)
    hasty = Sandbox(tmp_path / "hasty", longest_s=0)
    assert "took" in hasty.watched(lambda: sum(range(2_000_000)))
    assert "a message of" in sandbox.watched(lambda: (_ for _ in ()).throw(SceneKitError("a" * 2000)))
    assert sandbox.watched(lambda: None) == ""


words = some.text(alphabet=string.printable + "\u202e\ufeff\u0661\U0001d7d9\x00", max_size=60)
plain = some.one_of(some.none(), some.booleans(), some.integers(), some.floats(), words)
values = some.recursive(
    plain,
    lambda inner: some.lists(inner, max_size=4) | some.dictionaries(words, inner, max_size=4),
    max_leaves=12,
)
KEYS = (
    "format",
    "name",
    "scenes",
    "sheets",
    "sprites",
    "targets",
    "cycles",
    "planes",
    "placed",
    "camera",
    "ticks",
)
tables = some.dictionaries(some.sampled_from(KEYS) | words, values, max_size=8)
calm = settings(derandomize=True, max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))


def ours(work):
    """Run something that may refuse what it is given, in one line."""
    said = ""
    try:
        work()
    except SceneKitError as error:
        said = str(error)
    except click.BadParameter as error:
        said = error.message
    assert said == "" or said.isprintable()
    assert len(said) < 1200


@calm
@given(tables)
def test_any_table_is_a_project_or_one_line(table):
    ours(lambda: read_project({"format": 1, "name": "a", **table}, Path("nowhere"), ()))


@calm
@given(tables)
def test_any_table_is_a_scene_or_one_line(table):
    ours(lambda: read_scene({"format": 1, "ticks": 5, **table}, "a"))


@calm
@given(values)
def test_any_value_is_a_number_or_one_line(value):
    fields = Fields({"a": value}, "here")
    for read in (
        fields.fraction,
        fields.colour,
        fields.colours,
        fields.path,
        fields.text,
        fields.name,
        fields.names,
    ):
        ours(lambda read=read: read("a"))
    ours(lambda: fields.integer("a", 0, 5))
    ours(lambda: fields.choice("a", ("x", "y")))


@calm
@given(words)
def test_any_words_on_the_command_line(text):
    ours(lambda: fraction(text, "--ratio"))
    ours(lambda: pair(text, "--at"))
    ours(lambda: parse_easing("here", text))
