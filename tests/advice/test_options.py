"""Separate choices: what each promises against a build of it; copies and encodings proved to draw."""

from dataclasses import replace
from pathlib import Path

import pytest
from random_scenes import random_project

from scenekit.advice.options import build_as, ways_of
from scenekit.advice.scene import outcome_of
from scenekit.advice.settings import settings_of, smaller_views
from scenekit.build import Build, BuildOptions, run_stages
from scenekit.model.project import Project
from scenekit.model.store import load, save
from scenekit.verify.prove import prove


@pytest.fixture(scope="module")
def board(demo: Project) -> Build:
    return run_stages(demo, "board")


def test_each_way_keeps_its_promise(demo: Project, board: Build) -> None:
    """A way alone changes memory by what it says, and the worst picture by no more than its largest gain."""
    before = outcome_of(board)
    groups = ways_of(board, demo)
    assert len(groups) == len(demo.scene("quay").planes) + 2
    assert [group[0].words for group in groups] == [""] * len(groups)
    for way in (group[-1] for group in groups):
        after = outcome_of(build_as(board, demo, *way.apply(board.target, demo.scene("quay"))))
        for new, old, promised in zip(after.memory, before.memory, way.option.memory, strict=True):
            assert new[1] - old[1] == promised
    words = [way.words for group in groups for way in group]
    assert "mirrored art stored as copies" in words
    assert "all tables encoded" in words or "no table encoded" in words


def test_what_is_given_up_comes_in_order(demo: Project, board: Build) -> None:
    words = [setting.words for setting in settings_of(board, demo)]
    assert words[0] == ""
    kinds = ["a picture" in w or "pictures" in w for w in words[1:4]]
    assert kinds == [True, True, True]
    assert words[4].startswith("a view of 280 x 152 px")
    assert [s.words for s in settings_of(board, demo, slower=False, smaller=False, modes=False)] == [""]


def test_smaller_views_keep_the_middle(board: Build) -> None:
    x, y, w, h = board.view
    for view in smaller_views(board):
        assert view[2] % 8 == view[3] % 8 == 0
        assert abs((view[0] + view[2] / 2) - (x + w / 2)) <= 0.5
        assert abs((view[1] + view[3] / 2) - (y + h / 2)) <= 0.5


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("encode", ["always", "never"])
def test_stored_copies_draw_the_same(tmp_path: Path, seed: int, encode: str) -> None:
    project = random_project(tmp_path / "p", seed)
    target = replace(project.target("small"), flips="stored", encode=encode)
    save(replace(project, targets=(target,)))
    again = load(project.folder)
    assert (again.targets[0].flips, again.targets[0].encode) == ("stored", encode)
    build = run_stages(again, "small", options=BuildOptions(play=True, counting=True))
    if encode == "never":
        assert build.packed is None
    proof = prove(build, (0, 1, 7, 23))
    assert (proof.different, proof.counts_different) == (0, 0)
    assert proof.passed


def test_stored_copies_are_never_mirrored(demo: Project) -> None:
    target = replace(demo.target("board"), flips="stored")
    build = run_stages(replace(demo, targets=(target,)), "board")
    plain = run_stages(demo, "board")
    assert len(build.pieces.turned) > len(plain.pieces.turned)
    for tick in range(0, 740, 20):
        sprites = {p.name for p in build.scene.placed} - {place.item.name for place in build.planner.places}
        flipped = [w for w in build.planner.plan(tick) if w.operation == "blit-flipped" and w.name in sprites]
        assert flipped == []
