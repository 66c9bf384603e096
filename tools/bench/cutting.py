"""Score the automatic cutter on a folder of sheets with known boxes, and on variants of them made by code.

usage: python tools/bench/cutting.py FOLDER [--half tuned|held|all] [--only ID ...] [--variant NAME ...]
       [--sheets] [--hint] [--folds N] [--offered]

FOLDER holds manifest.json, truth/*.json and files/*. A content box is the tight box of art pixels in a known
or an answered box; two match only if equal. Prints one row per variant ("sure": how many of those with a
confidence of 0.9 or more are right), the confidence table and, with --sheets, one row per sheet. The numbers
of the cutter were first tuned on the packages in TUNED alone; since then sheets of the other half have been
looked at as well (ruled lines, moved grids, borders, shelves, strays beside boxes), so neither is unseen.
--offered says on how many unchanged sheets below that confidence the right reading is among the first three.
--folds N parts the packages into N and gives each part's row: a change that helps one part alone is no gain.
"""

import argparse
import json
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from scenekit.slicing.cut import Cut, SliceOptions
from scenekit.slicing.guess import cut_guess, frames_of
from scenekit.slicing.guess_rank import readings

TUNED = {"arcade", "emoji-datasource-twitter", "flare-game", "freeciv-data", "jquery-ui", "mrrescue"}
GUTTER_COLOUR = (200, 40, 120)
CROP = (3, 1, 5, 3)
"""Pixels taken off left, top, right, bottom."""
LEAST_CROP_CELL = 12

Box = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sheet:
    """A sheet and what is known about it."""

    name: str
    package: str
    tuned: bool
    pixels: NDArray[np.uint8]
    mask: NDArray[np.bool_]
    boxes: tuple[Box, ...]
    complete: bool
    tags: tuple[str, ...] = ()
    grid: tuple[list[int], list[int], list[int]] | None = None
    cell: tuple[int, int] | None = None
    plain_grid: bool = False
    key: tuple[int, int, int] | None = None


@dataclass(slots=True, kw_only=True)
class Row:
    """Scores of one variant."""

    scores: list[float] = field(default_factory=list)
    plain: list[float] = field(default_factory=list)
    sure: list[tuple[float, float, bool]] = field(default_factory=list)
    grids: list[bool] = field(default_factory=list)
    tags: dict[str, list[float]] = field(default_factory=dict)
    slowest_s: float = 0.0


def art(truth: dict[str, Any], path: Path) -> NDArray[np.bool_]:
    """Return the art pixels as the truth sees them."""
    image, key = Image.open(path), truth.get("colorkey")
    if isinstance(key, dict):
        indices = np.array(image)
        return (indices != key["index"]) & (indices != key["background_index"])
    if isinstance(key, list):
        return (np.array(image.convert("RGB")) != np.array(key)).any(-1)
    return np.array(image.convert("RGBA"))[..., 3] > 0


def sheets(folder: Path, half: str) -> Iterator[Sheet]:
    """Read the sheets of a folder."""
    for item in json.loads((folder / "manifest.json").read_text()):
        tuned = item.get("package") in TUNED
        if item["type"] != "sheet" or (half != "all" and tuned != (half == "tuned")):
            continue
        truth = json.loads((folder / item["truth_file"]).read_text())
        kind, cell, key = truth.get("kind"), truth.get("cell"), truth.get("colorkey")
        measures = (cell, truth.get("margin"), truth.get("gutter"))
        yield Sheet(
            name=item["id"],
            package=item.get("package", ""),
            tuned=tuned,
            pixels=np.array(Image.open(folder / item["file"]).convert("RGBA")),
            mask=art(truth, folder / item["file"]),
            boxes=tuple(tuple(rect[:4]) for rect in truth["rects"]),
            complete=item.get("truth_complete", True),
            tags=tuple(item["tags"]),
            grid=measures if kind == "grid" and cell else None,
            cell=tuple(cell) if cell and kind in ("grid", "tiles", "multigrid") else None,
            plain_grid=bool(cell) and kind in ("grid", "tiles") and measures[1:] == ([0, 0], [0, 0]),
            key=tuple(key) if isinstance(key, list) else None,
        )


def transposed(sheet: Sheet) -> Sheet | None:
    """Swap rows and columns."""
    return replace(
        sheet,
        pixels=np.ascontiguousarray(sheet.pixels.swapaxes(0, 1)),
        mask=np.ascontiguousarray(sheet.mask.T),
        boxes=tuple((y, x, h, w) for x, y, w, h in sheet.boxes),
    )


