"""The neutral language: what it reads, how it binds, and its errors with the line."""

import random

import pytest

from scenekit.errors import DialectError
from scenekit.routines.language import (
    LEVELS,
    Assign,
    Binary,
    Call,
    Count,
    Element,
    For,
    If,
    Name,
    Number,
    Remark,
    Return,
    Routine,
    Text,
    While,
    Word,
    map_statements,
    walk,
)
from scenekit.routines.parse import parse_routines, parse_statements
from scenekit.routines.written import expression_text, routine_lines, statement_lines


def one(text):
    (statement,) = parse_statements(text, "t")
    return statement


def value(text):
    return one(f"x = {text}").value


def test_every_statement():
    text = """
    ' Says nothing.
    routine all(a, b)
      local c
      c = a
      table(c + 1) = -3
      for c = 0 to b - 1
        say c
      end
      while a < 9
        a = a + 1
      end
      if a = 1 and b <> 2
        return
      else
        do other(a, 3)
      end
      do nothing
      count blit-keyed, a * b
      load_image 0, "art.bmp"
      ' a remark
    end
    """
    (routine,) = parse_routines(text, "t")
    a, b, c = Name("a"), Name("b"), Name("c")
    assert routine == Routine(
        "all",
        ("a", "b"),
        ("c",),
        (
            Assign(c, a),
            Assign(Element("table", Binary("+", c, Number(1))), Number(-3)),
            For("c", Number(0), Binary("-", b, Number(1)), (Word("say", (c,)),)),
            While(Binary("<", a, Number(9)), (Assign(a, Binary("+", a, Number(1))),)),
            If(
                Binary("and", Binary("=", a, Number(1)), Binary("<>", b, Number(2))),
                (Return(),),
                (Call("other", (a, Number(3))),),
            ),
            Call("nothing", ()),
            Count("blit-keyed", Binary("*", a, b)),
            Word("load_image", (Number(0), Text("art.bmp"))),
            Remark("a remark"),
        ),
        ("Says nothing.",),
    )


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("1 + 2 * 3", "1 + 2 * 3"),
        ("(1 + 2) * 3", "(1 + 2) * 3"),
        ("1 - 2 - 3", "1 - 2 - 3"),
        ("1 - (2 - 3)", "1 - (2 - 3)"),
        ("1 - (2 + 3)", "1 - (2 + 3)"),
        ("((1))", "1"),
        ("a div b mod c", "a div b mod c"),
        ("a div (b mod c)", "a div (b mod c)"),
        ("a * (b div c)", "a * (b div c)"),
        ("-a + b", "0 - a + b"),
        ("-(a + b)", "0 - (a + b)"),
        ("a - -3", "a - (-3)"),
        ("t(u(1) + 2)", "t(u(1) + 2)"),
    ],
)
def test_binding_and_as_few_brackets_as_needed(text, wanted):
    assert expression_text(value(text)) == wanted
    assert value(wanted) == value(text)


def random_expression(chosen, depth, operators):
    kind = chosen.randrange(4) if depth else chosen.randrange(2)
    if kind == 0:
        return Number(chosen.randint(-9, 300))
    if kind == 1:
        return Name(chosen.choice(("a", "b", "some_name2")))
    if kind == 2:
        return Element("table", random_expression(chosen, depth - 1, operators))
    pair = [random_expression(chosen, depth - 1, operators) for _ in range(2)]
    return Binary(chosen.choice(operators), *pair)


def test_random_expressions_read_back_as_written():
    chosen = random.Random(5)
    operators = [operator for level in LEVELS for operator in level]
    for _ in range(500):
        wanted = random_expression(chosen, 5, operators)
        assert value(expression_text(wanted)) == wanted, expression_text(wanted)


