"""Outlines of cut frames: hand-counted rows."""

import json
from pathlib import Path

import numpy as np
from click.testing import CliRunner
from PIL import Image

from scenekit.cli.commands.slice_command import command
from scenekit.sheets.frames import outlines_of
from scenekit.slicing.cells import cut_cells
from scenekit.slicing.cut import SliceOptions


def two_cells() -> np.ndarray:
    """Draw two cells of 4 x 3 px: a slope with a hole, and a single pixel."""
    art = ["##......", "#.#...#.", "........"]
    pixels = np.zeros((3, 8, 4), np.uint8)
    pixels[np.array([[dot == "#" for dot in row] for row in art])] = (200, 90, 40, 255)
    return pixels


def test_spans_count_from_each_box() -> None:
    pixels = two_cells()
    one, two = outlines_of(pixels, cut_cells(pixels, SliceOptions(cell=(4, 3))))
    assert one.spans == ((0, 2), (0, 3), (0, 0))
    assert one.filled == 1
    assert two.spans == ((0, 0), (2, 1), (0, 0))


def test_command_gives_outlines(tmp_path: Path) -> None:
    file = tmp_path / "two.png"
    Image.fromarray(two_cells()).save(file)
    given = [str(file), "--by", "cells", "--cell", "4x3", "--json", "--outlines"]
    run = CliRunner().invoke(command, given, standalone_mode=False)
    assert json.loads(run.output)["outlines"] == [[[0, 2], [0, 3], [0, 0]], [[0, 0], [2, 1], [0, 0]]]


def test_outlines_need_json(tmp_path: Path) -> None:
    file = tmp_path / "two.png"
    Image.fromarray(two_cells()).save(file)
    assert "--outlines: goes with --json" in CliRunner().invoke(command, [str(file), "--outlines"]).output
