"""Contact sheets show every pixel of every frame; animations are played in order, pivots in one place."""

from dataclasses import replace

import numpy as np
from small_scene import small_project

from scenekit.images.art import load_art
from scenekit.report.contact import (
    MIDDLE,
    Group,
    animation_steps,
    contact_sheet,
    cut_frame,
    played,
    sheet_groups,
)


def test_every_frame_is_in_the_sheet_pixel_by_pixel(tmp_path):
    project = small_project(tmp_path / "p")
    groups = sheet_groups(project, load_art(project).sheets)
    drawn = contact_sheet(groups, "small")
    for group in groups:
        for name, picture in group.pictures:
            scale = 4
            large = picture.repeat(scale, axis=0).repeat(scale, axis=1)
            solid = large[..., 3:] >= 128
            wanted = np.where(solid, large[..., :3], np.array(MIDDLE, np.uint8))
            assert found(drawn, wanted), name


def found(picture, part):
    """Say whether a part is somewhere in a picture."""
    h, w = part.shape[:2]
    for y, x in np.argwhere(
        (picture[: picture.shape[0] - h + 1, : picture.shape[1] - w + 1] == part[0, 0]).all(axis=2)
    ):
        if np.array_equal(picture[y : y + h, x : x + w], part):
            return True
    return False


def test_there_and_back_shows_the_ends_once(tmp_path):
    project = small_project(tmp_path / "p")
    cat = project.sprites[0]
    walk = replace(cat.animations[0], play="there-and-back")
    names = [step.frame for step in walk.steps]
    assert [step.frame for step in played(walk)] == names + names[-2:0:-1]


def test_steps_stand_on_their_pivots(tmp_path):
    project = small_project(tmp_path / "p")
    sheets, cat = load_art(project).sheets, project.sprites[0]
    for animation in cat.animations:
        steps = animation_steps(project, cat, animation, sheets)
        assert len({step.shape for step in steps}) == 1
        for step, frame in zip(steps, played(animation), strict=True):
            box = project.sheet(animation.sheet).frame(frame.frame)
            assert np.count_nonzero(step[..., 3]) == np.count_nonzero(
                cut_frame(sheets[animation.sheet], box)[..., 3]
            )


def test_very_many_frames_do_not_make_an_endless_picture():
    picture = np.full((200, 900, 4), 200, np.uint8)
    group = Group(title="many", pictures=tuple((f"f{n}", picture) for n in range(300)))
    assert contact_sheet((group,), "many").shape[0] <= 30_000
