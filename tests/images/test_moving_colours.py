"""A cycle or event of a colour that no picture shows is a warning that names the nearest one."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from scenekit.build import run_stages
from scenekit.images.art import load_art
from scenekit.images.moving_colours import moving_colour_findings
from scenekit.model.palette import Cycle
from scenekit.model.project import Project
from scenekit.model.scene import Event
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite, Step
from scenekit.model.store import load

DEMO = Path(__file__).parents[2] / "demo_assets"


def words(project: Project) -> list[str]:
    return [str(finding) for finding in moving_colour_findings(project, load_art(project))]


@pytest.fixture
def demo() -> Project:
    return load(DEMO)


def with_cycle(project: Project, *colours: str) -> Project:
    turning = tuple(tuple(bytes.fromhex(colour)) for colour in colours)
    return replace(project, cycles=(Cycle(name="odd", colours=turning, ticks=30, direction="forward"),))


def test_the_demo_moves_only_what_it_shows(demo: Project) -> None:
    assert words(demo) == []


def test_the_nearest_colour_of_the_art_is_named(demo: Project) -> None:
    """2f3a68 of the demo's water is one step from what is asked for, and nothing else is."""
    water = demo.cycles[0].colours[0]
    assert bytes(water).hex() == "2f3a68"
    (said,) = words(with_cycle(demo, "3d4779", "2f3a69"))
    assert said.startswith(
        "warning: cycle odd: no picture shows 2f3a69: cycles turn exact colours of the art; "
        "nearest to 2f3a69 is 2f3a68 in scene "
    )


def test_an_event_is_looked_at_too_and_a_build_says_so(demo: Project) -> None:
    event = Event(
        name="gone", tick=5, steps=1, ticks_per_step=9,
        colours=((255, 0, 255), (254, 0, 255)), start=((255, 0, 255), (254, 0, 255)), to=((0, 0, 0),),
    )  # fmt: skip
    scene = replace(demo.scenes[0], events=(event,))
    changed = replace(demo, scenes=(scene, *demo.scenes[1:]))
    (said,) = words(changed)
    assert said.startswith(
        "warning: scene quay, event gone: no picture shows ff00ff, fe00ff: events change exact colours"
    )
    assert said in [str(finding) for finding in run_stages(changed, last="art").findings]


def test_backdrop_and_panel_colours_count_as_shown(demo: Project) -> None:
    backdrop, panel = demo.scenes[0].backdrop, demo.scenes[0].panel
    assert panel is not None
    assert words(with_cycle(demo, bytes(backdrop).hex(), bytes(panel.colour).hex())) == []


def test_a_frame_that_nothing_shows_does_not_count(demo: Project, tmp_path: Path) -> None:
    pixels = np.full((8, 16, 4), 255, dtype=np.uint8)
    pixels[:, 8:] = (1, 250, 3, 255)
    Image.fromarray(pixels).save(tmp_path / "odd.png")
    frames = tuple(Frame(name=f"f{n}", box=(8 * n, 0, 8, 8), pivot=(0, 0)) for n in range(2))
    bare = replace(demo, folder=tmp_path, sprites=(), scenes=(), fonts=(), sheets=())
    white = Animation(name="a", sheet="odd", play="loop", steps=(Step(frame="f0", ticks=5),))
    sprite = Sprite(name="s", animations=(white,), facings=(Facing(facing="right", flip=0),))
    project = replace(bare, sheets=(Sheet(name="odd", file="odd.png", frames=frames),), sprites=(sprite,))
    (said,) = words(with_cycle(project, "ffffff", "01fa03"))
    assert "no picture shows 01fa03" in said
    assert said.endswith("nearest to 01fa03 is ffffff in sheet odd")
