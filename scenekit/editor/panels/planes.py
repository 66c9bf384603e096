"""Planes: depth, ratio, drift, wrapping and the seam."""

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.history import Edit


def _draw(desk: Desk, box: Box) -> Edit | None:
    return None


def _lamp(desk: Desk) -> Lamp:
    return Lamp(level="good", word="ready")


PLUGIN = Panel(name="planes", title="Planes", draw=_draw, lamp=_lamp)
