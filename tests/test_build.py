"""A build: every stage in order, equal bytes on every run, and clear words for what cannot be built."""

import hashlib
import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from random_scenes import random_project
from small_scene import small_project

from scenekit.build import STAGES, BuildOptions, encode_bundle, run_stages
from scenekit.errors import SceneKitError, UnknownNameError
from scenekit.model.panel import Panel
from scenekit.model.project import Project
from scenekit.model.scene import Plane
from scenekit.model.sprites import Frame, Sheet
from scenekit.model.target import Target

TARGETS = ("board", "colour", "sixteen", "tables")
PLAYING = BuildOptions(play=True)
TESTS = Path(__file__).parent


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    return small_project(tmp_path_factory.mktemp("build") / "p")


def with_target(project, **changes):
    target = replace(project.targets[0], **changes)
    return replace(project, targets=(target, *project.targets[1:]))


def refused(project, words, target="board", **options):
    with pytest.raises(SceneKitError) as caught:
        run_stages(project, target, options=BuildOptions(**options))
    text = str(caught.value)
    assert text.isprintable()
    for word in words:
        assert word in text, text


def test_stages_run_in_order_and_tell_their_progress(project):
    told = []
    run_stages(project, "board", progress=lambda *args: told.append(args))
    names = [name for name, _ in STAGES]
    assert told == [(name, number, len(names)) for number, name in enumerate(names)]
    order = ("target", "art", "colours", "pieces", "plan", "tables", "programs")
    assert [name for name in names if name in order] == list(order)


def test_stages_can_end_early(project):
    build = run_stages(project, "board", last="colours")
    assert build.reduced is not None
    assert build.pieces is None
    assert build.files == {}


def test_the_first_target_and_scene_are_the_default(project):
    build = run_stages(project)
    assert (build.target.name, build.scene.name) == ("board", "yard")


@pytest.mark.parametrize("target", TARGETS)
def test_two_builds_give_the_same_bytes(project, target):
    for options in (PLAYING, BuildOptions(), BuildOptions(play=True, counting=True)):
        first, second = (run_stages(project, target, options=options).files for _ in range(2))
        assert first == second
        assert list(first) == list(second)


def test_what_is_shared_between_builds_changes_nothing(project):
    first = run_stages(project, "board", options=PLAYING)
    again = run_stages(project, "board", options=PLAYING, shared=first)
    assert again.files == first.files
    other = run_stages(project, "sixteen", options=PLAYING, shared=first)
    assert other.files == run_stages(project, "sixteen", options=PLAYING).files


DIGEST_SCRIPT = """
import hashlib, json, sys
from pathlib import Path
from scenekit.build import BuildOptions, run_stages
from scenekit.model.store import load
project = load(Path(sys.argv[1]))
found, options = {}, BuildOptions(play=True, counting=True)
for target in sys.argv[2:]:
    for name, data in run_stages(project, target, options=options).files.items():
        found[f"{target}/{name}"] = hashlib.sha256(data).hexdigest()
print(json.dumps(found))
"""


def test_bytes_do_not_hang_on_the_hash_seed(project, tmp_path):
    found = []
    for seed in ("1", "4242"):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(TESTS.parent)}
        command = [sys.executable, "-c", DIGEST_SCRIPT, str(project.folder), *TARGETS]
        done = subprocess.run(
            command, env=environment, cwd=tmp_path, capture_output=True, text=True, check=True
        )
        found.append(json.loads(done.stdout))
    assert found[0] == found[1]
    own = {}
    for target in TARGETS:
        files = run_stages(project, target, options=BuildOptions(play=True, counting=True)).files
        own |= {f"{target}/{name}": hashlib.sha256(data).hexdigest() for name, data in files.items()}
    assert found[0] == own


@pytest.mark.parametrize("target", ["board", "brandy-16"])
def test_the_demo_builds_the_same_twice(demo, target):
    first = run_stages(demo, target, options=PLAYING)
    assert first.files == run_stages(demo, target, options=PLAYING).files
    assert [finding for finding in first.findings if finding.level == "error"] == []


