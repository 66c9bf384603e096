"""History, arithmetic, playing, recovery and the session, all without a window."""

import random
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from scenekit.editor import recovery
from scenekit.editor.arithmetic import evaluate, whole
from scenekit.editor.history import Edit, History
from scenekit.editor.playing import Playing
from scenekit.editor.products import art_key, colours_key
from scenekit.editor.session import Session, open_session
from scenekit.errors import ProjectError, SceneKitError
from scenekit.model import edits, frame_edits
from scenekit.model.project import Project
from scenekit.model.project_text import project_text
from scenekit.model.scene_text import scene_text
from scenekit.model.store import load


class Clock:
    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def session(copied_demo: Path, clock: Clock) -> Session:
    return open_session(copied_demo, clock)


def texts(project: Project) -> str:
    return project_text(project) + "".join(scene_text(scene) for scene in project.scenes)


def renamed(project: Project, name: str) -> Project:
    return replace(project, name=name)


def test_session_knows_no_window():
    code = (
        "import sys, scenekit.editor.session; sys.exit('pygame' in sys.modules or 'slimgui' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("16*3", 48),
        ("1/8", Fraction(1, 8)),
        ("(320-64)/2", 128),
        ("-3/4", Fraction(-3, 4)),
        ("0.5", Fraction(1, 2)),
        ("2 s", 140),
        ("1.5s + 10 ticks", 115),
        ("--2", 2),
        ("2*(3+4)*5", 70),
    ],
)
def test_sums(text: str, value: Fraction):
    assert evaluate(text, {"s": Fraction(70), "ticks": Fraction(1)}) == value


@pytest.mark.parametrize(
    "text", ["", "x", "1/0", "1+", "(1", "1)", "2 km", "9" * 70, "1 2", "**", "()", "1e9"]
)
def test_what_is_no_sum(text: str):
    with pytest.raises(ProjectError) as caught:
        evaluate(text, {"s": Fraction(70)})
    assert "\n" not in str(caught.value)


def test_whole_numbers_in_a_range():
    assert whole("6*2", 1, 12) == 12
    for text in ("13", "0", "1/3"):
        with pytest.raises(ProjectError):
            whole(text, 1, 12)


def test_edits_of_one_gesture_are_one_step(demo: Project, clock: Clock):
    history = History(demo, clock)
    for number in range(5):
        history.put(Edit(document=renamed(demo, f"a{number}"), label="dragging", gesture="drag 1", held=True))
        clock.now += 3
    history.put(Edit(document=renamed(demo, "b"), label="dragging", gesture="drag 2", held=True))
    assert history.undo()
    assert history.document.name == "a4"
    assert history.undo()
    assert history.document is demo
    assert not history.undo()
    assert history.redo()
    assert history.redo_label == "dragging"


def test_keys_rest_between_steps(demo: Project, clock: Clock):
    history = History(demo, clock)
    for pause, name in ((0.1, "a"), (0.1, "b"), (2.0, "c")):
        clock.now += pause
        history.put(Edit(document=renamed(demo, name), label="arrows", gesture="arrows"))
    history.undo()
    assert history.document.name == "b"
    history.undo()
    assert history.document is demo


def test_what_was_undone_is_forgotten_by_a_new_edit(demo: Project, clock: Clock):
    history = History(demo, clock)
    history.put(Edit(document=renamed(demo, "a"), label="one"))
    history.undo()
    history.put(Edit(document=renamed(demo, "b"), label="two"))
    assert not history.redo()
    assert history.document.name == "b"


def random_edit(project: Project, dice: random.Random) -> Project:
    """Return a document with one random change, or raise when it is not allowed."""
    sheet = dice.choice(project.sheets)
    names = [frame.name for frame in sheet.frames]
    some = dice.sample(names, min(len(names), dice.randint(1, 3)))
    scene = dice.choice(project.scenes)
    plane = dice.choice(scene.planes)
    kind = dice.randrange(10)
    if kind == 0:
        return frame_edits.rename_frames(project, sheet.name, {some[0]: f"n{dice.randrange(10**6)}"})
    if kind == 1:
        return frame_edits.merge_frames(project, sheet.name, some)
    if kind == 2:
        return frame_edits.split_frame(project, sheet.name, some[0], dice.randrange(2), dice.randint(0, 20))
    if kind == 3:
        return frame_edits.drop_frames(project, sheet.name, some)
    if kind == 4:
        return edits.put_scene(project, edits.move_plane(scene, plane.name, dice.randrange(8)))
    if kind == 5:
        ratio = (Fraction(dice.randint(-9, 9), dice.randint(1, 9)), Fraction(1))
        return edits.put_scene(project, edits.put_plane(scene, replace(plane, ratio=ratio)))
    if kind == 6:
        return edits.put_scene(project, edits.drop_plane(scene, plane.name))
    if kind == 7:
        by = (dice.randint(-5, 5), dice.randint(-5, 5))
        return frame_edits.change_frames(
            project, sheet.name, some, lambda f: replace(f, pivot=(f.pivot[0] + by[0], f.pivot[1] + by[1]))
        )
    if kind == 8:
        sprite = dice.choice(project.sprites)
        return edits.drop_animation(project, sprite.name, dice.choice(sprite.animations).name)
    sprite = dice.choice(project.sprites)
    facing = replace(dice.choice(sprite.facings), flip=dice.randrange(4))
    return replace(project, sprites=edits.put(project.sprites, edits.put_facing(sprite, facing)))


