"""Colours: the palette, how it is seen elsewhere, what turns and changes in time, and what a target asks."""

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.form import Form
from scenekit.editor.history import Edit
from scenekit.editor.parts.cycles import draw_cycles
from scenekit.editor.parts.events import draw_events
from scenekit.editor.parts.palette import draw_palette
from scenekit.editor.parts.rules import draw_rules
from scenekit.editor.parts.seen import draw_seen
from scenekit.editor.parts.transitions import draw_transitions
from scenekit.editor.preview import known_look
from scenekit.editor.ui import Column

MEAN_ERROR = 6


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, product, scene = desk.ui, desk.product, desk.session.scene
    edit: Edit | None = None
    with ui.backend.region("colours", box, scrolls=True) as scroll:
        ui.fill(box, ui.look.ground)
        column = Column(box[0], box[1] - scroll, box[2] - ui.px(12))
        if known_look(desk) is None:
            ui.heading(column, "Palette")
            words = "There is no palette until there is a scene and a target."
            if product is not None and product.stage:
                words = "The palette is being made."
            ui.paragraph(column, words, colour=ui.look.quiet)
        else:
            edit = draw_palette(desk, column)
            draw_seen(desk, column)
            edit = draw_cycles(desk, column) or edit
        if scene is not None:
            column.y += ui.px(6)
            edit = draw_events(desk, column, scene) or edit
            edit = draw_transitions(desk, column, scene) or edit
        if desk.session.target is not None:
            edit = draw_rules(desk, Form(ui, column, "rules"), desk.session.target) or edit
        ui.backend.extent(column.y + ui.px(60))
    return edit


def _lamp(desk: Desk) -> Lamp:
    product = desk.product
    if product is None or product.look is None:
        return Lamp(level="empty", word="none yet")
    look = product.look
    return Lamp(level="good" if look.mean_error < MEAN_ERROR else "note", word=f"{look.used} used")


PLUGIN = Panel(name="colours", title="Colours", draw=_draw, lamp=_lamp, wide=True)
