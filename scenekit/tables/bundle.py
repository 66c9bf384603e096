"""The bundle: named integer tables, arrays, variables and files of one scene for one target."""

from collections.abc import Sequence
from dataclasses import dataclass

from scenekit.images.reduced import ReducedArt
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.routines.language import Table
from scenekit.tables.actors import path_tables, placed_tables, sprite_tables
from scenekit.tables.collected import Collected, tables_of
from scenekit.tables.colours import colour_table, cover_tables, palette_tables
from scenekit.tables.panel import panel_tables, value_tables
from scenekit.tables.pieces import Pieces, runs_of
from scenekit.tables.planes import flag_tables, plane_tables
from scenekit.tiles.flags import FlagMap


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
    tables = _scene_tables(project, scene, art, pieces, view[2:], flags)
    variables = {
        "tick": 0,
        "page": 0,
        "view_w": view[2],
        "view_h": view[3],
        "transparent": art.transparent,
        "backdrop": art.backdrops[scene.name],
        "clear_first": int(clears),
        **_numbers(scene, art, pieces, tables),
        **camera_variables(scene),
    }
    arrays = _state_arrays(scene, art)
    bordered = needs_border(scene, view, screen)
    if project.values or bordered:
        items = len(scene.panel.items) if scene.panel is not None else 0
        tables.tables += value_tables(project, scene)
        variables |= {"values": len(project.values), "changes": len(scene.changes), "items": items}
        arrays += (("value", max(1, len(project.values))), ("item_dirty", max(1, items)))
        if bordered:
            tables.tables += panel_tables(project, scene, art, pieces)
            variables |= _screen_variables(scene, art, view, screen)
        else:
            tables.add("item_value", [], "no items")
    return Bundle(tables=tuple(tables.tables), arrays=arrays, variables=tuple(variables.items()), files={})


def _scene_tables(
    project: Project,
    scene: Scene,
    art: ReducedArt,
    pieces: Pieces,
    view: tuple[int, int],
    flags: Sequence[FlagMap | None],
) -> Collected:
    """Return the tables of colours, planes, sprites and paths, in the order in which they are read."""
    tables = Collected()
    colours = colour_table(art, scene)
    for channel, name in enumerate(("red", "green", "blue")):
        tables.add(
            name, [c[channel] for c in colours], "0 to 255, by colour; the palette's entries come first"
        )
    palette_tables(tables, art, scene)
    cover_tables(tables, scene, art, view)
    plane_tables(tables, scene, pieces)
    flag_tables(tables, flags)
    looks = sprite_tables(tables, project, scene, pieces)
    path_tables(tables, project, scene)
    placed_tables(tables, project, scene, looks)
    return tables


def _numbers(scene: Scene, art: ReducedArt, pieces: Pieces, tables: Collected) -> dict[str, int]:
    """Return how many there are of everything."""
    return {
        "entries": len(art.palette),
        "moving": len(tables_of(tables, "moving_entry")),
        "pieces": len(pieces.pictures),
        "planes": len(scene.planes),
        "actors": len(scene.placed),
        "movers": len(scene.placed) + 1,
        "cycles": len(art.cycles),
        "events": len(art.changes[scene.name]),
        "covers": len(scene.transitions),
        "order_count": len(scene.planes) + len(scene.placed),
        "ticks_per_update": scene.ticks_per_update,
    }


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


def _state_arrays(scene: Scene, art: ReducedArt) -> tuple[tuple[str, int], ...]:
    planes, actors = len(scene.planes), max(1, len(scene.placed))
    per_mover = ("mover_x", "mover_y", "mover_part_x", "mover_part_y", "mover_used", "mover_segment")
    sizes = [(name, len(scene.placed) + 1) for name in per_mover]
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
