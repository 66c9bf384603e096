"""Screens saved as text are read strictly; the display that nobody sees starts and ends."""

import shutil

import numpy as np
import pytest

from scenekit.errors import VerifyError
from scenekit.interpreters.windowtext import display, read_screen


def test_a_screen_of_two_pixels(tmp_path):
    (tmp_path / "s.txt").write_text("rgb 2,1:FF0010a0b0C0\n")
    assert np.array_equal(read_screen(tmp_path / "s.txt"), [[[255, 0, 16], [160, 176, 192]]])


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("", "must begin with"),
        ("rgb 2,1:ff0010", "6 digits; must be 6 x 2 x 1"),
        ("rgb 1,1:ff00zz", "must be 6 x 1 x 1"),
        ("rgb 99999,1:", "must begin with"),
    ],
)
def test_other_texts_are_refused(tmp_path, text, wanted):
    (tmp_path / "s.txt").write_text(text)
    with pytest.raises(VerifyError, match=wanted):
        read_screen(tmp_path / "s.txt")


def test_a_missing_screen_is_named(tmp_path):
    with pytest.raises(VerifyError, match=r"shot0.txt: the program did not save"):
        read_screen(tmp_path / "shot0.txt")


@pytest.mark.skipif(shutil.which("Xvfb") is None, reason="no display to start")
def test_two_displays_have_two_names():
    with display() as first, display() as second:
        assert first.startswith(":")
        assert first != second
