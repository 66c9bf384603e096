"""Score: the part of the screen beside the view, the values and strings that it shows, and fonts."""

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.history import Edit
from scenekit.editor.parts.fonts import draw_fonts
from scenekit.editor.parts.gamevalues import draw_changes, draw_strings, draw_values
from scenekit.editor.parts.paneldrag import draw_over
from scenekit.editor.parts.panelitems import draw_panel
from scenekit.editor.ui import Column


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, scene = desk.ui, desk.session.scene
    edit: Edit | None = None
    with ui.backend.region("score", box, scrolls=True) as scroll:
        ui.fill(box, ui.look.ground)
        column = Column(box[0], box[1] - scroll, box[2] - ui.px(12))
        if scene is not None:
            edit = draw_panel(desk, column, scene)
        edit = draw_values(desk, column) or edit
        if scene is not None:
            edit = draw_changes(desk, column, scene) or edit
        edit = draw_strings(desk, column) or edit
        edit = draw_fonts(desk, column) or edit
        ui.backend.extent(column.y + ui.px(60))
    return edit


def _lamp(desk: Desk) -> Lamp:
    scene = desk.session.scene
    if scene is None or scene.panel is None:
        return Lamp(level="empty", word="no panel")
    count = len(scene.panel.items)
    return Lamp(level="good", word=f"{count} item{'' if count == 1 else 's'}")


PLUGIN = Panel(name="score", title="Score", draw=_draw, lamp=_lamp, wide=True, over=draw_over)
