"""The draw plan in cases small enough to count by hand."""

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from PIL import Image
from random_scenes import write_machine
from small_scene import small_project

from scenekit.build import BuildOptions, run_stages
from scenekit.machines.abilities import DRAWING, ROUTINE_WORK
from scenekit.model.palette import Cycle
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Event, Placed, Plane, Scene
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite, Step
from scenekit.model.target import Target
from scenekit.programs.assemble import COUNTED
from scenekit.verify.prove import prove

RED, GREEN, BLUE, GREY = (200, 0, 0), (0, 200, 0), (0, 0, 200), (90, 90, 90)
CLEAR = (0, 0, 0, 0)


def opaque(colour):
    return (*colour, 255)


def make(tmp_path, *, plane, placed=(), sheet=None, cycles=(), events=(), size=(16, 12), **fields):
    """Return a project of one plane on a small screen."""
    write_machine(tmp_path / "m.toml", views={"v": size})
    plane.save(tmp_path / "plane.png")
    sprites, sheets = (), ()
    if sheet is not None:
        sheet.save(tmp_path / "sheet.png")
        frame = Frame(name="f", box=(0, 0, *sheet.size), pivot=(0, 0))
        sheets = (Sheet(name="s", file="sheet.png", frames=(frame,)),)
        steps = (Step(frame="f", ticks=5),)
        animations = (Animation(name="a", sheet="s", play="loop", steps=steps),)
        facings = (Facing(facing="right", flip=0), Facing(facing="left", flip=1))
        sprites = (Sprite(name="k", animations=animations, facings=facings),)
    settings = {"ratio": (Fraction(1), Fraction(1)), "wrap": (False, False), "tile": (4, 4), **fields}
    scene = Scene(
        name="v",
        ticks=50,
        ticks_per_update=1,
        missed="slow",
        backdrop=GREY,
        camera=Camera(),
        planes=(Plane(name="p", picture="plane.png", **settings),),
        placed=tuple(placed),
        events=tuple(events),
    )
    targets = (("blit", "v-indexed", "plain"), ("runs", "v-16", "brandy"), ("direct", "v-direct", "brandy"))
    return Project(
        folder=tmp_path,
        name="t",
        sheets=sheets,
        sprites=sprites,
        cycles=tuple(cycles),
        targets=tuple(Target(name=n, machine="m.toml", mode=m, dialect=d) for n, m, d in targets),
        scenes=(scene,),
    )


def work(project, target, tick, shown=None):
    """Return what is drawn; the routines' own work is counted apart."""
    build = run_stages(project, target, last="plan")
    plan = build.planner.plan(tick, shown)
    return [(w.name, w.operation, w.calls, w.pixels) for w in plan if w.operation in DRAWING]


def walked(project, target, tick=0, shown=None):
    """Return what the routines do beside drawing, added up by operation."""
    found: dict[str, int] = {}
    for item in run_stages(project, target, last="plan").planner.plan(tick, shown):
        if item.operation in ROUTINE_WORK:
            assert (item.rows, item.pixels) == (0, 0)
            found[item.operation] = found.get(item.operation, 0) + item.calls
    return found


def rows(project, target, tick=0):
    build = run_stages(project, target, last="plan")
    return [(w.operation, w.rows) for w in build.planner.plan(tick) if w.operation in DRAWING]


def test_a_solid_plane_that_covers_the_screen(tmp_path):
    """16 x 12 px in cells of 4 x 4: 12 opaque copies of 16 px, and one page."""
    project = make(tmp_path, plane=Image.new("RGBA", (16, 12), opaque(RED)), wrap=(True, True))
    assert work(project, "blit", 0) == [("p", "blit", 12, 192), ("page", "page", 1, 1)]
    assert rows(project, "blit") == [("blit", 48), ("page", 0)]
    assert work(project, "runs", 0) == [("p", "run", 48, 192), ("page", "page", 1, 1)]
    assert rows(project, "runs") == [("run", 48), ("page", 0)]