@pytest.mark.parametrize("target", TARGETS)
def test_the_library_holds_no_main_part_and_the_player_holds_the_library(project, target):
    build = run_stages(project, target, options=PLAYING)
    library = build.files[build.program_file].decode("ascii")
    assert build.program_file != build.play_file
    assert "stops" not in library
    assert build.play_file not in run_stages(project, target).files
    assert build.files[build.program_file] == run_stages(project, target).files[build.program_file]


def test_the_prefix_and_the_first_line_are_the_users(project):
    build = run_stages(project, "colour", options=BuildOptions(prefix="q_", play=True))
    text = build.files[build.play_file].decode("ascii")
    assert "PROCq_step" in text
    assert "sk_" not in text
    build = run_stages(project, "tables", options=BuildOptions(first_line=3000))
    assert build.files[build.program_file].startswith(b"3000 ")


@pytest.mark.parametrize("seed", range(4))
def test_random_projects_build_the_same_twice(tmp_path, seed):
    project = random_project(tmp_path / "p", 9000 + seed)
    for target in ("small", "colour", "tables"):
        first, second = (run_stages(project, target, options=PLAYING).files for _ in range(2))
        assert first == second


def test_art_that_fits_keeps_its_exact_colours(project):
    build = run_stages(project, "board", last="colours")
    assert build.reduced.mean_error == 0
    assert build.reduced.used <= 14


def test_unknown_names(project):
    with pytest.raises(UnknownNameError, match="did you mean 'board'"):
        run_stages(project, "bord")
    with pytest.raises(UnknownNameError, match="did you mean 'yard'"):
        run_stages(project, "board", "yrad")
    refused(with_target(project, machine="indexed-bord"), ["did you mean 'indexed-board'"])
    refused(with_target(project, mode="yard"), ["yard"])
    refused(with_target(project, dialect="plian"), ["did you mean 'plain'"])
    refused(with_target(project, machine="../small.toml"), ["leads outside the project folder"])
    refused(with_target(project, machine="none.toml"), ["none.toml"])
    refused(with_target(project, dialect="none.toml"), ["none.toml"])


def test_a_project_without_targets_or_scenes(project):
    refused(replace(project, targets=()), ["no target yet"], target=None)
    refused(replace(project, scenes=()), ["no scene yet"])


def test_views_and_panels_stay_on_the_screen(project):
    refused(with_target(project, view=(40, 0, 16, 16)), ["view", "leaves the screen of 48 x 32"])
    panel = Panel(box=(0, 20, 60, 12))
    scene = replace(project.scenes[0], panel=panel)
    refused(replace(project, scenes=(scene,)), ["panel", "leaves the screen"])
    scene = replace(scene, panel=replace(panel, box=(0, 20, 48, 12)))
    refused(replace(project, scenes=(scene,)), ["panel", "lies over the view"])


def test_the_whole_screen_as_a_view_is_fine(project):
    assert run_stages(with_target(project, view=(0, 0, 48, 32)), "board").files


def test_entries_that_do_not_suffice(project):
    refused(with_target(project, colours=7), ["palette", "leave no entry of 7"])
    refused(with_target(project, mode="yard-16", transparent=16), ["transparent", "must be 0 to 15"])


def test_a_frame_that_leaves_its_sheet(project):
    frame = Frame(name="far", box=(30, 0, 11, 9), pivot=(0, 0))
    sheet = replace(project.sheets[0], frames=(*project.sheets[0].frames, frame))
    refused(replace(project, sheets=(sheet,)), ["cats", "far", "leaves the picture", "40 x 9"])


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("0,1\n0\n", "equally long"),
        ("", "at least one"),
        ("0,x\n", "row 1, column 2"),
        ("0,1\n7,0\n", "row 2, column 1: got 7"),
        ("-2\n", "row 1, column 1"),
        ("0vh\n", "row 1, column 1"),
        ("9999999\n", "row 1, column 1"),
    ],
)
def test_bad_maps(tmp_path, text, words):
    project = small_project(tmp_path / "p")
    (project.folder / "map.csv").write_text(text)
    plane = Plane(name="floor", map="map.csv", sheet="cats")
    scene = replace(project.scenes[0], planes=(*project.scenes[0].planes, plane))
    refused(replace(project, scenes=(scene,)), ["floor", words])


