"""Runs neutral programs: proof for machines whose BASIC runs nowhere else."""

import re
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from scenekit.dialects.dialect import Dialect
from scenekit.errors import DialectError, StoppedError, VerifyError
from scenekit.interpreters.board import Board
from scenekit.interpreters.outcome import Outcome, Reader, Run
from scenekit.routines.language import (
    Assign,
    Binary,
    Call,
    Element,
    Expression,
    For,
    If,
    Name,
    Number,
    Return,
    Routine,
    Statement,
    Text,
    While,
    Word,
)
from scenekit.routines.parse import parse_routines, parse_statements
from scenekit.routines.words import WORDS
from scenekit.symmetry.flips import ALL_FLIPS

LARGEST_PROGRAM_BYTES = 32_000_000
LARGEST_ARRAY = 10_000_000
OPERATORS = {"div": "//", "mod": "%", "=": "==", "<>": "!="}
INCLUDE = re.compile(r'^include "([\w.-]+)"$', re.MULTILINE)
BLOCKS = ("for ", "while ", "if ")


class _Stopped(Exception):
    """The program said quit."""


class Machine:
    """One run of a neutral program."""

    def __init__(
        self,
        folder: Path,
        text: str,
        label: str,
        time_limit_s: float,
        flips: frozenset[int] = ALL_FLIPS,
        stopped: Callable[[], bool] = bool,
    ) -> None:
        main, routines, self.data = split_program(text, label)
        self.taken = ""
        self.parameters = {routine.name: routine.parameters for routine in routines}
        self.board = Board(folder, 0, flips)
        self.bytes = b""
        self.bytes_read = 0
        self.maps = b""
        self.map_place = 0
        self.folder = folder
        self.label = label
        self.deadline = time.monotonic() + time_limit_s
        self.time_limit_s = time_limit_s
        self.stopped = stopped
        self.turns = 0
        self.at = 0
        self.stops: list[int] = []
        self.keys: list[int] = []
        self.said: list[int] = []
        try:
            self.code = "\n".join(_program_lines(main, routines))
        except RecursionError:
            raise VerifyError(f"{label}: the program cannot be run: nested too deep") from None

    def run(self) -> None:
        """Run the program to its end.

        raises   VerifyError: a bad array place, a missing variable, over the time limit
        """
        names: dict[str, object] = {"turn": self.turn, "below": below, **self.words()}
        try:
            exec(compile(self.code, "<neutral program>", "exec"), names)
        except (SyntaxError, MemoryError, RecursionError) as error:
            cause = error.msg if isinstance(error, SyntaxError) else "nested too deep"
            raise VerifyError(f"{self.label}: the program cannot be run: {cause}") from None
        try:
            names["main"]()  # type: ignore[operator]
        except _Stopped:
            return
        except (IndexError, KeyError, NameError, TypeError, ZeroDivisionError, RecursionError) as error:
            raise VerifyError(f"{self.label}: the program failed: {type(error).__name__}: {error}") from None

    def turn(self) -> None:
        """Count a turn of a loop, and look at the clock now and then."""
        self.turns += 1
        if self.turns % 4096:
            return
        if self.stopped():
            raise StoppedError("the run was stopped")
        if time.monotonic() > self.deadline:
            raise VerifyError(f"executor: {self.label}: still running after {self.time_limit_s:g} s; stopped")

    def words(self) -> dict[str, Callable[..., object]]:
        """Return what each word does."""
        board = self.board
        return {
            "w_mode": board.mode,
            "w_mode_direct": board.mode_direct,
            "w_ink_rgb": board.ink_rgb,
            "w_run": board.run,
            "w_file_open": self.file_open,
            "w_file_byte": self.file_byte,
            "w_file_end": self.file_end,
            "w_file_close": lambda: None,
            "w_map_open": self.map_open,
            "w_map_at": self.map_at,
            "w_map_byte": self.map_byte,
            "w_palette": board.palette_entry,
            "w_ink": board.ink,
            "w_fill": board.fill,
            "w_load_image": board.load_image,
            "w_blit": board.blit,
            "w_blit_keyed": board.blit_keyed,
            "w_move_part": board.move_part,
            "w_begin_frame": board.begin_frame,
            "w_end_frame": board.end_frame,
            "w_save_screen": board.save_screen,
            "w_rewind": self.rewind,
            "w_read": self.read,
            "w_take_text": self.take_text,
            "w_text_code": self.text_code,
            "w_stops_open": self.stops_open,
            "w_stop_next": self.stop_next,
            "w_say_open": lambda: None,
            "w_say": self.said.append,
            "w_say_close": lambda: None,
            "w_see": board.see,
            "w_key": lambda: 0,
            "w_keys_held": lambda: 0,
            "w_keys_open": self.keys_open,
            "w_keys_next": self.keys_next,
            "w_quit": self.quit,
            "w_clock": self.clock,
            "w_array": new_array,
            "w_keyed_entry": self.keyed_entry,
        }

    def file_open(self, file: str) -> None:
        """Open a file of bytes beside the program."""
        self.bytes, self.bytes_read = self.whole_file("file_open", file), 0

    def whole_file(self, word: str, file: str) -> bytes:
        """Return the bytes of a file beside the program."""
        path = self.folder / file
        if Path(file).name != file or not path.is_file() or path.stat().st_size > LARGEST_PROGRAM_BYTES:
            raise VerifyError(f"{word}: got {file!r}; must be a file beside the program")
        return path.read_bytes()

    def map_open(self, file: str) -> None:
        """Open the file of maps."""
        self.maps, self.map_place = self.whole_file("map_open", file), 0

    def map_at(self, place: int) -> None:
        """Go to a byte of the file of maps."""
        if not 0 <= place < len(self.maps):
            raise VerifyError(f"map_at: got {place}; must be 0 to {len(self.maps) - 1}")
        self.map_place = place

    def map_byte(self) -> int:
        """Return the next byte of the file of maps."""
        if self.map_place >= len(self.maps):
            raise VerifyError("map_byte: reads beyond the end of the file")
        self.map_place += 1
        return self.maps[self.map_place - 1]

    def file_byte(self) -> int:
        """Return the next byte of the open file."""
        if self.bytes_read >= len(self.bytes):
            raise VerifyError("file_byte: reads beyond the end of the file")
        self.bytes_read += 1
        return self.bytes[self.bytes_read - 1]

    def file_end(self) -> int:
        """Return 1 when the last byte of the open file was read, else 0."""
        return int(self.bytes_read >= len(self.bytes))

    def keyed_entry(self, entry: int) -> None:
        """Tell the display which entry is transparent."""
        self.board.transparent = entry

    def rewind(self) -> None:
        """Go back to the first value."""
        self.at = 0

    def read(self) -> int:
        """Return the next value of the tables."""
        if self.at >= len(self.data):
            raise VerifyError(f"{self.label}: reads beyond its {len(self.data)} values")
        self.at += 1
        value = self.data[self.at - 1]
        if isinstance(value, str):
            raise VerifyError(f"{self.label}: reads a number where a text stands")
        return value

    def take_text(self) -> int:
        """Take the next text of the tables and return its length."""
        if self.at >= len(self.data):
            raise VerifyError(f"{self.label}: reads beyond its {len(self.data)} values")
        value = self.data[self.at]
        if not isinstance(value, str):
            raise VerifyError(f"{self.label}: reads a text where a number stands")
        self.at += 1
        self.taken = value
        return len(value)

    def text_code(self, place: int) -> int:
        """Return the code of a sign of the text taken last."""
        if not 1 <= place <= len(self.taken):
            raise VerifyError(f"text_code: got place {place}; must be 1 to {len(self.taken)}")
        return ord(self.taken[place - 1])

    def stops_open(self) -> None:
        """Read the list of stops."""
        self.stops = self.listed("stops.txt")

    def listed(self, file: str) -> list[int]:
        """Return the whole numbers of a file beside the program; none where there is no such file."""
        path = self.folder / file
        words = path.read_bytes().decode("latin-1").split() if path.is_file() else []
        wrong = next((word for word in words if not re.fullmatch(r"-?\d{1,12}", word)), None)
        if wrong is not None:
            raise VerifyError(f"{file}: got {wrong[:20]!r}; must be whole numbers")
        return [int(word) for word in words]

    def stop_next(self) -> int:
        """Return the next stop, -1 after the last."""
        return self.stops.pop(0) if self.stops else -1

    def keys_open(self) -> None:
        """Read the script of keys."""
        self.keys = self.listed("keys.txt")

    def keys_next(self) -> int:
        """Return the next keys of the script, -1 after the last."""
        return self.keys.pop(0) if self.keys else -1

    def clock(self) -> int:
        """Return thousandths of a second since the program began."""
        return int((time.monotonic() - self.deadline + self.time_limit_s) * 1000)

    def quit(self) -> None:
        """End the program."""
        raise _Stopped


