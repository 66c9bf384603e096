"""Writes a machine profile with measured costs: the profile it began with, and other costs."""

import tomllib
from collections.abc import Sequence

from scenekit.calibration.costs import Calibration
from scenekit.errors import MachineError
from scenekit.machines.cost import Cost
from scenekit.machines.profile import machine_from_table

RESIDUAL = "residual_percent"


def measured_profile(text: str, done: Calibration, name: str, more: Sequence[Cost] = ()) -> str:
    """Return the text of a profile with the costs of a calibration in the place of its own.

    Costs of operations that were not measured stay as they are.
    text     of the profile it began with
    name     of the new profile, for messages
    more     costs beside those of the calibration, such as the share of music
    raises   MachineError: the result would not be a profile
    """
    costs = (*done.costs, *more)
    measured = {cost.operation for cost in costs}
    head, blocks = _split(text)
    kept = [block for block in blocks if not _prices(block, measured)]
    lines = [line for line in head if not line.startswith(f"{RESIDUAL} ")]
    place = next((n + 1 for n, line in enumerate(lines) if line.startswith("summary")), 0)
    lines.insert(place, f"{RESIDUAL} = {done.spread_percent:.4g}")
    parts = ["\n".join(lines).rstrip(), *("\n".join(block).rstrip() for block in kept)]
    parts += [_cost_text(cost) for cost in costs]
    result = "\n\n".join(part for part in parts if part) + "\n"
    try:
        machine_from_table(name, f"{name}.toml", tomllib.loads(result))
    except tomllib.TOMLDecodeError as error:
        raise MachineError(f"{name}.toml: cannot be written from this profile: {error}") from None
    return result


def _split(text: str) -> tuple[list[str], list[list[str]]]:
    """Return the lines before the first list of tables, and the lines of each table in a list."""
    head: list[str] = []
    blocks: list[list[str]] = []
    for line in text.splitlines():
        if line.startswith("[["):
            blocks.append([line])
        elif blocks and not line.startswith("["):
            blocks[-1].append(line)
        elif blocks:
            blocks.append([line])
        else:
            head.append(line)
    return head, blocks


def _prices(block: Sequence[str], measured: set[str]) -> bool:
    if block[0].strip() != "[[costs]]":
        return False
    table = tomllib.loads("\n".join(block))["costs"][0]
    return table.get("operation") in measured


def _cost_text(cost: Cost) -> str:
    lines = ["[[costs]]", f'operation = "{cost.operation}"']
    for key in ("per_call_us", "per_row_us", "per_pixel_us", "share_percent"):
        value = getattr(cost, key)
        if value:
            lines.append(f"{key} = {value!r}")
    if cost.standard_errors_us:
        errors = ", ".join(repr(error) for error in cost.standard_errors_us)
        lines.append(f"standard_errors_us = [{errors}]")
    lines += [f'provenance = "{cost.provenance}"']
    return "\n".join(lines)