def test_a_plane_that_does_not_cover_is_drawn_on_a_backdrop(tmp_path):
    """8 x 8 px at 6, 3 on 16 x 12: all four cells whole, in front of one fill of the view."""
    project = make(tmp_path, plane=Image.new("RGBA", (8, 8), opaque(RED)), offset=(6, 3))
    expected = [("backdrop", "fill", 1, 192), ("p", "blit", 4, 64), ("page", "page", 1, 1)]
    assert work(project, "blit", 0) == expected
    assert work(project, "runs", 0)[1] == ("p", "run", 16, 64)


def test_cells_at_the_edges_are_cut(tmp_path):
    """8 x 8 px at -3, 7: columns show 1 and 4 px, rows 4 and 1 px: 4 copies of 4, 16, 1 and 4 px."""
    project = make(tmp_path, plane=Image.new("RGBA", (8, 8), opaque(RED)), offset=(-3, 7))
    assert work(project, "blit", 0)[1] == ("p", "blit", 4, 25)
    assert rows(project, "blit")[1] == ("blit", 2 * 4 + 2 * 1)
    assert work(project, "runs", 0)[1] == ("p", "run", 10, 25)


def test_a_seam_in_a_repeating_plane(tmp_path):
    """A picture of 10 px in cells of 4, 4 and 2, repeated over 16 px from pixel 7: 1 + 2, 4 + 4 + 2, 3."""
    project = make(
        tmp_path,
        plane=Image.new("RGBA", (10, 12), opaque(RED)),
        wrap=(True, False),
        offset=(-7, 0),
        tile=(4, 12),
    )
    # From pixel 7: cell 1 shows 1 px, cell 2 shows 2, then 4, 4, 2 and 3 px of cell 0.
    assert work(project, "blit", 0)[1] == ("p", "blit", 6, (1 + 2 + 4 + 4 + 2 + 3) * 12)


def test_clear_pixels_make_a_copy_keyed_and_empty_cells_cost_nothing(tmp_path):
    plane = Image.new("RGBA", (16, 12), opaque(RED))
    plane.paste(CLEAR, (0, 0, 4, 4))
    plane.putpixel((5, 1), CLEAR)
    project = make(tmp_path, plane=plane, tile=(4, 4))
    found = work(project, "blit", 0)
    assert ("p", "blit", 10, 160) in found
    assert ("p", "blit-keyed", 1, 16) in found
    # Row 1 of the cell with the hole has two runs; its area is one less.
    assert work(project, "runs", 0)[1] == ("p", "run", 11 * 4 + 1, 16 * 11 - 1)


def test_mirrored_cells_share_a_piece_and_cost_a_mirrored_copy(tmp_path):
    plane = Image.new("RGBA", (8, 4), opaque(RED))
    plane.paste(opaque(BLUE), (0, 0, 1, 4))
    plane.paste(opaque(BLUE), (7, 0, 8, 4))
    project = make(tmp_path, plane=plane, size=(8, 4), wrap=(True, True))
    build = run_stages(project, "blit", last="plan")
    assert build.pieces.tiles == 1
    assert build.pieces.maps == ((0, 1),)
    assert work(project, "blit", 0) == [
        ("p", "blit", 1, 16),
        ("p", "blit-flipped", 1, 16),
        ("page", "page", 1, 1),
    ]


