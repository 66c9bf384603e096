"""The speller: the same meaning in every dialect, within every limit."""

import random
import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from scenekit.dialects.dialect import dialect_names, load_dialect
from scenekit.dialects.spell import Options, missing_words, spell
from scenekit.errors import DialectError
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.interpreters.process import installed
from scenekit.registry import choose
from scenekit.routines.language import Assign, Binary, Element, If, Name, Number, Program, Table, Word
from scenekit.routines.parse import parse_routines, parse_statements

HERE = Path(__file__).parent
CONSTANTS = {"screen_width": 64, "screen_height": 48, "bottom": 94}
RUNNABLE = [name for name in dialect_names() if load_dialect(name, HERE).reader]
SMALL = [-7, -1, 0, 1, 2, 3, 9, 40]


def program(main, routines="", tables=(), arrays=()):
    """Return a program that loads its tables, does a main part, and quits."""
    body = "".join(f"for i = 0 to {len(t.values) - 1}\nread {t.name}(i)\nend\n" for t in tables)
    load = f"\nroutine load\nlocal i\nrewind\n{body}end\n"
    return Program(
        name="t",
        remarks=("test",),
        arrays=(*((table.name, len(table.values)) for table in tables), *arrays),
        main=parse_statements(f"do load\nsay_open\n{main}\nsay_close\nquit\n", "main"),
        routines=parse_routines(load + routines, "routines"),
        tables=tuple(tables),
    )


def run(dialect, made, tmp_path):
    """Return what a program says in a dialect."""
    name = f"t{dialect.file_ending}"
    (tmp_path / name).write_text(spell(dialect, made, CONSTANTS, Options()), encoding="ascii")
    task = Run(folder=tmp_path, program=name, dialect=dialect, screens=0, time_limit_s=20)
    return list(choose("reader", dialect.reader, readers()).run(task).said)


@pytest.fixture(params=RUNNABLE)
def dialect(request, interpreter):
    """Return each dialect whose interpreter is here."""
    found = load_dialect(request.param, HERE)
    if found.command and not installed(found):
        interpreter(request.param)
    return found


def evaluate(value, names):
    """Return the value of a neutral expression, worked out on its own."""
    match value:
        case Number(number):
            return number
        case Name(name):
            return names[name]
        case Element(array, index):
            return names[array][evaluate(index, names)]
        case Binary(operator, left, right):
            a, b = evaluate(left, names), evaluate(right, names)
            results = {
                "+": a + b,
                "-": a - b,
                "*": a * b,
                "=": a == b,
                "<>": a != b,
                "<": a < b,
                "<=": a <= b,
                ">": a > b,
                ">=": a >= b,
                "and": bool(a) and bool(b),
                "or": bool(a) or bool(b),
            }
            if operator in ("div", "mod"):
                return a // b if operator == "div" else a % b
            return results[operator]
    raise AssertionError(value)


def random_sum(chosen, depth, names):
    """Return an expression whose operands of div and mod are not negative, and which stays small."""
    while True:
        value = random_value(chosen, depth, names)
        if abs(evaluate(value, names)) < 30_000 and fits(value, names):
            return value


def fits(value, names):
    """Say whether all parts are small, and div and mod have what they may have."""
    match value:
        case Binary(operator, left, right):
            if not (fits(left, names) and fits(right, names)):
                return False
            a, b = evaluate(left, names), evaluate(right, names)
            if operator in ("div", "mod") and (a < 0 or b <= 0):
                return False
            return abs(evaluate(value, names)) < 30_000
        case Element(_, index):
            return fits(index, names) and 0 <= evaluate(index, names) < 4
    return True


def random_value(chosen, depth, names):
    kind = chosen.randrange(5) if depth else chosen.randrange(2)
    if kind == 0:
        return Number(chosen.choice(SMALL))
    if kind == 1:
        return Name(chosen.choice(("a", "b", "c")))
    if kind == 2:
        return Element("t", Number(chosen.randrange(4)))
    for _ in range(50):
        pair = [random_value(chosen, depth - 1, names) for _ in range(2)]
        value = Binary(chosen.choice(("+", "-", "*", "div", "mod", "-")), *pair)
        if fits(value, names):
            return value
    return Number(1)


