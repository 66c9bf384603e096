"""Reads numbers as people type them: sums, products, fractions and units."""

import re
from collections.abc import Mapping
from fractions import Fraction

from scenekit.errors import ProjectError

TOKEN = re.compile(r"\s*(?:(\d{1,9}(?:\.\d{1,6})?)|([-+*/()])|([A-Za-z%]{1,12}(?:/[a-z]{1,6})?))")
LONGEST = 60
NO_UNITS: Mapping[str, Fraction] = {}


def evaluate(text: str, units: Mapping[str, Fraction] = NO_UNITS) -> Fraction:
    """Return the exact value of a text such as `16*3`, `1/8`, `(320-64)/2` or `2 s`.

    units    what one of each unit is worth
    raises   ProjectError: not a sum, or a unit that does not belong here
    """
    tokens = _tokens(text, units)
    value, place = _sum(tokens, 0, text)
    if place != len(tokens):
        raise ProjectError(f"got {text[:LONGEST]!r}; must be a number or a sum such as 16*3")
    return value


def whole(text: str, low: int, high: int, units: Mapping[str, Fraction] = NO_UNITS) -> int:
    """Return a whole number in a range; what a unit gives is rounded to the nearest.

    raises   ProjectError: not a sum, or outside the range
    """
    value = evaluate(text, units)
    if value.denominator != 1 and not any(c.isalpha() for c in text):
        raise ProjectError(f"got {text!r}, which is {float(value):.3g}; must be a whole number")
    number = round(value)
    if not low <= number <= high:
        raise ProjectError(f"got {text!r}; must be {low} to {high}")
    return number


def _tokens(text: str, units: Mapping[str, Fraction]) -> list[Fraction | str]:
    if not text.strip() or len(text) > LONGEST:
        raise ProjectError(f"got {text[:LONGEST]!r}; must be a number or a sum such as 16*3")
    found: list[Fraction | str] = []
    place = 0
    text = text.rstrip()
    while place < len(text):
        match = TOKEN.match(text, place)
        if match is None:
            raise ProjectError(f"got {text!r}; {text[place : place + 1]!r} is no part of a sum")
        number, sign, unit = match.groups()
        if number:
            found.append(Fraction(number))
        elif sign:
            found.append(sign)
        elif unit in units:
            found += ["*", units[unit]]
        else:
            known = f"; known: {', '.join(units)}" if units else ""
            raise ProjectError(f"got {text!r}; unit {unit!r} does not belong here{known}")
        place = match.end()
    return found


def _sum(tokens: list[Fraction | str], place: int, text: str) -> tuple[Fraction, int]:
    value, place = _product(tokens, place, text)
    while place < len(tokens) and tokens[place] in ("+", "-"):
        sign = tokens[place]
        other, place = _product(tokens, place + 1, text)
        value = value + other if sign == "+" else value - other
    return value, place


def _product(tokens: list[Fraction | str], place: int, text: str) -> tuple[Fraction, int]:
    value, place = _single(tokens, place, text)
    while place < len(tokens) and tokens[place] in ("*", "/"):
        sign = tokens[place]
        other, place = _single(tokens, place + 1, text)
        if sign == "/" and not other:
            raise ProjectError(f"got {text!r}; nothing can be divided by 0")
        value = value * other if sign == "*" else value / other
    return value, place


def _single(tokens: list[Fraction | str], place: int, text: str) -> tuple[Fraction, int]:
    token = tokens[place] if place < len(tokens) else None
    if isinstance(token, Fraction):
        return token, place + 1
    if token == "-":
        value, place = _single(tokens, place + 1, text)
        return -value, place
    if token == "(":
        value, place = _sum(tokens, place + 1, text)
        if place < len(tokens) and tokens[place] == ")":
            return value, place + 1
    raise ProjectError(f"got {text!r}; must be a number or a sum such as 16*3")
