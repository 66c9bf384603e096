"""Finds the parts of a worked line of BASIC by the numbers and names that it was asked to hold."""

import re
from collections.abc import Iterable, Mapping

from scenekit.errors import DialectError

Places = dict[str, str]
SIGNS = "%&!#$@."
NAMES: Mapping[str, Places] = {
    "target": {"total": "{target}"},
    "value_name": {"total": "{value}"},
    "counter": {"count": "{variable}"},
    "array": {"list": "{name}"},
    "routine": {"move": "{name}"},
}
"""Names of the questions; marks of the language around them belong to them."""
TEXTS: Mapping[str, Places] = {
    "text": {r"\bhello\b": "{text}"},
    "condition": {rf"[{SIGNS}]*total[{SIGNS}]*\s*={{1,2}}\s*777\b": "{condition}"},
    "conditions": {
        rf"[{SIGNS}]*total[{SIGNS}]*\s*={{1,2}}\s*777\b": "{a}",
        rf"[{SIGNS}]*more[{SIGNS}]*\s*={{1,2}}\s*778\b": "{b}",
    },
    "names": {rf"[{SIGNS}]*total[{SIGNS}]*\s*,\s*[{SIGNS}]*more[{SIGNS}]*": "{names}"},
    "parameters": {rf"[{SIGNS}]*total[{SIGNS}]*\s*,\s*[{SIGNS}]*more[{SIGNS}]*": "{parameters}"},
    "arguments": {rf"[{SIGNS}]*total[{SIGNS}]*\s*,\s*[{SIGNS}]*more[{SIGNS}]*": "{arguments}"},
    "items": {r"31\s*,\s*41\s*,\s*59": "{items}"},
    "file": {r"art\.(?:bin|bmp|png)": "{file}"},
}
"""Whole phrases of the questions, as patterns."""
NUMBERS: Mapping[str, dict[int, str]] = {
    "value": {777: "{value}"},
    "size": {40: "{size}", 39: "{last}"},
    "index": {29: "{index}", 30: "{index}+1"},
    "operands": {83: "{a}", 19: "{b}"},
    "bounds": {83: "{first}", 19: "{last}"},
    "line": {5000: "{line}"},
    "place": {13: "{place}", 12: "{place}-1"},
    "entry": {61: "{entry}"},
    "colour": {201: "{red}", 102: "{green}", 53: "{blue}"},
    "slot": {9: "{slot}", 10: "{slot}+1"},
    "number": {57: "{number}"},
    "x": {11: "{x}", 12: "{x}+1"},
    "left": {51: "{left}", 85: "{left}+{width}-1", 86: "{left}+{width}"},
    "top": {62: "{top}", 108: "{top}+{height}-1", 109: "{top}+{height}"},
    "length": {35: "{length}", 45: "{x}+{length}-1", 46: "{x}+{length}"},
    "width": {35: "{width}", 45: "{x}+{width}-1", 46: "{x}+{width}"},
    "screen": {},
    "y": {23: "{y}", 24: "{y}+1"},
    "height": {47: "{height}", 69: "{y}+{height}-1", 70: "{y}+{height}"},
}
"""Numbers of the questions and what follows from them: far corners, counting from 1."""
PART = re.compile(r"\{([a-z_]+)\}")


def numbers_of(samples: Iterable[str], screen: tuple[int, int]) -> dict[str, str]:
    """Return what each number of some sets stands for, places from below the screen among them."""
    found: dict[str, str] = {}
    width, height = screen
    for name in samples:
        found.update({str(number): part for number, part in NUMBERS.get(name, {}).items()})
        if name == "y":
            found.setdefault(str(height - 1 - 23), "{screen_height}-1-{y}")
            found.setdefault(str(height - 23), "{screen_height}-{y}")
        if name == "height":
            found.setdefault(str(height - 1 - 69), "{screen_height}-{y}-{height}")
        if name == "screen":
            found.update({str(width): "{width}", str(height): "{height}"})
    return found


def to_spelling(
    where: str,
    answer: str,
    samples: Iterable[str],
    needs: Iterable[str],
    allowed: Iterable[str],
    screen: tuple[int, int],
) -> str:
    """Return an answer with placeholders in place of the numbers and names of its question.

    A placeholder that stands in the answer already stays; other braces are kept as signs.
    raises   DialectError: something that must be in the line is not, or a number stands within quotes
    """
    sets = tuple(samples)
    known = frozenset(allowed)
    pieces = _marked(answer, known)
    for name in sets:
        for pattern, part in TEXTS.get(name, {}).items():
            pieces = _replace(pieces, re.compile(pattern, re.IGNORECASE), part)
        for word, part in NAMES.get(name, {}).items():
            name = rf"[{SIGNS}]*{word}[{SIGNS}]*(?![A-Za-z0-9_])"
            pieces = _replace(pieces, re.compile(rf"(?<![a-z0-9_]){name}"), part)
            pieces = _replace(pieces, re.compile(rf"(?<![A-Za-z0-9_]){name}", re.IGNORECASE), part)
    spelling = _with_numbers(where, pieces, numbers_of(sets, screen))
    missing = [name for name in needs if "{" + name + "}" not in spelling]
    if missing:
        outside = ", outside of quotes" if '"' in answer else ""
        raise DialectError(
            f"{where}: got {answer[:60]!r}; nothing in it stands for {', '.join(missing)}; "
            f"write it with the numbers and names of the question{outside}"
        )
    return spelling


