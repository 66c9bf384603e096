"""The stations, in the order of the work."""

from scenekit.editor.desk import Panel
from scenekit.registry import load_plugins

MODULES = [
    "machine",
    "sheets",
    "frames",
    "motion",
    "planes",
    "colours",
    "score",
    "budget",
    "export",
]


def panels() -> list[Panel]:
    """Return every station in order."""
    return list(load_plugins("scenekit.editor.panels", Panel).values())
