"""Reduction of a whole project: cycles, events, reserved entries, given palettes, dither."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from scenekit.build import run_stages
from scenekit.errors import PaletteError, ProjectError, SceneKitError
from scenekit.model.palette import Cycle, Palette
from scenekit.model.panel import Item, Panel
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Event, Plane, Scene
from scenekit.model.sprites import Animation, Facing, Font, Frame, Sheet, Sprite, Step
from scenekit.model.target import Target
from scenekit.model.usage import frames_in_use


def ramp(folder: Path) -> None:
    """Draw a plane of a grey ramp with three exact colours in it."""
    y, x = np.mgrid[0:64, 0:128]
    picture = np.zeros((64, 128, 4), dtype=np.uint8)
    picture[..., :3] = (x * 2)[..., None]
    picture[..., 3] = 255
    for n, colour in enumerate([(200, 0, 0), (0, 200, 0), (0, 0, 200)]):
        picture[y == 10 + n] = (*colour, 255)
    Image.fromarray(picture).save(folder / "ramp.png")


@pytest.fixture
def project(tmp_path: Path) -> Project:
    ramp(tmp_path)
    scene = Scene(
        name="one",
        ticks=60,
        ticks_per_update=1,
        missed="slow",
        backdrop=(0, 0, 0),
        camera=Camera(),
        planes=(Plane(name="ramp", picture="ramp.png"),),
        placed=(),
        events=(),
    )
    target = Target(name="t", machine="brandy-pc", mode="320x200-16", dialect="brandy")
    return Project(folder=tmp_path, name="p", targets=(target,), scenes=(scene,))


def reduced(project: Project, **target: object):
    changed = replace(project, targets=(replace(project.targets[0], **target),))
    return run_stages(changed, last="colours").reduced


def test_cycle_has_a_run_of_its_own(project: Project) -> None:
    colours = ((200, 0, 0), (0, 200, 0), (0, 0, 200))
    cycle = Cycle(name="c", colours=colours, ticks=5, direction="forward")
    art = reduced(replace(project, cycles=(cycle,)))
    (turning,) = art.cycles
    run = [tuple(int(c) for c in art.palette[turning.first + n]) for n in range(3)]
    assert run == list(colours)
    rows = art.planes["one", "ramp"]
    assert set(np.unique(rows[10:13])) == {turning.first + n for n in range(3)}
    assert not set(np.unique(rows[20:])) & {turning.first + n for n in range(3)}
    at = art.palette_at("one", 5)
    assert tuple(at[turning.first + 1]) == colours[0]


def test_there_and_back_turns_at_the_last_entry(project: Project) -> None:
    colours = ((200, 0, 0), (0, 200, 0), (0, 0, 200))
    cycle = Cycle(name="c", colours=colours, ticks=2, direction="forward", there_and_back=True)
    (turning,) = reduced(replace(project, cycles=(cycle,))).cycles
    assert [turning.shift_at(tick) for tick in range(0, 18, 2)] == [0, 1, 2, 1, 0, 1, 2, 1, 0]


def test_reserved_entry_is_kept(project: Project) -> None:
    art = reduced(project, reserved=((5, (255, 200, 0)), (6, (0, 200, 0))))
    assert tuple(art.palette[5]) == (255, 200, 0)
    assert art.counts[5] == 0
    assert set(np.unique(art.planes["one", "ramp"][11])) == {6}


def test_reserved_entry_must_exist(project: Project) -> None:
    with pytest.raises(ProjectError, match="reserved entry 16"):
        reduced(project, reserved=((16, (0, 0, 0)),))


def test_given_palette_from_a_list_and_from_a_picture(project: Project) -> None:
    colours = tuple((n * 16, n * 16, n * 16) for n in range(16))
    image = Image.new("P", (4, 4))
    image.putpalette([c for colour in colours for c in colour])
    image.save(project.folder / "palette.png")
    (project.folder / "palette.txt").write_text("\n".join(bytes(c).hex() for c in colours), encoding="ascii")
    found = []
    for palette in (
        Palette(name="p", colours=colours),
        Palette(name="p", file="palette.png"),
        Palette(name="p", file="palette.txt"),
    ):
        art = reduced(replace(project, palettes=(palette,)), palette="p")
        found.append(art.palette[1:].tolist())
    assert found[0] == [list(colour) for colour in colours[1:]]
    assert found[1] == found[0]
    assert found[2] == found[0]


def test_ordered_dither_changes_pixels_and_keeps_the_palette(project: Project) -> None:
    flat, mixed = reduced(project), reduced(project, dither="ordered")
    assert np.array_equal(flat.palette, mixed.palette)
    assert not np.array_equal(flat.planes["one", "ramp"], mixed.planes["one", "ramp"])


def test_event_over_every_colour(project: Project) -> None:
    event = Event(
        name="out", tick=3, steps=2, ticks_per_step=4, colours=(), start=(), to=((0, 0, 0),), back=True
    )
    scene = replace(project.scenes[0], events=(event,))
    art = reduced(replace(project, scenes=(scene,)))
    assert np.array_equal(art.palette_at("one", 2), art.palette)
    assert art.palette_at("one", 7).sum() == 0
    assert 0 < art.palette_at("one", 3).sum() < art.palette.sum()
    assert np.array_equal(art.palette_at("one", 15), art.palette)


def test_too_many_cycle_colours_are_refused(project: Project) -> None:
    colours = tuple((n, 0, 1) for n in range(15))
    cycle = Cycle(name="c", colours=colours, ticks=5, direction="forward")
    with pytest.raises(PaletteError, match="leave no entry"):
        reduced(replace(project, cycles=(cycle,)))


def test_missing_palette_file_is_said(project: Project) -> None:
    palettes = (Palette(name="p", file="nowhere.png"),)
    with pytest.raises(SceneKitError, match=r"nowhere\.png"):
        reduced(replace(project, palettes=palettes), palette="p")


def test_banks_do_not_share_entries(project: Project) -> None:
    x = np.mgrid[0:64, 0:128][1]
    red = np.zeros((64, 128, 4), dtype=np.uint8)
    red[..., 0] = x * 2
    red[..., 3] = 255
    Image.fromarray(red).save(project.folder / "red.png")
    planes = (
        replace(project.scenes[0].planes[0], bank="grey"),
        Plane(name="red", picture="red.png", bank="red"),
    )
    art = reduced(replace(project, scenes=(replace(project.scenes[0], planes=planes),)))
    grey, own = (set(np.unique(art.planes["one", name])) for name in ("ramp", "red"))
    assert not grey & own
    assert len(grey | own) <= 15
    assert sum(art.counts) == 2 * 64 * 128 + 1


def test_pictures_count_by_their_share_of_the_screen(project: Project) -> None:
    """A picture of which only a part is ever seen yields entries to one that fills the screen."""
    from scenekit.images.art import load_art
    from scenekit.images.weights import UNIT, screen_weights

    wide = replace(project.scenes[0].planes[0], wrap=(True, True))
    still = replace(wide, name="still", wrap=(False, False))
    scene = replace(project.scenes[0], planes=(wide, still))
    document = replace(project, scenes=(scene,))
    weights = screen_weights(document, load_art(document), (256, 128))
    assert weights == (2 * UNIT, UNIT)
    assert screen_weights(document, load_art(document), (16, 32)) == (UNIT // 4, UNIT // 4)


def gaudy(folder: Path) -> Sheet:
    """Draw a sheet of two frames: a yellow one, and one of 256 loud colours."""
    picture = np.zeros((16, 32, 4), dtype=np.uint8)
    picture[..., 3] = 255
    picture[:, :16, :3] = (250, 240, 20)
    n = np.arange(256).reshape(16, 16)
    picture[:, 16:, 0], picture[:, 16:, 1], picture[:, 16:, 2] = n, 255 - n, n * 7 % 256
    Image.fromarray(picture).save(folder / "gaudy.png")
    frames = (
        Frame(name="plain", box=(0, 0, 16, 16), pivot=(0, 0)),
        Frame(name="loud", box=(16, 0, 16, 16), pivot=(0, 0)),
    )
    return Sheet(name="gaudy", file="gaudy.png", frames=frames)


@pytest.mark.parametrize("bank", ["", "loud"])
def test_art_that_nothing_shows_takes_no_entries(project: Project, bank: str) -> None:
    sheet = replace(gaudy(project.folder), bank=bank)
    alone, kept = reduced(project), reduced(replace(project, sheets=(sheet,)))
    if not bank:
        assert (kept.palette == alone.palette).all()
        assert kept.planes["one", "ramp"].tobytes() == alone.planes["one", "ramp"].tobytes()
        assert (kept.counts, kept.mean_error, kept.used) == (alone.counts, alone.mean_error, alone.used)
    assert list(kept.picture_error) == ["scene one: plane ramp"]
    assert kept.sheets["gaudy"].shape == (16, 32)

    step = Animation(name="a", sheet="gaudy", play="loop", steps=(Step(frame="plain", ticks=5),))
    sprite = Sprite(name="s", animations=(step,), facings=(Facing(facing="right", flip=0),))
    shown = reduced(replace(project, sheets=(sheet,), sprites=(sprite,)))
    yellow = {tuple(colour) for colour in shown.palette[np.unique(shown.sheets["gaudy"][:, :16])].tolist()}
    assert yellow == {(250, 240, 20)}, "one frame in use has its colour, and the loud one took none"
    assert shown.picture_error["sheet gaudy"] == 0


def test_a_project_that_shows_nothing_yet_is_reduced_as_a_whole(project: Project) -> None:
    from scenekit.images.art import Art
    from scenekit.images.weights import seen_parts

    sheet = gaudy(project.folder)
    document = replace(project, scenes=(), sheets=(sheet,))
    art = Art(sheets={"gaudy": np.zeros((16, 32, 4), np.uint8)}, planes={}, maps={}, findings=())
    assert seen_parts(document, art) == (None,)


def test_fonts_icons_and_tiles_count_as_shown(project: Project) -> None:
    sheet = gaudy(project.folder)
    font = Font(name="f", sheet="gaudy", characters="A")
    assert frames_in_use(replace(project, sheets=(sheet,), fonts=(font,))) == {("gaudy", "plain")}
    lamps = Item(name="i", kind="picture", at=(0, 0), sheet="gaudy", lit="loud")
    panel = Panel(box=(0, 0, 32, 16), colour=(0, 0, 0), items=(lamps,))
    scene = replace(project.scenes[0], panel=panel)
    assert frames_in_use(replace(project, sheets=(sheet,), scenes=(scene,))) == {("gaudy", "loud")}
    tiled = replace(project.scenes[0], planes=(Plane(name="m", map="m.csv", sheet="gaudy"),))
    both = {("gaudy", "plain"), ("gaudy", "loud")}
    assert frames_in_use(replace(project, sheets=(sheet,), scenes=(tiled,))) == both