def test_a_bracket_may_begin_the_first_argument_of_a_word():
    assert one("say (a + 1)") == Word("say", (Binary("+", Name("a"), Number(1)),))
    assert one("say (a + 1) * 2, (b)") == Word(
        "say", (Binary("*", Binary("+", Name("a"), Number(1)), Number(2)), Name("b"))
    )
    assert one("say (a) = 2") == Assign(Element("say", Name("a")), Number(2))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("x = ", "line 1: expected 'more', got 'the end'"),
        ("x = 1 +", "line 1"),
        ("x = 1 2", "'2' is too much"),
        ("x = (1", "expected ')'"),
        ("x = t(1", "expected ')'"),
        ("x = %", "cannot read '%'"),
        ('x = "unclosed', "cannot read"),
        ("x = end", "'end' is no value"),
        ("if x = 1", "ends within a routine or block"),
        ("\nfor i = 0", "line 2: expected 'to'"),
        ("for i = 0 to 1", "ends within"),
        ("while 1", "ends within"),
        ("return 1", "'1' is too much"),
        ("count blit", "expected ','"),
        ("do", "expected"),
        ("say 1,,2", "no value"),
        ("X = 1", "cannot read"),
        ("1 = 2", "'1' begins no statement"),
        ("(x) = 2", "'(' begins no statement"),
        ("for 1 = 0 to 2", "'1' is no name"),
        ("do if", "'if' is no name"),
        ("x = 1.5", "cannot read '.5'"),
    ],
)
def test_errors_say_the_line(text, words):
    with pytest.raises(DialectError) as caught:
        parse_statements(text, "t")
    assert words in str(caught.value), str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    "text", ["routine", "say 1", "routine a(", "routine a(b", "routine a\nx = 1", "routine a b\nend", "end"]
)
def test_bad_routines(text):
    with pytest.raises(DialectError):
        parse_routines(text, "t")


def test_any_text_is_read_or_refused():
    """Random lines of tokens: only our own error comes out."""
    chosen, failures = random.Random(9), set()
    tokens = ["routine", "end", "if", "else", "for", "to", "while", "do", "local", "count", "return", "x"]
    tokens += ["t(", ")", "(", "=", "<>", ",", "1", "-", "div", "'", "$", "say", "\n", "\n", '"a"', "9" * 20]
    for _ in range(3000):
        text = " ".join(chosen.choice(tokens) for _ in range(chosen.randint(1, 25)))
        for parse in (parse_routines, parse_statements):
            try:
                parse(text, "t")
            except DialectError as error:
                failures.add(str(error))
    assert len(failures) > 100
    assert all("\n" not in failure for failure in failures)


def test_deep_brackets_and_long_numbers_are_refused():
    with pytest.raises(DialectError, match="more than 40 brackets"):
        parse_statements("x = " + "(" * 5000 + "1" + ")" * 5000, "t")
    with pytest.raises(DialectError, match="6000 digits"):
        parse_statements("x = " + "9" * 6000, "t")
    with pytest.raises(DialectError, match="at most 60 characters"):
        parse_statements("x" * 5000 + " = 1", "t")
    with pytest.raises(DialectError, match="more than 16 blocks"):
        parse_statements("if x = 1\n" * 5000 + "end\n" * 5000, "t")


def test_map_statements_goes_into_every_block():
    text = "x = 1\nif a = 1\nx = 1\nelse\nx = 1\nend\nfor i = 0 to 1\nwhile a < 1\nx = 1\nend\nend\n"
    statements = parse_statements(text, "t")
    doubled = map_statements(statements, lambda s: (s, s) if isinstance(s, Assign) else (s,))
    assert sum(isinstance(s, Assign) for s in walk(doubled)) == 8
    gone = map_statements(statements, lambda s: () if isinstance(s, Assign) else (s,))
    assert not any(isinstance(s, Assign) for s in walk(gone))
    assert statements == parse_statements("\n".join(statement_lines(statements)), "t")


def test_a_routine_without_parameters_and_locals():
    (routine,) = parse_routines("routine a\nend\n", "t")
    assert list(routine_lines(routine)) == ["routine a", "end"]
