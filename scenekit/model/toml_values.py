"""Writes single values as TOML."""

from fractions import Fraction

from scenekit.model.palette import Colour

Lines = list[str]


def quote(text: str) -> str:
    """Return a TOML basic string."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in escaped) + '"'


def colour(value: Colour) -> str:
    """Return a quoted colour."""
    return '"' + bytes(value).hex() + '"'


def fraction(value: Fraction) -> str:
    """Return a whole number, or a quoted fraction."""
    return str(value.numerator) if value.denominator == 1 else f'"{value}"'


def integers(values: tuple[int, ...]) -> str:
    """Return a list of whole numbers."""
    return "[" + ", ".join(str(value) for value in values) + "]"


def colours(values: tuple[Colour, ...]) -> str:
    """Return a list of colours."""
    return "[" + ", ".join(colour(value) for value in values) + "]"


def pair(values: tuple[Fraction, Fraction]) -> str:
    """Return two fractions, for x and y."""
    return f"[{fraction(values[0])}, {fraction(values[1])}]"


def texts(**values: str) -> Lines:
    """Return a line for each text that is not empty."""
    return [f"{key} = {quote(value)}" for key, value in values.items() if value]
