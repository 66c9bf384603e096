"""The reference renderer against a plain one that shares no code with it, and single facts by hand."""

import random

import numpy as np
import pytest
from plain_renderer import PlainScene
from random_scenes import random_project
from small_scene import TICKS, small_project

from scenekit.build import run_stages
from scenekit.render.scene import render, render_indices

SCENES = 200


def plain_pictures(project, scene, view, ticks):
    plain = PlainScene(project, scene, view)
    for tick in ticks:
        plain.go_to(tick)
        yield tick, np.array(plain.picture(), dtype=np.uint8)


@pytest.mark.parametrize("tens", range(SCENES // 10))
def test_random_scenes_look_the_same_pixel_by_pixel(tmp_path, tens):
    for seed in range(10 * tens, 10 * tens + 10):
        project = random_project(tmp_path / str(seed), seed)
        build = run_stages(project, "small", last="colours")
        ticks = sorted({0, *random.Random(seed).sample(range(1, 130), 4)})
        for tick, wanted in plain_pictures(project, project.scenes[0], build.size, ticks):
            entries = render_indices(build.project, build.scene, build.reduced, build.size, tick)
            shown = build.reduced.palette_at(build.scene.name, tick)[entries]
            assert entries.shape == shown.shape[:2] == wanted.shape[:2]
            assert np.array_equal(shown, wanted), f"seed {seed}, tick {tick}"
            assert np.array_equal(shown, render(build.project, build.scene, build.reduced, build.size, tick))


def test_the_random_scenes_hold_everything_that_can_go_wrong(tmp_path):
    seen: set[str] = set()
    for seed in range(60):
        project = random_project(tmp_path / str(seed), seed)
        scene = project.scenes[0]
        for plane in scene.planes:
            seen |= {f"wrap {plane.wrap}", "map" if plane.map else "picture"}
            seen |= {"ratio below zero" for ratio in plane.ratio if ratio < 0}
            seen |= {"ratio with parts" for ratio in plane.ratio if ratio.denominator > 1}
            seen |= {"drift" for drift in plane.drift if drift}
            seen |= {"bands"} if plane.bands else set()
            seen |= {"rows"} if plane.rows else set()
            seen |= {"offset" for offset in plane.offset if offset}
        for placed in scene.placed:
            sprite = project.sprite(placed.sprite)
            seen |= {animation.play for animation in sprite.animations}
            seen |= {f"flip {facing.flip}" for facing in sprite.facings}
            seen |= {"own art" for facing in sprite.facings if facing.own}
            seen |= {placed.path.repeat} if placed.path.segments else {"stands"}
            seen |= {"follows"} if placed.path.follow else set()
            seen |= {"on the screen" if placed.moves_with == "screen" else "on a plane"}
        seen |= {cycle.direction for cycle in project.cycles} | {"event" for _ in scene.events}
        seen |= {"there and back" for cycle in project.cycles if cycle.there_and_back}
        seen |= {"event of all colours" for event in scene.events if not event.colours}
        seen |= {"event that goes back" for event in scene.events if event.back}
    wanted = {f"wrap {(x, y)}" for x in (True, False) for y in (True, False)}
    wanted |= {"map", "picture", "ratio below zero", "ratio with parts", "drift", "offset"}
    wanted |= {"loop", "once", "there-and-back", *(f"flip {n}" for n in range(4)), "own art"}
    wanted |= {"no", "from-start", "onward", "stands", "on the screen", "on a plane"}
    wanted |= {"bands", "rows", "follows", "there and back", "event of all colours", "event that goes back"}
    assert seen >= wanted | {"forward", "backward", "event"}


def test_the_small_scene_looks_the_same_at_every_tick(tmp_path):
    project = small_project(tmp_path / "small")
    build = run_stages(project, "board", last="colours")
    for tick, wanted in plain_pictures(project, project.scenes[0], build.size, range(0, 90, 3)):
        assert np.array_equal(render(build.project, build.scene, build.reduced, build.size, tick), wanted), (
            tick
        )


def test_the_plain_renderer_notices_one_pixel(tmp_path):
    """The comparison above can fail: a pivot one pixel off shows."""
    project = small_project(tmp_path / "small")
    build = run_stages(project, "board", last="colours")
    text = (project.folder / "project.toml").read_text()
    (project.folder / "project.toml").write_text(text.replace("pivot = [2, 7]", "pivot = [3, 7]", 1))
    from scenekit.model.store import load

    other = load(project.folder)
    pairs = plain_pictures(other, other.scenes[0], build.size, TICKS)
    different = [
        tick
        for tick, wanted in pairs
        if not np.array_equal(render(build.project, build.scene, build.reduced, build.size, tick), wanted)
    ]
    assert different


def test_the_picture_does_not_depend_on_the_target_but_for_its_colours(tmp_path):
    project = small_project(tmp_path / "small")
    pictures = []
    for target in ("board", "colour", "sixteen"):
        build = run_stages(project, target, last="colours")
        pictures.append(render(build.project, build.scene, build.reduced, build.size, 22))
    assert np.array_equal(pictures[0], pictures[1])
    assert np.array_equal(pictures[0], pictures[2])