def test_what_the_routines_walk_over(tmp_path):
    """8 x 8 px at 6, 3 in cells of 4: one plane, two rows, four cells, four pieces; at tick 0 no step."""
    project = make(tmp_path, plane=Image.new("RGBA", (8, 8), opaque(RED)), offset=(6, 3))
    assert walked(project, "blit") == {"plane": 1, "row": 2, "cell": 4, "piece": 4}
    plane = Image.new("RGBA", (8, 8), opaque(RED))
    plane.paste(CLEAR, (0, 0, 4, 4))
    project = make(tmp_path, plane=plane, offset=(6, 3))
    assert walked(project, "blit") == {"plane": 1, "row": 2, "cell": 4, "piece": 3}
    sheet = Image.new("RGBA", (5, 3), opaque(GREEN))
    project = make(tmp_path, plane=plane, offset=(6, 3), placed=[actor(1, 1)], sheet=sheet)
    found = walked(project, "blit", 5, 2)
    assert (found["sprite"], found["piece"], found["tick"]) == (1, 4, 3)
    assert (found["tick-plane"], found["tick-sprite"]) == (3, 3)
    assert walked(project, "runs").get("edge-run", 0) == 0
    project = make(tmp_path, plane=plane, offset=(6, 3), placed=[actor(-1, 1)], sheet=sheet)
    assert walked(project, "runs")["edge-run"] == 3, "each of its three rows is held against the edge"
    project = make(tmp_path, plane=plane, offset=(6, 3), placed=[actor(9, 1, "left")], sheet=sheet)
    assert walked(project, "runs")["turned-run"] == 3


def actor(x, y, facing="right"):
    return Placed(name="hero", sprite="k", over="p", moves_with="screen", at=(x, y), facing=facing)


@pytest.mark.parametrize(
    ("x", "y", "calls", "pixels"),
    [(2, 3, 1, 15), (-2, 3, 1, 9), (14, 3, 1, 6), (2, -1, 1, 10), (2, 11, 1, 5), (14, 11, 1, 2)],
)
def test_a_sprite_is_one_copy_of_what_the_screen_shows(tmp_path, x, y, calls, pixels):
    sheet = Image.new("RGBA", (5, 3), opaque(GREEN))
    plane = Image.new("RGBA", (16, 12), opaque(RED))
    project = make(tmp_path, plane=plane, placed=[actor(x, y)], sheet=sheet, wrap=(True, True))
    assert ("hero", "blit", calls, pixels) in work(project, "blit", 0)
    project = make(tmp_path, plane=plane, placed=[actor(x, y)], sheet=sheet, wrap=(True, True))
    assert ("hero", "run", min(12, y + 3) - max(0, y), pixels) in work(project, "runs", 0)


@pytest.mark.parametrize(("x", "y"), [(-5, 3), (16, 3), (2, -3), (2, 12)])
def test_a_sprite_off_the_screen_costs_nothing(tmp_path, x, y):
    sheet = Image.new("RGBA", (5, 3), opaque(GREEN))
    plane = Image.new("RGBA", (16, 12), opaque(RED))
    project = make(tmp_path, plane=plane, placed=[actor(x, y)], sheet=sheet)
    assert all(name != "hero" for name, *_ in work(project, "blit", 0))
    assert all(name != "hero" for name, *_ in work(project, "runs", 0))


def test_a_sprite_is_trimmed_and_mirrored_about_its_pivot(tmp_path):
    """Only 2 x 1 px of the frame are drawn; mirrored they lie on the other side of the pivot."""
    sheet = Image.new("RGBA", (5, 3), CLEAR)
    sheet.paste(opaque(GREEN), (3, 1, 5, 2))
    plane = Image.new("RGBA", (16, 12), opaque(RED))
    project = make(tmp_path, plane=plane, placed=[actor(14, 3)], sheet=sheet)
    assert all(name != "hero" for name, *_ in work(project, "blit", 0))
    project = make(tmp_path, plane=plane, placed=[actor(14, 3, "left")], sheet=sheet)
    assert ("hero", "blit-flipped", 1, 2) in work(project, "blit", 0)


