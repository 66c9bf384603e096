"""What a score panel takes: boxes that are filled and frames that are drawn for each of its items."""

from collections.abc import Iterator

from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.plan.work import Work
from scenekit.sprites.lettering import place_text
from scenekit.sprites.panels import ItemPlace, string_of

Box = tuple[int, int, int, int]


def fill_work(box: Box) -> Work:
    """Return the work of filling a box."""
    return Work(name="", operation="fill", calls=1, rows=box[3], pixels=box[2] * box[3])


def border_work(scene: Scene, screen: tuple[int, int]) -> list[Work]:
    """Return the work of drawing the border and the panel's ground on a page for the first time."""
    boxes = [(0, 0, *screen)]
    if scene.panel is not None:
        boxes.append(scene.panel.box)
    pixels, rows = sum(box[2] * box[3] for box in boxes), sum(box[3] for box in boxes)
    return [Work(name="border", operation="fill", calls=len(boxes), rows=rows, pixels=pixels)]


def item_boxes(project: Project, place: ItemPlace, value: int) -> Iterator[Box]:
    """Yield the boxes that redrawing an item fills: its ground, and the filled part of a bar."""
    yield place.box
    if place.item.kind == "bar":
        high = next(v.high for v in project.values if v.name == place.item.value)
        filled = place.box[2] * value // max(1, high)
        if filled > 0:
            yield (place.box[0], place.box[1], filled, place.box[3])


def item_frames(project: Project, place: ItemPlace, value: int) -> Iterator[tuple[tuple[str, str], int, int]]:
    """Yield ((sheet, frame), x, y) of the frames that an item shows, by their top left corners."""
    item, letters = place.item, place.letters
    x, y = item.at
    if item.kind == "text" and letters is not None:
        for name, left in place_text(letters, string_of(project, item), item.name)[0]:
            yield (letters.font.sheet, name), x + left, y
    elif item.kind == "number" and letters is not None:
        shown = str(value % 10**item.digits)
        for number, digit in enumerate(shown.zfill(item.digits) if item.zeros else shown.rjust(item.digits)):
            if digit != " ":
                left = x + number * letters.digit_step - letters.lefts[digit]
                yield (letters.font.sheet, letters.frames[digit].name), left, y
    elif item.kind in ("icons", "picture"):
        lit = value if item.kind == "icons" else item.count
        for number in range(item.count):
            name = item.lit if number < lit else item.dark
            if name:
                yield (item.sheet, name), x + number * item.step, y
