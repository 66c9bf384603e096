"""A dialect from worked lines: what is found in them, and what is refused in one line."""

import re
import tomllib
from pathlib import Path

import pytest

from scenekit.dialects.answers import answer_of, asked, collect, questions, read_answers, sheet
from scenekit.dialects.dialect import load_dialect, read_dialect
from scenekit.dialects.owntarget import dialect_tables, machine_tables
from scenekit.dialects.painter import Display
from scenekit.dialects.samples import merged, to_spelling
from scenekit.dialects.spellings import STATEMENTS
from scenekit.errors import DialectError, SceneKitError
from scenekit.machines.profile import machine_from_table
from scenekit.model.toml_tables import toml_text
from scenekit.routines.words import WORDS
from scenekit.verify.wordtests import all_tests, run_tests

HERE = Path(__file__).parent
BOX = ("x", "y", "width", "height")
STRUCTURED = {
    "screen": "320x200",
    "colours": "16",
    "depth": "8-8-8",
    "memory": "4000000",
    "line_length": "240",
    "largest_number": "2147483647",
    "remark": "REM hello",
    "variable": "total%=777",
    "array": "DIM list%(39)",
    "element": "list%(29)",
    "divide": "83 DIV 19",
    "remainder": "83 MOD 19",
    "equal": "83=19",
    "unequal": "83<>19",
    "both": "total%=777 AND more%=778",
    "either": "total%=777 OR more%=778",
    "loop": "FOR count%=83 TO 19",
    "loop_end": "NEXT",
    "while": "WHILE total%=777",
    "while_end": "ENDWHILE",
    "if": "IF total%=777 THEN",
    "else": "ELSE",
    "if_end": "ENDIF",
    "routine": "DEF PROCmove(total%,more%)",
    "routine_plain": "DEF PROCmove",
    "own_names": "LOCAL total%,more%",
    "routine_end": "ENDPROC",
    "leave": "ENDPROC",
    "call": "PROCmove(total%,more%)",
    "call_plain": "PROCmove",
    "include": 'LIBRARY "art.bin"',
    "data": "DATA 31,41,59",
    "rewind": "RESTORE +{lines}",
    "read": "READ total%",
    "quit": "QUIT 0",
    "end": "END",
    "report_open": 'said%=OPENOUT("said.txt")',
    "report": "BPUT#said%,STR$(total%)",
    "report_close": "CLOSE#said%",
    "stops_open": 'stops%=OPENIN("stops.txt")',
    "stop_next": "IF EOF#stops% THEN total%=-1 ELSE total%=VAL(GET$#stops%)",
    "open_screen": "MODE 320,200,4\nOFF",
    "palette": "COLOUR 61,201,102,53",
    "ink": "GCOL 61",
    "box": "RECTANGLE FILL 2*11,2*130,2*35-1,2*47-1",
    "row": "LINE 2*11,2*176,2*45,2*176",
    "await_refresh": "",
    "draw_page": "*REFRESH OFF",
    "show_page": "*REFRESH ON",
    "file_open": 'art%=OPENIN("art.bin")',
    "file_byte": "total%=BGET#art%",
    "file_close": "CLOSE#art%",
    "save_screen": 'OSCLI("ScreenSave shot"+STR$(57)+".bmp")',
    "key": "total%=INKEY(0)+1",
    "keys_held": "total%=-INKEY(-26)-2*INKEY(-122)-4*INKEY(-58)-8*INKEY(-42)-16*INKEY(-99)",
    "clock": "total%=TIME*10",
    "command": "brandy -quit {program}",
    "environment": "SDL_VIDEODRIVER=dummy SDL_AUDIODRIVER=dummy",
}
"""What somebody would answer who has that BASIC before them; y counts upward in two units a pixel."""


def spelling(answer, samples, needs=(), allowed=(), screen=(320, 200)):
    return to_spelling("here", answer, samples, needs, allowed, screen)


@pytest.mark.parametrize(
    ("answer", "wanted"),
    [
        ("RECT 11,23,35,47", "RECT {x},{y},{width},{height}"),
        ("BOX(47,35,23,11)", "BOX({height},{width},{y},{x})"),
        ("LINE (11,23)-(45,69),,BF", "LINE ({x},{y})-({x}+{width}-1,{y}+{height}-1),,BF"),
        ("LINE (11,23)-(46,70),,BF", "LINE ({x},{y})-({x}+{width},{y}+{height}),,BF"),
        (
            "bar 11 176 to 45 130",
            "bar {x} ({screen_height}-1-{y}) to ({x}+{width}-1) ({screen_height}-{y}-{height})",
        ),
        ("F 12,24,35,47", "F ({x}+1),{y}+1,{width},{height}"),
        ("R{11}[23;35;47]", "R{{{x}}}[{y};{width};{height}]"),
        ("X11 11.5 Y=11:23:35:47", "X11 11.5 Y={x}:{y}:{width}:{height}"),
    ],
)
def test_argument_order_size_corner_and_origin_are_seen_in_the_line(answer, wanted):
    assert spelling(answer, BOX, BOX) == wanted


