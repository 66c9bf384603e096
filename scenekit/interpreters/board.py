"""The display of the built-in executor: palette entries, pages, images, keyed and mirrored blits."""

from pathlib import Path

import numpy as np

from scenekit.errors import VerifyError
from scenekit.images.flat import read_picture
from scenekit.model.arrays import Indices, Pixels, freeze

ENTRIES = 256
MOST_PAGES = 8
LARGEST_SIDE_PX = 4096


class Board:
    """An indexed display with up to 256 recolourable entries and several pages.

    Every word of the neutral language that draws is one method here.
    """

    def __init__(self, folder: Path, transparent: int) -> None:
        self.folder = folder
        self.transparent = transparent
        self.palette = np.zeros((ENTRIES, 3), dtype=np.uint8)
        self.pages: list[Indices] = []
        self.images: dict[int, Indices] = {}
        self.drawing = 0
        self.shown = 0
        self.colour = 0
        self.screens: list[Pixels] = []

    def mode(self, width: int, height: int) -> None:
        """Open the display."""
        if not (0 < width <= LARGEST_SIDE_PX and 0 < height <= LARGEST_SIDE_PX):
            raise VerifyError(f"mode: got {width} x {height}; must be 1 to {LARGEST_SIDE_PX} px a side")
        self.pages = [np.zeros((height, width), dtype=np.uint8) for _ in range(2)]

    def palette_entry(self, entry: int, red: int, green: int, blue: int) -> None:
        """Recolour an entry."""
        if not (0 <= entry < ENTRIES and all(0 <= c <= 255 for c in (red, green, blue))):
            raise VerifyError(f"palette: got {entry}, {red}, {green}, {blue}; must be 0 to 255 each")
        self.palette[entry] = (red, green, blue)

    def ink(self, entry: int) -> None:
        """Choose the entry that fills are drawn in."""
        self.colour = self._entry(entry)

    def _entry(self, entry: int) -> int:
        if not 0 <= entry < ENTRIES:
            raise VerifyError(f"ink: got {entry}; must be 0 to 255")
        return entry

    def fill(self, x: int, y: int, width: int, height: int) -> None:
        """Fill a rectangle."""
        page = self._page()
        page[max(0, y) : max(0, y + height), max(0, x) : max(0, x + width)] = self.colour

    def _page(self) -> Indices:
        if not self.pages:
            raise VerifyError("a word draws before the display is open")
        return self.pages[self.drawing]

    def load_image(self, slot: int, file: str) -> None:
        """Load an indexed picture by its entry numbers."""
        path = self.folder / file
        if Path(file).name != file or not path.is_file():
            raise VerifyError(f"load_image: got {file!r}; must be a file beside the program")
        self.images[slot] = _entries_of(path)

    def blit(self, slot: int, left: int, top: int, width: int, height: int, x: int, y: int) -> None:
        """Copy a rectangle of an image."""
        part, target = self._parts(slot, (left, top, width, height), x, y)
        target[...] = part

    def blit_keyed(
        self, slot: int, left: int, top: int, width: int, height: int, x: int, y: int, flip: int
    ) -> None:
        """Copy a rectangle of an image, mirrored, leaving out the transparent entry."""
        part, target = self._parts(slot, (left, top, width, height), x, y)
        if not 0 <= flip <= 3:
            raise VerifyError(f"blit_keyed: flip: got {flip}; must be 0 to 3")
        part = part[:: -1 if flip & 2 else 1, :: -1 if flip & 1 else 1]
        np.copyto(target, part, where=part != self.transparent)

    def _parts(self, slot: int, box: tuple[int, int, int, int], x: int, y: int) -> tuple[Indices, Indices]:
        """Return the part of the image and of the page; a box over an edge is an error of the program."""
        left, top, width, height = box
        page = self._page()
        image = self.images.get(slot)
        if image is None:
            raise VerifyError(f"blit: got slot {slot}; no image is loaded there")
        inside = left >= 0 and top >= 0 and left + width <= image.shape[1] and top + height <= image.shape[0]
        shown = x >= 0 and y >= 0 and x + width <= page.shape[1] and y + height <= page.shape[0]
        if width < 1 or height < 1 or not inside or not shown:
            raise VerifyError(f"blit: got {list(box)} to {x}, {y}; leaves the image or the screen")
        return image[top : top + height, left : left + width], page[y : y + height, x : x + width]

    def begin_frame(self, page: int) -> None:
        """Draw on a page."""
        self.drawing = self._page_number(page)

    def end_frame(self, page: int) -> None:
        """Show a page."""
        self.shown = self._page_number(page)

    def _page_number(self, page: int) -> int:
        if not 0 <= page < MOST_PAGES:
            raise VerifyError(f"page: got {page}; must be 0 to {MOST_PAGES - 1}")
        while len(self.pages) <= page:
            self.pages.append(np.zeros_like(self._page()))
        return page

    def save_screen(self, number: int) -> None:
        """Keep what is on show."""
        if number != len(self.screens):
            raise VerifyError(f"save_screen: got {number}; must be {len(self.screens)}, the next in order")
        self.screens.append(freeze(self.palette[self.pages[self.shown]]))


def _entries_of(path: Path) -> Indices:
    from PIL import Image

    read_picture(path)
    with Image.open(path) as image:
        if image.mode != "P":
            raise VerifyError(f"{path.name}: {image.mode}; must be an indexed picture")
        return freeze(np.asarray(image))
