"""Where the items of a score panel stand, and which values they show at a tick."""

from collections.abc import Mapping
from dataclasses import dataclass

from scenekit.errors import ProjectError
from scenekit.model.arrays import Indices
from scenekit.model.panel import Item, Panel
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.sprites.lettering import Letters, check_digits, measure, place_text

Box = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemPlace:
    """An item with its box on the screen, and the font it uses, measured."""

    item: Item
    box: Box
    letters: Letters | None = None


def place_items(
    project: Project, scene: Scene, sheets: Mapping[str, Indices], transparent: int
) -> tuple[ItemPlace, ...]:
    """Return where each item of a scene's panel stands.

    raises   ProjectError: an item leaves the panel, a font lacks a character
    """
    panel = scene.panel
    if panel is None:
        return ()
    places = []
    for item in panel.items:
        where = f"scenes/{scene.name}.toml: panel item {item.name}"
        letters = None
        if item.font:
            font = next(f for f in project.fonts if f.name == item.font)
            letters = measure(font, project.sheet(font.sheet), sheets[font.sheet], transparent)
        width, height = _size(project, item, letters, where)
        box = (*item.at, width, height)
        _check_inside(panel, box, where)
        places.append(ItemPlace(item=item, box=box, letters=letters))
    return tuple(places)


def _size(project: Project, item: Item, letters: Letters | None, where: str) -> tuple[int, int]:
    if item.kind == "bar":
        return item.size
    if letters is not None and item.kind == "text":
        return max(1, place_text(letters, string_of(project, item), where)[1]), letters.height
    if letters is not None:
        check_digits(letters, where)
        return max(1, item.digits * letters.digit_step - letters.font.spacing), letters.height
    frames = [project.sheet(item.sheet).frame(name) for name in (item.lit, item.dark) if name]
    width = max(frame.box[2] for frame in frames if frame is not None)
    height = max(frame.box[3] for frame in frames if frame is not None)
    return (item.count - 1) * item.step + width if item.kind == "icons" else width, height


def string_of(project: Project, item: Item) -> str:
    """Return the text of an item's string."""
    return next(string.text for string in project.strings if string.name == item.string)


def _check_inside(panel: Panel, box: Box, where: str) -> None:
    x, y, w, h = panel.box
    if box[0] < x or box[1] < y or box[0] + box[2] > x + w or box[1] + box[3] > y + h:
        raise ProjectError(f"{where}: takes {list(box)}; the panel is {list(panel.box)}")


def values_at(project: Project, scene: Scene, tick: int) -> dict[str, int]:
    """Return every value at a tick, each change kept within the value's limits."""
    values = {value.name: value.start for value in project.values}
    limits = {value.name: (value.low, value.high) for value in project.values}
    for change in sorted(scene.changes, key=lambda change: change.tick):
        if change.tick <= tick:
            low, high = limits[change.value]
            values[change.value] = min(high, max(low, values[change.value] + change.add))
    return values


def changed_between(scene: Scene, value: str, before: int, tick: int) -> bool:
    """Say whether a value was set after one tick and up to another."""
    return any(change.value == value and before < change.tick <= tick for change in scene.changes)
