"""What a program's statements become at last: counts, colours of direct modes, file names, tiles in turn."""

from scenekit.programs.parts import counters
from scenekit.routines.language import (
    Assign,
    Binary,
    Call,
    Change,
    Count,
    Element,
    Expression,
    If,
    Name,
    Number,
    Statement,
    Text,
    Word,
)

PLACED = {"blit": (5,), "blit_keyed": (5,), "fill": (0,), "move_part": (0, 4)}
"""Words that draw, and which of their parameters are x; y follows each. Runs are placed a piece at a time."""


def expansion(counting: bool, direct: bool, art_file: str, bordered: bool, turning: bool) -> Change:
    """Return the change that expands counts, colours of direct modes, the art file's name, tiles in turn."""

    def change(statement: Statement) -> tuple[Statement, ...]:
        if isinstance(statement, Count):
            return _counting(statement) if counting else ()
        if isinstance(statement, Call) and statement.routine == "take_turn":
            cell = statement.arguments[0]
            assert isinstance(cell, Name)
            now = Assign(cell, Element("turn_now", Binary("-", cell, Name("turn_base"))))
            return (If(Binary(">=", cell, Name("turn_base")), (now,)),) if turning else ()
        if isinstance(statement, Call) and statement.routine == "to_screen":
            return _to_screen(statement) if bordered else ()
        if isinstance(statement, Word) and statement.word in PLACED and bordered:
            return (_moved(statement),)
        if isinstance(statement, Word) and statement.word == "ink" and direct:
            shown: Expression = Element("now", statement.arguments[0])
            return (Word("ink_rgb", tuple(Element(name, shown) for name in ("red", "green", "blue"))),)
        if isinstance(statement, Word) and statement.arguments == (Text("FILE"),):
            return (Word(statement.word, (Text(art_file),)),)
        return (statement,)

    return change


def _to_screen(call: Call) -> tuple[Statement, ...]:
    """Return what makes a place on the screen of variables that hold one in the view."""
    moved = []
    for name, corner in zip(call.arguments, ("view_x", "view_y"), strict=True):
        assert isinstance(name, Name)
        moved.append(Assign(name, Binary("+", name, Name(corner))))
    return tuple(moved)


def _moved(word: Word) -> Word:
    """Return a word that draws, its place counted from the view's corner."""
    arguments = list(word.arguments)
    for x in PLACED[word.word]:
        for place, name in ((x, "view_x"), (x + 1, "view_y")):
            here = Name(name)
            arguments[place] = here if arguments[place] == Number(0) else Binary("+", arguments[place], here)
    return Word(word.word, tuple(arguments))


def _counting(count: Count) -> tuple[Statement, ...]:
    calls, pixels = counters(count.operation)
    return (
        Assign(calls, Binary("+", calls, Number(1))),
        Assign(pixels, Binary("+", pixels, count.pixels)),
    )
