"""How evenly a plane steps, where its picture meets itself, and when everything is where it was."""

from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Any

from scenekit.editor.desk import Desk
from scenekit.editor.form import Form
from scenekit.editor.history import Edit
from scenekit.editor.moving import plain_scene, plane_pixels, refresh_hz
from scenekit.editor.parts.planefields import usual_speed, way_of, with_numbers
from scenekit.model.edits import put_plane, put_scene
from scenekit.model.scene import Plane, Scene
from scenekit.motion.loops import Simpler, Wrapping, loop_ticks, simpler_ratios
from scenekit.motion.scene_loop import SceneLoop, scene_loop
from scenekit.motion.steps import step_pattern

MOST_OFFERS = 3
SHOWN_STEPS = 12


def draw_loops(desk: Desk, form: Form, scene: Scene, plane: Plane) -> Edit | None:
    """Draw steps, seam and loop of a plane in words; return an edit that takes a simpler ratio."""
    form.note(step_words(with_numbers(desk, scene, plane), usual_speed(desk, scene)))
    form.column.y += form.ui.px(6)
    draw_seam(desk, form, scene, plane)
    return _loop(desk, form, scene, plane)


def step_words(plane: Plane, usual: Fraction) -> str:
    """Say how evenly a plane steps while the camera keeps its usual speed."""
    speed = usual * plane.ratio[0] + plane.drift[0]
    if not speed:
        return "It stands still while the camera keeps its usual speed."
    every = plane.cadence[0]
    pattern = step_pattern(speed, every)
    if every > 1:
        return (
            f"Held for {every} ticks it steps {abs(pattern.small_px)} to {abs(pattern.large_px)} px at the "
            f"camera's usual speed, at worst {float(pattern.max_lag_px):.2f} px from where it should be."
        )
    if not pattern.large_count:
        return f"It steps evenly, {abs(pattern.small_px)} px a tick at the camera's usual speed: no judder."
    shown = " ".join(str(step) for step in pattern.floor_steps[:SHOWN_STEPS])
    more = " ..." if pattern.period_ticks > SHOWN_STEPS else ""
    return (
        f"At the camera's usual speed it steps {shown}{more} px: judder, "
        f"at worst {float(pattern.max_lag_px):.2f} px from where it should be."
    )


def draw_seam(desk: Desk, form: Form, scene: Scene, plane: Plane) -> None:
    """Draw the picture rolled by half, its seam in the middle, and whether an eye would find it."""
    from scenekit.motion.seams import check_seam, quieter_trims, seam_picture

    ui, column = desk.ui, form.column
    pixels = plane_pixels(desk, scene, plane)
    if pixels is None:
        return
    for axis in (0, 1):
        if not plane.wrap[axis]:
            continue
        seam = desk.remember(f"seam {axis}", partial(check_seam, pixels, axis), pixels)
        shown = desk.remember(f"seam-picture {axis}", partial(seam_picture, pixels, axis), pixels)
        x, y, w, h = column.take(ui.px(64), ui.px(4))
        high, wide = shown.shape[:2]
        ui.fill((x, y, w, h), ui.look.well)
        across, rows = min(w, wide), min(h, high)
        part = across / 2 / wide
        top = (0.5 - rows / 2 / high) if axis else 1 - rows / high
        uv = (0.5 - part, top, 0.5 + part, top + rows / high)
        ui.backend.image(desk.picture(shown), (x + (w - across) / 2, y, across, rows), uv)
        words = "The seam, in the middle here, is quiet."
        if seam.visible:
            trims = desk.remember(f"trims {axis}", partial(quieter_trims, pixels, axis), pixels)
            less = ", ".join(str(trim.lines) for trim in trims)
            lines = "columns" if axis == 0 else "rows"
            words = f"The seam shows: {seam.figure:.1f} times the picture's usual step." + (
                f" Quieter with {less} {lines} less." if less else ""
            )
        form.note(words, "note" if seam.visible else "good")
        column.y += ui.px(6)