def run_random_edits(session: Session, count: int, seed: int) -> tuple[int, int]:
    """Apply random edits; return how many were taken and how many were refused."""
    dice = random.Random(seed)
    taken = refused = 0
    while taken < count:
        try:
            changed = edits.checked(random_edit(session.document, dice))
        except SceneKitError:
            refused += 1
            continue
        before = session.history.place
        session.history.put(Edit(document=changed, label=f"edit {taken}"))
        taken += session.history.place != before
    return taken, refused


def test_random_edits_undone_give_the_same_bytes(session: Session):
    first = texts(session.document)
    taken, refused = run_random_edits(session, 150, 5)
    last = texts(session.document)
    assert taken == 150
    assert refused > 5
    assert last != first
    while session.history.undo():
        pass
    assert texts(session.document) == first
    while session.history.redo():
        pass
    assert texts(session.document) == last


def test_ten_thousand_random_edits_undone_give_the_same_bytes(demo: Project, clock: Clock):
    history = History(demo, clock)
    first, dice = texts(demo), random.Random(9)
    taken = refused = 0
    while taken < 10_000 and refused < 40_000:
        try:
            changed = random_edit(history.document, dice)
        except (SceneKitError, IndexError, StopIteration):
            refused += 1
            continue
        before = history.place
        history.put(Edit(document=changed, label=f"edit {taken}"))
        taken += history.place != before
    last = texts(history.document)
    assert taken == 10_000
    assert last != first
    undone = 0
    while history.undo():
        undone += 1
    assert undone == 10_000
    assert history.document is demo
    assert texts(history.document) == first


def test_an_edit_that_breaks_the_format_is_refused_in_words(session: Session):
    bad = replace(session.document, name="not a name!")
    assert not session.apply(Edit(document=bad, label="bad"))
    assert not session.dirty
    assert session.notice is not None
    assert "name" in session.notice.text


def test_save_undo_and_dirt(session: Session, copied_demo: Path):
    assert not session.dirty
    session.apply(Edit(document=renamed(session.document, "other"), label="naming"))
    assert session.dirty
    assert session.save()
    assert not session.dirty
    assert load(copied_demo).name == "other"
    session.undo()
    assert session.dirty
    assert session.document.name == "lamplighter"


def test_recovery_copy_every_half_minute_and_gone_when_saved(
    session: Session, clock: Clock, copied_demo: Path
):
    session.apply(Edit(document=renamed(session.document, "precious"), label="naming"))
    session.keep_recovery()
    assert recovery.kept(copied_demo) is None
    clock.now += 31
    session.keep_recovery()
    kept = recovery.kept(copied_demo)
    assert kept is not None
    assert texts(kept) == texts(session.document)
    session.save()
    assert recovery.kept(copied_demo) is None


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"project": 1}', '{"project": "x = [", "order": [], "scenes": {}}']
)
def test_a_bad_recovery_copy_is_none(tmp_path: Path, text: str):
    recovery.recovery_file(tmp_path).write_text(text)
    assert recovery.kept(tmp_path) is None


def test_playing_takes_whole_steps_of_the_true_length():
    playing = Playing(plays=True)
    shown = [playing.tick]
    for _ in range(700):
        playing.advance(0.01, 70.0, 740)
        shown.append(playing.tick)
    assert playing.tick == 490
    assert all(later - earlier in (0, 1) for earlier, later in pairwise(shown))
    playing.go(739, 740)
    playing.advance(1 / 70 + 1e-6, 70.0, 740)
    assert playing.tick == 0


def test_moving_a_plane_needs_no_new_colours(demo: Project):
    scene = demo.scenes[0]
    moved = edits.put_scene(demo, edits.move_plane(scene, scene.planes[0].name, 2))
    faster = edits.put_scene(
        demo, edits.put_plane(scene, replace(scene.planes[0], ratio=(Fraction(1), Fraction(1))))
    )
    assert colours_key(faster, "board") == colours_key(demo, "board")
    assert art_key(moved) != art_key(demo)
    cycles = (replace(demo.cycles[0], ticks=3),)
    assert colours_key(replace(demo, cycles=cycles), "board") != colours_key(demo, "board")
