"""Advice about whole scenes: what is promised is what the changed project gives."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from small_scene import small_project

from scenekit.advice.scene import Advice, advise
from scenekit.build import run_stages
from scenekit.costs.estimate import estimate
from scenekit.costs.worst import worst_case
from scenekit.errors import MachineError
from scenekit.model.planes import Band
from scenekit.model.project import Project
from scenekit.model.store import load, save

PRICES = """
[[costs]]
operation = "{operation}"
per_call_us = {call}
per_pixel_us = {pixel}
provenance = "estimated: for a test"
"""


def priced(folder: Path, call: float, pixel: float) -> Project:
    """Return the small project on a machine with prices."""
    from scenekit.machines.abilities import OPERATIONS

    project = small_project(folder)
    path = folder / "small.toml"
    text = path.read_text()
    words = ("plot", "move", "logic", "sound")
    for operation in OPERATIONS:
        if operation not in words and not (operation == "blit-flipped" and operation not in text):
            share = pixel if operation.startswith(("blit", "fill", "run")) else 0
            text += PRICES.format(operation=operation, call=call, pixel=share)
    path.write_text(text)
    return load(project.folder)


def figures(project: Project, target: str) -> tuple[float | None, tuple[int, ...]]:
    build = run_stages(project, target)
    line = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    worst = worst_case(build.project, build.scene, build.planner, build.machine, build.mode, line)
    return worst.work_ms, tuple(memory.used_bytes for memory in build.memory)


def promised(advice: Advice) -> tuple[float | None, tuple[int, ...]]:
    assert advice.after is not None
    return advice.after.worst.work_ms, tuple(used for _, used, _ in advice.after.memory)


def first_target(project: Project) -> str:
    return next(t.name for t in project.targets if t.machine == "small.toml" and t.dialect == "plain")


@pytest.mark.parametrize("memory_first", [False, True])
def test_applying_gives_the_promised_figures(tmp_path: Path, memory_first: bool) -> None:
    project = priced(tmp_path / "p", 20, 0.01)
    target = first_target(project)
    advice = advise(project, target, None, memory_first=memory_first)
    assert advice.project is not None
    save(advice.project)
    assert figures(load(project.folder), target) == promised(advice)
    assert advice.before.worst.work_ms is not None
    if not memory_first:
        assert promised(advice)[0] <= advice.before.worst.work_ms


def test_changes_are_not_looked_for_where_the_worst_picture_is_late(tmp_path: Path) -> None:
    """A scene that fits by far but for what looking for changes takes, and one that fits anyway."""
    project = priced(tmp_path / "p", 1, 0.0)
    target = first_target(project)
    path = project.folder / "small.toml"
    text = path.read_text().replace('"page"]', '"page", "move"]')
    text += PRICES.format(operation="move", call=1, pixel=0)
    path.write_text(text)
    changing = replace(project.target(target), redraw="changes")
    save(replace(project, targets=(changing,)))
    easy = advise(load(project.folder), target, None)
    assert easy.before.fits
    assert not any("changes" in change for change in easy.changes)
    seen = PRICES.format(operation="changes", call=1, pixel=0)
    assert seen in text
    path.write_text(text.replace(seen, seen.replace("per_call_us = 1\n", "per_call_us = 900000\n")))
    advice = advise(load(project.folder), target, None, slower=False, smaller=False, modes=False)
    assert not advice.before.fits
    assert advice.project is not None
    assert advice.project.targets[0].redraw == "everything"
    assert any("changes not looked for" in change for change in advice.changes)
    save(advice.project)
    assert figures(load(project.folder), target) == promised(advice)


@pytest.mark.parametrize(("keyed", "wanted"), [(50.0, "filled"), (0.001, "clear")])
def test_holes_of_the_rearmost_plane_are_weighed(tmp_path: Path, keyed: float, wanted: str) -> None:
    """Where copies with holes are dear, a filled plane spares them and the backdrop; else it does not."""
    project = priced(tmp_path / "p", 2, 0.0)
    path = project.folder / "small.toml"
    old = PRICES.format(operation="blit-keyed", call=2, pixel=0.0)
    assert old in path.read_text()
    path.write_text(path.read_text().replace(old, old.replace("_call_us = 2", f"_call_us = {keyed}")))
    scene = project.scenes[0]
    rear = replace(scene.planes[1], name="rear", wrap=(True, True), tile=(64, 64))
    scene = replace(scene, planes=(rear, *scene.planes[1:]), placed=())
    target = replace(project.target(first_target(project)), flips="stored")
    save(replace(project, scenes=(scene,), targets=(target,)))
    advice = advise(load(project.folder), target.name, None)
    assert advice.project is not None
    assert advice.project.targets[0].holes == wanted
    assert any("holes filled" in change for change in advice.changes) == (wanted == "filled")
    save(advice.project)
    assert figures(load(project.folder), target.name) == promised(advice)


def test_dear_calls_are_saved_by_larger_tiles(tmp_path: Path) -> None:
    project = priced(tmp_path / "p", 40, 0.0)
    advice = advise(project, first_target(project), None)
    assert advice.after is not None
    assert advice.after.worst.work_ms < advice.before.worst.work_ms
    assert any("tiles of" in change for change in advice.changes)


def test_fewer_pictures_come_last(tmp_path: Path) -> None:
    project = priced(tmp_path / "p", 500, 0.0)
    target = first_target(project)
    advice = advise(project, target, None)
    if advice.after is not None and "pictures a second" in advice.changes[0]:
        assert advice.project is not None
        assert advice.project.scenes[0].ticks_per_update > project.scenes[0].ticks_per_update
        assert "as it is: no tiles, holes, copies, redraw or encoding suffice" in advice.proof[0]
    kept = advise(project, target, None, slower=False, smaller=False, modes=False)
    assert kept.after is None
    assert len(kept.proof) == 1
    assert "must go" in kept.proof[0]


def test_a_proof_says_how_much_is_too_much(tmp_path: Path) -> None:
    project = priced(tmp_path / "p", 100_000, 0.0)
    advice = advise(project, first_target(project), None, smaller=False, modes=False)
    assert advice.after is None
    assert advice.project is None
    assert len(advice.proof) == 5 - project.scenes[0].ticks_per_update
    assert all("ms must go" in line for line in advice.proof)


def test_a_smaller_view_is_proposed_where_the_rate_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("scenekit.advice.settings.VIEW_STEP_PX", 4)
    monkeypatch.setattr("scenekit.advice.settings.SMALLEST_VIEW_PX", 8)
    project = priced(tmp_path / "p", 0.001, 0.5)
    target = first_target(project)
    whole, _ = figures(project, target)
    assert whole is not None
    path = project.folder / "small.toml"
    build = run_stages(project, target)
    allowed = float(build.mode.timing.period_ms) * build.scene.ticks_per_update
    # pixels dear enough that three quarters of the view fit, the whole does not
    dear = 0.5 * allowed / whole / 0.78
    path.write_text(path.read_text().replace("per_pixel_us = 0.5", f"per_pixel_us = {dear:.6f}"))
    project = load(project.folder)
    advice = advise(project, target, None, slower=False, modes=False)
    assert advice.project is not None
    assert "a view of" in advice.changes[0]
    assert advice.project.target(target).view is not None
    save(advice.project)
    assert figures(load(project.folder), target) == promised(advice)


def test_bands_stay_bands(tmp_path: Path) -> None:
    """What is applied is the document with its bands and shapes, not what they are worked out to."""
    project = priced(tmp_path / "p", 40, 0.0)
    picture = project.scenes[0].planes[0]
    bands = (Band(rows=(0, 3), ratio=(Fraction(1, 2), Fraction(1))),)
    plane = replace(picture, bands=bands, wrap=(picture.wrap[0], False))
    scene = replace(project.scenes[0], planes=(plane, *project.scenes[0].planes[1:]))
    project = replace(project, scenes=(scene,))
    advice = advise(project, first_target(project), None)
    assert advice.project is not None
    assert advice.project.scenes[0].planes[0].bands == bands
    assert [plane.name for plane in advice.project.scenes[0].planes] == [p.name for p in scene.planes]
    save(advice.project)
    assert figures(load(project.folder), first_target(project)) == promised(advice)


def test_too_small_a_memory_is_named(tmp_path: Path) -> None:
    project = priced(tmp_path / "p", 1, 0.0)
    path = project.folder / "small.toml"
    path.write_text(path.read_text().replace("capacity_bytes = 1048576", "capacity_bytes = 3000"))
    advice = advise(load(project.folder), first_target(project), None)
    assert advice.after is None
    assert "work lacks" in advice.proof[0]


def test_unknown_prices_are_refused(tmp_path: Path) -> None:
    project = small_project(tmp_path / "p")
    with pytest.raises(MachineError, match="no price is known"):
        advise(project, first_target(project), None)


def test_the_project_is_not_touched(tmp_path: Path) -> None:
    project = priced(tmp_path / "p", 40, 0.0)
    before = load(project.folder)
    advise(project, first_target(project), None)
    assert load(project.folder) == before
    assert replace(before) == project
