"""What check found is remembered only as long as nothing changed on which it depends."""

import json
import os

import pytest


@pytest.fixture
def kept(tmp_path, monkeypatch):
    monkeypatch.setenv("SCENEKIT_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept"


def looked(call, game, monkeypatch, again):
    """Return what check says, and see that it looked again, or did not."""
    import scenekit.cli.commands.check_command as check

    real, calls = check.looked_over, []
    monkeypatch.setattr(check, "looked_over", lambda document: calls.append(1) or real(document))
    called = call("check", game, "--json")
    monkeypatch.setattr(check, "looked_over", real)
    assert bool(calls) == again
    return called.json()


def test_a_second_look_says_the_same_without_looking(call, game, kept, monkeypatch):
    first = looked(call, game, monkeypatch, True)
    assert looked(call, game, monkeypatch, False) == first
    assert looked(call, game / "project.toml", monkeypatch, False) == first
    assert call("check", game).out.startswith("game: 1 sheet,")


@pytest.mark.parametrize("file", ["project.toml", "scenes/first.toml", "layers/sky.png", "sheets/hero.png"])
def test_a_change_of_any_file_is_seen_at_once(call, game, kept, monkeypatch, file):
    looked(call, game, monkeypatch, True)
    path = game / file
    data, facts = path.read_bytes(), path.stat()
    path.write_bytes(data[:60] + bytes(9) + data[69:])
    os.utime(path, ns=(facts.st_atime_ns, facts.st_mtime_ns))  # the same time and length: only bytes tell
    assert call("check", game).code != 0
    path.write_bytes(data)
    assert call("check", game).code == 0
    path.unlink()
    assert call("check", game).code != 0


def test_what_is_kept_is_not_trusted_when_it_is_damaged_or_of_another_program(call, game, kept, monkeypatch):
    first = looked(call, game, monkeypatch, True)
    (place,) = kept.iterdir()
    whole = json.loads(place.read_text())
    for damaged in ("", "[]", "{", json.dumps({**whole, "program": "x"}), json.dumps({**whole, "files": 3})):
        place.write_text(damaged)
        assert looked(call, game, monkeypatch, True) == first
    place.unlink()
    place.mkdir()
    assert looked(call, game, monkeypatch, True) == first, "where nothing can be kept, nothing is"
