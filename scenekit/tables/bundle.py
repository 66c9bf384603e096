"""The bundle: named integer tables, arrays, variables and files of one scene for one target."""

from collections.abc import Sequence
from dataclasses import dataclass

from scenekit.images.reduced import ReducedArt
from scenekit.model.project import Project
from scenekit.model.scene import Path, Placed, Scene
from scenekit.model.sprites import FACINGS, Sprite
from scenekit.motion.covers import turnover_of
from scenekit.motion.looks import shown_animation, start_state
from scenekit.motion.parallax import camera_at, remainder, scroll_at
from scenekit.motion.paths import split_speed, unroll
from scenekit.routines.language import Table
from scenekit.tables.panel import panel_tables, value_tables
from scenekit.tables.pieces import Pieces, runs_of
from scenekit.tiles.flags import FlagMap

REPEAT_CODES = {"no": 0, "from-start": 1, "onward": 2}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bundle:
    """Everything a program of a scene reads.

    tables     integer tables, in the order in which the program reads them
    arrays     further arrays that it works in, with their sizes
    variables  constants by name
    files      content by file name
    """

    tables: tuple[Table, ...]
    arrays: tuple[tuple[str, int], ...]
    variables: tuple[tuple[str, int], ...]
    files: dict[str, bytes]

    def table(self, name: str) -> Table:
        """Return a table by name."""
        return next(table for table in self.tables if table.name == name)


class _Tables:
    """Collects tables."""

    def __init__(self) -> None:
        self.tables: list[Table] = []

    def add(self, name: str, values: Sequence[int], remark: str) -> None:
        self.tables.append(Table(name, tuple(int(value) for value in values), remark))


def build_bundle(
    project: Project,
    scene: Scene,
    art: ReducedArt,
    pieces: Pieces,
    view: tuple[int, int, int, int],
    screen: tuple[int, int],
    clears: bool,
    flags: Sequence[FlagMap | None],
) -> Bundle:
    """Return the tables and variables of a scene that every scheme shares.

    view     (x, y, w, h) of the screen that scrolls
    screen   (width, height)
    flags    of the cells of each plane
    """
    tables = _Tables()
    colours = colour_table(art, scene)
    for channel, name in enumerate(("red", "green", "blue")):
        tables.add(
            name, [c[channel] for c in colours], "0 to 255, by colour; the palette's entries come first"
        )
    _palette_tables(tables, art, scene)
    _cover_tables(tables, scene, art, view[2:])
    _plane_tables(tables, scene, pieces)
    _flag_tables(tables, flags)
    looks = _sprite_tables(tables, project, scene, pieces)
    _path_tables(tables, project, scene)
    _placed_tables(tables, project, scene, looks)
    movers, moving = len(scene.placed) + 1, len(tables_of(tables, "moving_entry"))
    variables = {
        "tick": 0,
        "page": 0,
        "view_w": view[2],
        "view_h": view[3],
        "transparent": art.transparent,
        "backdrop": art.backdrops[scene.name],
        "clear_first": int(clears),
        "entries": len(art.palette),
        "moving": moving,
        "pieces": len(pieces.pictures),
        "planes": len(scene.planes),
        "actors": len(scene.placed),
        "movers": movers,
        "cycles": len(art.cycles),
        "events": len(art.changes[scene.name]),
        "covers": len(scene.transitions),
        "order_count": len(scene.planes) + len(scene.placed),
        "ticks_per_update": scene.ticks_per_update,
        **camera_variables(scene),
    }
    arrays = _state_arrays(scene, art, movers)
    if project.values or needs_border(scene, view, screen):
        tables.tables += value_tables(project, scene)
        variables |= {"values": len(project.values), "changes": len(scene.changes), "items": 0}
        arrays += (("value", max(1, len(project.values))),)
    if needs_border(scene, view, screen):
        items = scene.panel.items if scene.panel is not None else ()
        tables.tables += panel_tables(project, scene, art, pieces)
        variables |= _screen_variables(scene, art, view, screen) | {"items": len(items)}
    if project.values or needs_border(scene, view, screen):
        count = len(scene.panel.items) if scene.panel is not None else 0
        arrays += (("item_dirty", max(1, count)),)
        if not needs_border(scene, view, screen):
            tables.add("item_value", [], "no items")
    return Bundle(tables=tuple(tables.tables), arrays=arrays, variables=tuple(variables.items()), files={})


