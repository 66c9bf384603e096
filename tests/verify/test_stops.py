"""Stops are written into their file, or into the one marked DATA line."""

from types import SimpleNamespace

import pytest

from scenekit.errors import VerifyError
from scenekit.model.events import Transition
from scenekit.verify.stops import default_ticks, write_stops


def test_a_stops_file_gets_one_tick_a_line(tmp_path):
    (tmp_path / "stops.txt").write_bytes(b"")
    (tmp_path / "p.bas").write_text("10 DATA -1\n")
    write_stops(tmp_path, "p.bas", (0, 7, 120), 72)
    assert (tmp_path / "stops.txt").read_bytes() == b"0\n7\n120\n"
    assert (tmp_path / "p.bas").read_text() == "10 DATA -1\n"


def test_without_a_file_the_last_empty_data_line_is_filled(tmp_path):
    text = "10 DATA -1\n20 DATA -1\n30 END\n"
    (tmp_path / "p.bas").write_text(text)
    write_stops(tmp_path, "p.bas", (0, 7), 72)
    assert (tmp_path / "p.bas").read_bytes() == b"10 DATA -1\n20 DATA 0,7,-1\n30 END\n"


def test_stops_that_do_not_fit_a_line_stand_in_several(tmp_path):
    (tmp_path / "p.bas").write_text("10 DATA -1\n11 END\n")
    write_stops(tmp_path, "p.bas", range(40), 72)
    lines = (tmp_path / "p.bas").read_text().splitlines()
    assert [int(line.split()[0]) for line in lines] == list(range(10, 10 + len(lines)))
    assert len(lines) > 2
    assert max(len(line) for line in lines) <= 72
    assert lines[-1].split()[1] == "END"
    data = ",".join(line.split("DATA ")[1] for line in lines[:-1])
    assert data == ",".join(str(n) for n in (*range(40), -1))


@pytest.mark.parametrize("text", ["", "10 END\n", "10 DATA 1,-1\n"])
def test_a_program_without_a_place_for_stops(tmp_path, text):
    (tmp_path / "p.bas").write_text(text)
    with pytest.raises(VerifyError, match=r"p\.bas: has no list of stops"):
        write_stops(tmp_path, "p.bas", (0,), 72)


@pytest.mark.parametrize("last", [0, 1, 5, 11, 12, 13, 100, 657, 740, 1_000_000])
def test_default_ticks_begin_at_the_start_and_reach_the_end(last):
    ticks = default_ticks(SimpleNamespace(ticks=last + 1, transitions=()))
    assert ticks[0] == 0
    assert ticks[-1] == last
    assert list(ticks) == sorted(set(ticks))
    assert len(ticks) >= min(12, last + 1) - 1
    assert len(ticks) <= 12


def test_default_ticks_show_what_transitions_uncover():
    opens = Transition(name="open", kind="wipe", tick=3, ticks=30, opens=True)
    closes = Transition(name="close", kind="wipe", tick=700, ticks=40)
    ticks = default_ticks(SimpleNamespace(ticks=741, transitions=(opens, closes)))
    assert {33, 699} <= set(ticks)