def test_palette_writes_are_the_entries_that_changed(tmp_path):
    """A cycle of three turns every 4 ticks; an event recolours one entry at tick 6."""
    plane = Image.new("RGBA", (16, 12), opaque(GREY))
    for x, colour in enumerate((RED, GREEN, BLUE, (1, 2, 3))):
        plane.putpixel((x, 0), opaque(colour))
    cycle = Cycle(name="c", colours=(RED, GREEN, BLUE), ticks=4, direction="forward")
    event = Event(
        name="e", tick=6, steps=1, ticks_per_step=1, colours=((1, 2, 3),), start=((1, 2, 3),), to=((9, 9, 9),)
    )
    project = make(tmp_path, plane=plane, cycles=[cycle], events=[event])

    def writes(target, tick, shown=None):
        return sum(
            calls for _, operation, calls, _ in work(project, target, tick, shown) if operation == "palette"
        )

    assert [writes("blit", tick) for tick in range(9)] == [0, 0, 0, 0, 3, 0, 1, 0, 3]
    assert writes("blit", 8, 3) == 4
    assert writes("blit", 12, 0) == 1, "after three turns the cycle stands as at first"
    assert [writes("runs", tick) for tick in range(9)] == [0, 0, 0, 0, 3, 0, 1, 0, 3]
    assert [writes("direct", tick) for tick in range(9)] == [0] * 9


def test_a_target_that_cannot_draw_has_no_work(tmp_path):
    project = small_project(tmp_path / "p")
    build = run_stages(project, "tables", last="plan")
    assert build.planner.plan(3) == ()


def test_work_is_listed_in_drawing_order(tmp_path):
    project = small_project(tmp_path / "p")
    build = run_stages(project, "board", last="plan")
    names = list(dict.fromkeys(w.name for w in build.planner.plan(4, 0)))
    assert [name for name in names if name != "scene"] == [
        "wall",
        "tom",
        "fence",
        "sign",
        "bird",
        "kit",
        "page",
        "palette",
    ]


@pytest.mark.parametrize("target", ["blit", "runs", "direct"])
def test_the_hand_counted_cases_run_to_the_same_counts(tmp_path, interpreter, target):
    """The counting export prints what the plan says, in the interpreter that the target has."""
    sheet = Image.new("RGBA", (5, 3), opaque(GREEN))
    plane = Image.new("RGBA", (10, 8), opaque(RED))
    plane.paste(CLEAR, (0, 0, 4, 4))
    hero = actor(14, 3, "left")
    project = make(tmp_path, plane=plane, placed=[hero], sheet=sheet, wrap=(True, False), offset=(-7, 3))
    build = run_stages(project, target, options=BuildOptions(play=True, counting=True))
    interpreter(build.dialect.name)
    proof = prove(build, (0, 1, 9))
    assert proof.passed
    assert (proof.counts, proof.counts_different) == (3 * 2 * len(COUNTED), 0)


@pytest.mark.parametrize("target", ["board", "brandy-colour", "brandy-16"])
def test_the_demo_draws_no_pixel_too_many(demo, target):
    """Copies never leave the screen, and every plane is drawn at most once a pixel."""
    build = run_stages(demo, target, last="plan")
    for tick in (0, 263, 434):
        by_plane: dict[str, int] = {}
        for item in build.planner.plan(tick):
            assert item.calls > 0
            assert item.pixels >= 0
            by_plane[item.name] = by_plane.get(item.name, 0) + item.pixels
        for plane in build.scene.planes:
            assert by_plane.get(plane.name, 0) <= 320 * 200


def test_the_same_scene_costs_the_same_at_any_distance(tmp_path):
    """Scrolling by a whole picture changes nothing in what is drawn."""
    plane = Image.new("RGBA", (10, 12), opaque(RED))
    plane.putpixel((2, 2), CLEAR)
    for offset in (0, 10, -10, 10_000):
        project = make(tmp_path, plane=plane, wrap=(True, False), offset=(offset, 0))
        found = work(project, "blit", 0)
        assert found == work(replace(project), "blit", 0)
        assert np.array_equal(found[1:], work(make(tmp_path, plane=plane, wrap=(True, False)), "blit", 0)[1:])