def camera_variables(scene: Scene) -> dict[str, int]:
    """Return the limits of the camera, and which sprite it keeps in which zone, for those it has."""
    camera, found = scene.camera, dict[str, int]()
    if camera.limits is not None:
        names = ("camera_left", "camera_top", "camera_right", "camera_bottom")
        found |= dict(zip(names, camera.limits, strict=True))
    if camera.keeps:
        x, y, w, h = camera.zone
        names = ("zone_left", "zone_top", "zone_right", "zone_bottom")
        found |= dict(zip(names, (x, y, x + w - 1, y + h - 1), strict=True))
        found["kept"] = next(n for n, placed in enumerate(scene.placed) if placed.name == camera.keeps)
    return found


def needs_border(scene: Scene, view: tuple[int, int, int, int], screen: tuple[int, int]) -> bool:
    """Say whether the screen shows more than the view."""
    return scene.panel is not None or view != (0, 0, *screen)


def _screen_variables(
    scene: Scene, art: ReducedArt, view: tuple[int, int, int, int], screen: tuple[int, int]
) -> dict[str, int]:
    panel = scene.panel
    box = panel.box if panel is not None else (0, 0, 0, 0)
    names = ("panel_x", "panel_y", "panel_w", "panel_h")
    return {
        **dict(zip(("scene_x", "scene_y", "scene_w", "scene_h"), view, strict=True)),
        **dict(zip(("view_x", "view_y"), view[:2], strict=True)),
        **dict(zip(("screen_w", "screen_h"), screen, strict=True)),
        **dict(zip(names, box, strict=True)),
        "panel_entry": art.covers[panel.colour] if panel is not None else 0,
    }


def tables_of(tables: _Tables, name: str) -> tuple[int, ...]:
    """Return the values of a collected table."""
    return next(table.values for table in tables.tables if table.name == name)


def colour_table(art: ReducedArt, scene: Scene) -> list[tuple[int, int, int]]:
    """Return the base palette, then the colours of every event's steps in order."""
    colours = [(int(c[0]), int(c[1]), int(c[2])) for c in art.palette]
    for change in art.changes[scene.name]:
        for step in change.colours:
            colours.extend(step)
    return colours


def _palette_tables(tables: _Tables, art: ReducedArt, scene: Scene) -> None:
    changes = art.changes[scene.name]
    moving = {e for c in art.cycles for e in range(c.first, c.first + c.count)}
    moving |= {entry for change in changes for entry in change.entries}
    tables.add("moving_entry", sorted(moving), "entries that cycles and events recolour")
    tables.add("cycle_first", [c.first for c in art.cycles], "first entry of each cycle")
    tables.add("cycle_count", [c.count for c in art.cycles], "its entries")
    tables.add("cycle_ticks", [c.ticks for c in art.cycles], "ticks between two turns")
    tables.add("cycle_period", [c.period for c in art.cycles], "turns until it looks the same again")
    tables.add("cycle_back", [int(c.backward) for c in art.cycles], "1 when colours move to the entry before")
    tables.add("event_tick", [c.tick for c in changes], "tick of each event's first step")
    tables.add("event_steps", [len(c.colours) for c in changes], "its steps")
    tables.add("event_wait", [c.ticks_per_step for c in changes], "ticks between two steps")
    tables.add("event_first", _starts([len(c.entries) for c in changes]), "its first place in event_entry")
    tables.add("event_count", [len(c.entries) for c in changes], "entries it recolours")
    lengths = [len(c.entries) * len(c.colours) for c in changes]
    tables.add("event_colour", [len(art.palette) + s for s in _starts(lengths)], "its first colour")
    tables.add("event_entry", [e for c in changes for e in c.entries], "entries of all events")