def random_condition(chosen, depth, names):
    if depth == 0:
        pair = [random_sum(chosen, 1, names) for _ in range(2)]
        return Binary(chosen.choice(("=", "<>", "<", "<=", ">", ">=")), *pair)
    pair = [random_condition(chosen, chosen.randrange(depth), names) for _ in range(2)]
    return Binary(chosen.choice(("and", "or")), *pair)


@pytest.mark.parametrize("seed", range(3))
def test_random_arithmetic_and_conditions_mean_the_same(dialect, tmp_path, seed):
    chosen = random.Random(seed)
    table = Table("t", (3, 0, -5, 12))
    names = {
        "a": chosen.choice(SMALL),
        "b": chosen.choice(SMALL),
        "c": chosen.choice(SMALL),
        "t": table.values,
    }
    main, wanted = [], []
    for name in "abc":
        main.append(Assign(Name(name), Number(names[name])))
    for _ in range(60):
        value = random_sum(chosen, 4, names)
        main += [Assign(Name("x"), value), Word("say", (Name("x"),))]
        wanted.append(evaluate(value, names))
    for _ in range(30):
        condition = random_condition(chosen, 3, names)
        yes, no = Word("say", (Number(1),)), Word("say", (Number(0),))
        main.append(If(condition, (yes,), (no,)))
        wanted.append(int(evaluate(condition, names)))
    made = program("say 5", tables=[table])
    place = next(n for n, s in enumerate(made.main) if s == Word("say", (Number(5),)))
    made = replace(made, main=(*made.main[:place], *main, *made.main[place + 1 :]))
    assert run(dialect, made, tmp_path) == wanted


CONTROL = """
for i = 3 to 2
  say 100
end
for i = n to n - 1
  say 101
end
for i = 1 to 3
  say i
end
for i = -1 to 1
  for j = i to 1
    say i * 10 + j
  end
end
x = 5
while x > 5
  say 102
end
while x > 2 and x <> 3
  x = x - 1
  say x
end
if x = 3 or x = 4
  say 200
else
  say 201
end
if x = 4
  say 202
else
  if x = 3
    say 203
  end
end
do early(1)
do early(7)
do outer(2, 3)
x = 9
do keeps(4)
say x
for i = 0 to 3
  list(i) = i * i
end
list(list(2) - 1) = 77
for i = 0 to 3
  say list(i)
end
"""
ROUTINES = """
' Leaves early for small numbers.
routine early(a)
  local k
  k = a
  if a < 5
    say 300 + a
    return
  end
  while k > 0
    k = k - 3
  end
  say 310 + a + k
end
routine outer(a, b)
  local i
  for i = a to b
    do inner(b, a)
    say i
  end
end
routine inner(a, b)
  local i
  for i = 0 to 0
    say a * 10 + b
  end
end
routine keeps(y)
  local z
  z = y
  say z + y
end
"""
SAID = [1, 2, 3, -11, -10, -9, 0, 1, 11, 4, 3, 200, 203, 301, 315, 32, 2, 32, 3, 8, 9, 0, 1, 4, 77]


def test_loops_choices_and_calls_mean_the_same(dialect, tmp_path):
    made = program(CONTROL, ROUTINES, arrays=(("list", 4),))
    made = replace(made, main=(Assign(Name("n"), Number(0)), *made.main))
    assert run(dialect, made, tmp_path) == SAID


def test_tables_are_read_in_order_and_again_after_a_rewind(dialect, tmp_path):
    long = Table("long", tuple(range(-30, 300)))
    made = program("for k = 0 to 329\nsay long(k)\nend\nsay two(1)", tables=[long, Table("two", (7, 9999))])
    assert run(dialect, made, tmp_path) == [*range(-30, 300), 9999]


