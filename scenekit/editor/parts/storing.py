"""How a target stores a scene, and by which way it comes to the board."""

import shlex
from dataclasses import replace

from scenekit.editor.form import Form
from scenekit.errors import ProjectError
from scenekit.model.target import ENCODINGS, MAPS, Target

MAP_WORDS = {"auto": "as fits", "memory": "in memory", "file": "in a file"}
TABLE_WORDS = {"auto": "if shorter", "always": "always", "never": "never"}
MOST_KEYS = 20


def draw_storing(form: Form, target: Target) -> Target | None:
    """Draw encoding, maps and the way to the board; return the target changed."""
    new: Target | None = None
    words = tuple(TABLE_WORDS[name] for name in ENCODINGS)
    picked = form.either(
        "encode", form.line("encoded"), words, TABLE_WORDS[target.encode],
        tip="Whether tables are packed; the routines to unpack them take room of their own.",
    )  # fmt: skip
    if picked is not None:
        new = replace(target, encode=next(n for n in ENCODINGS if TABLE_WORDS[n] == picked))
    words = tuple(MAP_WORDS[name] for name in MAPS)
    picked = form.either(
        "maps", form.line("maps"), words, MAP_WORDS[target.maps],
        tip="In a file the program reads rows and columns as they come into view.",
    )  # fmt: skip
    if picked is not None:
        new = replace(target, maps=next(n for n in MAPS if MAP_WORDS[n] == picked))
    way = form.text(
        "transfer", form.line("to the board"), transfer_text(target.transfer), read_transfer,
        hint="as its BASIC says", tip="The way to this board, such as by=serial baud=9600.",
    )  # fmt: skip
    return new if way is None or way == target.transfer else replace(target, transfer=way)


def transfer_text(transfer: tuple[tuple[str, str | int], ...]) -> str:
    """Return a way to a board as it is typed."""
    return " ".join(f"{key}={shlex.quote(str(value))}" for key, value in transfer)


def read_transfer(text: str) -> tuple[tuple[str, str | int], ...]:
    """Return the keys of a way to a board from a text such as `by=serial baud=9600`.

    raises   ProjectError: not words with = between key and value
    """
    found: dict[str, str | int] = {}
    try:
        words = shlex.split(text)
    except ValueError:
        raise ProjectError(f"got {text[:30]!r}; must have an end to every quotation") from None
    for word in words:
        key, sign, value = word.partition("=")
        good = sign and value and key.isidentifier() and key.isascii() and value.isprintable()
        if not good or len(found) >= MOST_KEYS:
            raise ProjectError(f"got {word[:30]!r}; must be such as by=serial baud=9600")
        found[key] = int(value) if value.isascii() and value.isdecimal() and len(value) < 10 else value
    return tuple(sorted(found.items()))
