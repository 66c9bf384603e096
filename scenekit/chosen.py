"""What a target names: machine, display mode and dialect, and what they can do together."""

from collections.abc import Sequence
from dataclasses import replace

from scenekit.dialects.dialect import Dialect, load_dialect
from scenekit.dialects.transfer import changed_by
from scenekit.errors import MachineError, ProjectError
from scenekit.machines.machine import DisplayMode, Machine
from scenekit.machines.profile import load_machine
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.store import inside
from scenekit.model.target import Target
from scenekit.plan.schemes import PAGE, Abilities, Scheme, choose_scheme, flip_set
from scenekit.records import record


@record(frozen=True, slots=True, kw_only=True)
class Chosen:
    """Machine, mode and dialect of a target, what they can do together, and how a scene is drawn by it."""

    machine: Machine
    mode: DisplayMode
    dialect: Dialect
    abilities: Abilities
    scheme: Scheme


def choose_for(project: Project, scene: Scene, target: Target, together: Sequence[Scene] = ()) -> Chosen:
    """Return what a target names, for a scene.

    together  scenes that are to be drawn in one way with it

    raises   SceneKitError: something named is not there or bad, or view or panel leave the screen
    """
    name = target.machine
    machine = load_machine(inside(project.folder, name) if name.endswith(".toml") else name)
    mode = machine.mode(target.mode)
    if mode.palette:
        raise MachineError(
            f"mode {mode.name}: fixed palettes are not used yet; choose a mode whose entries can be set"
        )
    dialect = load_dialect(target.dialect, project.folder)
    if target.transfer:
        way = changed_by(dialect.transfer, dict(target.transfer), f"target {target.name}")
        dialect = replace(dialect, transfer=way)
    display = machine.abilities
    shared = [kind for kind in dialect.image_formats if kind in (*display.image_formats, "raw")]
    abilities = Abilities(
        words=_words(dialect, display.words),
        flips=flip_set(display.flips if target.flips == "drawn" else frozenset()),
        recolours=machine.recolours(mode.name),
        pages=max(1, min(display.pages, 2)),
        direct=not mode.indexed,
        image_format=next((kind for kind in shared if kind != "raw"), ""),
    )
    scheme = choose_scheme(abilities, bool(project.cycles or any(s.events for s in (scene, *together))))
    if scheme is PAGE:
        abilities = replace(abilities, pages=1)
    check_view(scene, target, (mode.width_px, mode.height_px))
    return Chosen(machine=machine, mode=mode, dialect=dialect, abilities=abilities, scheme=scheme)


def check_view(scene: Scene, target: Target, screen: tuple[int, int]) -> None:
    """Refuse a view or panel that leaves the screen, or one over the other."""
    width, height = screen
    view = target.view or (0, 0, width, height)
    x, y, w, h = view
    if x + w > width or y + h > height:
        raise ProjectError(
            f"target {target.name}: view {list(view)}: leaves the screen of {width} x {height} px"
        )
    if scene.panel is None:
        return
    a, b, c, d = scene.panel.box
    where = f"scenes/{scene.name}.toml: panel: box {list(scene.panel.box)}"
    if a + c > width or b + d > height:
        raise ProjectError(f"{where}: leaves the screen of {width} x {height} px")
    if a < x + w and x < a + c and b < y + h and y < b + d:
        raise ProjectError(
            f"{where}: lies over the view {list(view)} of target {target.name}; "
            "give the target a smaller view"
        )


def _words(dialect: Dialect, display: frozenset[str]) -> frozenset[str]:
    """Return the words a dialect spells, less those that its machine's display cannot do."""
    needs = {"blit": "blit", "blit_keyed": "blit-keyed", "run": "run", "fill": "fill", "move_part": "move"}
    return frozenset(word for word in dialect.words if word not in needs or needs[word] in display)
