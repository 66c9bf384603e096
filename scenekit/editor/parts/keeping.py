"""A camera that goes after a sprite, and no farther than it takes to have it in a zone of the view."""

from dataclasses import replace

from scenekit.editor.desk import Desk
from scenekit.editor.form import Form
from scenekit.editor.parts.transitions import view_of
from scenekit.model.camera import Camera
from scenekit.model.paths import Path
from scenekit.model.scene import Scene

OWN_WAY = "its own way"
FAR = 32_767


def draw_keeping(desk: Desk, form: Form, scene: Scene) -> Camera | None:
    """Draw whom the camera goes after, and the zone it keeps that sprite in; return it changed."""
    camera = scene.camera
    names = [placed.name for placed in scene.placed]
    picked = form.choice(
        "keeps", form.line("goes after"), [OWN_WAY, *names], camera.keeps or OWN_WAY,
        tip="A placed sprite that the camera keeps in a zone of the view, as a player would steer it.",
    )  # fmt: skip
    if picked == OWN_WAY:
        return replace(camera, keeps="", zone=(0, 0, 1, 1))
    if picked is not None:
        wide, high = view_of(desk)
        zone = camera.zone if camera.keeps else (wide // 3, high // 4, wide // 3, high // 2)
        return replace(camera, keeps=picked, zone=zone, path=Path())
    if not camera.keeps:
        return None
    for number, (box, word) in enumerate(
        zip(form.split("zone", (1, 1, 1, 1), 3), ("left", "top", "wide", "high"), strict=True)
    ):
        value = form.whole(
            f"zone-{word}", box, camera.zone[number], 1 if number > 1 else -FAR, FAR,
            tip=f"The zone of the view in which the sprite's pivot moves while the camera stands, {word}.",
        )  # fmt: skip
        if value is not None:
            sides = [*camera.zone]
            sides[number] = value
            return replace(camera, zone=(sides[0], sides[1], sides[2], sides[3]))
    return None
