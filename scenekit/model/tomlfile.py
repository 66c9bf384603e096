"""Reads TOML of strangers: bounded files and bounded lines, an error in one line for whatever is wrong."""

import tomllib
from pathlib import Path
from typing import Any

from scenekit.errors import ProjectError, SceneKitError

LARGEST_FILE_BYTES = 4_000_000
"""Of a project's file; ten times what 5,000 frames take, and read in two seconds."""

MOST_DOTS = 200
"""In a line: dotted keys of any length would let a small file take minutes to read."""


def read_toml(path: Path, label: str, kind: type[SceneKitError] = ProjectError) -> dict[str, Any]:
    """Return the parsed tables of a TOML file.

    label    what messages about its content call it
    raises   an error of that kind: missing, too large, not UTF-8, not TOML
    """
    return parse_toml(file_bytes(path, label, kind), label, kind)


def file_bytes(path: Path, label: str, kind: type[SceneKitError] = ProjectError) -> bytes:
    """Return the bytes of a file that is not too large.

    raises   an error of that kind: missing, too large, not to be read
    """
    try:
        with path.open("rb") as file:  # what has no size, such as a device, is bounded too
            data = file.read(LARGEST_FILE_BYTES + 1)
    except FileNotFoundError:
        raise kind(f"{path}: no such file") from None
    except OSError as error:
        raise kind(f"{path}: cannot be read: {error.strerror}") from None
    except ValueError:
        raise kind(f"{label}: not a name that a file can have") from None
    if len(data) > LARGEST_FILE_BYTES:
        raise kind(f"{label}: too large; must be at most {LARGEST_FILE_BYTES} bytes")
    return data


def parse_toml(data: bytes, label: str, kind: type[SceneKitError] = ProjectError) -> dict[str, Any]:
    """Return the parsed tables of a file's bytes.

    raises   an error of that kind: not UTF-8, not TOML
    """
    try:
        text = data.decode("utf-8")
        for number, line in enumerate(text.split("\n"), 1):
            if line.count(".") > MOST_DOTS:
                raise kind(f"{label}: line {number}: more than {MOST_DOTS} dots")
        return tomllib.loads(text)
    except UnicodeDecodeError as error:
        raise kind(f"{label}: byte {error.start}: not UTF-8") from None
    except tomllib.TOMLDecodeError as error:
        raise kind(f"{label}: not valid TOML: {error}") from None
    except (RecursionError, ValueError):
        raise kind(f"{label}: not valid TOML: nested too deep or a number too long") from None
