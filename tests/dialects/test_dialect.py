"""Dialect files: what they may say, and clear errors for all else."""

import contextlib
import tomllib

import pytest

from scenekit.dialects.dialect import TARGETS_FOLDER, dialect_names, load_dialect, read_dialect
from scenekit.dialects.spell import Options, spell
from scenekit.errors import DialectError, SceneKitError, UnknownNameError
from scenekit.routines.language import Program
from scenekit.routines.parse import parse_statements

TEXT = (TARGETS_FOLDER / "brandy.toml").read_text(encoding="utf-8")


def read(text):
    return read_dialect(tomllib.loads(text), "own")


def refused(old, new):
    assert old in TEXT
    with pytest.raises(SceneKitError) as caught:
        read(TEXT.replace(old, new, 1))
    text = str(caught.value)
    assert text.isprintable()
    assert "dialect own" in text
    return text


def test_the_file_as_it_stands_can_be_read():
    dialect = read(TEXT)
    assert dialect.name == "own"
    assert dialect.command[-1] == "{program}"


@pytest.mark.parametrize(
    ("spelling", "words"),
    [
        ("{a.__class__}", "a placeholder among"),
        ("{value.__init__.__globals__}", "a placeholder among"),
        ("{value[0]}", "a placeholder among"),
        ("{0}", "a placeholder among"),
        ("{}", "a placeholder among"),
        ("{value!r}", "a placeholder among"),
        ("{value:>2000000000}", "a placeholder among"),
        ("{value:{value}}", "a placeholder among"),
        ("{valeu}", "a placeholder among"),
        ("{value", "matching braces"),
        ("value}", "matching braces"),
        ("{{value}", "matching braces"),
        ("x" * 401, "at most 400 characters"),
    ],
)
def test_hostile_spellings_are_refused(spelling, words):
    quoted = '"' + spelling + '"'
    assert words in refused('read = "READ {value}"', f"read = {quoted}")


@pytest.mark.parametrize("escape", ["\\u0007", "\\r", "\\u0000", "\\u001b", "\\u2028", "\\t"])
def test_characters_that_would_break_a_line_are_refused(escape):
    assert "characters" in refused('"+" = "{a}+{b}"', f'"+" = "{{a}}{escape}{{b}}"')
    assert "characters" in refused('read = "READ {value}"', f'read = "READ{escape}{{value}}"')


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('assign = "{target}={value}"', 'assign = "{target}=\\n{value}"'),
        ('"-" = "{a}-{b}"', '"-" = "{a}-\\n{b}"'),
    ],
)
def test_a_line_break_stands_only_between_the_lines_of_a_word(old, new):
    refused(old, new)


@pytest.mark.parametrize("key", ["screen_width", "lines", "line", "bottom", "variable_prefix"])
@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('assign = "{target}={value}"', 'assign = "{target}={value}{KEY}"'),
        ('remark = "REM {text}"', 'remark = "REM {text}{KEY}"'),
        ('"-" = "{a}-{b}"', '"-" = "{a}-{b}{KEY}"'),
        ('scalar = "{name}%"', 'scalar = "{name}{KEY}"'),
    ],
)
def test_placeholders_of_words_elsewhere_are_refused_or_spelled(old, new, key):
    """Whatever a file may say, the speller can follow."""
    assert old in TEXT
    with contextlib.suppress(SceneKitError):
        dialect = read(TEXT.replace(old, new.replace("KEY", key), 1))
        main = parse_statements("x = 1 - y\nquit", "t")
        made = Program(name="t", remarks=("r",), arrays=(), main=main, routines=())
        spell(dialect, made, {"screen_width": 8, "screen_height": 8, "bottom": 14}, Options())


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("numbered = false", "numbered = 0", "true or false"),
        ("numbered = false\n", "", "missing"),
        ("numbered = false", "numbred = false", "numbered"),
        ("line_length = 240", "line_length = 3", "from 20"),
        ("line_length = 240", "line_length = 1e9", "whole number"),
        ("line_length = 240\n", "", "missing"),
        ("[limits]", "[limits]\nline_lenght = 240", "'line_length'"),
        ('style = "long"', 'style = "longer"', "one of long, short"),
        ('file_ending = ".bas"', 'file_ending = "/../x"', "small letters or digits"),
        ('file_ending = ".bas"', 'file_ending = "bas"', "small letters or digits"),
        ('"+" = "{a}+{b}"', '"**" = "{a}+{b}"', "unknown name '**'"),
        ('read = "READ {value}"', 'raed = "READ {value}"', "did you mean 'read'"),
        ('read = "READ {value}"', "read = 5", "text of at most"),
        ('command = ["brandy"', 'command = "brandy"\nx = ["brandy"', "a list of arguments"),
        ('command = ["brandy"', 'command = [5, "brandy"', "a list of arguments"),
        ('command = ["brandy"', 'command = ["\\u0000", "brandy"', "a list of arguments"),
        ('SDL_VIDEODRIVER = "dummy"', "SDL_VIDEODRIVER = 5", "a table such as"),
        ('SDL_VIDEODRIVER = "dummy"', '"a b" = "dummy"', "a table such as"),
        ("[operators]", "[operatros]", "operators"),
    ],
)
def test_bad_values_are_refused(old, new, words):
    assert words in refused(old, new)


@pytest.mark.parametrize("table", [5, [], "x", {}, {"summary": {}}, {"run": 5}, {"names": []}])
def test_tables_of_other_kinds(table):
    with pytest.raises(SceneKitError):
        read_dialect(table, "own")


def test_a_dialect_of_the_project_folder(tmp_path):
    (tmp_path / "mine.toml").write_text(TEXT)
    assert load_dialect("mine.toml", tmp_path).name == "mine"


@pytest.mark.parametrize("name", ["../mine.toml", "a/../../mine.toml", "link.toml"])
def test_a_dialect_outside_of_the_project_folder_is_refused(tmp_path, name):
    (tmp_path / "mine.toml").write_text(TEXT)
    folder = tmp_path / "project"
    (folder / "a").mkdir(parents=True)
    (folder / "link.toml").symlink_to(tmp_path / "mine.toml")
    with pytest.raises(DialectError, match="leads outside the project folder"):
        load_dialect(name, folder)


def test_an_unknown_dialect_names_the_nearest(tmp_path):
    with pytest.raises(UnknownNameError, match="did you mean 'brandy'"):
        load_dialect("brandi", tmp_path)
    assert "brandy" in dialect_names()
