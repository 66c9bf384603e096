"""Loads the window library and the widget binding, each with what it needs set before."""

import os
import sys
from typing import Any

os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
os.environ.setdefault("SDL_WINDOWS_DPI_AWARENESS", "permonitorv2")
os.environ.setdefault("SDL_FRAMEBUFFER_ACCELERATION", "0")

# pygame asks for an old part of setuptools that takes longer to load than pygame itself, and does without it.
_absent = sys.modules.setdefault("pkg_resources", None)  # type: ignore[arg-type]
import pygame  # noqa: E402

if _absent is None:
    del sys.modules["pkg_resources"]

from slimgui import imgui as _imgui  # noqa: E402

imgui: Any = _imgui
Box = tuple[float, float, float, float]
Point = tuple[float, float]

__all__ = ["Box", "Point", "imgui", "pygame"]
