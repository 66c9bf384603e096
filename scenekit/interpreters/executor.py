"""Runs neutral programs: proof for machines whose BASIC runs nowhere else."""

import re
import time
from collections.abc import Callable
from pathlib import Path

from scenekit.dialects.dialect import Dialect
from scenekit.errors import StoppedError, VerifyError
from scenekit.interpreters.board import Board
from scenekit.interpreters.outcome import Outcome, Reader, Run
from scenekit.interpreters.translate import python_lines, split_program, with_included
from scenekit.symmetry.flips import ALL_FLIPS

LARGEST_PROGRAM_BYTES = 32_000_000
LARGEST_ARRAY = 10_000_000
LARGEST_LIST_BYTES = 4_000_000


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
            self.code = "\n".join(python_lines(main, routines))
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
        if path.is_file() and path.stat().st_size > LARGEST_LIST_BYTES:
            raise VerifyError(f"{file}: must be at most {LARGEST_LIST_BYTES} bytes")
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
    text = with_included(task.folder, text, LARGEST_PROGRAM_BYTES)
    machine = Machine(task.folder, text, task.program, task.time_limit_s, task.flips, task.stopped)
    machine.run()
    if len(machine.board.screens) < task.screens:
        raise VerifyError(
            f"{task.program}: saved {len(machine.board.screens)} screens; {task.screens} awaited"
        )
    return Outcome(screens=tuple(machine.board.screens), said=tuple(machine.said), version=_own_version())


def _own_version() -> str:
    from scenekit import __version__

    return __version__


def _always(dialect: Dialect) -> bool:
    return True


PLUGIN = Reader(name="executor", available=_always, run=run)
