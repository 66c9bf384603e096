"""Runs exported programs and reads back what they drew and said."""

from scenekit.interpreters.outcome import Reader
from scenekit.registry import load_plugins

MODULES = [
    "executor",
    "printed",
    "screenfile",
    "session",
    "windowtext",
]


def readers() -> dict[str, Reader]:
    """Return every way to run a program and read its results, by name."""
    return load_plugins("scenekit.interpreters", Reader)
