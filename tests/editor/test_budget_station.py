"""Budget: switches act at once and go back; the game's worst case; advice is taken and undone."""

from dataclasses import replace
from pathlib import Path

import pytest

from scenekit.build import run_stages
from scenekit.costs.estimate import estimate
from scenekit.editor.history import Edit
from scenekit.editor.ruler import has_names
from scenekit.editor.whatif import Figures, memory_steps, read_view
from scenekit.errors import ProjectError
from scenekit.model.edits import put_scene, put_target
from scenekit.model.store import load, save


def settled(hand) -> None:
    hand.frame(3)
    hand.window.desk.session.products.wait()
    hand.frame(4)


def station(hand):
    desk = hand.window.desk
    desk.session.station = "budget"
    settled(hand)
    return desk


def worst(project, target: str | None = None) -> float | None:
    build = run_stages(project, target)
    line = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    return line.worst_ms


def test_a_switch_acts_at_once_and_goes_back(hand):
    desk = station(hand)
    session = desk.session
    first = session.document
    hand.click("what-if:flips:stored")
    settled(hand)
    assert session.target.flips == "stored"
    assert session.products.now.budget.worst_ms == worst(session.document)
    assert desk.local["was"].figures.worst_ms == worst(first)
    assert session.history.undo_label == "what if: flips"
    hand.click("what-if:ticks:2")
    settled(hand)
    assert session.scene.ticks_per_update == 2
    hand.click("what-if:back")
    settled(hand)
    assert session.document == first
    session.undo()
    assert session.scene.ticks_per_update == 2
    settled(hand)
    hand.click("what-if:keep")
    settled(hand)
    assert "what-if:back" not in desk.ui.marks
    assert desk.local["was"].ticks == 2


def test_a_view_is_typed(hand):
    desk = station(hand)
    hand.type("what-if:view", "0, 20+4, 320, 160")
    assert desk.session.target.view == (0, 24, 320, 160)
    settled(hand)
    assert desk.session.products.now.error == ""
    hand.type("what-if:view", "0, 0, 9999, 10")
    settled(hand)
    assert "leaves the screen" in desk.session.products.now.error
    assert "what-if:back" in desk.ui.marks


@pytest.mark.parametrize("text", ["1, 2, 3", "1, 2, 0, 4", "a, b, c, d"])
def test_what_is_no_view(text: str):
    with pytest.raises(ProjectError):
        read_view(text)


def test_no_view_is_the_whole_screen():
    assert read_view(" ") == (0, 0, 0, 0)


def test_memory_is_compared():
    old = Figures(worst_ms=1.0, holds=True, memory=(("video", 4096), ("work", 10)))
    new = Figures(worst_ms=1.0, holds=True, memory=(("video", 2048), ("work", 10)))
    assert memory_steps(old, new) == [
        ("video", "2048 bytes, 2048 bytes less"),
        ("work", "10 bytes, as before"),
    ]


def test_stored_flips_need_more_art_and_draw_the_same(copied_demo: Path):
    project = load(copied_demo)
    other = put_target(project, replace(project.targets[0], flips="stored"))
    save(other)
    assert load(copied_demo) == other
    plain, stored = run_stages(project), run_stages(other)
    assert stored.abilities.flips == {0}
    assert plain.abilities.flips != {0}
    assert sum(m.used_bytes for m in stored.memory) > sum(m.used_bytes for m in plain.memory)
    for tick in (0, 160, 500):
        assert (plain.picture(tick) == stored.picture(tick)).all()


def test_the_games_worst_case_is_reckoned(hand):
    desk = station(hand)
    product = desk.product
    assert product.worst.work_ms >= product.budget.worst_ms - 1e-9


def test_advice_is_taken_in_one_step_and_undone(hand):
    desk = station(hand)
    session = desk.session
    first = session.document
    hand.frame(2)
    while "advice:ask" not in desk.ui.marks or desk.ui.marks["advice:ask"][1] > 700:
        scroll(hand)
    hand.click("advice:ask")
    desk.local["advice"].thread.join(300)
    hand.frame(3)
    advice = desk.local["advice"].advice
    assert advice is not None, desk.local["advice"].error
    assert advice.changes
    while desk.ui.marks["advice:take"][1] > 740:
        scroll(hand)
    hand.click("advice:take")
    settled(hand)
    assert session.document != first
    product = session.products.now
    assert product.worst.work_ms == advice.after.worst.work_ms
    assert tuple(m.used_bytes for m in product.build.memory) == tuple(
        used for _, used, _ in advice.after.memory
    )
    session.undo()
    assert session.document is first


def scroll(hand) -> None:
    import pygame

    hand.post(pygame.MOUSEMOTION, pos=(400, 500), rel=(0, 0), buttons=(0, 0, 0))
    hand.frame(1)
    hand.post(pygame.MOUSEWHEEL, x=0, y=-1)
    hand.frame(3)


def test_what_has_no_name_beside_the_ruler_is_listed_below(hand):
    desk = hand.window.desk
    session = desk.session
    session.station = "budget"
    settled(hand)
    assert has_names(desk), "one refresh: names stand beside it"
    scene = session.scene
    slow = replace(scene, planes=tuple(replace(plane, tile=(4, 4)) for plane in scene.planes))
    session.apply(Edit(document=put_scene(session.document, slow), label="small tiles"))
    settled(hand)
    assert desk.local["ruler-rested"][-1].end_ms > 2 * float(desk.product.mode.timing.period_ms)
    assert not has_names(desk), "three refreshes leave no room for them"
    session.undo()
    settled(hand)
    assert has_names(desk)
