"""The tests of words that do not draw, in neutral text, before any dialect spells them."""

from dataclasses import dataclass
from typing import Any

from scenekit.dialects.dialect import Dialect
from scenekit.model.arrays import Pixels
from scenekit.routines.language import Table
from scenekit.routines.library import own_names

NAMES_TOGETHER = 6
"""Names that one routine of a test has to itself, so that its lines stay short."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A test before it is spelled; the main part is neutral text that reports with `say`.

    hint     what is said besides where it does not pass
    library  routines that stand in a file of their own, which the program includes
    """

    word: str
    main: str
    said: tuple[int, ...] = ()
    tables: tuple[Table, ...] = ()
    packed: str = ""
    routines: str = ""
    arrays: tuple[tuple[str, int], ...] = ()
    hint: str = ""
    screen: Pixels | None = None
    files: tuple[tuple[str, bytes], ...] = ()
    library: str = ""


SUMS = Draft(
    word="language: sums",
    main="""a = 7 - 12
say a
say (3 + 4) * 5 - 2 * (9 - 4)
say 0 - (2 - 9)
say 83 div 19 * 19 + 83 mod 19
say 83 mod 19
say (20 + 3) div 5
""",
    said=(-5, 25, 7, 83, 7, 4),
)

CHOICES = Draft(
    word="language: choices",
    main="""for i = 1 to 4
if i = 2 or i > 3
say i
else
say 0 - i
end
end
if 2 >= 3 and 1 <> 2
say 99
end
n = 0
for i = 1 to 3
if i < 2
n = n + 1
end
if i <= 2
n = n + 4
end
if i > 2
n = n + 16
end
if i >= 2
n = n + 64
end
if i = 2
n = n + 256
end
if i <> 2
n = n + 1024
end
end
say n
""",
    said=(-1, 2, -3, 4, 2457),
)

LOOPS = Draft(
    word="language: loops",
    main="""n = 0
for i = 3 to 6
n = n + i
end
say n
for i = n to 5
n = 1000
end
say n
k = 1
while k < 50
k = k * 3
end
say k
""",
    said=(18, 18, 81),
)

ROUTINES = Draft(
    word="language: routines",
    main="do twice(4, 3)\nsay held\ndo twice(held, 2)\nsay held\ndo nothing\nsay held\n",
    said=(12, 26, 25),
    routines="""routine twice(a, b)
held = 2 * a + b
if held > 20
return
end
held = held + 1
end
routine nothing
held = held - 1
end
""",
)

ARRAYS = Draft(
    word="language: arrays",
    main="""do fill_list(6)
list(2) = list(5) - list(list(2))
do pick(0)
say held
do pick(2)
say held
say list(5)
""",
    said=(0, 9, 25),
    routines="""routine fill_list(a)
local i
for i = 0 to a - 1
list(i) = i * i
end
end
routine pick(a)
held = list(a)
end
""",
    arrays=(("list", 6),),
)

CLOCK = Draft(
    word="clock",
    main="""clock clock_last
clock_now = clock_last
for i = 1 to 3000
if clock_now = clock_last
for k = 1 to 300
n = k
end
clock clock_now
end
end
if clock_now > clock_last
say 1
else
say 0
end
""",
    said=(1,),
)


def language_drafts() -> tuple[Draft, ...]:
    """Return tests of what every program is made of."""
    return (SUMS, CHOICES, LOOPS, ROUTINES, ARRAYS, _names_draft(own_names()))


def library_draft() -> Draft:
    """Return the test of a program that takes routines, a variable and an array of another file."""
    theirs = """routine twice(a, b)
held = 2 * a + b
list(2) = held + 1
end
"""
    mine = "routine again(a)\ndo twice(a, list(2))\nend\n"
    main = "do twice(4, 3)\nsay held\nsay list(2)\ndo again(5)\nsay held\nlist(0) = 7\nsay list(0)\n"
    return Draft(
        word="language: include",
        main=main,
        said=(11, 12, 22, 7),
        routines=mine,
        arrays=(("list", 3),),
        library=theirs,
    )


def _names_draft(names: tuple[str, ...]) -> Draft:
    """Return a test that gives a value to every name that stands in programs without a prefix."""
    main, routines, totals = "", "", []
    for number, start in enumerate(range(0, len(names), NAMES_TOGETHER), 1):
        part = names[start : start + NAMES_TOGETHER]
        given = "".join(f"{name} = {start + at}\n" for at, name in enumerate(part, 1))
        routines += (
            f"routine own_{number}\nlocal {', '.join(part)}\n{given}summed = {' + '.join(part)}\nend\n"
        )
        main += f"do own_{number}\nsay summed\n"
        totals.append(sum(range(start + 1, start + len(part) + 1)))
    kept = "where it was run, the language may keep one of these for itself (answer reserved)"
    return Draft(
        word="language: names",
        main=main,
        said=tuple(totals),
        routines=routines,
        hint=f"{kept}: {' '.join(names)}",
    )


