"""The porting sheet: nothing left out, and what it says of a dialect is so in its interpreter."""

import html.parser
from pathlib import Path

import pytest

from scenekit.cli.main import outcome
from scenekit.dialects.dialect import dialect_names, load_dialect
from scenekit.dialects.porting import NONE, differences, porting_sheet, sheet_html, sheet_text
from scenekit.dialects.spellings import OPERATORS, STATEMENTS
from scenekit.routines.words import WORDS

HERE = Path(__file__).parent
DIALECTS = [load_dialect(name, HERE) for name in dialect_names()]


def test_every_word_of_every_dialect_is_in_it():
    words, statements, operators, differing = porting_sheet(DIALECTS)
    assert [row.name for row in words.rows] == list(WORDS)
    assert [row.name for row in statements.rows] == list(STATEMENTS)
    assert [row.name for row in operators.rows] == list(OPERATORS)
    for dialect in DIALECTS:
        for row in words.rows:
            spelled = row.spelled[dialect.name]
            assert spelled == (dialect.words.get(row.name, NONE) or "(nothing)")
    assert any(len(set(row.spelled.values())) > 3 for row in differing.rows)


@pytest.mark.parametrize(
    ("name", "fact", "wanted"),
    [
        ("brandy", "far corner of a box", "by size, less one"),
        ("brandy", "y counts", "upward, two units a pixel"),
        ("pcbasic", "far corner of a box", "named, and drawn"),
        ("plain", "far end of a row", "by size"),
        ("pcbasic", "array is made with", "its last place, counted from 0"),
        ("sdlbrt", "array is made with", "its number of elements"),
        ("ecma55", "copies", NONE),
        ("pcbasic", "copies", "from a hidden page, never mirrored"),
    ],
)
def test_what_a_dialect_does_otherwise(name, fact, wanted):
    assert differences(load_dialect(name, HERE))[fact] == wanted


ROUNDING = {
    "brandy": ('F%=OPENOUT("said.txt")\nBPUT#F%,STR$(INT(-2.5))\nCLOSE#F%\nQUIT 0\n', -3),
    "sdlbrt": ('open "said.txt" for output as 3\nprint #3,int(0-2.5)\nclose #3\nend\n', -2),
    "yabasic": ('open #3,"said.txt","w"\nprint #3 int(-2.5)\nclose #3\nexit 0\n', -2),
    "pcbasic": ('10 OPEN "said.txt" FOR OUTPUT AS 3\n20 PRINT#3,INT(-2.5)\n30 CLOSE 3\n40 SYSTEM\n', -3),
    "ecma55": ('10 PRINT "=";INT(-2.5)\n20 STOP\n30 END\n', -3),
}


@pytest.mark.parametrize("name", ROUNDING)
def test_rounding_is_as_the_sheet_says(interpreter, tmp_path, name):
    from scenekit.interpreters import readers
    from scenekit.interpreters.outcome import Run

    dialect = interpreter(name)
    if not readers()[dialect.reader].available(dialect):
        pytest.skip("its display is missing")
    text, wanted = ROUNDING[name]
    program = f"t{dialect.file_ending}"
    (tmp_path / program).write_text(text, encoding="ascii")
    task = Run(folder=tmp_path, program=program, dialect=dialect, screens=0, time_limit_s=30)
    assert readers()[dialect.reader].run(task).said == (wanted,)
    noted = differences(dialect)["noted"].lower()
    assert ("int rounds down" in noted) == (wanted == -3)
    assert ("int cuts towards zero" in noted) == (wanted == -2)


class Page(html.parser.HTMLParser):
    """Counts cells and collects what a page would load or run."""

    def __init__(self):
        super().__init__()
        self.cells = 0
        self.loads = []

    def handle_starttag(self, tag, attrs):
        self.cells += tag == "td"
        self.loads += [tag] if tag in ("script", "img", "link", "iframe") else []


def test_the_page_is_whole_and_loads_nothing():
    sections = porting_sheet(DIALECTS)
    page = Page()
    page.feed(sheet_html(sections))
    assert page.cells == len(DIALECTS) * sum(len(section.rows) for section in sections)
    assert page.loads == []
    assert "&lt;&gt;" in sheet_html(sections)
    assert sheet_text(sections).count("\n") > 200


def test_the_command_prints_or_writes(tmp_path, capsys):
    assert outcome(["port", "--word", "fill", "--dialect", "pcbasic"]) == 0
    printed = capsys.readouterr().out
    assert "BF" in printed
    assert "rewind" not in printed
    assert outcome(["port", "--html", str(tmp_path / "sheet.html")]) == 0
    assert (tmp_path / "sheet.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    capsys.readouterr()
    for arguments in (["--word", "fil"], ["--dialect", "none"], ["--html", str(tmp_path / "no/sheet.html")]):
        assert outcome(["port", *arguments]) == 2
        assert capsys.readouterr().err.count("\n") == 1
