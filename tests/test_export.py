"""An export writes only over files that it wrote and finds unchanged; a crash within one loses nothing."""

import errno
import json
import os

import pytest

from scenekit.errors import ExportError, SceneKitError
from scenekit.export import LEDGER, check_own, read_ledger, write_export, write_own

FIRST = {"a.bas": b"10 REM one\n", "a-art.bmp": b"BM1", "stops.txt": b""}
SECOND = {"a.bas": b"10 REM two\n", "a-art.bmp": b"BM2", "stops.txt": b""}


def contents(folder):
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir()) if path.name != LEDGER}


def refused(folder, files, words):
    before = {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
    with pytest.raises(ExportError) as caught:
        write_export(folder, files)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)
    after = {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
    assert after == before, "nothing may be written when something is refused"


def test_a_first_export_makes_its_folder(tmp_path):
    folder = tmp_path / "new" / "out"
    assert sorted(write_export(folder, FIRST)) == sorted(FIRST)
    assert contents(folder) == FIRST
    assert set(read_ledger(folder)) == set(FIRST)


def test_an_equal_export_writes_nothing(tmp_path):
    write_export(tmp_path, FIRST)
    times = {path: path.stat().st_mtime_ns for path in tmp_path.iterdir()}
    assert write_export(tmp_path, FIRST) == ()
    assert {path: path.stat().st_mtime_ns for path in tmp_path.iterdir()} == times


def test_only_changed_files_are_written(tmp_path):
    write_export(tmp_path, FIRST)
    assert sorted(write_export(tmp_path, SECOND)) == ["a-art.bmp", "a.bas"]
    assert contents(tmp_path) == SECOND
    assert write_export(tmp_path, SECOND) == ()


def test_a_file_of_the_user_is_never_written_over(tmp_path):
    (tmp_path / "a.bas").write_text("my own game\n")
    refused(tmp_path, FIRST, "a.bas: exists and is not an export's file")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.bas"]


def test_other_files_of_the_user_are_left_alone(tmp_path):
    (tmp_path / "game.bas").write_text("my own game\n")
    write_export(tmp_path, FIRST)
    write_export(tmp_path, SECOND)
    assert (tmp_path / "game.bas").read_text() == "my own game\n"
    assert "game.bas" not in read_ledger(tmp_path)


def test_a_file_of_the_user_that_happens_to_be_equal_is_fine(tmp_path):
    (tmp_path / "a.bas").write_bytes(FIRST["a.bas"])
    write_export(tmp_path, FIRST)
    write_export(tmp_path, SECOND)
    assert contents(tmp_path) == SECOND


@pytest.mark.parametrize("name", sorted(FIRST))
def test_an_edited_file_is_refused_and_nothing_else_is_written(tmp_path, name):
    write_export(tmp_path, FIRST)
    (tmp_path / name).write_bytes(b"edited by hand")
    other = {**SECOND, "stops.txt": b"0\n"}
    refused(tmp_path, other, f"{name}: was edited since it was exported")


def test_an_edited_file_that_is_deleted_is_written_anew(tmp_path):
    write_export(tmp_path, FIRST)
    (tmp_path / "a.bas").unlink()
    write_export(tmp_path, FIRST)
    assert contents(tmp_path) == FIRST


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="no links here")
@pytest.mark.parametrize("target", ["there", "nowhere"])
def test_a_link_is_refused(tmp_path, target):
    folder = tmp_path / "out"
    folder.mkdir()
    (tmp_path / "there").write_text("precious\n")
    (folder / "a-art.bmp").symlink_to(tmp_path / target)
    with pytest.raises(ExportError, match="is a link or folder"):
        write_export(folder, FIRST)
    assert (tmp_path / "there").read_text() == "precious\n"
    assert not (tmp_path / "nowhere").exists()
    assert [path.name for path in folder.iterdir()] == ["a-art.bmp"]


def test_a_folder_in_a_files_place_is_refused(tmp_path):
    (tmp_path / "a.bas").mkdir()
    refused(tmp_path, FIRST, "is a link or folder")


