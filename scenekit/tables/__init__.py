"""Tables of integers: what a scene needs, and the encodings that make them small."""

from scenekit.registry import load_plugins
from scenekit.tables.encoding import Encoding

MODULES = [
    "raw",
    "bits",
    "runs",
    "delta",
    "rows",
    "dictionary",
]


def encodings() -> dict[str, Encoding]:
    """Return every encoding by name, in the order in which equal sizes are decided."""
    return load_plugins("scenekit.tables", Encoding)
