"""The scene as the machine shows it, with the raster ruler upright beside it and the budget under it."""

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Panel
from scenekit.editor.history import Edit
from scenekit.editor.preview import sprite_box, update_preview, why_not
from scenekit.editor.ruler import Layout, draw_ruler, has_names, ruler_width
from scenekit.editor.thistick import draw_this_tick
from scenekit.editor.verdict import draw_verdict

VERDICT_PX = 76
"""Height of the verdict with the memories under it."""


def lay_out(desk: Desk, area: Box, *, large: bool) -> Layout:
    """Return the layout with the largest whole zoom for which there is room; small keeps it at most 1."""
    x, y, w, h = area
    product = desk.product
    width, height, lines, before, per_row = 320, 200, 449.0, 49.0, 2.0
    if product is not None and product.mode is not None:
        timing = product.mode.timing
        width, height = product.mode.width_px, product.mode.height_px
        lines, per_row = float(timing.v_total_lines), float(timing.lines_per_row)
        before = float(timing.v_total_lines - timing.v_active_lines + timing.border_top_lines)
    ruler = ruler_width(desk)
    zoom = 1
    while large and zoom < 8 and width * (zoom + 1) + ruler <= w and (lines / per_row) * (zoom + 1) + 60 <= h:
        zoom += 1
    line_px = zoom / per_row
    top = y + max(desk.ui.px(30), before * line_px)
    picture = (x, top, width * zoom, height * zoom)
    start = top - before * line_px
    return Layout(
        zoom=zoom,
        picture=picture,
        ruler=(x + width * zoom + desk.ui.px(8), start, ruler - desk.ui.px(8), lines * line_px),
        line_px=line_px,
        below=max(top + height * zoom, start + lines * line_px) + desk.ui.px(10),
    )


def width_wanted(desk: Desk, area: Box, *, large: bool) -> float:
    """Return how wide the scene and its ruler will be."""
    layout = lay_out(desk, area, large=large)
    return layout.picture[2] + ruler_width(desk)


def draw_stage(desk: Desk, area: Box, panel: Panel) -> Edit | None:
    """Draw scene, ruler and budget; return an edit made by dragging on the scene."""
    ui, session, product = desk.ui, desk.session, desk.product
    scene = session.scene
    layout = lay_out(desk, area, large=True)
    edit = None
    with ui.backend.region("stage", area):
        ui.fill(area, ui.look.ground)
        x, y, w, _h = layout.picture
        title = f"{scene.name}, tick {session.playing.tick}" if scene else "no scene yet"
        ui.text(x, y - ui.px(14), title, "head", weight="bold", room=w * 0.6)
        if product is not None and product.mode is not None:
            mode = product.mode
            words = f"{mode.width_px} x {mode.height_px}, {layout.zoom} : 1"
            ui.text(x + w, y - ui.px(14), words, "small", ui.look.quiet, anchor="right")
        ui.fill(layout.picture, ui.look.well)
        shown = update_preview(desk)
        desk.preview_box = layout.picture
        ui.mark("scene", layout.picture)
        if shown:
            with ui.backend.region("scene", layout.picture):
                ui.backend.image(desk.preview, layout.picture)
                if panel.over is not None:
                    edit = panel.over(desk, layout.picture, layout.zoom)
                else:
                    _pick(desk, layout)
                _outline(desk, layout)
        else:
            why_not(desk, layout.picture)
        desk.hovered = ""
        with ui.backend.region("ruler", (layout.ruler[0], area[1], layout.ruler[2], layout.below - area[1])):
            ui.fill((layout.ruler[0], area[1], layout.ruler[2], layout.below - area[1]), ui.look.ground)
            draw_ruler(desk, layout)
    rest = (area[0], layout.below, area[2], max(0.0, area[1] + area[3] - layout.below))
    with ui.backend.region("verdict", rest):
        ui.fill(rest, ui.look.ground)
        draw_verdict(desk, rest)
        top = layout.below + ui.px(VERDICT_PX)
        room = (area[0], top, area[2], max(0.0, area[1] + area[3] - top))
        if product is not None and product.mode is not None and scene is not None and not product.error:
            draw_this_tick(desk, room, desk.local.get("ruler-rested", ()), things=not has_names(desk))
    return edit


def _pick(desk: Desk, layout: Layout) -> None:
    """Choose the sprite that is pressed on the scene."""
    session = desk.session
    felt = desk.ui.press("scene:pick", layout.picture, "", keyboard=False)
    if not felt.clicked or session.scene is None:
        return
    at = (felt.at[0] / layout.zoom, felt.at[1] / layout.zoom)
    for placed in reversed(session.scene.placed):
        box = sprite_box(desk, placed.name)
        if box and box[0] <= at[0] < box[0] + box[2] and box[1] <= at[1] < box[1] + box[3]:
            session.chosen.placed, session.chosen.sprite, session.chosen.part = (
                placed.name,
                placed.sprite,
                placed.name,
            )
            return
    session.chosen.placed = session.chosen.part = ""


def _outline(desk: Desk, layout: Layout) -> None:
    """Show where the sprite is whose cost is pointed at or chosen."""
    for name in {desk.hovered or desk.session.chosen.part} - {""}:
        box = sprite_box(desk, name)
        if box is not None:
            x, y, _, _ = layout.picture
            zoom = layout.zoom
            place = (x + box[0] * zoom - 2, y + box[1] * zoom - 2, box[2] * zoom + 4, box[3] * zoom + 4)
            desk.ui.frame(place, (0, 0, 0), 1)
            desk.ui.frame((place[0] - 1, place[1] - 1, place[2] + 2, place[3] + 2), (255, 255, 255), 1)