def test_names_keep_their_marks_and_texts_are_found():
    assert spelling("READ total%", ["value_name"], ["value"]) == "READ {value}"
    assert spelling("read TOTAL", ["value_name"], ["value"]) == "read {value}"
    assert spelling("subtotal=total", ["value_name"], ["value"]) == "subtotal={value}"
    assert spelling("IF total% = 777 THEN 5000", ["condition", "line"]) == "IF {condition} THEN {line}"
    assert spelling("sub move(total$, more)", ["routine", "parameters"]) == "sub {name}({parameters})"
    assert spelling('LOAD "art.bmp", 10', ["slot", "file"]) == 'LOAD "{file}", {slot}+1'
    assert spelling("A={x} B=11", BOX, (), ("x",)) == "A={x} B={x}"


@pytest.mark.parametrize(
    ("answer", "needs", "words"),
    [
        ("RECT 11,23,35", BOX, "stands for height"),
        ('SAVE "shot57.bmp"', ("number",), "outside of quotes"),
        ('SAVE "shot 57"', ("number",), "within quotes"),
        ("nothing", BOX, "stands for x, y, width, height"),
    ],
)
def test_what_a_line_must_have_and_has_not_is_named(answer, needs, words):
    with pytest.raises(SceneKitError, match=words):
        spelling(answer, (*BOX, "number"), needs)


def test_flags_are_worked_out_from_lines_that_differ_in_numbers():
    def copies(*numbers):
        return {code: f"B {number},0" for code, number in enumerate(numbers)}

    div, mod = "{a} DIV {b}", "{a} MOD {b}"
    assert merged("t", copies(0, 1, 2, 3), "flip", div, mod) == "B {flip},0"
    assert merged("t", copies(1, 3, 5, 7), "flip", div, mod) == "B (1+2*{flip}),0"
    assert merged("t", copies(4, 4, 4, 4), "flip", div, mod) == "B 4,0"
    text = merged("t", copies(1, 17, 5, 21), "flip", div, mod)
    for flip, wanted in enumerate((1, 17, 5, 21)):
        sum_text = text[2:-2].replace("{flip}", str(flip)).replace("DIV", "//").replace("MOD", "%")
        assert eval(sum_text) == wanted
    with pytest.raises(SceneKitError, match="do not add up"):
        merged("t", copies(1, 2, 3, 9), "flip", div, mod)
    with pytest.raises(SceneKitError, match="more than numbers"):
        merged("t", {0: "B 1", 1: "C 2"}, "flip", div, mod)


def test_every_question_leads_somewhere_and_its_example_is_an_answer():
    keys = [question.key for question in questions()]
    assert len(keys) == len(set(keys))
    assert 18 <= len({question.group for question in questions()}) <= 26
    for question in questions():
        if question.to:
            section, key = question.to.split(".", 1)
            known = {
                "words": WORDS,
                "statements": STATEMENTS,
                "operators": {"div", "mod", "=", "<>", "and", "or"},
            }
            assert key in known[section]
        parts = WORDS["blit_keyed"].parameters if question.samples else ()
        allowed = (*parts, "variable_prefix")
        assert to_spelling(
            question.key, question.example, question.samples, question.needs, allowed, (320, 200)
        )


def test_the_sheet_can_be_read_and_asks_everything(tmp_path):
    path = tmp_path / "a.toml"
    path.write_text(sheet(), encoding="utf-8")
    assert list(tomllib.loads(sheet())) == [question.key for question in questions()]
    assert set(read_answers(path).values()) == {""}


def test_questions_are_put_only_where_they_matter():
    seen = []

    def ask(question):
        seen.append(question.key)
        return {"routine": "", "while": "", "screen": ""}.get(question.key, question.example)

    collect(ask)
    assert "box" not in seen
    assert "call" not in seen
    assert {"jump", "jump_if", "data", "line_numbers"} <= set(seen)
    assert all(asked(q, {"screen": "1x1", "while": "w"}) for q in questions() if q.when in ((), ("draws",)))


def from_file(path):
    answers = read_answers(path)
    tables = dialect_tables(answers, "t")
    machine_from_table("m", "m", machine_tables(answers, "m", tables["words"]))


