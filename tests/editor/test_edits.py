"""Pure edits of frames, planes and sprites."""

import pytest

from scenekit.errors import ProjectError
from scenekit.model import edits, frame_edits
from scenekit.model.project import Project


def frame_names(project: Project, sheet: str) -> list[str]:
    return [frame.name for frame in project.sheet(sheet).frames]


def test_renaming_reaches_animations(demo: Project):
    changed = frame_edits.rename_frames(demo, "trolley", {"ride-right-01": "go-01"})
    assert "go-01" in frame_names(changed, "trolley")
    steps = changed.sprite("lamplighter").animations[0].steps
    assert steps[0].frame == "go-01"
    edits.checked(changed)
    with pytest.raises(ProjectError, match="two frames would be named ride-right-02"):
        frame_edits.rename_frames(demo, "trolley", {"ride-right-01": "ride-right-02"})


def test_joining_keeps_the_pivot_in_its_place(demo: Project):
    sheet = demo.sheet("items")
    first, second = sheet.frames[:2]
    changed = frame_edits.merge_frames(demo, "items", [first.name, second.name])
    whole = changed.sheet("items").frame(first.name)
    assert whole is not None
    assert whole.box[0] + whole.pivot[0] == first.box[0] + first.pivot[0]
    assert whole.box[1] + whole.pivot[1] == first.box[1] + first.pivot[1]
    for part in (first, second):
        assert whole.box[0] <= part.box[0]
        assert part.box[0] + part.box[2] <= whole.box[0] + whole.box[2]
    assert second.name not in frame_names(changed, "items")


def test_parting_covers_the_old_box_exactly(demo: Project):
    name = demo.sheet("items").frames[0].name
    old = demo.sheet("items").frames[0].box
    changed = frame_edits.split_frame(demo, "items", name, 0, 3)
    near, far = (changed.sheet("items").frame(n) for n in (name, f"{name}-2"))
    assert near is not None
    assert far is not None
    assert near.box == (old[0], old[1], 3, old[3])
    assert far.box == (old[0] + 3, old[1], old[2] - 3, old[3])
    for at in (0, old[2]):
        with pytest.raises(ProjectError):
            frame_edits.split_frame(demo, "items", name, 0, at)


def test_what_is_in_use_stays(demo: Project):
    with pytest.raises(ProjectError, match="ride-right-01"):
        frame_edits.drop_frames(demo, "trolley", ["ride-right-01"])
    with pytest.raises(ProjectError, match="uses it"):
        edits.drop_sheet(demo, "trolley")
    with pytest.raises(ProjectError, match="stands on it"):
        edits.drop_plane(demo.scenes[0], "quay")
    with pytest.raises(ProjectError, match="ride"):
        edits.drop_animation(demo, "lamplighter", "ride")


def test_depth(demo: Project):
    scene = demo.scenes[0]
    names = [plane.name for plane in scene.planes]
    moved = edits.move_plane(scene, names[0], 2)
    assert [plane.name for plane in moved.planes] == [names[1], names[2], names[0], *names[3:]]
    assert edits.move_plane(moved, names[0], -5) == scene
    assert edits.move_plane(scene, names[-1], 99) == scene