def test_a_map_larger_than_any_memory_is_refused(tmp_path):
    project = small_project(tmp_path / "p")
    (project.folder / "map.csv").write_text(("0," * 449 + "0\n") * 400)
    whole = Sheet(name="whole", file="cat.png", frames=(Frame(name="all", box=(0, 0, 40, 9), pivot=(0, 0)),))
    plane = Plane(name="floor", map="map.csv", sheet="whole")
    scene = replace(project.scenes[0], planes=(*project.scenes[0].planes, plane))
    refused(replace(project, sheets=(*project.sheets, whole), scenes=(scene,)), ["floor", "pixels"])


def test_missing_and_broken_art(tmp_path):
    project = small_project(tmp_path / "p")
    (project.folder / "wall.png").write_bytes(b"\x89PNG\r\n\x1a\n broken")
    refused(project, ["wall.png"])
    (project.folder / "wall.png").unlink()
    refused(project, ["wall.png"])


def test_soft_edges_are_a_finding_and_not_a_refusal(tmp_path):
    from PIL import Image

    project = small_project(tmp_path / "p")
    with Image.open(project.folder / "sign.png") as image:
        image.putpixel((0, 0), (230, 230, 240, 127))
        image.putpixel((1, 0), (230, 230, 240, 128))
        image.save(project.folder / "sign.png")
    build = run_stages(project, "board", last="colours")
    codes = [(finding.level, finding.code) for finding in build.findings]
    assert ("warning", "soft-alpha") in codes
    sign = build.reduced.planes["yard", "sign"]
    assert sign[0, 0] == build.reduced.transparent
    assert sign[0, 1] != build.reduced.transparent


def test_an_empty_scene_of_one_clear_plane(tmp_path):
    from PIL import Image

    project = small_project(tmp_path / "p")
    Image.new("RGBA", (20, 14), (0, 0, 0, 0)).save(project.folder / "wall.png")
    scene = replace(project.scenes[0], planes=project.scenes[0].planes[:1], placed=(), events=())
    bare = Project(
        folder=project.folder,
        name="bare",
        targets=(
            *project.targets[:1],
            Target(name="b", machine="small.toml", mode="yard-16", dialect="brandy"),
        ),
        scenes=(scene,),
    )
    from scenekit.render.scene import render
    from scenekit.verify.prove import can_run, prove

    build = run_stages(bare, "board", options=PLAYING)
    assert prove(build, (0, 5)).passed
    assert (render(bare, build.scene, build.reduced, build.size, 0) == np.array(scene.backdrop)).all()
    build = run_stages(bare, "b", options=PLAYING)
    if can_run(build):
        assert prove(build, (0, 5)).passed


@pytest.mark.parametrize(("slower", "packed"), [(1, True), (20_000, False)])
def test_tables_that_take_too_long_to_unpack_stay_plain(demo, slower, packed):
    build = run_stages(demo, "brandy-colour", last="tables")
    prices = tuple(replace(cost, per_call_us=cost.per_call_us * slower) for cost in build.machine.prices)
    build.machine = replace(build.machine, prices=prices)
    encode_bundle(build)
    assert (build.packed is not None) == packed
    notes = [f for f in build.findings if f.code == "plain-tables"]
    assert len(notes) == (0 if packed else 1)
    build.target = replace(build.target, encode="always")
    encode_bundle(build)
    assert build.packed is not None
