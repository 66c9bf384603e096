"""Planes: depth, ratio, drift, wrapping and the seam; the camera's way; the scene's length."""

import re
from dataclasses import replace
from pathlib import Path as FilePath

from scenekit.editor.backend import Box
from scenekit.editor.cutting import copy_in
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.form import Form, read_name
from scenekit.editor.history import Edit
from scenekit.editor.moving import plane_pixels
from scenekit.editor.parts.bands import draw_bands
from scenekit.editor.parts.camera import draw_camera
from scenekit.editor.parts.loops import draw_loops
from scenekit.editor.parts.mapover import draw_painting
from scenekit.editor.parts.mapping import draw_map, new_map
from scenekit.editor.parts.planeart import draw_plane_art
from scenekit.editor.parts.planefields import draw_plane_fields, scroll_words
from scenekit.editor.parts.scenes import draw_scene
from scenekit.editor.pathdialog import ask_path
from scenekit.editor.ui import Column
from scenekit.model.edits import drop_plane, move_plane, put_plane, put_scene
from scenekit.model.renames import rename_plane
from scenekit.model.scene import Camera, Plane, Scene

ROW_PX, DEEPEST_PX = 60, 40


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, session = desk.ui, desk.session
    dropped = desk.local.pop("dropped", None)
    if dropped is not None:
        session.attempt(lambda: _added(desk, FilePath(dropped)))
    if "ctrl+o" in ui.backend.pressed:
        _open(desk)
    edit: Edit | None = None
    scene = session.scene
    with ui.backend.region("planes", box, scrolls=True) as scroll:
        ui.fill(box, ui.look.ground)
        column = Column(box[0], box[1] - scroll, box[2] - ui.px(12))
        ui.heading(column, "Planes", "far at the top")
        if scene is not None:
            edit = _list(desk, column, scene)
        column.y += ui.px(8)
        if ui.button(
            "plane:add",
            column.take(ui.px(32), ui.px(14)),
            "Add a plane",
            kind="plain" if scene else "main",
            tip="A picture, in front of the others. Ctrl+O, or drop one here.",
        ):
            _open(desk)
        if scene is not None:
            edit = new_map(desk, Form(ui, column, "map"), scene) or edit
            column.y += ui.px(6)
            plane = next((p for p in scene.planes if p.name == session.chosen.plane), scene.planes[-1])
            edit = _plane(desk, column, scene, plane) or edit
            edit = draw_camera(desk, Form(ui, column, "camera"), scene) or edit
            column.y += ui.px(10)
            edit = draw_scene(desk, Form(ui, column, "scenes"), scene) or edit
        ui.backend.extent(column.y + ui.px(60))
    return edit


def _open(desk: Desk) -> None:
    start = desk.local.get("last-folder", desk.session.document.folder.resolve().parent)

    def chosen(path: FilePath) -> None:
        desk.local["last-folder"] = path.parent
        desk.session.attempt(lambda: _added(desk, path))

    ask_path(desk, "A picture for a plane", start, chosen)


def _added(desk: Desk, path: FilePath) -> Edit:
    """Copy a picture in and put it in front of the other planes, as the command line would.

    raises   ImageReadError, SliceError, ProjectError: it cannot be a plane
    """
    from scenekit.images.flat import read_picture

    document, session = desk.session.document, desk.session
    read_picture(path)
    scene = session.scene or Scene(
        name="first",
        ticks=600,
        ticks_per_update=1,
        missed="slow",
        backdrop=(0, 0, 0),
        camera=Camera(),
        planes=(),
        placed=(),
        events=(),
    )
    taken = {plane.name for plane in scene.planes} | {"screen"}
    stem = re.sub(r"[^A-Za-z0-9_-]+", "-", path.stem).strip("-_")[:30] or "plane"
    name = (
        stem if stem not in taken else next(f"{stem}-{n}" for n in range(2, 99) if f"{stem}-{n}" not in taken)
    )
    file = f"layers/{name}{path.suffix.lower()}"
    copy_in(document, file, path)
    session.files_changed()
    session.chosen.plane = session.chosen.part = name
    changed = put_plane(scene, Plane(name=name, picture=file))
    return Edit(document=put_scene(document, changed), label=f"adding plane {name}")


