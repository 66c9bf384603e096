"""Planted faults: one thing is changed in the exported files, and the proof must fail and show where."""

import re
import shutil
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from small_scene import TICKS, small_project

from scenekit.build import BuildOptions, run_stages
from scenekit.export import write_export
from scenekit.verify.prove import prove

VIEW_GAP_PX = 4

# (table, place, what is added to the value there)
TABLE_FAULTS = {
    "a palette entry's red": ("red", 2, -40),
    "a palette entry's green": ("green", 251, 16),
    "a palette entry's blue": ("blue", 4, -30),
    "a colour after an event": ("red", -1, -60),
    "drawing order": ("order", 1, -2),
    "a plane stops repeating along x": ("wrap_x", 1, -1),
    "a plane stops repeating along y": ("wrap_y", 0, -1),
    "a plane begins to repeat": ("wrap_x", 2, 1),
    "ratio numerator along x": ("ratio_x", 1, 1),
    "ratio numerator along y": ("ratio_y", 0, -1),
    "ratio denominator": ("ratio_parts_x", 0, 1),
    "drift parts added": ("drift_step_x", 0, 1),
    "drift parts": ("drift_parts_y", 0, 1),
    "drift of whole pixels": ("drift_y", 0, 1),
    "scroll at the start along x": ("plane_start_x", 1, 1),
    "scroll at the start along y": ("plane_start_y", 2, -1),
    "parts of the scroll at the start": ("plane_start_part_x", 1, -1),
    "flip bit of a cell": ("map_cell", 1, 1),
    "flip bit of a cell, top to bottom": ("map_cell", 7, 2),
    "tile of a cell": ("map_cell", 3, 4),
    "a cell left out": ("map_cell", 0, -1),
    "first cell of a map": ("map_first", 1, 1),
    "columns of a map": ("plane_columns", 1, -1),
    "rows of a map": ("plane_rows", 0, -1),
    "width of a plane": ("plane_w", 0, -1),
    "width of a cell": ("tile_w", 0, -1),
    "height of the last row": ("last_h", 0, -1),
    "width of the last column": ("last_w", 1, 1),
    "flip bit of a frame": ("frame_cell", 0, 1),
    "piece of a frame": ("frame_cell", 2, 4),
    "left edge from the pivot": ("frame_x", 0, 1),
    "top edge from the pivot": ("frame_y", 2, -1),
    "frame of a step": ("step_frame", 1, 1),
    "ticks of a step": ("step_ticks", 0, 1),
    "flip of a step": ("step_flip", 0, 1),
    "first step of an animation": ("animation_first", 1, 1),
    "steps of an animation": ("animation_count", 0, -1),
    "an animation that begins again": ("animation_again", 2, 1),
    "flip of a facing": ("look", 1, -1),
    "own art of a facing": ("look", 5, -4),
    "start place along x": ("start_x", 1, 1),
    "start place along y": ("start_y", 3, -1),
    "what comes after a path": ("path_repeat", 1, -1),
    "segments of a path": ("path_count", 1, -1),
    "ticks of a segment": ("segment_ticks", 0, 1),
    "speed of a segment": ("segment_x", 2, 1),
    "parts of a speed": ("segment_part_x", 0, 1),
    "animation of a segment": ("segment_does", 4, -1),
    "facing of a segment": ("segment_face", 5, -1),
    "ticks of a cycle": ("cycle_ticks", 0, 1),
    "way of a cycle": ("cycle_back", 0, 1),
    "turns of a cycle": ("cycle_period", 0, -1),
    "colours of a cycle": ("cycle_count", 0, -1),
    "tick of an event": ("event_tick", 0, 3),
    "steps of an event": ("event_steps", 0, -1),
    "ticks between steps of an event": ("event_wait", 0, 1),
    "entry of an event": ("event_entry", 0, 2),
    "plane that carries a sprite": ("actor_plane", 0, -2),
    "animation at the start": ("start_does", 1, -1),
    "facing at the start": ("start_face", 2, -1),
}