@pytest.mark.parametrize("name", dialect_names())
def test_lines_keep_their_length_whatever_the_expression(name):
    dialect = load_dialect(name, HERE)
    value = "a"
    for number in range(18):
        value = f"({value} + list(b + {number})) * 2 - c"
        value = f"{value} mod 7" if number % 5 == 0 else value
    made = program(f"x = {value}", arrays=(("list", 4),))
    text = spell(dialect, made, CONSTANTS, Options())
    assert max(len(line) for line in text.splitlines()) <= dialect.limits.line_length


@pytest.mark.parametrize("name", dialect_names())
def test_data_lines_keep_their_length_and_every_value(name):
    dialect = load_dialect(name, HERE)
    table = Table("t", tuple(random.Random(1).choices(range(-9999, 9999), k=700)))
    text = spell(dialect, program("say 1", tables=[table]), CONSTANTS, Options())
    data = dialect.statements["data"].split("{items}")[0]
    pattern = re.compile(re.escape(data) + r"(-?\d+(?:,-?\d+)*)\)?$")
    lines = [match.group(1) for line in text.splitlines() if (match := pattern.search(line))]
    values = [int(item) for line in lines for item in line.split(",")]
    assert values[: len(table.values)] == list(table.values)
    assert max(len(line) for line in text.splitlines()) <= dialect.limits.line_length
    if dialect.limits.data_items:
        assert max(line.count(",") + 1 for line in lines) <= dialect.limits.data_items


def test_every_missing_word_is_named_at_once():
    dialect = load_dialect("ecma55", HERE)
    made = program("ink 1\nfill 0, 0, 1, 1\nsay 1\nink 2")
    assert missing_words(dialect, made) == ("ink", "fill")
    with pytest.raises(DialectError, match="no spelling for the words ink, fill"):
        spell(dialect, made, CONSTANTS, Options())


def test_a_word_with_too_few_arguments_is_refused():
    with pytest.raises(DialectError, match="word say: 2 arguments; takes 1"):
        spell(load_dialect("plain", HERE), program("say 1, 2"), CONSTANTS, Options())


@pytest.mark.parametrize("prefix", ["", "A_", "1a", "a b", "toolongprefix_", "x-", "a\n", "ä"])
def test_bad_prefixes_are_refused(prefix):
    with pytest.raises(DialectError, match="prefix: got"):
        spell(load_dialect("brandy", HERE), program("say 1"), CONSTANTS, Options(prefix=prefix))


def test_the_prefix_stands_before_every_shared_name():
    text = spell(
        load_dialect("brandy", HERE),
        program("x = 1\nsay x\ndo a", "routine a\nx = 2\nend"),
        CONSTANTS,
        Options(prefix="q7_"),
    )
    assert "q7_x%=1" in text
    assert "PROCq7_a" in text
    assert "DEF PROCq7_a" in text


def test_lines_are_numbered_from_where_asked_and_jumps_follow():
    made = program("x = 0\nwhile x < 3\nx = x + 1\nend\nsay x")
    dialect = load_dialect("ecma55", HERE)
    texts = [spell(dialect, made, CONSTANTS, Options(first_line=first)) for first in (1000, 5000)]
    numbers = [[int(line.split(" ", 1)[0]) for line in text.splitlines()] for text in texts]
    assert numbers[0][0] == 1000
    assert numbers[1][0] == 5000
    assert [number + 4000 for number in numbers[0]] == numbers[1]
    for text, own in zip(texts, numbers, strict=True):
        for line in text.splitlines():
            words = line.split()
            for before, after in pairwise(words):
                if before in ("GOTO", "THEN", "GOSUB") and words[1] != "REM":
                    assert int(after) in own


def test_line_numbers_beyond_the_dialects_are_refused():
    with pytest.raises(DialectError, match="at most 9999"):
        spell(load_dialect("ecma55", HERE), program("say 1"), CONSTANTS, Options(first_line=9998))
