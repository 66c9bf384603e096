"""Which frames a document shows, and where."""

from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.sprites import Frame, Sprite


def used_frames(project: Project, scene: Scene) -> list[tuple[str, Frame]]:
    """Return (sheet, frame) of every frame that the sprites of a scene show, in document order."""
    wanted: set[tuple[str, str]] = set()
    for name in dict.fromkeys(placed.sprite for placed in scene.placed):
        wanted |= animated_frames(project.sprite(name))
    wanted |= panel_frames(project, scene)
    return [(s.name, f) for s in project.sheets for f in s.frames if (s.name, f.name) in wanted]


def panel_frames(project: Project, scene: Scene) -> set[tuple[str, str]]:
    """Return (sheet, frame name) of every frame that a scene's panel shows: icons, pictures, whole fonts."""
    wanted: set[tuple[str, str]] = set()
    for item in scene.panel.items if scene.panel is not None else ():
        wanted |= {(item.sheet, name) for name in (item.lit, item.dark) if name}
        for font in project.fonts:
            if font.name == item.font:
                frames = project.sheet(font.sheet).frames[: len(font.characters)]
                wanted |= {(font.sheet, frame.name) for frame in frames}
    return wanted


def animated_frames(sprite: Sprite) -> set[tuple[str, str]]:
    """Return (sheet, frame name) of every step of a sprite's animations."""
    return {(animation.sheet, step.frame) for animation in sprite.animations for step in animation.steps}


def frames_in_use(project: Project) -> set[tuple[str, str]]:
    """Return (sheet, frame name) of all that can be shown: by sprites, panels, fonts and maps."""
    found: set[tuple[str, str]] = set()
    for sprite in project.sprites:
        found |= animated_frames(sprite)
    for scene in project.scenes:
        found |= panel_frames(project, scene)
    lettered = {font.sheet: len(font.characters) for font in project.fonts}
    mapped = {plane.sheet for scene in project.scenes for plane in scene.planes if plane.map}
    for sheet in project.sheets:
        count = len(sheet.frames) if sheet.name in mapped else lettered.get(sheet.name, 0)
        found |= {(sheet.name, frame.name) for frame in sheet.frames[:count]}
    return found
