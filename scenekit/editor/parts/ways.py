"""Where a sprite stands in the scene, as fields, and how it is put in, dragged and taken out."""

from dataclasses import replace

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, fresh_name, parted, read_name
from scenekit.editor.history import Edit
from scenekit.editor.moving import refresh_hz
from scenekit.editor.parts.sleeping import draw_sleeping
from scenekit.editor.parts.transitions import view_of
from scenekit.editor.parts.waymarks import draw_way
from scenekit.editor.pathrows import Looks, draw_path
from scenekit.editor.preview import sprite_box
from scenekit.editor.ui import Column
from scenekit.model.edits import drop_placed, put_placed, put_scene
from scenekit.model.renames import rename_placed
from scenekit.model.scene import Placed, Scene
from scenekit.model.sprites import FACINGS, Sprite

FAR = 1_000_000


def draw_placed(desk: Desk, column: Column, scene: Scene, sprite: Sprite) -> Edit | None:
    """Draw where a sprite stands in the scene and its way; return an edit."""
    ui, session = desk.ui, desk.session
    here = [placed for placed in scene.placed if placed.sprite == sprite.name]
    ui.heading(column, f"In scene {scene.name}", f"{len(here)} of it" if here else "not there yet")
    placed = next((p for p in here if p.name == session.chosen.placed), here[0] if here else None)
    edit = _which(desk, Form(ui, column, "placed"), scene, sprite, here, placed)
    if edit is not None or placed is None:
        return edit
    form = Form(ui, column, "placed")
    name = form.text("name", form.line("name"), placed.name, read_name, tip="What it is called in the scene.")
    if name is not None and name != placed.name:
        session.chosen.placed = session.chosen.part = name
        named = put_scene(session.document, rename_placed(scene, placed.name, name))
        return Edit(document=named, label=f"naming {name}")
    new = _fields(form, scene, placed, sprite)
    slept = draw_sleeping(form, scene, placed, view_of(desk))
    if slept is not None:
        return Edit(document=put_scene(session.document, slept), label=f"when {placed.name} begins")
    looks = Looks(
        animations=tuple(a.name for a in sprite.animations),
        facings=tuple(f for f in FACINGS if any(f == g.facing for g in sprite.facings)),
    )
    path = draw_path(desk, column, "way", placed.path, refresh_hz(desk), looks)
    if path is not None:
        new = replace(placed, path=path)
    if new is None:
        return None
    document = put_scene(session.document, put_placed(scene, new))
    return Edit(document=document, label=f"changing {placed.name}")


def _which(
    desk: Desk, form: Form, scene: Scene, sprite: Sprite, here: list[Placed], placed: Placed | None
) -> Edit | None:
    """Put one in, choose one of several, or take one out."""
    session = desk.session
    add, which, drop = parted(form.column.take(form.ui.px(28), form.ui.px(8)), (1, 1.2, 1))
    kind = "plain" if here else "main"
    if form.button("add", add, "Put it in", kind=kind, tip="Place this sprite in the scene."):
        front = scene.planes[-1].name
        name = fresh_name(sprite.name, [p.name for p in scene.placed])
        new = Placed(name=name, sprite=sprite.name, over=front, moves_with=front, at=(40, 40))
        session.chosen.placed = session.chosen.part = name
        return Edit(document=put_scene(session.document, put_placed(scene, new)), label=f"placing {name}")
    if placed is None:
        return None
    picked = form.choice("which", which, [p.name for p in here], placed.name, tip="Which of them.")
    if picked:
        session.chosen.placed = session.chosen.part = picked
    if form.button("drop", drop, "Take it out", kind="quiet"):
        document = put_scene(session.document, drop_placed(scene, placed.name))
        return Edit(document=document, label=f"taking out {placed.name}")
    return None


def _fields(form: Form, scene: Scene, placed: Placed, sprite: Sprite) -> Placed | None:
    """Planes, start place, and what it shows first."""
    planes = [plane.name for plane in scene.planes]
    new: Placed | None = None
    picked = form.choice(
        "over",
        form.line("in front of"),
        planes,
        placed.over,
        tip="The plane that is directly behind it.",
    )
    if picked:
        new = replace(placed, over=picked)
    picked = form.choice(
        "moves_with", form.line("moves with"), [*planes, "screen"], placed.moves_with,
        tip="The plane whose scrolling carries it; the screen carries what stands still in the view.",
    )  # fmt: skip
    if picked:
        new = replace(placed, moves_with=picked)
    boxes = form.split("begins as", (1, 1))
    first = placed.animation or sprite.animations[0].name
    names = [animation.name for animation in sprite.animations]
    picked = form.choice("animation", boxes[0], names, first, tip="The animation it begins with.")
    if picked:
        new = replace(placed, animation=picked)
    facings = [facing.facing for facing in sprite.facings]
    now = placed.facing or facings[0]
    picked = form.choice("facing", boxes[1], facings, now, tip="Where it faces at the start.")
    if picked:
        new = replace(placed, facing=picked)
    for axis, box, word in zip((0, 1), form.split("stands at", (1, 1)), ("across", "down"), strict=True):
        at = form.whole(
            word, box, placed.at[axis], -FAR, FAR, unit=f"px {word}",
            tip="Where it starts, in pixels of the plane that carries it.",
        )  # fmt: skip
        if at is not None:
            new = replace(placed, at=(at, placed.at[1]) if axis == 0 else (placed.at[0], at))
    return new


def draw_over(desk: Desk, box: Box, zoom: int) -> Edit | None:
    """Choose and drag sprites on the scene, and the ends of the chosen one's stretches."""
    ui, session = desk.ui, desk.session
    scene = session.scene
    felt = ui.press("scene:motion", box, "", keyboard=False, overlap=True)
    if scene is None:
        return None
    at = (felt.at[0] / zoom, felt.at[1] / zoom)
    if felt.started:
        _take_hold(desk, scene, at)
    placed = next((p for p in scene.placed if p.name == session.chosen.placed), None)
    if placed is None:
        return None
    edit = draw_way(desk, box, zoom, scene, placed)
    if edit is not None or not felt.held or "placed-base" not in desk.local:
        return edit
    base, base_scene, start = desk.local["placed-base"]
    by = (round(felt.moved[0] / zoom), round(felt.moved[1] / zoom))
    goal = (start.at[0] + by[0], start.at[1] + by[1])
    if goal == placed.at or start.name != placed.name:
        return None
    changed = put_scene(base, put_placed(base_scene, replace(start, at=goal)))
    return Edit(
        document=changed, label=f"moving {placed.name}", gesture=f"drag {desk.local['gesture']}", held=True
    )


def _take_hold(desk: Desk, scene: Scene, at: tuple[float, float]) -> None:
    """Choose the sprite at a place of the screen, the nearest one first."""
    chosen = desk.session.chosen
    for candidate in reversed(scene.placed):
        box = sprite_box(desk, candidate.name)
        if box and box[0] <= at[0] < box[0] + box[2] and box[1] <= at[1] < box[1] + box[3]:
            chosen.placed, chosen.sprite, chosen.part = candidate.name, candidate.sprite, candidate.name
            desk.local["gesture"] = desk.local.get("gesture", 0) + 1
            desk.local["placed-base"] = (desk.session.document, scene, candidate)
            return
    desk.local.pop("placed-base", None)