Pieces = list[tuple[str, bool]]
"""Stretches of a line: (text, whether it is finished)."""


def _marked(answer: str, known: frozenset[str]) -> Pieces:
    pieces: Pieces = []
    at = 0
    for match in PART.finditer(answer):
        if match.group(1) in known:
            pieces += [(answer[at : match.start()], False), (match.group(), True)]
            at = match.end()
    return [*pieces, (answer[at:], False)]


def _replace(pieces: Pieces, pattern: "re.Pattern[str]", part: str) -> Pieces:
    done: Pieces = []
    for text, finished in pieces:
        if finished:
            done.append((text, True))
            continue
        at = 0
        for match in pattern.finditer(text):
            done += [(text[at : match.start()], False), (part, True)]
            at = match.end()
        done.append((text[at:], False))
    return done


def _with_numbers(where: str, pieces: Pieces, numbers: Mapping[str, str]) -> str:
    """Put placeholders for numbers, sums in brackets unless commas and brackets stand around them."""
    whole, quoted = "", False
    for place, (text, finished) in enumerate(pieces):
        if finished:
            whole += text
            continue
        after = "".join(t for t, _ in pieces[place + 1 :])
        at = 0
        for match in re.finditer(r'"|(?<![A-Za-z0-9_.])\d+(?![A-Za-z0-9_.])', text):
            whole += _literal(text[at : match.start()])
            at = match.end()
            if match.group() == '"':
                quoted = not quoted
                whole += '"'
                continue
            part = numbers.get(match.group())
            if part is None:
                whole += match.group()
            elif quoted:
                raise DialectError(
                    f"{where}: {match.group()} stands within quotes, where it cannot change; "
                    'join the parts, such as "shot" + STR$(57)'
                )
            else:
                alone = _alone(whole, text[at:] + after) or re.fullmatch(r"\{[a-z]+\}", part)
                whole += part if alone else f"({part})"
        whole += _literal(text[at:])
    return whole


def _literal(text: str) -> str:
    return text.replace("{", "{{").replace("}", "}}")


def _alone(before: str, after: str) -> bool:
    left, right = before.rstrip()[-1:], after.lstrip()[:1]
    return left in ("(", ",") and right in ("", ")", ",")


def merged(where: str, lines: Mapping[int, str], place: str, div: str, mod: str) -> str:
    """Return one spelling of lines that differ in numbers only, these worked out from a placeholder.

    lines     spelling for each value of the placeholder; 0 and 1 at least, or 0 alone
    div, mod  spellings of the operators, with {a} and {b}
    raises    DialectError: they differ in more, or no sum of flags gives their numbers
    """
    if len(lines) == 1:
        return lines[0]
    split = {code: re.split(r"(\d+)", text) for code, text in sorted(lines.items())}
    first = split[0]
    if any(len(parts) != len(first) or parts[0::2] != first[0::2] for parts in split.values()):
        raise DialectError(f"{where}: the lines differ in more than numbers; write them alike")
    whole = ""
    for number, part in enumerate(first):
        values = {code: parts[number] for code, parts in split.items()}
        same = len(set(values.values())) == 1
        whole += (
            part if same else _sum(where, {c: int(v) for c, v in values.items()}, "{" + place + "}", div, mod)
        )
    return whole


def _sum(where: str, values: Mapping[int, int], place: str, div: str, mod: str) -> str:
    start, step = values[0], values[1] - values[0]
    if all(value == start + code * step for code, value in values.items()):
        return _bracketed([str(start)] if start else [], [_times(step, place)])
    other = values.get(2, start) - start
    if values.get(3, start + step + other) != start + step + other:
        shown = ", ".join(str(value) for _, value in sorted(values.items()))
        raise DialectError(f"{where}: numbers {shown}: flags that do not add up; leave the last one empty")
    odd, half = mod.format(a=place, b="2"), div.format(a=place, b="2")
    return _bracketed([str(start)] if start else [], [_times(step, f"({odd})"), _times(other, f"({half})")])


def _times(step: int, text: str) -> str:
    return text if step == 1 else f"{step}*{text}" if step >= 0 else f"(0-{-step}*{text})"


def _bracketed(first: list[str], rest: list[str]) -> str:
    terms = [*first, *rest]
    return terms[0] if len(terms) == 1 and terms[0].startswith("{") else f"({'+'.join(terms)})"