def _list(desk: Desk, column: Column, scene: Scene) -> Edit | None:
    """The planes as flats of a stage, the farthest at the top and narrowest; each can be dragged."""
    ui, session = desk.ui, desk.session
    edit: Edit | None = None
    row = ui.px(ROW_PX)
    top = column.y
    count = len(scene.planes)
    for place, plane in enumerate(scene.planes):
        box = column.take(row)
        chosen = session.chosen.plane == plane.name
        tip = "Drag up or down to another depth. Ctrl+Down brings it nearer, Ctrl+Up sends it back."
        felt = ui.row(f"plane:{plane.name}", box, chosen=chosen, tip=tip)
        x, y, w, _ = box
        inset = ui.px(DEEPEST_PX) * (count - 1 - place) / max(1, count - 1) + ui.px(8)
        _flat(desk, scene, plane, (x + inset, y + ui.px(5), w - 2 * inset, ui.px(30)))
        words = scroll_words(desk, scene, plane)
        weight = "bold" if chosen else "regular"
        ui.text(x + inset, y + ui.px(46), plane.name, weight=weight, room=w * 0.5)
        ui.text(x + w - inset, y + ui.px(46), words, "small", ui.look.quiet, anchor="right", room=w * 0.4)
        if felt.clicked:
            session.chosen.plane = session.chosen.part = plane.name
        if felt.held and abs(felt.moved[1]) > 6:
            target = max(0, min(count - 1, int((y + felt.at[1] - top) // row)))
            level = top + target * row + (row if target > place else 0)
            ui.fill((x, level - 1, w, 3), ui.look.accent)
            desk.local["plane-drop"] = (plane.name, target)
        if felt.ended and desk.local.get("plane-drop", ("",))[0] == plane.name:
            _, target = desk.local.pop("plane-drop")
            if target != place:
                edit = _moved(desk, scene, plane.name, target)
    if session.chosen.plane and not ui.backend.typing and desk.ask is None:
        for key, step in (("ctrl+down", 1), ("ctrl+up", -1)):
            known = any(plane.name == session.chosen.plane for plane in scene.planes)
            if key in ui.backend.pressed and known:
                number = scene.plane_number(session.chosen.plane)
                edit = _moved(desk, scene, session.chosen.plane, number + step)
    return edit


def _flat(desk: Desk, scene: Scene, plane: Plane, box: Box) -> None:
    """The lower part of a plane's picture as a band."""
    pixels = plane_pixels(desk, scene, plane)
    desk.ui.fill(box, desk.ui.look.well)
    if pixels is None:
        return
    high, wide = pixels.shape[:2]
    across = min(1.0, box[2] / wide)
    rows = min(1.0, box[3] / high)
    place = (box[0], box[1], round(wide * across), round(high * rows))
    top = max(0.0, 0.68 - rows / 2) if high > box[3] else 0.0
    desk.ui.backend.image(desk.picture(pixels), place, (0.0, top, across, top + rows))


def _moved(desk: Desk, scene: Scene, name: str, place: int) -> Edit:
    changed = move_plane(scene, name, place)
    return Edit(document=put_scene(desk.session.document, changed), label=f"moving plane {name} in depth")


def _plane(desk: Desk, column: Column, scene: Scene, plane: Plane) -> Edit | None:
    """Everything about the chosen plane."""
    ui, document = desk.ui, desk.session.document
    form = Form(ui, column, "plane")
    ui.heading(column, plane.name)
    name = form.text("name", form.line("name"), plane.name, read_name, tip="What the plane is called.")
    if name is not None and name != plane.name:
        desk.session.chosen.plane = desk.session.chosen.part = name
        return Edit(
            document=put_scene(document, rename_plane(scene, plane.name, name)), label=f"naming {name}"
        )
    edit = draw_map(desk, Form(ui, column, "map"), plane) if plane.map else None
    new = draw_plane_fields(desk, form, scene, plane)
    new = draw_plane_art(desk, form, plane) or new
    edit = edit or draw_bands(desk, form, scene, plane)
    edit = draw_loops(desk, form, scene, plane) or edit
    away = (
        "delete" in ui.backend.pressed
        and not ui.backend.typing
        and desk.ask is None
        and desk.session.chosen.plane == plane.name
    )
    if form.button("drop", column.take(ui.px(28), ui.px(12)), "Take the plane out", kind="quiet") or away:
        return Edit(
            document=put_scene(document, drop_plane(scene, plane.name)),
            label=f"taking out plane {plane.name}",
        )
    if new is None:
        return edit
    return Edit(document=put_scene(document, put_plane(scene, new)), label=f"changing plane {plane.name}")


def _over(desk: Desk, box: Box, zoom: int) -> Edit | None:
    """Drag the chosen plane on the scene; arrows move the camera along its way while the scene is held."""
    ui, session = desk.ui, desk.session
    scene = session.scene
    painted = desk.local.get("painting")
    if scene is not None and painted and painted == session.chosen.plane:
        plane = next((p for p in scene.planes if p.name == painted and p.map), None)
        if plane is not None:
            return draw_painting(desk, box, zoom, scene, plane)
    felt = ui.press("scene:planes", box, "", keyboard=False)
    if scene is None:
        return None
    plane = next((p for p in scene.planes if p.name == session.chosen.plane), None)
    if felt.hovered and not ui.backend.typing and desk.ask is None and "steer" not in desk.local:
        for key, step in (("left", -4), ("right", 4)):
            if key in ui.backend.pressed:
                session.playing.go((session.playing.tick + step) % scene.ticks, scene.ticks)
    if plane is None:
        return None
    ui.pointer = "move" if felt.hovered else ui.pointer
    if felt.started:
        desk.local["gesture"] = desk.local.get("gesture", 0) + 1
        desk.local["plane-base"] = (session.document, scene, plane)
    if not felt.held or "plane-base" not in desk.local:
        return None
    base, base_scene, base_plane = desk.local["plane-base"]
    by = (round(felt.moved[0] / zoom), round(felt.moved[1] / zoom))
    if by == (0, 0) and session.document is base:
        return None
    at = (base_plane.offset[0] + by[0], base_plane.offset[1] + by[1])
    if max(abs(at[0]), abs(at[1])) > 32_767 or at == plane.offset:
        return None
    changed = put_scene(base, put_plane(base_scene, replace(base_plane, offset=at)))
    return Edit(
        document=changed,
        label=f"moving plane {plane.name}",
        gesture=f"drag {desk.local['gesture']}",
        held=True,
    )


def _lamp(desk: Desk) -> Lamp:
    scene = desk.session.scene
    if scene is None:
        return Lamp(level="empty", word="none yet")
    return Lamp(level="good", word=f"{len(scene.planes)} deep")


PLUGIN = Panel(name="planes", title="Planes", draw=_draw, lamp=_lamp, over=_over)
