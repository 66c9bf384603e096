"""The tables of planes: their maps, sizes, ratios and flags, and the order in which all is drawn."""

from collections.abc import Sequence

from scenekit.model.scene import Scene
from scenekit.motion.parallax import camera_at, remainder, scroll_at
from scenekit.motion.paths import split_speed
from scenekit.tables.collected import Collected, starts_of
from scenekit.tables.pieces import Pieces
from scenekit.tiles.flags import FlagMap


def plane_tables(tables: Collected, scene: Scene, pieces: Pieces) -> None:
    cuts = pieces.planes
    camera = camera_at(scene, 0)
    scrolls = [scroll_at(plane, camera, 0) for plane in scene.planes]
    tables.add("plane_columns", [c.columns for c in cuts], "columns of each plane's map")
    tables.add("plane_rows", [c.rows for c in cuts], "rows")
    tables.add("tile_w", [c.tile_w_px for c in cuts], "pixels of a cell")
    tables.add("tile_h", [c.tile_h_px for c in cuts], "")
    tables.add("last_w", [c.last_w_px for c in cuts], "pixels of the last column's cells")
    tables.add("last_h", [c.last_h_px for c in cuts], "and of the last row's")
    tables.add("plane_w", [c.width_px for c in cuts], "pixels of the whole picture")
    tables.add("plane_h", [c.height_px for c in cuts], "")
    tables.add("map_first", starts_of([len(m) for m in pieces.maps]), "first cell in map_cell")
    for axis, name in enumerate("xy"):
        size = [(c.width_px, c.height_px)[axis] for c in cuts]
        start = [scroll[axis] for scroll in scrolls]
        drift = [split_speed(plane.drift[axis]) for plane in scene.planes]
        ratio = [plane.ratio[axis] for plane in scene.planes]
        tables.add(
            f"wrap_{name}", [int(p.wrap[axis]) for p in scene.planes], f"1 when it repeats along {name}"
        )
        tables.add(f"ratio_{name}", [r.numerator for r in ratio], f"scroll ratio along {name}: this many")
        tables.add(f"ratio_parts_{name}", [r.denominator for r in ratio], "parts of so many")
        tables.add(f"drift_{name}", [d[0] for d in drift], f"pixels it drifts a tick along {name}")
        tables.add(f"drift_step_{name}", [d[1] for d in drift], "and this many")
        tables.add(f"drift_parts_{name}", [d[2] for d in drift], "parts of so many")
        tables.add(f"plane_start_{name}", start, f"scroll at tick 0 along {name}")
        parts = [remainder(r, camera[axis]) for r in ratio]
        tables.add(f"plane_start_part_{name}", parts, "and its parts")
        bases = [s // w * w for s, w in zip(start, size, strict=True)]
        tables.add(f"start_base_{name}", bases, "whole pictures scrolled by at tick 0")
    tables.add("map_cell", [c for m in pieces.maps for c in m], "4 x tile + flip, -1 is empty")
    tables.add("piece_w", [p.shape[1] for p in pieces.pictures], "pixels of each piece: tiles, then frames")
    tables.add("piece_h", [p.shape[0] for p in pieces.pictures], "")
    tables.add("order", _order(scene), "drawing order: planes, then planes + sprite")


def flag_tables(tables: Collected, flags: Sequence[FlagMap | None]) -> None:
    sizes = [len(f.cells) * len(f.cells[0]) if f is not None else 0 for f in flags]
    first = [start if f is not None else -1 for start, f in zip(starts_of(sizes), flags, strict=True)]
    tables.add("flag_first", first, "first place in flag_cell, -1 when a plane has no flags")
    tables.add("flag_columns", [len(f.cells[0]) if f else 0 for f in flags], "columns of its map")
    tables.add("flag_w", [f.size[0] if f else 1 for f in flags], "pixels of a cell")
    tables.add("flag_h", [f.size[1] if f else 1 for f in flags], "")
    cells = [value for f in flags if f is not None for row in f.cells for value in row]
    tables.add("flag_cell", cells, "flags of each cell, added up")


def _order(scene: Scene) -> list[int]:
    order = []
    for number, plane in enumerate(scene.planes):
        order.append(number)
        order += [len(scene.planes) + i for i, placed in enumerate(scene.placed) if placed.over == plane.name]
    return order