def below(index: int) -> int:
    """Refuse an array place below 0."""
    raise IndexError(f"array place {index}")


def new_array(size: int) -> list[int]:
    """Return an array of zeros."""
    if not 0 < size <= LARGEST_ARRAY:
        raise VerifyError(f"array: got {size} places; must be 1 to {LARGEST_ARRAY}")
    return [0] * size


def split_program(
    text: str, label: str
) -> tuple[tuple[Statement, ...], tuple[Routine, ...], tuple[int | str, ...]]:
    """Return the main part, the routines and the values of a neutral program's text.

    raises   DialectError: with the line
    """
    data: list[int | str] = []
    main: list[str] = []
    routines: list[str] = []
    depth = 0
    for line in text.splitlines():
        stripped = line.strip()
        if stripped.startswith("data "):
            data.extend(_values(stripped[5:], label))
            main.append("")
            routines.append("")
        elif depth or stripped.startswith("routine "):
            depth += stripped.startswith(("routine ", *BLOCKS)) - (stripped == "end")
            routines.append(line)
            main.append("")
        else:
            main.append(line)
            routines.append("")
    return (
        parse_statements("\n".join(main), label),
        parse_routines("\n".join(routines), label),
        tuple(data),
    )


def _values(text: str, label: str) -> Iterator[int | str]:
    packed = re.fullmatch(r'"([!#-~]*)"', text.strip())
    if packed:
        yield packed.group(1)
        return
    for item in text.split(","):
        if not re.fullmatch(r"\s*-?\d{1,12}\s*", item):
            raise DialectError(f"{label}: data: got {item[:20]!r}; must be a whole number")
        yield int(item)