# what stands in the program, and what is put in its place, for neutral words and for BASIC
LINE_FAULTS = {
    "a sign in front of the pivot": (r"x = x \+ sk_frame_x\(n\)", "x = x - sk_frame_x(n)"),
    "one off in a mirrored place": (r"(x - sk_frame_x\(n\) - sk_piece_w\(p\)) \+ 1", r"\1 + 2"),
    "a sign of the camera": (r"do sk_camera_by\(sk_mover_x\(0\) - x,", "do sk_camera_by(x - sk_mover_x(0),"),
    "a flip that is not handed on": (r"(do sk_draw_frame\(.*), ?sk_pose_flip\)", r"\1,0)"),
    "a drift that is left out": (r"do sk_drift\(i\)", "' nothing"),
    "a tick too few": (r"while sk_tick < s", "while sk_tick < s - 1"),
    "an event one tick late": (r"sk_tick >= sk_event_next\(i\)", "sk_tick > sk_event_next(i)"),
    "a palette that is not written": (r"do sk_show_palette", "' nothing"),
    "a cycle that turns back": (r"(j \+ sk_cycle_count\(i\)) - (sk_cycle_shift)", r"\1 + \2"),
    "a piece cut on the wrong side": (r"if f mod 2 = 0\n(\s+left = left - x)", r"if f mod 2 = 1\n\1"),
    "an animation that does not begin anew": (
        r"sk_actor_step\(i\) = 0\n(\s+sk_actor_left\(i\) = sk_step_ticks\(sk_animation_first)",
        r"sk_actor_step(i) = sk_actor_step(i)\n\1",
    ),
}


@pytest.fixture(scope="module")
def builds(tmp_path_factory):
    """Return the small project's builds by target, with their exported folders."""
    folder = tmp_path_factory.mktemp("faults")
    project = small_project(folder / "project")
    made = {}
    for target in ("board", "colour", "sixteen"):
        build = run_stages(project, target, options=BuildOptions(play=True))
        write_export(folder / target, build.files)
        made[target] = build, folder / target
    return made


def copy(builds, target, tmp_path):
    build, exported = builds[target]
    return build, Path(shutil.copytree(exported, tmp_path / "exported"))


def change_table(path: Path, table: str, place: int, add: int) -> None:
    """Add to one value of a table's DATA lines."""
    lines = path.read_text().split("\n")
    start = next(n for n, line in enumerate(lines) if re.match(rf"('|REM) {table}(:|$)", line))
    end = start + 1
    while lines[end].lower().startswith("data "):
        end += 1
    values = [int(item) for line in lines[start + 1 : end] for item in line[5:].split(",")]
    values[place] += add
    data = [f"{lines[start + 1][:5]}{value}" for value in values]
    path.write_text("\n".join([*lines[: start + 1], *data, *lines[end:]]), newline="\n")


def must_fail(build, exported, pictures):
    """The proof fails, and every differing screen has a picture that shows as many differing pixels."""
    proof = prove(build, TICKS, exported=exported, pictures=pictures, time_limit_s=20)
    assert not proof.passed
    wrong = [result for result in proof.ticks if result.different]
    assert wrong, "the fault shows on no screen"
    assert len(proof.pictures) == len(wrong)
    for name, result in zip(proof.pictures, wrong, strict=True):
        with Image.open(pictures / name) as image:
            pixels = np.asarray(image.convert("RGB"))
        width, height = build.size
        assert pixels.shape == (height, 3 * width + 2 * VIEW_GAP_PX, 3)
        wanted, got = pixels[:, :width], pixels[:, width + VIEW_GAP_PX : 2 * width + VIEW_GAP_PX]
        assert int((wanted != got).any(axis=-1).sum()) == result.different
        x, y, w, h = result.box
        inside = (wanted != got).any(axis=-1)[y : y + h, x : x + w]
        assert inside.sum() == result.different
        assert inside.any(axis=0)[[0, -1]].all()
        assert inside.any(axis=1)[[0, -1]].all()


