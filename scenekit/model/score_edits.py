"""Changes to score panels, values, strings, fonts and palettes, each from a whole document to a new one."""

from collections.abc import Callable
from dataclasses import replace

from scenekit.errors import ProjectError
from scenekit.model.named import with_named, without_named
from scenekit.model.palette import Palette
from scenekit.model.panel import Item, Panel, String, Value
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.sprites import Font


def put_value(project: Project, value: Value, old_name: str = "") -> Project:
    """Add a value, or replace one; items and changes that show it take its new name."""
    name = old_name or value.name
    project = replace(project, values=with_named(project.values, value, name))
    if value.name == name:
        return project
    project = _items(project, lambda item: replace(item, value=value.name) if item.value == name else item)
    scenes = tuple(
        replace(
            scene,
            changes=tuple(replace(c, value=value.name) if c.value == name else c for c in scene.changes),
        )
        for scene in project.scenes
    )
    return replace(project, scenes=scenes)


def drop_value(project: Project, name: str) -> Project:
    """Take a value out of a project.

    raises   ProjectError: a panel shows it, or a scene changes it
    """
    for scene in project.scenes:
        user = _user(scene, lambda item: item.value == name)
        if user or any(change.value == name for change in scene.changes):
            raise ProjectError(f"value {name}: scene {scene.name} uses it; change that first")
    return replace(project, values=without_named(project.values, name))


def put_string(project: Project, string: String, old_name: str = "") -> Project:
    """Add a string, or replace one; items that show it take its new name."""
    name = old_name or string.name
    project = replace(project, strings=with_named(project.strings, string, name))
    return _items(project, lambda item: replace(item, string=string.name) if item.string == name else item)


def drop_string(project: Project, name: str) -> Project:
    """Take a string out of a project.

    raises   ProjectError: a panel shows it
    """
    for scene in project.scenes:
        user = _user(scene, lambda item: item.string == name)
        if user:
            raise ProjectError(
                f"string {name}: item {user} of scene {scene.name} shows it; change that first"
            )
    return replace(project, strings=without_named(project.strings, name))


def put_font(project: Project, font: Font, old_name: str = "") -> Project:
    """Add a font, or replace one; items that are set in it take its new name."""
    name = old_name or font.name
    project = replace(project, fonts=with_named(project.fonts, font, name))
    return _items(project, lambda item: replace(item, font=font.name) if item.font == name else item)


def drop_font(project: Project, name: str) -> Project:
    """Take a font out of a project; its sheet stays.

    raises   ProjectError: an item is set in it
    """
    for scene in project.scenes:
        user = _user(scene, lambda item: item.font == name)
        if user:
            raise ProjectError(
                f"font {name}: item {user} of scene {scene.name} is set in it; change that first"
            )
    return replace(project, fonts=without_named(project.fonts, name))


def put_panel(scene: Scene, panel: Panel | None) -> Scene:
    """Give a scene a score panel, or take it away."""
    return replace(scene, panel=panel)


def put_item(scene: Scene, item: Item, old_name: str = "") -> Scene:
    """Add an item to a scene's panel, or replace one.

    raises   ProjectError: the scene has no panel
    """
    if scene.panel is None:
        raise ProjectError(f"scene {scene.name}: has no panel for item {item.name}")
    return replace(scene, panel=replace(scene.panel, items=with_named(scene.panel.items, item, old_name)))


def drop_item(scene: Scene, name: str) -> Scene:
    """Take an item out of a scene's panel."""
    if scene.panel is None:
        return scene
    return replace(scene, panel=replace(scene.panel, items=without_named(scene.panel.items, name)))


def put_palette(project: Project, palette: Palette) -> Project:
    """Add a given palette, or replace the one of that name."""
    return replace(project, palettes=with_named(project.palettes, palette))


def drop_palette(project: Project, name: str) -> Project:
    """Take a given palette out of a project.

    raises   ProjectError: a target takes it
    """
    user = next((target.name for target in project.targets if target.palette == name), None)
    if user is not None:
        raise ProjectError(f"palette {name}: target {user} takes it; change that first")
    return replace(project, palettes=without_named(project.palettes, name))


def _items(project: Project, change: Callable[[Item], Item]) -> Project:
    """Change the items of every scene's panel; scenes without a change stay the same."""
    scenes = []
    for scene in project.scenes:
        if scene.panel is None:
            scenes.append(scene)
            continue
        items = tuple(change(item) for item in scene.panel.items)
        same = all(new is old for new, old in zip(items, scene.panel.items, strict=True))
        scenes.append(scene if same else replace(scene, panel=replace(scene.panel, items=items)))
    return replace(project, scenes=tuple(scenes))


def _user(scene: Scene, uses: Callable[[Item], bool]) -> str:
    """Return the first item of a scene's panel that uses something, or ""."""
    items = scene.panel.items if scene.panel is not None else ()
    return next((item.name for item in items if uses(item)), "")
