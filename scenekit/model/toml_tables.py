"""Writes plain tables as TOML, whatever values they hold."""

import tomllib
from typing import Any

from scenekit.model.toml_values import quote

Tables = dict[str, Any]


def toml_text(tables: Tables, comment: str) -> str:
    """Return tables as TOML: plain values first, then tables, then lists of tables."""
    lines = [f"# {comment}"]
    nested = {key: value for key, value in tables.items() if isinstance(value, dict)}
    rows = {key: value for key, value in tables.items() if _is_rows(value)}
    for key, value in tables.items():
        if key not in nested and key not in rows:
            lines.append(f"{_key(key)} = {_value(value)}")
    for key, table in nested.items():
        lines += ["", f"[{_key(key)}]", *(f"{_key(k)} = {_value(v)}" for k, v in table.items())]
    for key, several in rows.items():
        for row in several:
            lines += ["", f"[[{_key(key)}]]", *(f"{_key(k)} = {_value(v)}" for k, v in row.items())]
    text = "\n".join(lines) + "\n"
    tomllib.loads(text)
    return text


def _is_rows(value: object) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(row, dict) for row in value)


def _key(key: str) -> str:
    return key if key.replace("_", "").replace("-", "").isalnum() and key.isascii() else quote(key)


def _value(value: object) -> str:
    match value:
        case bool():
            return "true" if value else "false"
        case int() | float():
            return str(value)
        case str():
            return _multiline(value) if "\n" in value else quote(value)
        case dict():
            return "{ " + ", ".join(f"{_key(k)} = {_value(v)}" for k, v in value.items()) + " }"
        case list() | tuple():
            return "[" + ", ".join(_value(part) for part in value) + "]"
    raise TypeError(type(value).__name__)


def _multiline(text: str) -> str:
    return '"""\n' + "\n".join(quote(line)[1:-1] for line in text.split("\n")) + '"""'
