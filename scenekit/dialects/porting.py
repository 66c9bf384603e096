"""The porting sheet: how each dialect spells every word, and what each does otherwise with the same one."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.spellings import OPERATORS, STATEMENTS
from scenekit.routines.words import WORDS

NONE, EMPTY = "-", "(nothing)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the sheet.

    spelled   dialect -> spelling, "-" where it has none
    """

    name: str
    meaning: str
    spelled: Mapping[str, str]

    def as_dict(self) -> dict[str, object]:
        """Return the line as plain JSON data."""
        return {"name": self.name, "meaning": self.meaning, "spelled": dict(self.spelled)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """Lines of one kind."""

    title: str
    rows: tuple[Row, ...]


def porting_sheet(dialects: Sequence[Dialect]) -> tuple[Section, ...]:
    """Return the sheet of some dialects."""
    statements = [
        Row(name=key, meaning="", spelled={d.name: _shown(d.statements.get(key)) for d in dialects})
        for key in STATEMENTS
    ]
    operators = [
        Row(name=key, meaning="", spelled={d.name: _shown(d.operators.get(key)) for d in dialects})
        for key in OPERATORS
    ]
    words = [
        Row(name=word, meaning=fact.meaning, spelled={d.name: _shown(d.words.get(word)) for d in dialects})
        for word, fact in WORDS.items()
    ]
    facts = {d.name: differences(d) for d in dialects}
    names = list(dict.fromkeys(name for found in facts.values() for name in found))
    differing = [
        Row(name=name, meaning="", spelled={d: found.get(name, NONE) for d, found in facts.items()})
        for name in names
    ]
    return (
        Section(title="Words", rows=tuple(words)),
        Section(title="Statements", rows=tuple(statements)),
        Section(title="Operators", rows=tuple(operators)),
        Section(title="What each does otherwise", rows=tuple(differing)),
    )


def _shown(spelling: str | None) -> str:
    return NONE if spelling is None else spelling or EMPTY


def differences(dialect: Dialect) -> dict[str, str]:
    """Return what a dialect does in its own way, read off its spellings and limits, and noted in its file."""
    limits, naming = dialect.limits, dialect.naming
    high = f"{-limits.integer_high} to {limits.integer_high}"
    if limits.wide_high > limits.integer_high:
        high += f"; {limits.wide_high} in wide variables"
    lines = "numbered" if dialect.numbered else "not numbered"
    return {
        "lines": f"{lines}, at most {limits.line_length} characters",
        "choices and loops": "blocks" if dialect.blocks else "jumps to line numbers",
        "routines": "named, with values and own variables"
        if dialect.procedures
        else "line numbers, all variables shared",
        "loop whose end lies below its start": "may run once" if dialect.loops_once else "does not run",
        "whole numbers": high,
        "division without rest": _division(dialect),
        "names": "a letter and a digit" if naming.style == "short" else naming.scalar.format(name="name"),
        "array is made with": _array(dialect),
        "first element": _first_element(dialect),
        "far corner of a box": _corner(dialect.words.get("fill"), "width"),
        "far end of a row": _corner(dialect.words.get("run"), "length"),
        "y counts": _upward(dialect.words.get("fill")),
        "colours": _colours(dialect),
        "copies": _copies(dialect),
        "values in a DATA line": str(limits.data_items) if limits.data_items else "as many as fit",
        "noted": "; ".join(dialect.differs) or NONE,
    }


def _division(dialect: Dialect) -> str:
    spelled = dialect.operators.get("div")
    if spelled is None:
        return NONE
    kind = "a division that is cut" if "/" in spelled else "an operator for whole numbers"
    return f"{spelled.format(a='a', b='b')}: {kind}"


def _array(dialect: Dialect) -> str:
    spelled = dialect.statements.get("dim")
    if spelled is None:
        return NONE
    return "its number of elements" if "{size}" in spelled else "its last place, counted from 0"


def _first_element(dialect: Dialect) -> str:
    return "1" if "{index}+1" in dialect.statements.get("element", "{name}({index})") else "0"


def _corner(spelled: str | None, side: str) -> str:
    if not spelled:
        return NONE
    plain = spelled.replace(" ", "")
    if f"{{x}}+{{{side}}}-1" in plain:
        return "named, and drawn"
    if f"{{x}}+{{{side}}}" in plain:
        return "named, and not drawn"
    return "by size, less one" if f"{{{side}}}-1" in plain else "by size"


def _upward(spelled: str | None) -> str:
    if not spelled:
        return NONE
    if "{bottom}" in spelled:
        return "upward, two units a pixel"
    return "upward" if "{screen_height}" in spelled else "downward"


def _colours(dialect: Dialect) -> str:
    kinds = []
    if "ink" in dialect.words:
        kinds.append("entries" + (" that can be recoloured" if "palette" in dialect.words else ""))
    if "ink_rgb" in dialect.words:
        kinds.append("red, green, blue of each pixel")
    return "; ".join(kinds) or NONE


def _copies(dialect: Dialect) -> str:
    if "blit_keyed" not in dialect.words:
        return NONE
    source = "an image file" if "load_image" in dialect.words else "a hidden page"
    mirrored = "mirrored too" if "{flip}" in dialect.words["blit_keyed"] else "never mirrored"
    return f"from {source}, {mirrored}"


def sheet_text(sections: Sequence[Section]) -> str:
    """Return the sheet as text, one name after the other, each dialect on lines of its own."""
    lines: list[str] = []
    for section in sections:
        lines += [section.title, "=" * len(section.title), ""]
        for row in section.rows:
            lines.append(f"{row.name}: {row.meaning}" if row.meaning else row.name)
            width = max(len(name) for name in row.spelled)
            for name, spelled in row.spelled.items():
                first, *rest = spelled.split("\n")
                lines.append(f"  {name:<{width}}  {first}".rstrip())
                lines += [f"  {'':<{width}}  {line}".rstrip() for line in rest]
            lines.append("")
    return "\n".join(lines)


STYLE = (
    "body{font:15px/1.5 sans-serif;margin:2em;max-width:none}"
    "table{border-collapse:collapse;margin-bottom:2em}"
    "th,td{border:1px solid #767676;padding:.3em .6em;text-align:left;vertical-align:top}"
    "code{white-space:pre-wrap}"
    "@media(prefers-color-scheme:dark){body{background:#181818;color:#eee}}"
)


def sheet_html(sections: Sequence[Section]) -> str:
    """Return the sheet as one HTML page without scripts or files beside it."""
    parts = [
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width">',
        f"<title>Porting sheet</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<h1>Porting sheet</h1>",
    ]
    for section in sections:
        names = list(section.rows[0].spelled) if section.rows else []
        head = "".join(f'<th scope="col">{escape(name)}</th>' for name in ("", *names))
        parts.append(f"<h2>{escape(section.title)}</h2>\n<table>\n<tr>{head}</tr>")
        for row in section.rows:
            meaning = f"<br>{escape(row.meaning)}" if row.meaning else ""
            cells = "".join(f"<td><code>{escape(text)}</code></td>" for text in row.spelled.values())
            parts.append(f'<tr><th scope="row">{escape(row.name)}{meaning}</th>{cells}</tr>')
        parts.append("</table>")
    return "\n".join([*parts, "</body>", "</html>"]) + "\n"
