"""The display of the built-in executor: entries or colours, pages, images, keyed and mirrored blits."""

from pathlib import Path

import numpy as np

from scenekit.errors import VerifyError
from scenekit.images.flat import read_picture
from scenekit.model.arrays import Indices, Pixels, freeze
from scenekit.symmetry.flips import ALL_FLIPS

ENTRIES = 256
MOST_PAGES = 8
LARGEST_SIDE_PX = 4096


class Board:
    """A display with several pages, of up to 256 recolourable entries or of colours.

    Every word of the neutral language that draws is one method here.
    flips   flip codes that keyed copies can do
    """

    def __init__(self, folder: Path, transparent: int, flips: frozenset[int] = ALL_FLIPS) -> None:
        self.flips = flips
        self.direct = False
        self.folder = folder
        self.transparent = transparent
        self.palette = np.zeros((ENTRIES, 3), dtype=np.uint8)
        self.pages: list[Indices] = []
        self.images: dict[int, Indices] = {}
        self.drawing = 0
        self.shown = 0
        self.colours: dict[int, Pixels] = {}
        self.colour: int | tuple[int, int, int] = 0
        self.screens: list[Pixels] = []

    def mode(self, width: int, height: int) -> None:
        """Open the display."""
        if not (0 < width <= LARGEST_SIDE_PX and 0 < height <= LARGEST_SIDE_PX):
            raise VerifyError(f"mode: got {width} x {height}; must be 1 to {LARGEST_SIDE_PX} px a side")
        shape = (height, width, 3) if self.direct else (height, width)
        self.pages = [np.zeros(shape, dtype=np.uint8) for _ in range(2)]

    def mode_direct(self, width: int, height: int) -> None:
        """Open the display with pixels that hold colours."""
        self.direct = True
        self.mode(width, height)

    def palette_entry(self, entry: int, red: int, green: int, blue: int) -> None:
        """Recolour an entry."""
        if not (0 <= entry < ENTRIES and all(0 <= c <= 255 for c in (red, green, blue))):
            raise VerifyError(f"palette: got {entry}, {red}, {green}, {blue}; must be 0 to 255 each")
        self.palette[entry] = (red, green, blue)

    def ink(self, entry: int) -> None:
        """Choose the entry that fills are drawn in."""
        self.colour = self._entry(entry)

    def ink_rgb(self, red: int, green: int, blue: int) -> None:
        """Choose the colour that is drawn in, where pixels hold colours."""
        if not all(0 <= c <= 255 for c in (red, green, blue)):
            raise VerifyError(f"ink_rgb: got {red}, {green}, {blue}; must be 0 to 255 each")
        self.colour = (red, green, blue)

    def run(self, x: int, y: int, length: int) -> None:
        """Draw a horizontal run."""
        self.fill(x, y, length, 1)

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
        self.images[slot], palette = _entries_of(path)
        self.colours[slot] = palette[self.images[slot]]

    def blit(self, slot: int, left: int, top: int, width: int, height: int, x: int, y: int) -> None:
        """Copy a rectangle of an image."""
        _, part, target = self._parts(slot, (left, top, width, height), x, y)
        target[...] = part

    def blit_keyed(
        self, slot: int, left: int, top: int, width: int, height: int, x: int, y: int, flip: int
    ) -> None:
        """Copy a rectangle of an image, mirrored, leaving out the transparent entry."""
        entries, part, target = self._parts(slot, (left, top, width, height), x, y)
        if flip not in self.flips:
            raise VerifyError(f"blit_keyed: flip: got {flip}; this machine has {sorted(self.flips)}")
        turn = (slice(None, None, -1 if flip & 2 else 1), slice(None, None, -1 if flip & 1 else 1))
        shown = entries[turn] != self.transparent
        np.copyto(target, part[turn], where=shown[..., None] if self.direct else shown)

    def move_part(self, left: int, top: int, width: int, height: int, x: int, y: int) -> None:
        """Copy a rectangle of the page to another place on it; nothing may leave the page."""
        page = self._page()
        high, wide = page.shape[:2]
        inside = left >= 0 and top >= 0 and left + width <= wide and top + height <= high
        if width < 1 or height < 1 or not inside or x < 0 or y < 0 or x + width > wide or y + height > high:
            raise VerifyError(f"move_part: got {[left, top, width, height]} to {x}, {y}; leaves the page")
        page[y : y + height, x : x + width] = page[top : top + height, left : left + width].copy()

    def _parts(
        self, slot: int, box: tuple[int, int, int, int], x: int, y: int
    ) -> tuple[Indices, Indices, Indices]:
        """Return the image's entries, what it draws, and the page there; nothing may leave either."""
        left, top, width, height = box
        page = self._page()
        image = self.images.get(slot)
        if image is None:
            raise VerifyError(f"blit: got slot {slot}; no image is loaded there")
        inside = left >= 0 and top >= 0 and left + width <= image.shape[1] and top + height <= image.shape[0]
        shown = x >= 0 and y >= 0 and x + width <= page.shape[1] and y + height <= page.shape[0]
        if width < 1 or height < 1 or not inside or not shown:
            raise VerifyError(f"blit: got {list(box)} to {x}, {y}; leaves the image or the screen")
        rows, columns = slice(top, top + height), slice(left, left + width)
        drawn = self.colours[slot] if self.direct else image
        return image[rows, columns], drawn[rows, columns], page[y : y + height, x : x + width]

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

    def see(self, x: int, y: int) -> int:
        """Return a pixel on show: its entry, or its colour as one number."""
        page = self.pages[self.shown]
        if not (0 <= x < page.shape[1] and 0 <= y < page.shape[0]):
            raise VerifyError(f"see: got {x}, {y}; must be on the screen")
        if not self.direct:
            return int(page[y, x])
        red, green, blue = (int(part) for part in page[y, x])
        return red + 256 * green + 65536 * blue

    def save_screen(self, number: int) -> None:
        """Keep what is on show."""
        if number != len(self.screens):
            raise VerifyError(f"save_screen: got {number}; must be {len(self.screens)}, the next in order")
        page = self.pages[self.shown]
        self.screens.append(freeze(page if self.direct else self.palette[page]))


def _entries_of(path: Path) -> tuple[Indices, Pixels]:
    """Return the entries of an indexed picture, and its palette (256, 3)."""
    from PIL import Image

    read_picture(path)
    with Image.open(path) as image:
        if image.mode != "P":
            raise VerifyError(f"{path.name}: {image.mode}; must be an indexed picture")
        colours = np.zeros((ENTRIES, 3), dtype=np.uint8)
        given = np.array(image.getpalette() or [], dtype=np.uint8).reshape(-1, 3)
        colours[: len(given)] = given
        return freeze(np.asarray(image)), colours