def _program_lines(main: tuple[Statement, ...], routines: tuple[Routine, ...]) -> Iterator[str]:
    """Yield Python source for a program; every name is marked, so that none can be Python's own."""
    for routine in (Routine("", (), (), main), *routines):
        own = {*routine.parameters, *routine.locals}
        changed = sorted(_assigned(routine.body) - own)
        name = f"r_{routine.name}" if routine.name else "main"
        yield f"def {name}({', '.join('v_' + p for p in routine.parameters)}):"
        if changed:
            yield "    global " + ", ".join("v_" + name for name in changed)
        yield from _lines(routine.body, 1)
        yield "    return"


def _assigned(statements: tuple[Statement, ...]) -> set[str]:
    """Return the variables that statements assign."""
    names: set[str] = set()
    for statement in statements:
        match statement:
            case Assign(Name(name), _):
                names.add(name)
            case For(variable, _, _, body):
                names |= {variable} | _assigned(body)
            case While(_, body):
                names |= _assigned(body)
            case If(_, body, otherwise):
                names |= _assigned(body) | _assigned(otherwise)
            case Word("array", (Name(name), _)):
                names.add("array_" + name)
            case Word(word, arguments):
                place = WORDS[word].sets if word in WORDS else None
                if place is not None and isinstance(arguments[place], Name):
                    names.add(arguments[place].name)  # type: ignore[union-attr]
    return names


