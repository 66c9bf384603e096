"""The machine of a target, read once, and a target moved to another machine."""

from dataclasses import replace

from scenekit.editor.desk import Desk
from scenekit.errors import SceneKitError
from scenekit.machines.machine import Machine
from scenekit.machines.profile import load_machine
from scenekit.model.store import inside
from scenekit.model.target import Target


def known_machine(desk: Desk, target: Target) -> Machine | None:
    """Return the machine of a target; None when it cannot be read."""

    def read() -> Machine | None:
        own = target.machine.endswith(".toml")
        folder = desk.session.document.folder
        try:
            return load_machine(inside(folder, target.machine) if own else target.machine)
        except SceneKitError:
            return None

    made: Machine | None = desk.remember("machine", read, target.machine)
    return made


def with_machine(target: Target, name: str) -> Target:
    """Return a target on another machine, in the mode of the same name or else in its first.

    raises   MachineError: no such machine
    """
    other = load_machine(name)
    mode = target.mode if target.mode in other.modes else next(iter(other.modes))
    return replace(target, machine=name, mode=mode)
