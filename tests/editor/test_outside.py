"""What others do to a project that is open: joined record by record, or asked; and who else works on it."""

import json
import os
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from scenekit.editor import lock, recovery
from scenekit.editor.history import Edit
from scenekit.editor.merging import merge
from scenekit.editor.outside import meet, settle
from scenekit.editor.session import Session, open_session
from scenekit.model.edits import put_plane, put_scene
from scenekit.model.project import Project
from scenekit.model.store import load, save


@pytest.fixture
def session(copied_demo: Path) -> Session:
    return open_session(copied_demo, lambda: 0.0)


def with_ratio(project: Project, plane: str, ratio: str) -> Project:
    scene = project.scenes[0]
    found = next(p for p in scene.planes if p.name == plane)
    return put_scene(
        project, put_plane(scene, replace(found, ratio=(Fraction(ratio), found.ratio[1]), depth=None))
    )


def with_author(project: Project, sheet: str, author: str) -> Project:
    sheets = tuple(replace(s, author=author) if s.name == sheet else s for s in project.sheets)
    return replace(project, sheets=sheets)


def names(project: Project) -> tuple[str, str, str]:
    planes = project.scenes[0].planes
    return planes[0].name, planes[1].name, project.sheets[0].name


def test_changes_in_different_records_are_joined(copied_demo: Path):
    base = load(copied_demo)
    first, second, sheet = names(base)
    mine = with_ratio(base, first, "1/7")
    theirs = with_author(with_ratio(base, second, "2/7"), sheet, "Somebody")
    joined = merge(base, mine, theirs)
    assert joined.clashes == ()
    assert joined.mine == joined.theirs == with_ratio(theirs, first, "1/7")
    assert joined.taken == (f"sheet {sheet}, author", f"scene {base.scenes[0].name}, plane {second}, ratio")


def test_changes_of_one_value_clash_and_the_rest_is_joined(copied_demo: Path):
    base = load(copied_demo)
    first, _, sheet = names(base)
    mine = with_ratio(base, first, "1/7")
    theirs = with_author(with_ratio(base, first, "3/7"), sheet, "Somebody")
    joined = merge(base, mine, theirs)
    assert joined.clashes == (f"scene {base.scenes[0].name}, plane {first}, ratio",)
    assert joined.mine == with_author(mine, sheet, "Somebody")
    assert joined.theirs == theirs


def test_what_both_added_took_out_and_moved_is_joined(copied_demo: Path):
    base = load(copied_demo)
    scene = base.scenes[0]
    planes = scene.planes
    extra, other = replace(planes[-1], name="extra"), replace(planes[-1], name="other")
    mine = put_scene(base, replace(scene, planes=(planes[1], planes[0], *planes[2:], extra)))
    theirs = put_scene(base, replace(scene, planes=(*planes[:-1], other)))
    joined = merge(base, mine, theirs)
    assert joined.clashes == ()
    got = [plane.name for plane in joined.mine.scenes[0].planes]
    assert got[:2] == [planes[1].name, planes[0].name]
    assert planes[-1].name not in got
    assert set(got) == {p.name for p in planes[:-1]} | {"extra", "other"}


def test_taking_out_what_the_other_changed_clashes(copied_demo: Path):
    base = load(copied_demo)
    scene = base.scenes[0]
    mine = put_scene(base, replace(scene, planes=scene.planes[:-1]))
    theirs = with_ratio(base, scene.planes[-1].name, "4/7")
    joined = merge(base, mine, theirs)
    assert joined.clashes == (f"scene {scene.name}, plane {scene.planes[-1].name}",)
    assert joined.mine == mine
    assert joined.theirs == theirs


def test_without_own_work_what_changed_is_read(session: Session, copied_demo: Path):
    assert meet(session) is None
    save(with_author(load(copied_demo), names(session.document)[2], "Somebody"))
    assert session.changed_outside()
    assert meet(session) is None
    assert session.document.sheets[0].author == "Somebody"
    assert not session.dirty
    assert not session.changed_outside()
    session.undo()
    assert session.document.sheets[0].author != "Somebody"


def test_saving_joins_what_others_saved_meanwhile(session: Session, copied_demo: Path):
    first, _, sheet = names(session.document)
    session.apply(Edit(document=with_ratio(session.document, first, "1/7"), label="a ratio"))
    save(with_author(load(copied_demo), sheet, "Somebody"))
    assert session.save()
    written = load(copied_demo)
    assert written == with_author(with_ratio(load(copied_demo), first, "1/7"), sheet, "Somebody")
    assert written.sheets[0].author == "Somebody"
    assert written.scenes[0].planes[0].ratio[0] == Fraction(1, 7)


