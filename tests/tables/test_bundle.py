"""The bundle's tables say what the document says, in the small scene, by hand."""

import pytest
from small_scene import FADING, PLAIN, small_project

from scenekit.build import run_stages


@pytest.fixture(scope="module")
def build(tmp_path_factory):
    return run_stages(small_project(tmp_path_factory.mktemp("bundle") / "p"), "board", last="tables")


def table(build, name):
    return build.bundle.table(name).values


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("plane_w", (20, 37, 13)),
        ("plane_h", (14, 11, 9)),
        ("plane_columns", (3, 5, 1)),
        ("plane_rows", (2, 2, 1)),
        ("last_w", (4, 5, 13)),
        ("last_h", (6, 3, 9)),
        ("wrap_x", (1, 1, 0)),
        ("wrap_y", (1, 0, 0)),
        ("ratio_x", (1, 3, 1)),
        ("ratio_parts_x", (2, 2, 1)),
        ("drift_y", (-1, 0, 0)),  # -1/4 a tick is -1 and 3 parts of 4
        ("drift_step_y", (3, 0, 0)),
        ("drift_parts_y", (4, 1, 1)),
        ("plane_start_x", (2 - 3, 7 - 0, 5 - 12)),  # floor(ratio x 5) - offset
        ("plane_start_y", (-1 - 2, -3 - 17, -3 - 5)),
        ("order", (0, 3, 1, 2, 4, 5)),  # wall, tom, fence, sign, bird, kit
        ("start_x", (5, 25, 28, 11)),
        ("start_y", (-3, 3, 22, 7)),
        ("path_count", (3, 4, 2, 0)),
        ("path_repeat", (2, 1, 0, 0)),
        ("segment_ticks", (11, 4, 9, 8, 10, 7, 6, 5, 3)),
        ("animation_count", (3, 4, 2)),  # there-and-back of 3 steps plays 4
        ("animation_again", (1, 1, 0)),
        ("step_ticks", (2, 3, 1, 2, 3, 2, 3, 3, 2)),
        ("actor_plane", (1, -1, 2)),
        ("start_face", (0, 0, 3)),
        ("start_does", (0, 1, 0)),
        ("event_tick", (7,)),
        ("event_steps", (4,)),
        ("event_wait", (6,)),
        ("cycle_ticks", (4, 3)),
        ("cycle_count", (3, 2)),
    ],
)
def test_a_table_by_hand(build, name, values):
    assert table(build, name) == values


def test_looks_are_animation_and_flip_by_facing(build):
    """Rows: walk, sit, lick; columns: right, left, up, down. Left sits by licking; up is not drawn."""
    assert table(build, "look") == (0, 1, 0, 2, 4, 8, 4, 6, 8, 9, 8, 10)


def test_the_colours_of_events_follow_the_palette(build):
    entries = len(build.reduced.palette)
    colours = list(zip(*(table(build, name) for name in ("red", "green", "blue")), strict=True))
    assert len(colours) == entries + 4 * len(FADING)
    assert colours[-2:] == [(30, 10, 90), (250, 250, 20)]
    assert colours[build.reduced.backdrops["yard"]] == PLAIN[0]


def test_names_of_tables_arrays_and_variables_differ(build):
    names = [t.name for t in build.bundle.tables]
    names += [name for name, _ in build.bundle.arrays] + [name for name, _ in build.bundle.variables]
    assert len(names) == len(set(names))


def test_every_value_fits_the_integers_of_small_basics(build):
    for one in build.bundle.tables:
        assert all(abs(value) <= 32_767 for value in one.values), one.name
