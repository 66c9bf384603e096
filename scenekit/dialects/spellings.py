"""What a dialect spells: statements, operators and words, each with the placeholders that it may have."""

from collections.abc import Mapping
from string import Formatter

from scenekit.model.fields import Fields
from scenekit.registry import choose

ANYWHERE = (
    "screen_width",
    "screen_height",
    "bottom",
    "art_height",
    "widest",
    "highest",
    "variable_prefix",
)
CONSTANTS = (*ANYWHERE, "lines", "line")
STATEMENTS: dict[str, tuple[str, ...]] = {
    "assign": ("target", "value"),
    "for": ("variable", "first", "last"),
    "next": ("variable",),
    "while": ("condition",),
    "end_while": (),
    "if": ("condition",),
    "else": (),
    "end_if": (),
    "if_goto": ("condition", "line"),
    "goto": ("line",),
    "call": ("name", "arguments"),
    "call_plain": ("name", "line"),
    "routine": ("name", "parameters"),
    "routine_plain": ("name",),
    "end_routine": (),
    "return": (),
    "local": ("names",),
    "global": ("names",),
    "argument": ("value",),
    "element": ("name", "index"),
    "dim": ("name", "last", "size"),
    "data_start": (),
    "data": ("items",),
    "remark": ("text",),
    "include": ("file", "name"),
    "end": (),
}
OPERATORS = ("+", "-", "*", "div", "mod", "=", "<>", "<", "<=", ">", ">=", "and", "or")
LONGEST_SPELLING = 400


def read_spellings(
    fields: Fields, allowed: Mapping[str, tuple[str, ...]], several_lines: bool = False
) -> dict[str, str]:
    result = {}
    for key in fields.table:
        choose(f"{fields.where}: key", key, dict(allowed))
        value = fields.table[key]
        if (
            not isinstance(value, str)
            or len(value) > LONGEST_SPELLING
            or not _printable(value, several_lines)
        ):
            few = "" if several_lines else " on one line"
            raise fields.error(key, value, f"text of at most {LONGEST_SPELLING} characters{few}")
        check_spelling(fields, key, value, allowed[key])
        result[key] = value
    return result


def _printable(text: str, several_lines: bool) -> bool:
    return all(part.isprintable() for part in (text.split("\n") if several_lines else [text]))


def check_spelling(fields: Fields, key: str, text: str, allowed: tuple[str, ...]) -> None:
    try:
        parts = list(Formatter().parse(text))
    except ValueError:
        raise fields.error(key, text, "text with matching braces") from None
    for _, name, form, conversion in parts:
        if name is not None and (name not in allowed or form or conversion):
            raise fields.error(key, "{" + name + "}", "a placeholder among " + (", ".join(allowed) or "none"))