def _cover_tables(tables: _Tables, scene: Scene, art: ReducedArt, view: tuple[int, int]) -> None:
    turns = [turnover_of(transition, view, scene.name) for transition in scene.transitions]
    tables.add("cover_tick", [t.tick for t in scene.transitions], "tick at which each transition begins")
    tables.add("cover_ticks", [t.ticks for t in scene.transitions], "ticks that it takes")
    tables.add("cover_opens", [int(t.opens) for t in scene.transitions], "1 when it uncovers the view")
    tables.add("cover_entry", [art.covers[t.colour] for t in scene.transitions], "entry that it covers with")
    tables.add("cover_columns", [turn.columns for turn in turns], "columns of its cells")
    tables.add("cover_cells", [len(turn.order) for turn in turns], "cells in all")
    tables.add("cover_w", [t.cell[0] for t in scene.transitions], "pixels of a cell")
    tables.add("cover_h", [t.cell[1] for t in scene.transitions], "")
    tables.add("cover_first", _starts([len(turn.order) for turn in turns]), "its first place in cover_cell")
    tables.add("cover_begin", _starts([len(turn.starts) for turn in turns]), "its first place in cover_count")
    tables.add(
        "cover_cell", [c for turn in turns for c in turn.order], "cells in the order in which they turn"
    )
    tables.add("cover_count", [n for turn in turns for n in turn.starts], "cells turned after each tick")


def _starts(lengths: Sequence[int]) -> list[int]:
    return [sum(lengths[:number]) for number in range(len(lengths))]


def _plane_tables(tables: _Tables, scene: Scene, pieces: Pieces) -> None:
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
    tables.add("map_first", _starts([len(m) for m in pieces.maps]), "first cell in map_cell")
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


def _flag_tables(tables: _Tables, flags: Sequence[FlagMap | None]) -> None:
    sizes = [len(f.cells) * len(f.cells[0]) if f is not None else 0 for f in flags]
    first = [start if f is not None else -1 for start, f in zip(_starts(sizes), flags, strict=True)]
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


def _sprite_tables(tables: _Tables, project: Project, scene: Scene, pieces: Pieces) -> dict[str, int]:
    """Add frames, animations and looks; return the first look of each sprite."""
    frames = pieces.frames
    tables.add("frame_cell", [f.cell for f in frames], "4 x piece + flip of each frame, -1 is empty")
    tables.add("frame_x", [f.x for f in frames], "left edge from the pivot")
    tables.add("frame_y", [f.y for f in frames], "top edge from the pivot")
    if pieces.turned:
        turned = [pieces.turned.get((n, flip), -1) for n in range(len(frames)) for flip in range(4)]
        tables.add("frame_turned", turned, "mirrored copy by frame and flip, -1 when the machine mirrors")
    tables.add("pivot_x", [f.pivot[0] for f in frames], "pivot from the frame's box on the sheet")
    tables.add("pivot_y", [f.pivot[1] for f in frames], "")
    for n, name in enumerate(("hit_x", "hit_y", "hit_w", "hit_h")):
        remark = "hit box from the pivot, width 0 is none" if n == 0 else ""
        tables.add(
            name, [f.hit_box[n] - (f.pivot[n] if n < 2 and f.hit_box[2] else 0) for f in frames], remark
        )
    used = [project.sprite(name) for name in dict.fromkeys(placed.sprite for placed in scene.placed)]
    first, looks = 0, dict[str, int]()
    counts, again, steps, table = list[int](), list[int](), list[tuple[int, int, int]](), list[int]()
    for sprite in used:
        looks[sprite.name] = len(table)
        table += _looks(sprite, first)
        for animation in sprite.animations:
            numbers, repeats = unroll(animation)
            counts.append(len(numbers))
            again.append(int(repeats))
            for number in numbers:
                step = animation.steps[number]
                steps.append((pieces.frame_number(animation.sheet, step.frame), step.ticks, step.flip))
        first += len(sprite.animations)
    tables.add("animation_first", _starts(counts), "first step of each animation")
    tables.add("animation_count", counts, "its steps")
    tables.add("animation_again", again, "1 when it begins again after the last")
    tables.add("step_frame", [s[0] for s in steps], "frame of each step")
    tables.add("step_ticks", [s[1] for s in steps], "its ticks")
    tables.add("step_flip", [s[2] for s in steps], "its flip: 1 left-right, 2 top-bottom, 3 both")
    tables.add("look", table, "4 x animation + flip, by sprite, its animation and facing")
    return looks


def _looks(sprite: Sprite, first: int) -> list[int]:
    looks = []
    for number in range(len(sprite.animations)):
        for facing in FACINGS:
            animation, flip = shown_animation(sprite, number, facing)
            looks.append(4 * (first + animation) + flip)
    return looks


