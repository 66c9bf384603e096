"""The scene drawn as the target draws it, and where its sprites stand in it."""

from typing import Any

from scenekit.chosen import check_view
from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.moving import plain_project, plain_scene, steered
from scenekit.editor.ui import Column
from scenekit.errors import SceneKitError
from scenekit.images.reduced import flat_colours
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.motion.shown import sprite_at
from scenekit.render.screen import screen_indices


def update_preview(desk: Desk) -> bool:
    """Draw the tick on show into the kept picture when it is another one; say whether there is a picture.

    While new art is being made the last picture stays.
    """
    session, product = desk.session, desk.product
    project, plain, scene = plain_project(desk), plain_scene(desk), session.scene
    if product is None or product.mode is None or scene is None or project is None or plain is None:
        return False
    look = product.look
    if look is None or not _complete(look, project, plain):
        stays = not product.error and desk.preview_key and desk.preview_key[2:4] == (product.mode, scene.name)
        return bool(stays)
    tick = session.playing.tick - session.playing.tick % scene.ticks_per_update
    key = (session.document, look, product.mode, scene.name, tick, desk.local.get("steer"))
    if desk.preview_key and all(map(_same, key, desk.preview_key)):
        return not desk.local.get("preview-error")
    screen = (product.mode.width_px, product.mode.height_px)
    view = (session.target.view if session.target else None) or (0, 0, *screen)
    desk.preview_key = key
    desk.local["preview-error"] = ""
    try:
        if session.target is not None:
            check_view(scene, session.target, screen)
        indices = screen_indices(project, steered(desk, plain), look, screen, view, tick)
    except SceneKitError as error:
        desk.local["preview-error"] = str(error)
        return False
    palette = look.palette_at(scene.name, tick)
    desk.local["shown"] = (indices, palette)
    backend = desk.ui.backend
    if not desk.preview:
        desk.preview = backend.add_picture(palette[indices])
    backend.set_indexed(desk.preview, indices, palette)
    return True


def known_look(desk: Desk) -> Any:
    """Return the reduced art; while new is being made, the last of this project; None before the first."""
    product = desk.product
    folder = desk.session.document.folder
    if product is not None and product.look is not None:
        desk.local["known-look"] = (folder, product.look)
    kept = desk.local.get("known-look")
    return kept[1] if kept is not None and kept[0] == folder else None


def _same(one: object, two: object) -> bool:
    return one is two or (isinstance(one, int | str | tuple) and one == two)


def _complete(look: Any, project: Project, plain: Scene) -> bool:
    """Say whether reduced art has every picture of a scene."""
    return (
        all((plain.name, plane.name) in look.planes for plane in plain.planes)
        and all(sheet.name in look.sheets for sheet in project.sheets)
        and plain.name in look.backdrops
        and all(colour in look.covers for colour in flat_colours(plain))
    )


def why_not(desk: Desk, box: Box) -> None:
    """Say why there is no picture."""
    ui, product = desk.ui, desk.product
    column = Column(box[0] + 20, box[1] + box[3] / 2 - 20, box[2] - 40)
    error = desk.local.get("preview-error") or (product.error if product is not None else "")
    if error:
        ui.paragraph(column, error, colour=ui.look.alarm)
    elif desk.session.scene is None:
        ui.paragraph(column, "Nothing to show yet. Bring in a sheet, then add a plane.", colour=ui.look.quiet)
    else:
        ui.paragraph(column, "Reading the art.", colour=ui.look.quiet)


def sprite_box(desk: Desk, name: str) -> Box | None:
    """Return where a placed sprite's frame stands in the view at the tick on show, in px of the view."""
    session = desk.session
    project, scene = plain_project(desk), plain_scene(desk)
    placed = next((p for p in scene.placed if p.name == name), None) if scene else None
    if scene is None or placed is None or project is None:
        return None
    shown = sprite_at(project, steered(desk, scene), placed, session.playing.tick)
    frame = project.sheet(shown.sheet).frame(shown.frame)
    if frame is None:
        return None
    _, _, w, h = frame.box
    pivot_x = w - 1 - frame.pivot[0] if shown.flip & 1 else frame.pivot[0]
    pivot_y = h - 1 - frame.pivot[1] if shown.flip & 2 else frame.pivot[1]
    view = session.target.view if session.target else None
    across, down = view[:2] if view else (0, 0)
    return shown.x - pivot_x + across, shown.y - pivot_y + down, w, h
