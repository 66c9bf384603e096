"""A save of several files at once: written whole into one file first, so that it is never half done."""

import re
import zlib
from pathlib import Path

PENDING_FILE = ".pending-save.json"
LARGEST_PENDING_BYTES = 64_000_000
NAME = re.compile(r"project\.toml|scenes/[A-Za-z0-9][A-Za-z0-9_-]{0,39}\.toml")
Files = dict[str, bytes]


def mark(data: bytes | None) -> str:
    """Return a short mark by which a file's content is known again; of a missing file it is empty."""
    return "" if data is None else f"{len(data)}:{zlib.crc32(data):08x}"


def pack(folder: Path, files: Files) -> bytes:
    """Return the content of the file that stands for a save of several files."""
    import json

    records = [
        {"name": name, "before": mark(read_or_none(folder / name)), "text": data.decode("utf-8")}
        for name, data in files.items()
    ]
    body = json.dumps(records)
    return json.dumps({"mark": mark(body.encode("ascii")), "files": body}).encode("ascii")


def unfinished(folder: Path) -> Files:
    """Return the files of a save that was cut off after it was written whole; none when there is none.

    A save that is torn, or whose files were changed by hand since, is passed over.
    """
    data = read_or_none(folder / PENDING_FILE)
    if data is None:
        return {}
    import json

    try:
        whole = json.loads(data)
        if mark(whole["files"].encode("ascii")) != whole["mark"]:
            return {}
        files: Files = {}
        for record in json.loads(whole["files"]):
            name, text = record["name"], record["text"].encode("utf-8")
            if not NAME.fullmatch(name):
                return {}
            if mark(read_or_none(folder / name)) not in (record["before"], mark(text)):
                return {}
            files[name] = text
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return {}
    return files


def read_or_none(path: Path) -> bytes | None:
    """Return the bytes of a file, or None when there is none that can be read."""
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_PENDING_BYTES + 1)
    except OSError:
        return None
    return data if len(data) <= LARGEST_PENDING_BYTES else None
