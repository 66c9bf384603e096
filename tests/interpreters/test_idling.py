"""A program at rest is seen; one that computes or writes is not taken for it."""

import os
import subprocess
import sys
import time

import pytest

from scenekit.dialects.dialect import load_dialect
from scenekit.errors import TimeLimitError
from scenekit.interpreters.idling import RestWatch, seconds_of_group
from scenekit.interpreters.process import run_program

LINUX = pytest.mark.skipif(not os.path.exists("/proc/self/stat"), reason="the system does not tell")


class Told:
    """A clock and a processor time that the test sets."""

    def __init__(self) -> None:
        self.now, self.spent = 0.0, 0.0

    def watch(self, folder):
        return RestWatch(1, folder, longest_s=10, clock=lambda: self.now, computed=lambda group: self.spent)


def test_who_computes_is_not_at_rest(tmp_path) -> None:
    told = Told()
    watch = told.watch(tmp_path)
    for _ in range(5):
        told.now += 11
        told.spent += 0.2
        assert not watch.at_rest()


def test_who_writes_is_not_at_rest(tmp_path) -> None:
    told = Told()
    watch = told.watch(tmp_path)
    told.now = 11
    (tmp_path / "said.txt").write_text("1")
    assert not watch.at_rest()
    told.now = 15
    assert not watch.at_rest()
    told.now = 22
    assert watch.at_rest()


def test_a_child_that_ended_is_no_rest(tmp_path) -> None:
    told = Told()
    told.spent = 9
    watch = told.watch(tmp_path)
    told.now, told.spent = 11, 2
    assert not watch.at_rest()


def test_who_complained_and_goes_on_looking_for_a_key_is_at_rest(tmp_path) -> None:
    told = Told()
    watch = RestWatch(
        1,
        tmp_path,
        longest_s=10,
        clock=lambda: told.now,
        computed=lambda group: told.now,
        complained=lambda: True,
    )
    told.now = 11
    assert watch.at_rest()


def test_where_nobody_tells_nothing_is_at_rest(tmp_path) -> None:
    watch = RestWatch(1, tmp_path, longest_s=0, computed=lambda group: None)
    assert not watch.at_rest()


@LINUX
def test_the_time_of_a_group_grows_with_its_work() -> None:
    loop = "while True: pass"
    process = subprocess.Popen([sys.executable, "-c", loop], start_new_session=True)
    try:
        for _ in range(1000):
            if (seconds_of_group(process.pid) or 0) > 0.1:
                break
            time.sleep(0.05)
        else:
            pytest.fail("no time was seen")
    finally:
        process.kill()
        process.wait()
    assert seconds_of_group(process.pid) is None


@LINUX
def test_a_program_that_waits_for_ever_is_stopped_long_before_its_limit(tmp_path) -> None:
    dialect = load_dialect("brandy", tmp_path)
    asleep = "import time; time.sleep(3000)"
    with pytest.raises(TimeLimitError, match="nothing came of it for 1 s"):
        run_program(dialect, tmp_path, "none", 2000, command=[sys.executable, "-c", asleep], rest_s=1)


@LINUX
def test_chatter_is_no_complaint_but_an_error_is(tmp_path) -> None:
    dialect = load_dialect("brandy", tmp_path)
    say = "import sys, time; print({!r}, file=sys.stderr, flush=True); time.sleep(3000)"
    for line, shown in (
        ("using the usual style", ""),
        ("SYNTAX ERROR in line 9", "(SYNTAX ERROR in line 9)"),
    ):
        command = [sys.executable, "-c", say.format(line)]
        with pytest.raises(TimeLimitError) as error:
            run_program(dialect, tmp_path, "none", 2000, command=command, rest_s=2)
        assert str(error.value).endswith(f"stopped {shown}".strip())
