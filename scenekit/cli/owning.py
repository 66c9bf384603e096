"""What export says and does about the user's own program."""

import re
from collections.abc import Collection, Mapping
from pathlib import Path

import click

STEM = re.compile(r"[a-z0-9][a-z0-9_-]{0,30}")
LARGEST_BYTES = 1_000_000


def read_program(path: Path) -> tuple[str, str]:
    """Return the name without its ending and the text of a program in neutral words.

    raises   ExportError: it cannot be read, or its name cannot be an exported file's
    """
    from scenekit.errors import ExportError

    if not STEM.fullmatch(path.stem):
        raise ExportError(f"program {path.name}: must be named by small letters, digits, - and _")
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except OSError as error:
        raise ExportError(f"program {path}: cannot be read: {error.strerror}") from None
    if len(data) > LARGEST_BYTES:
        raise ExportError(f"program {path}: too large; must be at most {LARGEST_BYTES} bytes")
    return path.stem, data.decode("latin-1")


def own_data(files: Mapping[str, bytes], written: Collection[str]) -> dict[str, object]:
    """Return what became of the user's own files as plain JSON data."""
    return {"own": [{"name": name, "written": name in written} for name in files]}


def describe_own(files: Mapping[str, bytes], written: Collection[str]) -> None:
    """Say which of the user's own files were written, and which were kept."""
    for name, data in files.items():
        what = f"{len(data):>9} bytes  yours from now on" if name in written else "yours, kept as it is"
        click.echo(f"  {name:<24} {what}")
