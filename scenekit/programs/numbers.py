"""Numbers by which a program names parts of a project: `"placed quay/lamp-1"`."""

from collections.abc import Callable, Sequence

from scenekit.errors import DialectError
from scenekit.model.project import Project
from scenekit.registry import choose

FACINGS = ("right", "left", "up", "down")
LONGEST_SHOWN = 60


def number_of(project: Project, text: str, label: str) -> int:
    """Return the number that a kind and a name stand for in every program of a project.

    text     scene NAME, value NAME, string NAME, facing NAME, placed SCENE/NAME, plane SCENE/NAME,
             or animation SPRITE/NAME
    raises   DialectError, UnknownNameError: with the nearest known name
    """
    kind, _, name = text.strip().partition(" ")
    kinds: dict[str, Callable[[str, str], int]] = {
        "scene": lambda where, name: _place(where, name, [s.name for s in project.scenes]),
        "value": lambda where, name: _place(where, name, [v.name for v in project.values]),
        "string": lambda where, name: _place(where, name, [s.name for s in project.strings]),
        "facing": lambda where, name: _place(where, name, FACINGS),
        "placed": lambda where, name: _of_scene(project, where, name, "placed"),
        "plane": lambda where, name: _of_scene(project, where, name, "planes"),
        "animation": lambda where, name: _of_sprite(project, where, name),
    }
    shown = text[:LONGEST_SHOWN]
    find = choose(f'{label}: "{shown}": kind', kind, kinds)
    return find(f'{label}: "{shown}"', name.strip())


def _place(where: str, name: str, names: Sequence[str]) -> int:
    return choose(where, name, {known: number for number, known in enumerate(names)})


def _halves(where: str, name: str) -> tuple[str, str]:
    first, slash, second = name.partition("/")
    if not slash:
        raise DialectError(f"{where}: must be two names with / between them")
    return first, second


def _of_scene(project: Project, where: str, name: str, part: str) -> int:
    scene, own = _halves(where, name)
    found = project.scenes[_place(where, scene, [s.name for s in project.scenes])]
    return _place(where, own, [record.name for record in getattr(found, part)])


def _of_sprite(project: Project, where: str, name: str) -> int:
    sprite, own = _halves(where, name)
    found = project.sprites[_place(where, sprite, [s.name for s in project.sprites])]
    return _place(where, own, [animation.name for animation in found.animations])
