"""The project: everything of one game, shared by its scenes."""

from collections.abc import Mapping
from pathlib import Path
from typing import TypeVar

from scenekit.errors import ProjectError, UnknownNameError
from scenekit.model.fields import Fields, unique
from scenekit.model.palette import Cycle, Palette, read_cycle, read_palette
from scenekit.model.panel import String, Value, read_string, read_value
from scenekit.model.scene import Placed, Scene
from scenekit.model.sprites import Font, Sheet, Sprite, read_font, read_sheet, read_sprite
from scenekit.model.target import Target, read_target
from scenekit.records import record

FORMAT = 1
T = TypeVar("T", Sheet, Sprite, Target, Scene)


@record(frozen=True, slots=True, kw_only=True)
class Project:
    """A game's sheets, sprites, palettes, targets and scenes; `folder` is where its files are."""

    folder: Path
    name: str
    sheets: tuple[Sheet, ...] = ()
    sprites: tuple[Sprite, ...] = ()
    cycles: tuple[Cycle, ...] = ()
    palettes: tuple[Palette, ...] = ()
    fonts: tuple[Font, ...] = ()
    values: tuple[Value, ...] = ()
    strings: tuple[String, ...] = ()
    targets: tuple[Target, ...] = ()
    scenes: tuple[Scene, ...] = ()

    def sheet(self, name: str) -> Sheet:
        """Return a sheet by name."""
        return _named("sheet", name, self.sheets)

    def sprite(self, name: str) -> Sprite:
        """Return a sprite by name."""
        return _named("sprite", name, self.sprites)

    def target(self, name: str | None) -> Target:
        """Return a target by name, or the first."""
        return _named_or_first("target", name, self.targets)

    def scene(self, name: str | None) -> Scene:
        """Return a scene by name, or the first."""
        return _named_or_first("scene", name, self.scenes)


def _named(kind: str, name: str, items: tuple[T, ...]) -> T:
    for item in items:
        if item.name == name:
            return item
    raise UnknownNameError(kind, name, [item.name for item in items])


def _named_or_first(kind: str, name: str | None, items: tuple[T, ...]) -> T:
    if name is not None:
        return _named(kind, name, items)
    if not items:
        raise ProjectError(f"project has no {kind} yet; add one first")
    return items[0]


def read_project(table: object, folder: Path, scenes: tuple[Scene, ...]) -> Project:
    """Build a project from a parsed project.toml and its scenes, and check every name it uses.

    raises   ProjectError, UnknownNameError: with the file, record and key
    """
    fields = Fields(table, "project.toml")
    check_format(fields)
    fields.has("scenes")
    project = Project(
        folder=folder,
        name=fields.name("name"),
        sheets=fields.records("sheets", read_sheet, "sheet", 500),
        sprites=fields.records("sprites", read_sprite, "sprite", 500),
        cycles=fields.records("cycles", read_cycle, "cycle", 16),
        palettes=fields.records("palettes", read_palette, "palette", 64),
        fonts=fields.records("fonts", read_font, "font", 32),
        values=fields.records("values", read_value, "value", 64),
        strings=fields.records("strings", read_string, "string", 1000),
        targets=fields.records("targets", read_target, "target", 32),
        scenes=scenes,
    )
    fields.done()
    _check_project(project)
    return project


def scene_names(table: object) -> tuple[str, ...]:
    """Return the scene names that a parsed project.toml lists, in order."""
    fields = Fields(table, "project.toml")
    check_format(fields)
    names = fields.names("scenes", [])
    unique("project.toml", "scene", names)
    return names


def check_format(fields: Fields) -> None:
    """Refuse a document of a later format."""
    version = fields.integer("format", 1, 1_000_000)
    if version > FORMAT:
        raise ProjectError(
            f"{fields.where}: format {version} is newer than this program knows ({FORMAT}); "
            "install a newer scenekit to open it"
        )