def test_a_file_in_the_folders_place(tmp_path):
    (tmp_path / "out").write_text("")
    with pytest.raises(SceneKitError, match="cannot be made"):
        write_export(tmp_path / "out", FIRST)
    with pytest.raises(SceneKitError, match="cannot be made"):
        write_export(tmp_path / "out" / "in", FIRST)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[]",
        "5",
        "null",
        '{"a.bas": 5}',
        '{"a.bas": "x"}',
        '{"a.bas": [5]}',
        "[" * 100_000,
        '{"a": NaN}',
        "\x00",
    ],
)
def test_a_damaged_ledger_is_refused(tmp_path, text):
    write_export(tmp_path, FIRST)
    (tmp_path / LEDGER).write_text(text)
    refused(tmp_path, SECOND, LEDGER)


def test_a_ledger_that_is_no_text_or_a_folder(tmp_path):
    write_export(tmp_path, FIRST)
    (tmp_path / LEDGER).write_bytes(b"\xff\xfe\x80")
    refused(tmp_path, SECOND, LEDGER)
    (tmp_path / LEDGER).unlink()
    (tmp_path / LEDGER).mkdir()
    refused(tmp_path, SECOND, LEDGER)


def test_without_its_ledger_an_export_takes_back_only_what_is_equal(tmp_path):
    write_export(tmp_path, FIRST)
    (tmp_path / LEDGER).unlink()
    refused(tmp_path, SECOND, "is not an export's file")
    assert write_export(tmp_path, FIRST) == ()
    assert sorted(write_export(tmp_path, SECOND)) == ["a-art.bmp", "a.bas"]


@pytest.mark.parametrize("number", range(1, 7))
def test_a_crash_between_two_files_is_made_good_by_the_next_export(tmp_path, monkeypatch, number):
    """Whichever write fails: the next export finishes, without taking any file for the user's."""
    write_export(tmp_path, FIRST)
    from scenekit.model import store

    real, calls = store.Path.replace, []

    def fails(self, target):
        calls.append(target)
        if len(calls) == number:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return real(self, target)

    monkeypatch.setattr(store.Path, "replace", fails)
    try:
        write_export(tmp_path, SECOND)
        crashed = False
    except SceneKitError as error:
        crashed = "No space left on device" in str(error)
    assert crashed == (number <= 4)
    monkeypatch.undo()
    assert not list(tmp_path.glob(".*.part"))
    for name, data in contents(tmp_path).items():
        assert data in (FIRST[name], SECOND[name])
    write_export(tmp_path, SECOND)
    assert contents(tmp_path) == SECOND
    (tmp_path / "a.bas").write_bytes(FIRST["a.bas"] + b"edited")
    refused(tmp_path, FIRST, "was edited")


def test_the_ledger_holds_digests_of_what_is_there(tmp_path):
    import hashlib

    write_export(tmp_path, FIRST)
    write_export(tmp_path, {"a.bas": SECOND["a.bas"]})
    table = json.loads((tmp_path / LEDGER).read_text())
    for name, data in contents(tmp_path).items():
        assert table[name] == [hashlib.sha256(data).hexdigest()]


@pytest.mark.parametrize("name", ["../evil.bas", "/tmp/evil.bas", "sub/evil.bas", LEDGER])
def test_names_that_lead_elsewhere_are_refused(tmp_path, name):
    folder = tmp_path / "out"
    with pytest.raises(ValueError, match="is no name"):
        write_export(folder, {name: b"x"})
    assert not (tmp_path / "evil.bas").exists()


def test_files_of_the_user_are_written_once_and_kept(tmp_path):
    assert write_own(tmp_path, {"game.bas": b"one\n", "keys.txt": b""}) == ("game.bas", "keys.txt")
    (tmp_path / "game.bas").write_bytes(b"mine\n")
    write_export(tmp_path, FIRST)
    assert write_own(tmp_path, {"game.bas": b"two\n", "keys.txt": b""}) == ()
    assert (tmp_path / "game.bas").read_bytes() == b"mine\n"
    assert set(read_ledger(tmp_path)) == set(FIRST)


def test_a_link_where_a_file_of_the_user_should_be_is_refused(tmp_path):
    (tmp_path / "game.bas").symlink_to(tmp_path / "elsewhere.bas")
    with pytest.raises(ExportError, match="is a link"):
        check_own(tmp_path, {"game.bas": b"one\n"})


def test_a_folder_that_holds_a_project_is_refused(tmp_path):
    (tmp_path / "project.toml").write_text("", encoding="utf-8")
    with pytest.raises(ExportError, match="holds a project"):
        write_export(tmp_path, FIRST)
    assert [path.name for path in tmp_path.iterdir()] == ["project.toml"]
