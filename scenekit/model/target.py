"""Targets: a machine, display mode, dialect and view under one name."""

from dataclasses import dataclass

from scenekit.model.fields import Fields


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """Where a scene is to run.

    machine      name of a profile, or a path to one inside the project folder
    mode         display mode of that machine
    dialect      name of a dialect, or a path to one inside the project folder
    view         (x, y, w, h) of the screen that scrolls; None is the whole screen
    transparent  palette entry that is never drawn
    colours      most palette entries to use, or None for all of the mode
    palette      name of a given palette, or ""
    """

    name: str
    machine: str
    mode: str
    dialect: str
    view: tuple[int, int, int, int] | None = None
    transparent: int = 0
    colours: int | None = None
    palette: str = ""


def read_target(fields: Fields) -> Target:
    """Build a target from its table."""
    view = fields.integers("view", 4, 0, 32_767) if fields.has("view") else None
    if view is not None and min(view[2:]) < 1:
        raise fields.error("view", list(view), "[x, y, width, height] with width and height of at least 1")
    return Target(
        name=fields.name("name"),
        machine=fields.path("machine"),
        mode=fields.text("mode"),
        dialect=fields.path("dialect"),
        view=None if view is None else (view[0], view[1], view[2], view[3]),
        transparent=fields.integer("transparent", 0, 255, 0),
        colours=fields.integer("colours", 2, 256) if fields.has("colours") else None,
        palette=fields.name("palette", ""),
    )