@pytest.mark.parametrize("answer", ["mine", "theirs"])
def test_a_clash_is_asked_and_nothing_written_before(session: Session, copied_demo: Path, answer: str):
    first, _, sheet = names(session.document)
    session.apply(Edit(document=with_ratio(session.document, first, "1/7"), label="a ratio"))
    theirs = with_author(with_ratio(load(copied_demo), first, "3/7"), sheet, "Somebody")
    save(theirs)
    assert not session.save()
    assert load(copied_demo) == theirs
    clash = session.clash
    assert clash is not None
    settle(session, clash, answer)
    ratio = session.document.scenes[0].planes[0].ratio[0]
    assert str(ratio) == ("1/7" if answer == "mine" else "3/7")
    assert session.document.sheets[0].author == "Somebody"
    assert session.save()
    assert load(copied_demo) == session.document


def test_a_file_in_the_middle_of_being_written_is_waited_for(session: Session, copied_demo: Path):
    path = copied_demo / "project.toml"
    whole = path.read_text()
    path.write_text(whole[: len(whole) // 2])
    before = session.document
    assert meet(session) is None
    assert session.document is before
    assert session.notice is not None
    assert "cannot be read" in session.notice.text
    path.write_text(whole.replace('name = "lamplighter"', 'name = "elsewhere"', 1))
    assert meet(session) is None
    assert session.document.name == "elsewhere"


def test_a_changed_picture_is_named(session: Session, copied_demo: Path):
    session.wish()
    file = copied_demo / session.document.sheets[0].file
    os.utime(file, ns=(1, 1))
    session.files_changed()
    session.wish()
    session.products.wait()
    assert session.notice is not None
    assert session.document.sheets[0].file in session.notice.text
    assert session.changed_pictures == {session.document.sheets[0].file}


HOLD = """
import sys
from pathlib import Path
from scenekit.editor import lock
print(lock.take(Path(sys.argv[1])), flush=True)
sys.stdin.read()
"""


def test_a_second_window_is_told_and_a_note_left_by_a_crash_is_not(tmp_path: Path):
    other = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(tmp_path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert other.stdout is not None
    assert other.stdout.readline().strip() == "None"
    told = lock.take(tmp_path)
    assert told is not None
    assert told.process == other.pid
    lock.release(tmp_path)
    assert lock.read_note(tmp_path) == told
    other.kill()
    other.communicate()
    assert lock.take(tmp_path) is None
    assert lock.read_note(tmp_path) == lock.this_process()
    lock.release(tmp_path)
    assert not (tmp_path / lock.NAME).exists()


@pytest.mark.parametrize("text", ["", "{", "[]", '{"host": 1, "process": 2, "begun": ""}', "x" * 100_000])
def test_a_note_that_cannot_be_understood_is_nobody(tmp_path: Path, text: str):
    (tmp_path / lock.NAME).write_text(text)
    assert lock.other_window(tmp_path) is None
    assert lock.take(tmp_path) is None


def test_a_number_used_again_by_another_process_is_nobody(tmp_path: Path):
    me = lock.this_process()
    note = {"host": me.host, "process": me.process, "begun": "long ago"}
    (tmp_path / lock.NAME).write_text(json.dumps(note))
    assert me.begun
    assert lock.other_window(tmp_path) is None


def test_another_computers_window_counts(tmp_path: Path):
    note = {"host": "elsewhere.invalid", "process": 7, "begun": "1"}
    (tmp_path / lock.NAME).write_text(json.dumps(note))
    told = lock.other_window(tmp_path)
    assert told is not None
    assert told.host == "elsewhere.invalid"
    assert lock.take(tmp_path, over=True) is None


def test_the_newest_copy_is_offered_first_and_bad_ones_are_not(session: Session, copied_demo: Path):
    assert recovery.left_copies(copied_demo) == []
    for own, name, time in (("", "first", 2), ("-2", "second", 1)):
        recovery.keep(replace(session.document, name=name), own)
        os.utime(recovery.recovery_file(copied_demo, own), ns=(time, time))
    recovery.recovery_file(copied_demo, "-3").write_text("{")
    assert [document.name for _, document in recovery.left_copies(copied_demo)] == ["first", "second"]


def test_a_gesture_that_breaks_the_format_keeps_the_last_sound_document(session: Session, copied_demo: Path):
    sound = replace(session.document, name="sound")
    session.apply(Edit(document=sound, label="naming"))
    session.apply(Edit(document=replace(sound, name="not a name!"), label="drag", gesture="g", held=True))
    session.keep_recovery(now=True)
    assert recovery.kept(copied_demo) == sound