def _path_tables(tables: _Tables, project: Project, scene: Scene) -> None:
    paths: list[tuple[Path, Placed | None]] = [
        (scene.camera.path, None),
        *((p.path, p) for p in scene.placed),
    ]
    starts = [camera_at(scene, 0), *(placed.at for placed in scene.placed)]
    tables.add("start_x", [s[0] for s in starts], "start places: camera first, then sprites")
    tables.add("start_y", [s[1] for s in starts], "")
    tables.add("path_first", _starts([len(p.segments) for p, _ in paths]), "first segment of each path")
    tables.add("path_count", [len(p.segments) for p, _ in paths], "its segments")
    codes = [REPEAT_CODES[p.repeat] for p, _ in paths]
    tables.add("path_repeat", codes, "after the last: 0 stay, 1 from the start place, 2 onward")
    segments = [(segment, placed) for path, placed in paths for segment in path.segments]
    tables.add("segment_ticks", [s.ticks for s, _ in segments], "ticks of each segment")
    for axis, name in enumerate("xy"):
        speeds = [split_speed(s.speed[axis]) for s, _ in segments]
        tables.add(f"segment_{name}", [s[0] for s in speeds], f"pixels a tick along {name}")
        tables.add(f"segment_part_{name}", [s[1] for s in speeds], "and this many")
        tables.add(f"segment_parts_{name}", [s[2] for s in speeds], "parts of so many")
    does = [_number(project, placed, s.animation) for s, placed in segments]
    tables.add("segment_does", does, "animation to take, -1 goes on")
    faces = [FACINGS.index(s.facing) if s.facing else -1 for s, _ in segments]
    tables.add("segment_face", faces, "facing to take, -1 goes on")


def _number(project: Project, placed: Placed | None, animation: str) -> int:
    if placed is None or not animation:
        return -1
    number = project.sprite(placed.sprite).animation_number(animation)
    return -1 if number is None else number


def _placed_tables(tables: _Tables, project: Project, scene: Scene, looks: dict[str, int]) -> None:
    states = [start_state(project.sprite(placed.sprite), placed) for placed in scene.placed]
    tables.add("actor_look", [looks[p.sprite] for p in scene.placed], "first place of each sprite in look")
    carriers = [-1 if p.moves_with == "screen" else scene.plane_number(p.moves_with) for p in scene.placed]
    tables.add("actor_plane", carriers, "plane that carries it, -1 is the screen")
    tables.add("start_does", [s[0] for s in states], "animation at the start")
    tables.add("start_face", [FACINGS.index(s[1]) for s in states], "facing at the start")


def _state_arrays(scene: Scene, art: ReducedArt, movers: int) -> tuple[tuple[str, int], ...]:
    planes, actors = len(scene.planes), max(1, len(scene.placed))
    per_mover = ("mover_x", "mover_y", "mover_part_x", "mover_part_y", "mover_used", "mover_segment")
    sizes = [(name, movers) for name in per_mover]
    per_plane = ("plane_x", "plane_y", "plane_part_x", "plane_part_y", "drift_part_x", "drift_part_y")
    sizes += [(name, planes) for name in (*per_plane, "wrap_base_x", "wrap_base_y")]
    per_actor = ("actor_does", "actor_face", "actor_shows", "actor_flip", "actor_step", "actor_left")
    sizes += [(name, actors) for name in per_actor]
    sizes += [(name, max(1, len(art.cycles))) for name in ("cycle_shift", "cycle_left", "cycle_turn")]
    events = max(1, len(art.changes[scene.name]))
    sizes += [(name, max(1, len(scene.transitions))) for name in ("cover_used", "cover_done")]
    sizes += [
        ("event_done", events),
        ("event_next", events),
        ("now", len(art.palette)),
        ("shown", len(art.palette)),
    ]
    return tuple(sizes)


def blit_tables(pieces: Pieces) -> tuple[Table, ...]:
    """Return the tables of the scheme that copies pieces from one picture."""
    return (
        Table("piece_x", tuple(p[0] for p in pieces.places), "place of each piece in the image file"),
        Table("piece_y", tuple(p[1] for p in pieces.places), ""),
        Table("piece_solid", tuple(int(s) for s in pieces.solid), "1 when it has no transparent pixel"),
    )


def run_arrays(pieces: Pieces, transparent: int) -> tuple[tuple[str, int], ...]:
    """Return the arrays that hold the runs of all pieces."""
    count = max(1, sum(len(runs_of(picture, transparent)) for picture in pieces.pictures))
    names = ("run_x", "run_y", "run_length", "run_entry")
    return (("piece_run", len(pieces.pictures) + 1), *((name, count) for name in names))
