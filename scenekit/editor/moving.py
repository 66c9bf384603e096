"""The shown document with its bands, depths and shapes turned into the planes and speeds that are drawn."""

from dataclasses import replace

import numpy as np

from scenekit.editor.desk import Desk
from scenekit.errors import SceneKitError
from scenekit.model.arrays import Pixels
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Placed, Plane, Scene
from scenekit.motion.expand import expand_path, expand_project, plane_parts


def plain_project(desk: Desk) -> Project | None:
    """Return the document as it is drawn; None where a shape in it cannot be sampled."""
    document = desk.session.document

    def expand() -> Project | None:
        try:
            return expand_project(document)
        except SceneKitError:
            return None

    made: Project | None = desk.remember("plain-project", expand, document)
    return made


def plain_scene(desk: Desk) -> Scene | None:
    """Return the scene on show as it is drawn."""
    scene, project = desk.session.scene, plain_project(desk)
    if scene is None or project is None:
        return None
    return next((s for s in project.scenes if s.name == scene.name), None)


def steered(desk: Desk, scene: Scene) -> Scene:
    """Return a scene with its camera where somebody steers it, if somebody does."""
    at = desk.local.get("steer")
    if at is None:
        return scene

    def moved() -> Scene:
        return replace(scene, camera=Camera(start=at))

    made: Scene = desk.remember("steered", moved, scene, at)
    return made


def plain_placed(desk: Desk, placed: Placed) -> Placed:
    """Return a placed sprite with its path as speeds alone; as it is where that cannot be."""
    document = desk.session.document

    def expand() -> Placed:
        try:
            path = expand_path(placed.path, document.sprite(placed.sprite), placed, placed.name)
        except SceneKitError:
            return placed
        return replace(placed, path=path)

    made: Placed = desk.remember(f"plain-placed {placed.name}", expand, document, placed)
    return made


def plain_names(plane: Plane) -> tuple[str, ...]:
    """Return the names of the planes that a plane is drawn as."""
    return tuple(part.name for part in plane_parts(plane))


def plane_pixels(desk: Desk, scene: Scene, plane: Plane) -> Pixels | None:
    """Return a plane's whole picture, once it is read; bands are put together again."""
    art = desk.product.art if desk.product is not None else None
    if art is None:
        return None
    found: Pixels | None = art.planes.get((scene.name, plane.name))
    if found is not None:
        return found
    parts = [art.planes.get((scene.name, name)) for name in plain_names(plane)]
    if not parts or any(part is None for part in parts):
        return None
    kept = [part for part in parts if part is not None]

    def stacked() -> Pixels:
        foot = kept[-1]
        rows = kept[:-1] if foot.shape[0] == 1 and not foot[..., 3].any() and len(kept) > 1 else kept
        return np.vstack(rows)

    made: Pixels = desk.remember(f"stacked {scene.name} {plane.name}", stacked, *kept)
    return made


def refresh_hz(desk: Desk) -> float:
    """Return the refresh rate of the target's display; 60 until it is known."""
    product = desk.product
    return float(product.mode.timing.refresh_hz) if product and product.mode else 60.0