@pytest.mark.parametrize(
    "text",
    [
        'bxo = "1"',
        "box = 1.5",
        'box = ["a", 1]',
        'box = """a\tb"""',
        "box = " + '"' + "x" * 401 + '"',
        "not toml",
        'screen = "wide"\nline_length = "80"\nmemory="4096"',
        'line_length = "much"',
        'line_length = "80"\nline_numbers = "perhaps"',
        'line_length = "80"\ncommand = "rm -rf"',
        'line_length = "80"\nvariable = "LET A = B"',
        'line_length = "80"\nunderscore = "; drop"',
        'line_length = "80"\nreserved = "a b; c"',
        'line_length = "80"\nenvironment = "path=/x"\ncommand="a {program}"',
        'line_length = "80"\nfile_ending = "/../x"',
        'line_length = "80"\nremark = "hello {x.__class__}"\nsignal="none"',
    ],
)
def test_answers_of_strangers_give_one_line(tmp_path, text):
    path = tmp_path / "a.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(SceneKitError) as caught:
        from_file(path)
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 400


def made(answers):
    """Return a dialect and a display from answers, through their TOML."""
    tables = dialect_tables(answers, "own")
    dialect = read_dialect(tomllib.loads(toml_text(tables, "x")), "own")
    table = tomllib.loads(toml_text(machine_tables(answers, "own", tables["words"]), "x"))
    machine = machine_from_table("own", "own", table)
    mode = machine.mode("320x200")
    return dialect, Display(
        mode=mode, transparent=0, flips=frozenset({0}), recolours=True, pages=1, image_format=""
    )


def test_a_dialect_from_worked_lines_alone_passes_every_test_in_its_interpreter(interpreter):
    interpreter("brandy")
    dialect, display = made(STRUCTURED)
    grades = run_tests(dialect, display)
    assert [grade for grade in grades if grade.grade != "passed"] == []
    assert len(grades) == 31


def test_an_answer_that_is_wrong_is_found_by_a_test(interpreter):
    interpreter("brandy")
    wrong = {**STRUCTURED, "box": "RECTANGLE FILL 2*11,2*130,2*35,2*47", "divide": "83/19"}
    dialect, display = made(wrong)
    failed = {grade.word for grade in run_tests(dialect, display) if grade.grade == "failed"}
    assert {"fill", "language: sums"} <= failed
    assert "read" not in failed


def test_names_are_shared_wherever_routines_stand():
    for first in ("yes", "no"):
        answers = {**STRUCTURED, "first": first, "shared_names": "GLOBAL total%,more%"}
        dialect, display = made(answers)
        text = next(t.text for t in all_tests(dialect, display)[0] if t.word == "language: routines")
        assert text.index("GLOBAL ") < text.index("DEF PROC"), first
        assert "sk_held%" in text.split("GLOBAL ")[1].splitlines()[0]


def test_several_lines_where_one_must_be_are_refused_with_the_way_out():
    with pytest.raises(DialectError, match=r"answer array: .* several lines; must be one line: put the sign"):
        dialect_tables({**STRUCTURED, "array": "DIM list%(39)\nREM"}, "own")


def test_every_word_that_answers_make_is_known_by_the_answer():
    assert (answer_of("fill"), answer_of("run"), answer_of("mode_direct")) == (
        "box",
        "row",
        "open_screen_direct",
    )
    assert (answer_of("statement dim"), answer_of("operator div"), answer_of("art_open")) == (
        "array",
        "divide",
        "",
    )


def test_another_dialect_is_changed_only_where_answers_say_so():
    base = tomllib.loads((HERE.parents[1] / "scenekit/dialects/targets/pcbasic.toml").read_text("utf-8"))
    changed = dialect_tables({"box": "FILL 11,23,35,47"}, "t", base)
    assert changed["words"].pop("fill") == "FILL {x},{y},{width},{height}"
    wanted = load_dialect("pcbasic", HERE)
    again = read_dialect({**changed, "words": {**changed["words"], "fill": wanted.words["fill"]}}, "pcbasic")
    assert again == wanted
    assert not re.search(r"\bfill\b", toml_text(changed, "x").split("[words]")[0])


@pytest.mark.parametrize("given", ["copy_keyed_v", "copy_keyed_hv"])
def test_mirrored_copies_are_answered_in_order(given):
    answers = {question.key: question.example for question in questions() if question.example}
    answers.pop("copy_keyed_h")
    for key in {"copy_keyed_v", "copy_keyed_hv"} - {given}:
        answers.pop(key)
    with pytest.raises(DialectError, match="answer copy_keyed_h: empty"):
        dialect_tables(answers, "mine")
