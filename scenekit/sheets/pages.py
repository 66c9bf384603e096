"""Packs the trimmed frames of a project into pages, with a list of where each lies."""

import csv
import io
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

import numpy as np

from scenekit.model.arrays import Pixels, freeze
from scenekit.model.sprites import Frame, Sheet
from scenekit.sprites.pack import Packing, pack
from scenekit.sprites.trim import trim
from scenekit.symmetry.flips import ALL_FLIPS, FLIP_NAMES, NONE, find_equal


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Where a frame lies.

    x, y, w, h   on its page; w and h as it lies there
    offset_x, offset_y   of what is drawn from the top left of the frame's box
    pivot_x, pivot_y     from the top left of what is drawn; may lie outside of it
    flip         how it must be mirrored when drawn, because it shares its place with an equal frame
    turned       whether it lies on its side, a quarter turn to the right
    """

    sheet: str
    frame: str
    page: int
    x: int
    y: int
    w: int
    h: int
    offset_x: int
    offset_y: int
    pivot_x: int
    pivot_y: int
    flip: str
    turned: bool


COLUMNS = tuple(Placed.__dataclass_fields__)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pages:
    """Packed frames.

    pages   each (H, W, 4) uint8
    empty   frames in which nothing is drawn; they have no place
    shared  frames that share the place of an equal one
    """

    pages: tuple[Pixels, ...]
    placed: tuple[Placed, ...]
    empty: tuple[str, ...]
    shared: int
    density: float

    def places_csv(self) -> bytes:
        """Return the list as CSV, a first line of column names."""
        text = io.StringIO()
        writer = csv.writer(text, lineterminator="\n")
        writer.writerow(COLUMNS)
        for place in self.placed:
            row = {**asdict(place), "turned": int(place.turned)}
            writer.writerow([row[column] for column in COLUMNS])
        return text.getvalue().encode("utf-8")

    def as_dict(self) -> dict[str, Any]:
        """Return plain JSON data."""
        return {
            "pages": [{"width": page.shape[1], "height": page.shape[0]} for page in self.pages],
            "density": round(self.density, 4),
            "shared": self.shared,
            "empty": list(self.empty),
            "places": [asdict(place) for place in self.placed],
        }


def pack_frames(
    sheets: Sequence[tuple[Sheet, Pixels]],
    width: int,
    height: int | None,
    *,
    gutter: int = 1,
    align: int = 1,
    turn: bool = False,
    mirror: bool = False,
    max_pages: int | None = None,
) -> Pages:
    """Pack the frames of sheets; equal ones share a place.

    height   of a page; None: one page as high as it takes
    mirror   frames that are equal mirrored share a place too
    raises   ExportError: a frame larger than a page, more pages than allowed
    """
    frames: list[tuple[Sheet, Frame, Pixels, tuple[int, int]]] = []
    empty: list[str] = []
    for sheet, pixels in sheets:
        for frame in sheet.frames:
            cut = trim(pixels, frame.box)
            if cut is None:
                empty.append(f"{sheet.name}/{frame.name}")
            else:
                x, y, w, h = cut.box
                frames.append((sheet, frame, pixels[y : y + h, x : x + w], cut.offset))
    parts = [part for _, _, part, _ in frames]
    equal = find_equal(parts, ALL_FLIPS if mirror else frozenset({NONE}))
    kept = [index for index, (first, _) in enumerate(equal) if first == index]
    names = [f"frame {frames[index][0].name}/{frames[index][1].name}" for index in kept]
    sizes = [(parts[index].shape[1], parts[index].shape[0]) for index in kept]
    packing = pack(
        sizes, width, height, gutter=gutter, align=align, turn=turn, max_pages=max_pages, names=names
    )
    number = {index: place for place, index in enumerate(kept)}
    return Pages(
        pages=_draw(packing, [parts[index] for index in kept], height),
        placed=tuple(
            _place(sheet, frame, part, offset, packing, number[first], code)
            for (sheet, frame, part, offset), (first, code) in zip(frames, equal, strict=True)
        ),
        empty=tuple(empty),
        shared=len(frames) - len(kept),
        density=packing.density,
    )


def _draw(packing: Packing, parts: Sequence[Pixels], height: int | None) -> tuple[Pixels, ...]:
    pages = [np.zeros((height or used, packing.width, 4), np.uint8) for used in packing.heights]
    for part, place in zip(parts, packing.places, strict=True):
        shown = np.rot90(part, -1) if place.turned else part
        x, y = place.position
        pages[place.page][y : y + shown.shape[0], x : x + shown.shape[1]] = shown
    return tuple(freeze(page) for page in pages)


def _place(
    sheet: Sheet,
    frame: Frame,
    part: Pixels,
    offset: tuple[int, int],
    packing: Packing,
    number: int,
    code: int,
) -> Placed:
    place = packing.places[number]
    h, w = part.shape[:2]
    return Placed(
        sheet=sheet.name,
        frame=frame.name,
        page=place.page,
        x=place.position[0],
        y=place.position[1],
        w=h if place.turned else w,
        h=w if place.turned else h,
        offset_x=offset[0],
        offset_y=offset[1],
        pivot_x=frame.pivot[0] - offset[0],
        pivot_y=frame.pivot[1] - offset[1],
        flip=FLIP_NAMES[code],
        turned=place.turned,
    )
