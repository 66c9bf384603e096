"""Asks about somebody's BASIC by worked examples, and reads the answers from a file."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from scenekit.errors import DialectError, UnknownNameError
from scenekit.model.toml_values import quote
from scenekit.model.tomlfile import read_toml
from scenekit.routines.library import own_names

QUESTIONS_FILE = Path(__file__).parent / "questions.toml"
LONGEST_ANSWER = 400
LONGEST_LIST = 4000
YES, NO = "yes", "no"
NAME_LIST = "reserved"
SCREEN = re.compile(r"\s*(\d{1,5})\s*[xX,]\s*(\d{1,5})\s*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One line of BASIC, or fact, that is asked for; see questions.toml."""

    key: str
    group: str
    about: str
    ask: str
    example: str
    to: str = ""
    samples: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    when: tuple[str, ...] = ()
    lines: bool = False

    @property
    def several(self) -> bool:
        """Say whether the answer may have several lines."""
        return self.lines or self.to.startswith("words.")


@cache
def questions() -> tuple[Question, ...]:
    """Return every question in the order of asking."""
    found = []
    table: dict[str, list[dict[str, object]]] = read_toml(QUESTIONS_FILE, "questions")
    for group in table["group"]:
        rows: list[dict[str, object]] = group["question"]  # type: ignore[assignment]
        for row in rows:
            fields = {key: tuple(v) if isinstance(v, list) else v for key, v in row.items()}
            if row["key"] == NAME_LIST:
                fields["ask"] = str(row["ask"]).format(names=" ".join(own_names()))
            found.append(Question(group=str(group["title"]), about=str(group["about"]), **fields))  # type: ignore[arg-type]
    return tuple(found)


def holds(fact: str, answers: Mapping[str, str]) -> bool:
    """Say whether a fact that questions depend on follows from the answers so far."""
    draws = bool(answers.get("screen"))
    direct = answers.get("colours", "").strip().lower() == "direct"
    facts = {
        "draws": draws,
        "direct": draws and direct,
        "indexed": draws and not direct,
        "blocks": bool(answers.get("while")),
        "jumps": not answers.get("while"),
        "procedures": bool(answers.get("routine")),
        "images": draws and bool(answers.get("image_format")),
        "serial": answers.get("carried_by", "").strip().lower() == "serial",
    }
    return facts[fact]


def answer_of(word: str) -> str:
    """Return the key of the question about a word or statement of a dialect, "" where there is none."""
    shared = {
        "blit_keyed": "copy_keyed",
        "begin_frame": "draw_page",
        "end_frame": "show_page",
    }
    name = word.removeprefix("statement ").removeprefix("operator ")
    sections = {"statement": "statements", "operator": "operators"}
    section = sections.get(word.partition(" ")[0], "words")
    keys = [question.key for question in questions() if question.to == f"{section}.{name}"]
    return keys[0] if keys else shared.get(name, "")


def asked(question: Question, answers: Mapping[str, str]) -> bool:
    """Say whether a question is to be asked after these answers."""
    return all(holds(fact, answers) for fact in question.when)


def read_answers(path: Path) -> dict[str, str]:
    """Read a file of answers: TOML, one key for each question, every value a text.

    raises   ProjectError, UnknownNameError, DialectError: with the key
    """
    table = read_toml(path, f"answers {path.name}")
    known = {question.key for question in questions()}
    answers = {}
    for key, value in table.items():
        if key not in known:
            raise UnknownNameError(f"answers {path.name}: key", key, known)
        longest = LONGEST_LIST if key == NAME_LIST else LONGEST_ANSWER
        answers[key] = checked(f"answers {path.name}: {key}", _text(value), longest)
    return answers


def _text(value: object) -> object:
    if isinstance(value, bool):
        return YES if value else NO
    if isinstance(value, int):
        return str(value)
    if isinstance(value, list) and all(isinstance(part, str) for part in value):
        return "\n".join(value)
    return value


def checked(where: str, value: object, longest: int = LONGEST_ANSWER) -> str:
    """Return an answer, trimmed.

    raises   DialectError: no printable text, or too long
    """
    good = isinstance(value, str) and len(value) <= longest
    if not good or not all(line.isprintable() for line in str(value).split("\n")):
        raise DialectError(
            f"{where}: got {str(value)[:40]!r}; must be printable text of at most {longest} characters"
        )
    return "\n".join(line.strip() for line in str(value).strip().split("\n"))


def collect(ask: Callable[[Question], str]) -> dict[str, str]:
    """Put every question that the answers so far call for to somebody; empty answers are left out."""
    answers: dict[str, str] = {}
    for question in questions():
        if asked(question, answers):
            longest = LONGEST_LIST if question.key == NAME_LIST else LONGEST_ANSWER
            answer = checked(question.key, ask(question), longest)
            if answer:
                answers[question.key] = answer
    return answers


def sheet() -> str:
    """Return a file of answers to fill in: every question as a comment, every answer empty."""
    lines = [
        "# Answers about a BASIC, for: scenekit target new PROJECT NAME --answers THIS-FILE",
        "# Fill in between the quotes; leave empty what your BASIC does not have. Use the very numbers and",
        '# names of the question. A quote in an answer is written \\", a backslash \\\\. An answer to a',
        "# question marked (lines) may have several, parted from each other by \\n. All others are one line:",
        "# put the sign between its statements that your BASIC has for that, such as a colon.",
    ]
    group = ""
    for question in questions():
        if question.group != group:
            group = question.group
            lines += ["", f"# --- {group}. {question.about}"]
        several = "(lines) " if question.several else ""
        lines += [f"# {several}{question.ask} Such as: {quote(question.example)}", f'{question.key} = ""']
    return "\n".join(lines) + "\n"


class Answers:
    """Answers with the checks that their kinds need."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self.texts = texts

    def get(self, key: str, default: str = "") -> str:
        """Return an answer, or a default where there is none."""
        return self.texts.get(key) or default

    def error(self, key: str, allowed: str) -> DialectError:
        """Return the error for an answer."""
        return DialectError(f"answer {key}: got {self.get(key)[:40]!r}; must be {allowed}")

    def flag(self, key: str, default: bool) -> bool:
        """Return yes or no."""
        text = self.get(key, YES if default else NO).lower()
        if text not in (YES, NO):
            raise self.error(key, "yes or no")
        return text == YES

    def whole(self, key: str, low: int, high: int, default: int | None = None) -> int:
        """Return a whole number of a range."""
        text = self.get(key, "" if default is None else str(default))
        if not re.fullmatch(r"\d{1,12}", text) or not low <= int(text) <= high:
            raise self.error(key, f"a whole number from {low} to {high}")
        return int(text)

    def choice(self, key: str, allowed: tuple[str, ...], default: str) -> str:
        """Return one of some words."""
        text = self.get(key, default).lower()
        if text not in allowed:
            raise self.error(key, "one of " + ", ".join(allowed))
        return text

    def screen(self) -> tuple[int, int]:
        """Return (width, height) of the screen; (0, 0) where there is none."""
        if not self.get("screen"):
            return 0, 0
        match = SCREEN.fullmatch(self.get("screen"))
        if not match or min(int(part) for part in match.groups()) < 1:
            raise self.error("screen", "width x height in pixels, such as 320x200")
        return int(match.group(1)), int(match.group(2))