def mirrored(sheet: Sheet) -> Sheet | None:
    """Swap left and right."""
    width = sheet.mask.shape[1]
    return replace(
        sheet,
        pixels=np.ascontiguousarray(sheet.pixels[:, ::-1]),
        mask=np.ascontiguousarray(sheet.mask[:, ::-1]),
        boxes=tuple((width - x - w, y, w, h) for x, y, w, h in sheet.boxes),
    )


def flattened(sheet: Sheet, colour: tuple[int, int, int]) -> Sheet | None:
    """Lay the sheet on one colour; the colour becomes the key."""
    if not (~sheet.mask).any():
        return None
    ground = np.array(colour, np.float64)
    alpha = sheet.pixels[..., 3:] / 255.0 * sheet.mask[..., None]
    mixed = np.floor(sheet.pixels[..., :3] * alpha + ground * (1 - alpha) + 0.5).astype(np.uint8)
    pixels = np.dstack([mixed, np.full(sheet.mask.shape, 255, np.uint8)])
    return replace(sheet, pixels=pixels, mask=(mixed != np.array(colour)).any(-1))


def with_gutters(sheet: Sheet, size: int, colour: tuple[int, int, int] | None) -> Sheet | None:
    """Insert gutters between the cells of a plain grid, painted also around it or empty."""
    if not sheet.plain_grid or sheet.cell is None:
        return None
    height, width = sheet.mask.shape
    first = size if colour else 0
    places = []
    for cell, length in zip(sheet.cell, (width, height), strict=True):
        where = np.arange(length)
        places.append(first + where + where // cell * size)
    out = (int(places[1][-1]) + 1 + first, int(places[0][-1]) + 1 + first)
    clear = np.array([*(sheet.key or (0, 0, 0)), 255 if sheet.key else 0], np.uint8)
    pixels = np.empty((*out, 4), np.uint8)
    pixels[:] = np.array([*colour, 255], np.uint8) if colour else clear
    mask = np.zeros(out, np.bool_)
    pixels[np.ix_(places[1], places[0])] = sheet.pixels
    mask[np.ix_(places[1], places[0])] = sheet.mask
    if colour:
        columns = np.ones(out[1], np.bool_)
        columns[places[0]] = False
        rows = np.ones(out[0], np.bool_)
        rows[places[1]] = False
        mask[rows] = True
        mask[:, columns] = True
    boxes = tuple(
        (int(places[0][x]), int(places[1][y]), min(w, width - x), min(h, height - y))
        for x, y, w, h in sheet.boxes
        if 0 <= x < width and 0 <= y < height
    )
    return replace(sheet, pixels=pixels, mask=mask, boxes=boxes)


def cropped(sheet: Sheet) -> Sheet | None:
    """Take odd margins off."""
    if sheet.cell and min(sheet.cell) < LEAST_CROP_CELL:
        return None
    height, width = sheet.mask.shape
    left, top, right, bottom = CROP
    if min(height, width) < 8 * max(CROP):
        return None
    inner = (slice(top, height - bottom), slice(left, width - right))
    boxes = []
    for x, y, w, h in sheet.boxes:
        x0, y0 = max(x - left, 0), max(y - top, 0)
        x1, y1 = min(x + w, width - right) - left, min(y + h, height - bottom) - top
        if x1 > x0 and y1 > y0:
            boxes.append((x0, y0, x1 - x0, y1 - y0))
    return replace(
        sheet,
        pixels=np.ascontiguousarray(sheet.pixels[inner]),
        mask=np.ascontiguousarray(sheet.mask[inner]),
        boxes=tuple(boxes),
    )


def side_by_side(sheet: Sheet, other: Sheet) -> Sheet | None:
    """Put another sheet to the right; the shorter one is filled up with nothing."""
    if not (~sheet.mask).any() or not (~other.mask).any():
        return None
    if sheet.key or other.key or sheet.pixels[..., 3].all() or other.pixels[..., 3].all():
        return None
    height = max(sheet.mask.shape[0], other.mask.shape[0])
    if height > 4 * min(sheet.mask.shape[0], other.mask.shape[0]) or height > 1200:
        return None

    def filled(part: NDArray[Any]) -> NDArray[Any]:
        return np.pad(part, ((0, height - part.shape[0]),) + ((0, 0),) * (part.ndim - 1))

    shift = sheet.mask.shape[1]
    return replace(
        sheet,
        pixels=np.concatenate([filled(sheet.pixels), filled(other.pixels)], axis=1),
        mask=np.concatenate([filled(sheet.mask), filled(other.mask)], axis=1),
        boxes=sheet.boxes + tuple((x + shift, y, w, h) for x, y, w, h in other.boxes),
        complete=sheet.complete and other.complete,
    )


def reduced(sheet: Sheet) -> Sheet | None:
    """Bring the colours down to 16; alpha stays."""
    image = (
        Image.fromarray(sheet.pixels[..., :3]).quantize(16, method=Image.Quantize.MEDIANCUT).convert("RGB")
    )
    colours = np.array(image)
    if sheet.key:
        colours[~sheet.mask] = sheet.key
        colours[sheet.mask & (colours == np.array(sheet.key)).all(-1)] ^= 1
    elif (~sheet.mask & (sheet.pixels[..., 3] > 0)).any():
        return None
    return replace(sheet, pixels=np.dstack([colours, sheet.pixels[..., 3]]))


def variants(every: list[Sheet]) -> Iterator[tuple[str, Sheet, Sheet]]:
    """Give (name of the variant, changed sheet, the sheet it was made from)."""
    for index, sheet in enumerate(every):
        made: dict[str, Sheet | None] = {"unchanged": sheet}
        made["transposed"] = transposed(sheet)
        made["mirrored"] = mirrored(sheet)
        for name, colour in (("magenta", (255, 0, 255)), ("black", (0, 0, 0)), ("white", (255, 255, 255))):
            made[f"on {name}"] = flattened(sheet, colour)
        made["painted 1 px gutters"] = with_gutters(sheet, 1, GUTTER_COLOUR)
        made["empty 2 px gutters"] = with_gutters(sheet, 2, None)
        made["cropped"] = cropped(sheet)
        made["side by side"] = side_by_side(sheet, every[(index + 1) % len(every)])
        made["16 colours"] = reduced(sheet)
        for name, changed in made.items():
            if changed is not None:
                yield name, changed, sheet


def contents(boxes: list[Box], mask: NDArray[np.bool_]) -> list[Box]:
    """Return the tight boxes of art, left, top, right, bottom."""
    out = []
    for x, y, w, h in boxes:
        x0, y0 = max(0, x), max(0, y)
        part = mask[y0 : max(0, y + h), x0 : max(0, x + w)]
        down, across = np.nonzero(part.any(1))[0], np.nonzero(part.any(0))[0]
        if len(down):
            out.append(
                (x0 + int(across[0]), y0 + int(down[0]), x0 + int(across[-1]) + 1, y0 + int(down[-1]) + 1)
            )
    return out


def score(boxes: list[Box], sheet: Sheet) -> float:
    """Return the F1 of exact content boxes."""
    want = set(contents(list(sheet.boxes), sheet.mask))
    got = contents(boxes, sheet.mask)
    if not sheet.complete:
        known = np.array(sorted(want))
        got = [g for g in got if g in want or touches(g, known)]
    hit = len(want & set(got))
    return 2 * hit / (len(want) + len(got)) if hit else 0.0


def touches(box: Box, others: NDArray[np.int64]) -> bool:
    """Say whether a box overlaps any of the others."""
    left, top, right, bottom = others.T
    return bool(((box[0] < right) & (left < box[2]) & (box[1] < bottom) & (top < box[3])).any())


def offered_right(sheet: Sheet, options: SliceOptions) -> bool:
    """Say whether one of the first three readings that give different frames is right."""
    seen: list[frozenset[Box]] = []
    for reading in readings(sheet.pixels, options):
        frames = frames_of(reading)
        contents_found = frozenset(frame.content for frame in frames)
        if contents_found in seen:
            continue
        seen.append(contents_found)
        if score([frame.box for frame in frames], sheet) >= 0.95:
            return True
        if len(seen) == 3:
            break
    return False


def grid_right(cut: Cut, sheet: Sheet) -> bool:
    """Say whether the grid is exactly the known one."""
    if cut.grid is None or sheet.grid is None:
        return False
    return [list(cut.grid.cell), list(cut.grid.margin), list(cut.grid.gutter)] == list(sheet.grid)


def main() -> int:
    """Print the tables."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--half", choices=("tuned", "held", "all"), default="all")
    parser.add_argument("--only", nargs="*")
    parser.add_argument("--variant", nargs="*")
    parser.add_argument("--sheets", action="store_true")
    parser.add_argument("--folds", type=int, default=0, help="also a row for each of N parts by package")
    parser.add_argument("--offered", action="store_true")
    parser.add_argument("--hint", action="store_true", help="give the cell size on grid sheets")
    given = parser.parse_args()
    rows: dict[tuple[str, str], Row] = {}
    plain: dict[str, float] = {}
    offered: dict[str, bool] = {}
    every = list(sheets(given.folder, given.half))
    packages = sorted({sheet.package for sheet in every})
    for name, changed, source in variants(every):
        if (given.only and source.name not in given.only) or (given.variant and name not in given.variant):
            continue
        options = SliceOptions(cell=changed.cell) if given.hint and changed.cell else SliceOptions()
        start = time.perf_counter()
        cut = cut_guess(changed.pixels, options)
        took = time.perf_counter() - start
        result = score([frame.box for frame in cut.frames], changed)
        if name == "unchanged":
            plain[source.name] = result
        parts = ["tuned" if source.tuned else "held", "all"]
        if given.folds:
            parts.append(f"part {packages.index(source.package) % given.folds + 1}")
        for half in parts:
            row = rows.setdefault((name, half), Row())
            row.scores.append(result)
            row.plain.append(plain.get(source.name, 0.0))
            row.sure.append((cut.confidence, result, result >= 0.95))
            row.slowest_s = max(row.slowest_s, took)
            if name == "unchanged":
                for tag in source.tags:
                    row.tags.setdefault(tag, []).append(result)
                if source.grid:
                    row.grids.append(grid_right(cut, source))
        if given.offered and name == "unchanged" and cut.confidence < 0.9:
            offered[source.name] = offered_right(changed, options)
        if given.sheets:
            grid = cut.grid
            shown = f"{grid.cell} m{grid.margin} g{grid.gutter}" if grid else ""
            wrong = (
                ""
                if name != "unchanged" or not source.grid or grid_right(cut, source)
                else f"WANT {source.grid}"
            )
            print(
                f"{source.name:26s} {name:20s} {result:.3f} sure {cut.confidence:.2f} {took:5.2f} s "
                f"{cut.method} {len(cut.frames)} {shown} {wrong} | {cut.reason}",
                flush=True,
            )
    report(rows)
    if given.offered:
        print(
            f"right reading among the first three: {sum(offered.values())} of {len(offered)} less sure sheets"
        )
        print("  not: " + ", ".join(sheet for sheet, right in offered.items() if not right))
    return 0


def report(rows: dict[tuple[str, str], Row]) -> None:
    """Print one row per variant and half, then confidence and tags."""
    print(
        f"{'variant':22s} {'half':6s} {'sheets':>6s} {'mean':>6s} {'plain':>6s} {'>=.95':>6s} "
        f"{'slowest':>8s}  sure"
    )
    for (name, half), row in rows.items():
        sure = [right for confidence, _, right in row.sure if confidence >= 0.9]
        print(
            f"{name:22s} {half:6s} {len(row.scores):6d} {np.mean(row.scores):6.3f} {np.mean(row.plain):6.3f} "
            f"{sum(s >= 0.95 for s in row.scores):6d} {row.slowest_s:7.2f}s  {sum(sure)}/{len(sure)} right"
        )
    for half in ("tuned", "held", "all"):
        row = rows.get(("unchanged", half))
        if row is None:
            continue
        if row.grids:
            print(f"{half}: exact grids {sum(row.grids)} of {len(row.grids)}")
        if half == "all":
            print(
                "tags: "
                + ", ".join(f"{tag} {np.mean(v):.2f} ({len(v)})" for tag, v in sorted(row.tags.items()))
            )
        everything = [entry for (_, h), r in rows.items() if h == half for entry in r.sure]
        for low, high in ((0.0, 0.25), (0.25, 0.5), (0.5, 0.75), (0.75, 0.9), (0.9, 1.01)):
            for label, entries in (("unchanged", row.sure), ("all variants", everything)):
                inside = [e for e in entries if low <= e[0] < high]
                if inside:
                    print(
                        f"{half}, {label}: confidence {low:.2f} to {min(high, 1):.2f}: {len(inside)} sheets, "
                        f"{sum(e[2] for e in inside)} right, mean {np.mean([e[1] for e in inside]):.3f}"
                    )


if __name__ == "__main__":
    sys.exit(main())
