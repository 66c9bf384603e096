"""`export --program`: written once, then the user's; bad ones leave nothing half-written."""

import shutil
from dataclasses import replace

import pytest

from scenekit.dialects.dialect import TARGETS_FOLDER
from scenekit.model.store import load, save


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


def test_a_missing_program_and_one_for_a_proof_are_refused(lamps, call, tmp_path):
    missing = call("export", lamps, "--out", tmp_path / "out", "--program", tmp_path / "none.words")
    assert missing.code == 2
    assert "cannot be read" in missing.err
    proof = call("export", lamps, "--out", tmp_path / "o", "--program", lamps / "game.words", "--proof", "0")
    assert (proof.code, (tmp_path / "o").exists()) == (2, False)


def short_named(lamps, dialect):
    """Give a dialect of the project a way to a card with short names and line ends of two signs."""
    text = (TARGETS_FOLDER / f"{dialect}.toml").read_text(encoding="utf-8")
    assert "[transfer]" not in text
    text += '\n[transfer]\nnames = "8.3"\nline_end = "crlf"\n'
    (lamps / "way.toml").write_text(text, encoding="utf-8")
    project = load(lamps)
    target = {"brandy": "brandy-colour", "plain": "board", "yabasic": "brandy-colour"}[dialect]
    changed = tuple(replace(t, dialect="way.toml") if t.name == target else t for t in project.targets)
    if dialect == "yabasic":
        changed = tuple(replace(t, machine="yabasic-pc", mode="320x200") for t in changed if t.name == target)
    save(replace(project, targets=changed))
    return target


def test_a_card_gets_the_program_once_without_a_folder(lamps, call, tmp_path):
    target, card = short_named(lamps, "brandy"), tmp_path / "card"
    command = ("export", lamps, "--target", target, "--to", card, "--program", lamps / "game.words")
    assert call(*command).code == 0
    written = (card / "game.bas").read_bytes()
    assert b'LIBRARY "lamplig1.bas"\r\n' in written
    assert (card / "lamplig1.bas").is_file()
    assert (card / "keys.txt").read_bytes() == b""
    (card / "game.bas").write_bytes(b"REM mine\r\n")
    again = call(*command, "--prefix", "lib_")
    assert again.code == 0
    assert "yours, kept as it is" in again.out
    assert (card / "game.bas").read_bytes() == b"REM mine\r\n"
    assert b"lib_" in (card / "lamplig1.bas").read_bytes()


def test_a_card_gets_the_program_as_it_stands_in_the_folder(lamps, call, tmp_path):
    target, card, out = short_named(lamps, "brandy"), tmp_path / "card", tmp_path / "out"
    command = ("export", lamps, "--target", target, "--out", out, "--to", card, "--check")
    command = (*command, "--program", lamps / "game.words")
    assert call(*command).code == 0
    (out / "game.bas").write_text("REM mine\n", encoding="ascii")
    assert call(*command).code == 0
    assert (card / "game.bas").read_bytes() == b"REM mine\r\n"
    assert b"game" not in (card / "check.bas").read_bytes()
    (card / "game.bas").write_bytes(b"REM edited there\r\n")
    (out / "game.bas").write_text("REM mine once more\n", encoding="ascii")
    called = call(*command)
    assert called.code == 0, called.err
    assert (card / "game.bas").read_bytes() == b"REM edited there\r\n"


def test_a_library_that_could_not_be_named_there_is_refused(lamps, call, tmp_path):
    target, card = short_named(lamps, "yabasic"), tmp_path / "card"
    called = call("export", lamps, "--target", target, "--to", card, "--program", lamps / "game.words")
    assert (called.code, called.err.count("\n"), card.exists()) == (2, 1, False)
    assert "give the project a name of at most 8 letters" in called.err