def test_without_a_fault_everything_is_proved(builds, tmp_path, interpreter):
    for target, (build, exported) in builds.items():
        interpreter(build.dialect.name)
        proof = prove(build, TICKS, exported=exported, pictures=tmp_path / target)
        assert proof.passed, target
        assert not (tmp_path / target).exists()


@pytest.mark.parametrize("fault", TABLE_FAULTS)
def test_a_fault_in_a_table_shows_in_the_executor(builds, tmp_path, fault):
    build, exported = copy(builds, "board", tmp_path)
    change_table(exported / build.play_file, *TABLE_FAULTS[fault])
    must_fail(build, exported, tmp_path / "pictures")


@pytest.mark.parametrize("fault", LINE_FAULTS)
def test_a_fault_in_a_line_shows_in_the_executor(builds, tmp_path, fault):
    build, exported = copy(builds, "board", tmp_path)
    path = exported / build.play_file
    pattern, other = LINE_FAULTS[fault]
    text, count = re.subn(pattern, other, path.read_text())
    assert count >= 1, "the line is not in the program"
    path.write_text(text, newline="\n")
    must_fail(build, exported, tmp_path / "pictures")


@pytest.mark.parametrize("fault", list(TABLE_FAULTS)[::4])
def test_a_fault_in_a_table_shows_in_an_interpreter(builds, tmp_path, interpreter, fault):
    interpreter("brandy")
    table, place, add = TABLE_FAULTS[fault]
    build, exported = copy(builds, "colour", tmp_path)
    change_table(exported / build.play_file, table, place, add)
    must_fail(build, exported, tmp_path / "pictures")


@pytest.mark.parametrize("target", ["board", "colour", "sixteen"])
def test_one_pixel_of_the_art_shows(builds, tmp_path, interpreter, target):
    build, exported = copy(builds, target, tmp_path)
    interpreter(build.dialect.name)
    path = exported / build.art_file
    if path.suffix == ".raw":
        data = bytearray(path.read_bytes())
        data[5] = 1 if data[5] != 1 else 2
        path.write_bytes(bytes(data))
    else:
        with Image.open(path) as image:
            image.load()
            x, y = build.pieces.places[0]
            image.putpixel((x + 5, y), 1 if image.getpixel((x + 5, y)) != 1 else 2)
            image.save(path)
    must_fail(build, exported, tmp_path / "pictures")


def test_a_wrong_value_that_no_screen_shows_fails_too(builds, tmp_path):
    build, exported = copy(builds, "board", tmp_path)
    change_table(exported / build.play_file, "pivot_x", 3, 1)
    proof = prove(build, TICKS, exported=exported, pictures=tmp_path / "pictures")
    assert proof.different == 1
    assert not proof.passed
    assert not proof.pictures


def test_a_wrong_count_fails_too(tmp_path):
    build = run_stages(small_project(tmp_path / "p"), "board", options=BuildOptions(play=True, counting=True))
    write_export(tmp_path / "exported", build.files)
    path = tmp_path / "exported" / build.play_file
    text, count = re.subn(r"(sk_pixels_blit_keyed \+ wide \* high)", r"\1 + 1", path.read_text())
    assert count == 1
    path.write_text(text, newline="\n")
    proof = prove(build, TICKS, exported=tmp_path / "exported")
    assert not proof.passed
    assert proof.counts_different == len(TICKS)
    assert proof.different == 0
    assert all(result.different == 0 for result in proof.ticks)


def test_missing_and_surplus_values_count_as_different(builds, tmp_path):
    build, exported = copy(builds, "board", tmp_path)
    path = exported / build.play_file
    text = path.read_text()
    path.write_text(text.replace("say sk_tick\n", "say sk_tick\n  say 0\n"), newline="\n")
    assert prove(build, TICKS, exported=exported).different > 0
    path.write_text(text.replace("say sk_tick\n", ""), newline="\n")
    assert prove(build, TICKS, exported=exported).different > 0
