"""What every part of the window works with, and what a panel is."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scenekit.editor.backend import Box
from scenekit.editor.history import Edit
from scenekit.editor.products import Product
from scenekit.editor.session import Session
from scenekit.editor.settings import Settings
from scenekit.editor.ui import Ui
from scenekit.model.arrays import Pixels

MOST_PICTURES = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class Lamp:
    """How a station stands: a level of `ui.LAMPS` and a word or two."""

    level: str
    word: str


@dataclass(slots=True, eq=False)
class Desk:
    """The window's widgets, the session, and pictures kept to draw with.

    ask     what is asked in front of everything, or None; drawn by dialogs.py
    local   what panels remember of their own between frames
    ahead   work that a whole frame leaves for the lighter ones after it, while a scene plays
    """

    ui: Ui
    session: Session
    settings: Settings
    ask: Any = None
    closing: bool = False
    closed: bool = False
    local: dict[str, Any] = field(default_factory=dict)
    ahead: list[Callable[[], None]] = field(default_factory=list)
    pictures: dict[int, tuple[object, int]] = field(default_factory=dict)
    preview: int = 0
    preview_key: tuple[object, ...] = ()
    preview_box: Box = (0, 0, 0, 0)
    hovered: str = ""
    delta_s: float = 0.0
    now_s: float = 0.0

    @property
    def product(self) -> Product | None:
        """Return what follows from the document, as far as it is known."""
        return self.session.products.now

    def picture(self, pixels: NDArray[np.uint8]) -> int:
        """Return the number to draw an array of pixels with; it is kept while the array is in use."""
        key = id(pixels)
        if key not in self.pictures:
            if len(self.pictures) >= MOST_PICTURES:
                for _, number in self.pictures.values():
                    self.ui.backend.drop_picture(number)
                self.pictures.clear()
            self.pictures[key] = (pixels, self.ui.backend.add_picture(pixels))
        return self.pictures[key][1]

    def sheet_pixels(self, name: str) -> Pixels | None:
        """Return the pixels of a sheet of the document, once they are read."""
        product = self.product
        if product is None or product.art is None:
            return None
        found: Pixels | None = product.art.sheets.get(name)
        return found

    def remember(self, key: str, make: Callable[[], Any], *parts: object) -> Any:
        """Return what was made before of the same parts, or make it now."""
        kept = self.local.get(key)
        if kept is None or len(kept[0]) != len(parts) or not all(map(_same, kept[0], parts)):
            kept = (parts, make())
            self.local[key] = kept
        return kept[1]


def _same(one: object, two: object) -> bool:
    """Say whether two parts are one: plain values by what they are, all others by identity."""
    plain = (str, int, float, bool, tuple, Path)
    return one is two or (isinstance(one, plain) and isinstance(two, plain) and one == two)


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One station.

    draw   draws it into a box and returns an edit, or nothing
    lamp   says how it stands
    wide   whether it needs more room than the scene beside it
    over   draws onto the scene at (left, top) with so many px for a pixel; may return an edit
    """

    name: str
    title: str
    draw: Callable[[Desk, Box], Edit | None]
    lamp: Callable[[Desk], Lamp]
    wide: bool = False
    over: Callable[[Desk, Box, int], Edit | None] | None = None