def _lines(statements: tuple[Statement, ...], depth: int) -> Iterator[str]:
    pad = "    " * depth
    for statement in statements:
        match statement:
            case Assign(target, value):
                yield f"{pad}{_value(target)} = {_value(value)}"
            case For(variable, first, last, body):
                yield f"{pad}for v_{variable} in range({_value(first)}, {_value(last)} + 1):"
                yield from _lines(body, depth + 1)
                yield f"{pad}    turn()"
            case While(condition, body):
                yield f"{pad}while {_value(condition)}:"
                yield from _lines(body, depth + 1)
                yield f"{pad}    turn()"
            case If(condition, body, otherwise):
                yield f"{pad}if {_value(condition)}:"
                yield from _lines(body, depth + 1)
                yield f"{pad}    pass"
                if otherwise:
                    yield f"{pad}else:"
                    yield from _lines(otherwise, depth + 1)
            case Call(routine, arguments):
                yield f"{pad}r_{routine}({', '.join(_value(argument) for argument in arguments)})"
            case Word(word, arguments):
                yield pad + _word(word, arguments)
            case Return():
                yield f"{pad}return"


def _word(word: str, arguments: tuple[Expression, ...]) -> str:
    if word == "array" and len(arguments) == 2 and isinstance(arguments[0], Name):
        return f"v_array_{arguments[0].name} = w_array({_value(arguments[1])})"
    if word not in WORDS:
        raise DialectError(f"executor: unknown word {word!r}")
    place = WORDS[word].sets
    if place is None:
        return f"w_{word}({', '.join(_value(argument) for argument in arguments)})"
    others = ", ".join(_value(argument) for number, argument in enumerate(arguments) if number != place)
    return f"{_value(arguments[place])} = w_{word}({others})"


def _value(value: Expression) -> str:
    match value:
        case Number(number):
            return str(number)
        case Name(name):
            return f"v_{name}"
        case Text(text):
            return repr(text)
        case Element(array, index):
            return f"v_array_{array}[{_place(index)}]"
        case Binary(operator, left, right):
            return f"({_value(left)} {OPERATORS.get(operator, operator)} {_value(right)})"


def _place(index: Expression) -> str:
    """Return an array place that is never below 0, since Python would count that from the end."""
    if isinstance(index, Number) and index.value >= 0:
        return str(index.value)
    return f"k if (k := {_value(index)}) >= 0 else below(k)"


def run(task: Run) -> Outcome:
    """Run a neutral program and return what it drew and said.

    raises   VerifyError, DialectError
    """
    path = task.folder / task.program
    if path.stat().st_size > LARGEST_PROGRAM_BYTES:
        raise VerifyError(f"{task.program}: must be at most {LARGEST_PROGRAM_BYTES} bytes")
    try:
        text = path.read_bytes().decode("ascii")
    except UnicodeDecodeError as error:
        raise VerifyError(f"{task.program}: byte {error.start}: must be plain ASCII text") from None
    text = _included(task.folder, text)
    machine = Machine(task.folder, text, task.program, task.time_limit_s, task.flips, task.stopped)
    machine.run()
    if len(machine.board.screens) < task.screens:
        raise VerifyError(
            f"{task.program}: saved {len(machine.board.screens)} screens; {task.screens} awaited"
        )
    return Outcome(screens=tuple(machine.board.screens), said=tuple(machine.said), version=_own_version())


def _included(folder: Path, text: str) -> str:
    """Return a program with the files that it includes behind it."""
    names = INCLUDE.findall(text)
    parts = [INCLUDE.sub("", text)]
    for name in names:
        path = folder / name
        if not path.is_file() or path.stat().st_size > LARGEST_PROGRAM_BYTES:
            raise VerifyError(f"include: got {name!r}; must be a file beside the program")
        parts.append(path.read_bytes().decode("ascii", "replace"))
    return "\n".join(parts)


def _own_version() -> str:
    from scenekit import __version__

    return __version__


def _always(dialect: Dialect) -> bool:
    return True


PLUGIN = Reader(name="executor", available=_always, run=run)
