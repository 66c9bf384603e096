"""The `#` comments of an earlier text of a document, by the record that they stand at."""

import re

Lines = list[str]
HEADER = re.compile(r"\s*\[\[?([A-Za-z_.]+)\]?\]")
NAME = re.compile(r'\s*(?:name|facing)\s*=\s*"([^"]*)"')


class Comments:
    """The `#` comments of an earlier text, by the record that they stand at."""

    def __init__(self, text: str) -> None:
        self.found: dict[tuple[str, ...], Lines] = {}
        waiting: Lines = []
        kind, names = "", dict[str, str]()
        for line in [*text.splitlines(), "", "[end]"]:
            header = HEADER.match(line)
            if header:
                waiting = self._close(kind, names, waiting)
                kind = header.group(1)
                names = {k: v for k, v in names.items() if kind.startswith(k + ".")}
                continue
            name = NAME.match(line)
            if name and kind and kind not in names:
                names[kind] = name.group(1)
            comment = _comment(line)
            if comment:
                waiting.append(comment)
            if not line.lstrip().startswith("#"):
                waiting.append("")

    def _close(self, kind: str, names: dict[str, str], lines: Lines) -> Lines:
        """Give a record the comments within it; those after its last key or blank line go to the next one."""
        last_blank = max((i for i, line in enumerate(lines) if not line), default=-1)
        own = [line for line in lines[: last_blank + 1] if line] if last_blank >= 0 else []
        following = [line for line in lines[last_blank + 1 :] if line]
        if last_blank < 0:
            own, following = following, []
        key = (kind, *(names[k] for k in sorted(names)))
        self.found.setdefault(key, []).extend(own)
        return following

    def at(self, kind: str, *names: str) -> Lines:
        """Return the comment lines of a record."""
        return self.found.get((kind, *names), [])


def _comment(line: str) -> str:
    """Return the comment of a line, if its `#` is outside of quotes."""
    if "#" not in line:
        return ""
    quoted = False
    for position, sign in enumerate(line):
        if sign == '"' and (position == 0 or line[position - 1] != "\\"):
            quoted = not quoted
        elif sign == "#" and not quoted:
            return line[position:].rstrip()
    return ""