def _sizes(desk: Desk, plain: Scene) -> dict[str, tuple[int, int]] | None:
    arts = desk.product.art.planes if desk.product and desk.product.art else {}
    if any((plain.name, plane.name) not in arts for plane in plain.planes):
        return None
    return {p.name: arts[plain.name, p.name].shape[1::-1] for p in plain.planes}


def _loop(desk: Desk, form: Form, scene: Scene, plane: Plane) -> Edit | None:
    plain = plain_scene(desk)
    sizes = _sizes(desk, plain) if plain is not None else None
    if plain is None or sizes is None:
        return None
    key = tuple(sizes.items())
    loop: SceneLoop = desk.remember("loop", lambda: scene_loop(plain, sizes), plain, key)
    hz = refresh_hz(desk)
    form.note(loop_words(loop, hz))
    steady, offers = desk.remember(
        "offers", lambda: _offers(desk, plain, sizes, scene, plane), plain, key, plane
    )
    form.note(f"At the camera's usual speed all planes repeat after {_time(steady, hz)}.")
    edit: Edit | None = None
    for number, offer in enumerate(offers):
        edit = _offer(desk, form, scene, plane, number, offer) or edit
    form.column.y += form.ui.px(4)
    return edit


def loop_words(loop: SceneLoop, hz: float) -> str:
    """Say when the planes of a scene are all where they were."""
    if loop.ticks is None:
        plane = next(plane for plane in loop.planes if plane.ticks is None)
        return f"The planes never repeat together: {plane.name} {plane.why}."
    since = f", from tick {loop.from_tick} on" if loop.from_tick else ""
    return f"All planes are where they were after {_time(loop.ticks, hz)}{since}."


def _time(ticks: int, hz: float) -> str:
    seconds = ticks / hz
    long = f"{seconds:.1f} s" if seconds < 120 else f"{seconds / 60:.0f} min"
    return f"{ticks} ticks, {long}"


def _offers(
    desk: Desk, plain: Scene, sizes: Any, scene: Scene, plane: Plane
) -> tuple[int, tuple[Simpler, ...]]:
    """Return when the planes repeat at the camera's usual speed, and simpler ratios for one of them."""
    usual = usual_speed(desk, scene)
    moving = [
        Wrapping(name=p.name, size_px=sizes[p.name][0], step_px=usual * p.ratio[0] + p.drift[0])
        for p in plain.planes
        if p.wrap[0]
    ]
    steady = loop_ticks(moving)
    number = next((n for n, p in enumerate(moving) if p.name == plane.name), None)
    if number is None or plane.drift[0] or not moving[number].step_px:
        return steady, ()
    found = simpler_ratios(moving, number, usual)
    return steady, found if len(found) <= MOST_OFFERS else (*found[: MOST_OFFERS - 1], found[-1])


def _offer(desk: Desk, form: Form, scene: Scene, plane: Plane, number: int, offer: Simpler) -> Edit | None:
    ui = desk.ui
    x, y, w, h = form.column.take(ui.px(26), ui.px(4))
    wide = ui.px(62)
    words = (
        f"{float(offer.change_percent):+.1f} % in speed: after {_time(offer.loop_ticks, refresh_hz(desk))}"
    )
    ui.text(x + wide + 8, y + h / 2, words, "small", ui.look.quiet, room=w - wide - 8)
    tip = "A simpler ratio near this one: everything is where it was sooner, so a loop can be shorter."
    if not form.button(f"simpler:{number}", (x, y, wide, h), f"x {offer.ratio}", tip=tip):
        return None
    if way_of(plane) == "ratio":
        new = replace(plane, ratio=(offer.ratio, plane.ratio[1]))
    else:
        new = replace(with_numbers(desk, scene, plane), ratio=(offer.ratio, plane.ratio[1]))
    document = put_scene(desk.session.document, put_plane(scene, new))
    return Edit(document=document, label=f"a simpler ratio for {plane.name}")
