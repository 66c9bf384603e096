"""What a person likes about the window, kept between visits."""

import json
import os
import sys
from dataclasses import asdict, dataclass
from pathlib import Path

from scenekit.errors import SceneKitError
from scenekit.model.store import write_atomically

SCALES = (1.0, 1.25, 1.5, 2.0)


@dataclass(slots=True)
class Settings:
    """Theme, scale of the window, whether things keep still, and whether the tour was seen."""

    theme: str = "light"
    scale: float = 1.0
    still: bool = False
    toured: bool = False


def settings_file() -> Path:
    """Return where settings are kept on this system."""
    if sys.platform == "win32":
        base = Path(os.environ.get("APPDATA", Path.home()))
    elif sys.platform == "darwin":
        base = Path.home() / "Library" / "Application Support"
    else:
        base = Path(os.environ.get("XDG_CONFIG_HOME") or Path.home() / ".config")
    return base / "scenekit" / "window.json"


def read_settings(path: Path) -> Settings:
    """Return the settings of a file; what is missing or wrong in it takes its usual value."""
    made = Settings()
    try:
        table = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return made
    if isinstance(table, dict):
        if table.get("theme") in ("light", "dark"):
            made.theme = table["theme"]
        if table.get("scale") in SCALES:
            made.scale = float(table["scale"])
        made.still, made.toured = table.get("still") is True, table.get("toured") is True
    return made


def write_settings(path: Path, settings: Settings) -> None:
    """Keep settings, where that is possible."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_atomically(path, json.dumps(asdict(settings), indent=1).encode("utf-8"))
    except (OSError, SceneKitError):
        return
