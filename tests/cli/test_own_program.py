"""`export --program`: written once, then the user's; bad ones leave nothing half-written."""

import shutil

import pytest


@pytest.fixture
def lamps(demo, tmp_path):
    folder = tmp_path / "lamps"
    shutil.copytree(demo.folder, folder)
    return folder


def test_a_later_export_keeps_the_users_file_and_renews_the_library(lamps, call, tmp_path):
    out = tmp_path / "out"
    command = ("export", lamps, "--target", "brandy-colour", "--out", out, "--program", lamps / "game.words")
    first = call(*command)
    assert first.code == 0
    assert "yours from now on" in first.out
    written = (out / "game.bas").read_text(encoding="ascii")
    assert 'LIBRARY "lamplighter.bas"' in written
    assert 100 <= len(written.splitlines()) <= 250
    (out / "game.bas").write_text("REM mine\n", encoding="ascii")
    library = (out / "lamplighter.bas").read_bytes()
    again = call(*command, "--first-line", "2000", "--prefix", "lib_")
    assert again.code == 0
    assert again.out.count("yours, kept as it is") == 2
    assert (out / "game.bas").read_text(encoding="ascii") == "REM mine\n"
    assert (out / "lamplighter.bas").read_bytes() != library


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("game.words", "do fly\n", "no such routine"),
        ("Game!.words", "quit\n", "must be named by small letters"),
        ("lamplighter.words", "quit\n", "is a file of the export itself"),
    ],
)
def test_a_bad_program_leaves_nothing(lamps, call, tmp_path, name, text, words):
    path, out = tmp_path / name, tmp_path / "out"
    path.write_text(text, encoding="ascii")
    called = call("export", lamps, "--target", "board", "--out", out, "--program", path)
    assert called.code == 2
    assert words in called.err
    assert called.err.count("\n") == 1
    assert not out.exists()


def test_a_missing_program_and_one_without_a_folder_are_refused(lamps, call, tmp_path):
    missing = call("export", lamps, "--out", tmp_path / "out", "--program", tmp_path / "none.words")
    assert missing.code == 2
    assert "cannot be read" in missing.err
    assert call("export", lamps, "--to", tmp_path / "card", "--program", lamps / "game.words").code == 2