def plain_drafts(dialect: Dialect, opening: str = "") -> tuple[Draft, ...]:
    """Return tests of words that do not draw.

    opening   neutral text that opens the screen, without which some BASICs know no keys
    """
    return (
        *_saying(min(dialect.limits.integer_high, 32_000)),
        *_reading(min(dialect.limits.integer_high, 32_000) - 1),
        *_stops(in_program=dialect.words.get("stops_open") == ""),
        *_packed_text(),
        *_files(),
        *_keys(opening),
        CLOCK,
        Draft(word="quit", main="say 1\nsay_close\nquit\nsay_open\nsay 2\n", said=(1,)),
    )


def _each(words: str, **test: Any) -> list[Draft]:
    """Return the same test for each of some words."""
    return [Draft(word=word, **test) for word in words.split()]


def _saying(high: int) -> list[Draft]:
    return [
        Draft(word="say_open", main="say 12\n", said=(12,)),
        Draft(word="say", main=f"say 7\nsay 0 - 12\nsay {high}\nsay 0\n", said=(7, -12, high, 0)),
        Draft(word="say_close", main="say 13\n", said=(13,)),
    ]


def _reading(high: int) -> list[Draft]:
    numbers = Table("numbers", (5, -3, high), "numbers to read")
    thrice = "rewind\nread a\nsay a\nread a\nsay a\nread a\nsay a\n"
    again = "rewind\nread a\nread b\nrewind\nread b\nsay b\nsay a\n"
    return [
        Draft(word="read", main=thrice, said=numbers.values, tables=(numbers,)),
        Draft(word="rewind", main=again, said=(5, 5), tables=(numbers,)),
    ]


def _stops(in_program: bool) -> list[Draft]:
    """Return tests of the list of stops, which stands in the program or in a file."""
    main, said = "stops_open\nfor i = 1 to 3\nstop_next stop\nsay stop\nend\n", (4, 9, -1)
    if in_program:
        tables = (Table("stops", said, "the list of stops"),)
        return _each("stops_open stop_next", main="rewind\n" + main, said=said, tables=tables)
    return _each("stops_open stop_next", main=main, said=said, files=(("stops.txt", b"4\n9\n"),))


def _packed_text() -> list[Draft]:
    text = "7Kq"
    main = "rewind\ntake_text n\nsay n\ntext_code a, 1\nsay a\ntext_code a, 3\nsay a\n"
    said = (len(text), ord(text[0]), ord(text[2]))
    return _each("take_text text_code", main=main, said=said, packed=text)


def _files() -> list[Draft]:
    """Return tests of files read from their start, at any place, and to their end."""
    octets = bytes((0, 7, 26, 13, 10, 255))
    whole, short = (("TEST.BIN", octets),), (("SHORT.BIN", octets[:3]),)
    file = 'file_open "TEST.BIN"\nfor i = 1 to 6\nfile_byte a\nsay a\nend\nfile_close\n'
    places = (
        'map_open "TEST.BIN"\nmap_at 3\nmap_byte a\nsay a\nmap_byte a\nsay a\nmap_at 0\nmap_byte a\nsay a\n'
    )
    ending = 'file_open "SHORT.BIN"\nfor i = 1 to 3\nfile_byte a\nfile_end b\nsay b\nend\nfile_close\n'
    return [
        *_each("file_open file_byte file_close", main=file, said=tuple(octets), files=whole),
        *_each("map_open map_at map_byte", main=places, said=(13, 10, 0), files=whole),
        Draft(word="file_end", main=ending, said=(0, 0, 1), files=short),
    ]


def _keys(opening: str) -> list[Draft]:
    script = "keys_open\nfor i = 1 to 3\nkeys_next k\nsay k\nend\n"
    files = (("keys.txt", b"2\n16\n"),)
    return [
        Draft(word="key", main=opening + "key k\nsay k\n", said=(0,)),
        Draft(word="keys_held", main=opening + "keys_held k\nsay k\n", said=(0,)),
        *_each("keys_open keys_next", main=script, said=(2, 16, -1), files=files),
    ]
