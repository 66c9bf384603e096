"""Scene files: what a plane's cadence may be."""

import tomllib

import pytest

from scenekit.errors import ProjectError
from scenekit.model.scene import read_scene
from scenekit.model.scene_text import scene_text

TEXT = """format = 1
[[planes]]
name = "hills"
picture = "hills.png"
cadence = {cadence}
"""


def test_a_cadence_is_read_and_written() -> None:
    scene = read_scene(tomllib.loads(TEXT.format(cadence="[4, 1]")), "quay")
    assert scene.planes[0].cadence == (4, 1)
    assert "cadence = [4, 1]" in scene_text(scene)
    assert read_scene(tomllib.loads(scene_text(scene)), "quay") == scene
    smooth = read_scene(tomllib.loads(TEXT.format(cadence="[1, 0]")), "quay")
    assert "cadence" not in scene_text(smooth)


@pytest.mark.parametrize(
    "cadence", ["[0, 0]", "[4, 4]", "[-1, 0]", "[241, 0]", "[4]", "4", '["4", 1]', "[4.5, 1]"]
)
def test_a_bad_cadence_is_refused_in_a_line(cadence: str) -> None:
    with pytest.raises(ProjectError, match=r"scenes/quay\.toml: .*cadence: got .*; must be .*") as caught:
        read_scene(tomllib.loads(TEXT.format(cadence=cadence)), "quay")
    assert "\n" not in str(caught.value)


def test_a_camera_does_not_go_after_a_sprite_on_a_held_plane() -> None:
    placed = """[camera]
keeps = "cat1"
zone = [0, 0, 10, 10]
[[placed]]
name = "cat1"
sprite = "cat"
at = [0, 0]
over = "hills"
"""
    assert read_scene(tomllib.loads(TEXT.format(cadence="[1, 0]") + placed), "quay").camera.keeps == "cat1"
    with pytest.raises(ProjectError, match="is not held"):
        read_scene(tomllib.loads(TEXT.format(cadence="[2, 0]") + placed), "quay")