def _check_project(project: Project) -> None:
    groups: Mapping[str, tuple[str, ...]] = {
        "sheet": tuple(x.name for x in project.sheets),
        "sprite": tuple(x.name for x in project.sprites),
        "cycle": tuple(x.name for x in project.cycles),
        "palette": tuple(x.name for x in project.palettes),
        "font": tuple(x.name for x in project.fonts),
        "target": tuple(x.name for x in project.targets),
        "value": tuple(x.name for x in project.values),
        "string": tuple(x.name for x in project.strings),
    }
    for kind, names in groups.items():
        unique("project.toml", kind, names)
    for sprite in project.sprites:
        _check_sprite(project, sprite)
    for font in project.fonts:
        _check_font(project, font, groups["sheet"])
    for target in project.targets:
        if target.palette:
            _check_known(f"project.toml: target {target.name}: palette", target.palette, groups["palette"])
    for scene in project.scenes:
        for placed in scene.placed:
            _check_placed(project, scene, placed)
        _check_panel(project, scene, groups)
        for plane in scene.planes:
            if plane.sheet:
                _check_known(
                    f"scenes/{scene.name}.toml: plane {plane.name}: sheet", plane.sheet, groups["sheet"]
                )


def _check_font(project: Project, font: Font, sheets: tuple[str, ...]) -> None:
    where = f"project.toml: font {font.name}"
    _check_known(f"{where}: sheet", font.sheet, sheets)
    frames = len(project.sheet(font.sheet).frames)
    if len(font.characters) > frames:
        raise ProjectError(
            f"{where}: {len(font.characters)} characters; sheet {font.sheet} has {frames} frames; "
            "each character needs one"
        )


def _check_panel(project: Project, scene: Scene, groups: Mapping[str, tuple[str, ...]]) -> None:
    where = f"scenes/{scene.name}.toml"
    for change in scene.changes:
        _check_known(f"{where}: change at tick {change.tick}: value", change.value, groups["value"])
    for item in scene.panel.items if scene.panel is not None else ():
        for kind in ("value", "string", "font", "sheet"):
            name = getattr(item, kind)
            if name:
                _check_known(f"{where}: panel item {item.name}: {kind}", name, groups[kind])
        known = {frame.name for frame in project.sheet(item.sheet).frames} if item.sheet else set()
        for frame in (item.lit, item.dark):
            if frame:
                _check_known(f"{where}: panel item {item.name}: frame of sheet {item.sheet}", frame, known)


def _check_sprite(project: Project, sprite: Sprite) -> None:
    sheets = {sheet.name: sheet for sheet in project.sheets}
    for animation in sprite.animations:
        where = f"project.toml: sprite {sprite.name}: animation {animation.name}"
        _check_known(f"{where}: sheet", animation.sheet, sheets)
        known = {frame.name for frame in sheets[animation.sheet].frames}
        for step in animation.steps:
            _check_known(f"{where}: frame of sheet {animation.sheet}", step.frame, known)


def _check_placed(project: Project, scene: Scene, placed: Placed) -> None:
    where = f"scenes/{scene.name}.toml: placed sprite {placed.name}"
    sprites = {sprite.name: sprite for sprite in project.sprites}
    _check_known(f"{where}: sprite", placed.sprite, sprites)
    animations = {animation.name for animation in sprites[placed.sprite].animations}
    facings = {facing.facing for facing in sprites[placed.sprite].facings}
    for name in (placed.animation, *(segment.animation for segment in placed.path.segments)):
        if name:
            _check_known(f"{where}: animation", name, animations)
    for name in (placed.facing, *(segment.facing for segment in placed.path.segments)):
        if name:
            _check_known(f"{where}: facing", name, facings)


def _check_known(where: str, name: str, known: object) -> None:
    names = set(known)  # type: ignore[call-overload]
    if name not in names:
        raise UnknownNameError(where, name, names)
