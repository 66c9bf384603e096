"""Items of a score panel on the scene: outlined, chosen and dragged, or moved by keys."""

from dataclasses import replace

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.history import Edit
from scenekit.editor.moving import plain_project, plain_scene
from scenekit.editor.preview import known_look
from scenekit.errors import SceneKitError
from scenekit.model.edits import put_scene
from scenekit.model.panel import Item, Panel
from scenekit.model.scene import Scene
from scenekit.model.score_edits import put_item
from scenekit.sprites.panels import place_items

WHITE, BLACK = (255, 255, 255), (0, 0, 0)
KEYS = {"alt+left": (-1, 0), "alt+right": (1, 0), "alt+up": (0, -1), "alt+down": (0, 1)}


def item_boxes(desk: Desk) -> dict[str, tuple[int, int, int, int]]:
    """Return the box of each item on the screen; none where they cannot be placed."""
    project, scene, look = plain_project(desk), plain_scene(desk), known_look(desk)
    if project is None or scene is None or look is None:
        return {}

    def place() -> dict[str, tuple[int, int, int, int]]:
        try:
            return {p.item.name: p.box for p in place_items(project, scene, look.sheets, look.transparent)}
        except (SceneKitError, KeyError):
            return {}

    made: dict[str, tuple[int, int, int, int]] = desk.remember("item-boxes", place, project, scene, look)
    return made


def draw_over(desk: Desk, box: Box, zoom: int) -> Edit | None:
    """Outline the chosen item; choose and drag items on the scene."""
    ui, scene = desk.ui, desk.session.scene
    felt = ui.press("scene:score", box, "", keyboard=False)
    if scene is None or scene.panel is None:
        return None
    boxes = item_boxes(desk)
    at = (felt.at[0] / zoom, felt.at[1] / zoom)
    under = next((name for name, b in reversed(boxes.items()) if _inside(b, at)), "")
    if felt.hovered and under:
        ui.pointer = "move"
    if felt.started:
        desk.local["gesture"] = desk.local.get("gesture", 0) + 1
        desk.local["item"] = under
        desk.local["item-base"] = next((item for item in scene.panel.items if item.name == under), None)
    chosen = desk.local.get("item", "")
    if chosen in boxes:
        x, y, w, h = boxes[chosen]
        place = (box[0] + x * zoom - 2, box[1] + y * zoom - 2, w * zoom + 4, h * zoom + 4)
        ui.frame((place[0] - 1, place[1] - 1, place[2] + 2, place[3] + 2), WHITE)
        ui.frame(place, BLACK)
    item = next((item for item in scene.panel.items if item.name == chosen), None)
    if item is None:
        return None
    base: Item | None = desk.local.get("item-base")
    if felt.held and base is not None and base.name == item.name:
        by = (round(felt.moved[0] / zoom), round(felt.moved[1] / zoom))
        return _moved(
            desk, scene, item, base.at, by, boxes.get(chosen), f"drag {desk.local['gesture']}", True
        )
    if ui.backend.typing or desk.ask is not None:
        return None
    for key, step in KEYS.items():
        if key in ui.backend.pressed:
            return _moved(desk, scene, item, item.at, step, boxes.get(chosen), "arrows item", False)
    return None


def _inside(box: tuple[int, int, int, int], at: tuple[float, float]) -> bool:
    return box[0] <= at[0] < box[0] + box[2] and box[1] <= at[1] < box[1] + box[3]


def kept_in(panel: Panel, at: tuple[int, int], size: tuple[int, int]) -> tuple[int, int]:
    """Return the place nearest to one at which something of a size stands inside the panel."""
    x, y, w, h = panel.box
    return max(x, min(at[0], x + w - size[0])), max(y, min(at[1], y + h - size[1]))


def _moved(
    desk: Desk,
    scene: Scene,
    item: Item,
    start: tuple[int, int],
    by: tuple[int, int],
    box: tuple[int, int, int, int] | None,
    gesture: str,
    held: bool,
) -> Edit | None:
    assert scene.panel is not None
    size = (box[2], box[3]) if box is not None else (1, 1)
    at = kept_in(scene.panel, (start[0] + by[0], start[1] + by[1]), size)
    if at == item.at:
        return None
    document = put_scene(desk.session.document, put_item(scene, replace(item, at=at)))
    return Edit(document=document, label=f"moving item {item.name}", gesture=gesture, held=held)
