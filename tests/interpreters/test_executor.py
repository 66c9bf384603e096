"""The executor: every word, its limits, and clear errors for programs that go wrong."""

import random
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from small_scene import TICKS, small_project

from scenekit.build import BuildOptions, run_stages
from scenekit.dialects.dialect import load_dialect
from scenekit.errors import SceneKitError, VerifyError
from scenekit.export import write_export
from scenekit.interpreters import executor, translate
from scenekit.interpreters.outcome import Run
from scenekit.verify.stops import write_stops

HEAD = 'mode 6, 4\npalette 1, 255, 0, 0\npalette 2, 0, 255, 0\nkeyed_entry 0\nload_image 0, "a.png"\n'
ART = np.array([[1, 2, 0], [0, 1, 1]], dtype=np.uint8)


def run(folder: Path, text: str, screens: int = 0):
    image = Image.fromarray(ART, "L")
    image.putpalette([0, 0, 0, 255, 0, 0, 0, 255, 0])
    image.save(folder / "a.png")
    Image.new("RGB", (2, 2)).save(folder / "colour.png")
    (folder / "t.words").write_text(text)
    dialect = load_dialect("plain", folder)
    task = Run(folder=folder, program="t.words", dialect=dialect, screens=screens, time_limit_s=5)
    return executor.run(task)


def screen(folder, text):
    """Return the entries of the screen (by red and green) that a program saves."""
    saved = run(folder, HEAD + text + "\nend_frame 0\nsave_screen 0\nquit\n", 1).screens[0]
    assert saved.shape == (4, 6, 3)
    return (saved[..., 0] // 255 + 2 * (saved[..., 1] // 255)).tolist()


BLANK = [[0] * 6 for _ in range(4)]


def test_an_opaque_copy_takes_every_entry(tmp_path):
    wanted = [[2] * 6 for _ in range(4)]
    wanted[1][2:5], wanted[2][2:5] = [1, 2, 0], [0, 1, 1]
    assert screen(tmp_path, "ink 2\nfill 0, 0, 6, 4\nblit 0, 0, 0, 3, 2, 2, 1") == wanted


@pytest.mark.parametrize(
    ("flip", "rows"),
    [
        (0, ([1, 2, 9], [9, 1, 1])),
        (1, ([9, 2, 1], [1, 1, 9])),
        (2, ([9, 1, 1], [1, 2, 9])),
        (3, ([1, 1, 9], [9, 2, 1])),
    ],
)
def test_a_keyed_copy_leaves_out_the_key_and_mirrors(tmp_path, flip, rows):
    wanted = [[2] * 6 for _ in range(4)]
    for y, row in enumerate(rows):
        wanted[y][:3] = [2 if entry == 9 else entry for entry in row]
    assert screen(tmp_path, f"ink 2\nfill 0, 0, 6, 4\nblit_keyed 0, 0, 0, 3, 2, 0, 0, {flip}") == wanted


def test_a_fill_is_clipped(tmp_path):
    wanted = [row[:] for row in BLANK]
    wanted[3][4:] = [1, 1]
    assert screen(tmp_path, "ink 1\nfill 4, 3, 9, 9") == wanted


def test_a_page_that_is_not_shown_is_not_saved(tmp_path):
    assert screen(tmp_path, "begin_frame 1\nink 1\nfill 0, 0, 6, 4\nbegin_frame 0") == BLANK


def test_a_palette_write_recolours_what_is_drawn(tmp_path):
    assert screen(tmp_path, "ink 1\nfill 0, 0, 6, 4\npalette 1, 0, 255, 0") == [[2] * 6 for _ in range(4)]


@pytest.mark.parametrize(
    "text",
    [
        "blit 0, 0, 0, 3, 2, 4, 0",
        "blit 0, 0, 0, 3, 2, -1, 0",
        "blit 0, 1, 0, 3, 2, 0, 0",
        "blit 0, -1, 0, 2, 2, 0, 0",
        "blit 0, 0, 0, 0, 2, 0, 0",
        "blit 3, 0, 0, 1, 1, 0, 0",
        "blit_keyed 0, 0, 0, 3, 2, 0, 0, 4",
        "palette 256, 0, 0, 0",
        "palette 0, 256, 0, 0",
        "ink -1",
        "begin_frame 9",
        "save_screen 1",
        'load_image 1, "../a.png"',
        'load_image 1, "none.png"',
        'load_image 1, "colour.png"',
        'load_image 1, "t.words"',
        "mode 0, 5",
        "mode 99999, 99999",
        "array x, 0",
        "array x, 99999999999",
        "read x",
        "x = y",
        "x = t(0)",
        "x = 1 div 0",
        "x = 1 mod 0",
        "do nobody",
        "jump 5",
        "say",
        "blit 1",
        "array a, 3\na(3) = 1",
        "array a, 3\na(0 - 4) = 1",
        "array a, 3\nx = a(-1)",
        "x = 1 +",
        "routine a\ndo a\nend\ndo a",
        "routine a(b, b)\nend",
        "data 1, x",
        "x = " + "+".join("1" * 300),
        "x = " + " + ".join(["1"] * 5000),
    ],
)
def test_programs_that_go_wrong_say_so_in_one_line(tmp_path, text):
    with pytest.raises(SceneKitError) as caught:
        run(tmp_path, HEAD + text + "\nquit\n")
    assert str(caught.value).isprintable()
    assert len(str(caught.value)) < 400


def test_a_drawing_word_before_the_display_is_open(tmp_path):
    with pytest.raises(VerifyError, match="before the display is open"):
        run(tmp_path, "fill 0, 0, 1, 1\nquit\n")


def test_too_few_screens(tmp_path):
    with pytest.raises(VerifyError, match="saved 1 screens; 2 awaited"):
        run(tmp_path, HEAD + "save_screen 0\nquit\n", 2)


def test_names_cannot_reach_python(tmp_path):
    """Every name is marked, so that words of Python are plain variables here."""
    said = run(tmp_path, "import = 3\nexec = 4\nself = import + exec\nsay self\nquit\n").said
    assert said == (7,)
    with pytest.raises(SceneKitError):
        run(tmp_path, "__import__(0) = 1\nquit\n")


def test_mutated_programs_run_or_say_what_is_wrong(tmp_path):
    """A few hundred broken programs: nothing but our own errors comes out."""
    build = run_stages(small_project(tmp_path / "p"), "board", options=BuildOptions(play=True))
    folder = tmp_path / "run"
    write_export(folder, build.files)
    write_stops(folder, build.play_file, (0, 2), 240)
    lines = (folder / build.play_file).read_text().splitlines()
    dialect = load_dialect("plain", folder)
    chosen = random.Random(3)
    codes = [n for n, line in enumerate(lines) if not line.startswith(("'", "data"))]
    failures = set()
    for _ in range(80):
        other = lines[:]
        for _ in range(chosen.randint(1, 2)):
            place = chosen.choice(codes)
            kind = chosen.randrange(4)
            if kind == 0:
                other[place] = ""
            elif kind == 1:
                other[place] = lines[chosen.choice(codes)]
            else:
                word = chosen.choice(("-", "+", "(", ")", "1", "x", "end", "sk_tick", ",", '"'))
                cut = chosen.randrange(len(other[place]) + 1)
                other[place] = other[place][:cut] + word + other[place][cut:]
        (folder / "m.words").write_text("\n".join(other) + "\n")
        task = Run(folder=folder, program="m.words", dialect=dialect, screens=2, time_limit_s=0.1)
        try:
            executor.run(task)
        except SceneKitError as error:
            failures.add(str(error))
    assert len(failures) > 20
    assert all(failure.isprintable() for failure in failures)


@pytest.mark.parametrize("scene", ["quay", "pier"])
def test_div_and_mod_never_meet_a_negative_operand_in_the_demo(demo, tmp_path, monkeypatch, scene):
    """BASICs round such quotients in different ways, so no routine may need one."""
    build = run_stages(demo, "board", scene, options=BuildOptions(play=True, counting=True))
    write_export(tmp_path, build.files)
    write_stops(tmp_path, build.play_file, (0, 1, 263, 434, 700), 240)
    real = translate._value
    seen = []

    def checked(a, b):
        seen.append(1)
        assert a >= 0, (a, b)
        assert b > 0, (a, b)
        return a

    def value(expression):
        text = real(expression)
        if isinstance(expression, translate.Binary) and expression.operator in ("div", "mod"):
            a, b = value(expression.left), value(expression.right)
            sign = translate.OPERATORS[expression.operator]
            return f"(checked({a}, {b}) {sign} {b})"
        return text

    words = executor.Machine.words
    monkeypatch.setattr(translate, "_value", value)
    monkeypatch.setattr(executor.Machine, "words", lambda self: {**words(self), "checked": checked})
    dialect = load_dialect("plain", tmp_path)
    executor.run(Run(folder=tmp_path, program=build.play_file, dialect=dialect, screens=5, time_limit_s=60))
    assert len(seen) > 1000


def test_the_small_scene_runs_without_being_told_where_it_is(tmp_path):
    """The program reads its stops and its art from its own folder, and says a value for each table entry."""
    build = run_stages(small_project(tmp_path / "p"), "board", options=BuildOptions(play=True))
    write_export(tmp_path / "run", build.files)
    write_stops(tmp_path / "run", build.play_file, TICKS, 240)
    dialect = load_dialect("plain", tmp_path)
    task = Run(
        folder=tmp_path / "run", program=build.play_file, dialect=dialect, screens=len(TICKS), time_limit_s=9
    )
    outcome = executor.run(task)
    tables = [value for table in build.bundle.tables for value in table.values]
    assert list(outcome.said[: len(tables)]) == tables
    assert len(outcome.screens) == len(TICKS)


def test_a_script_of_keys_without_end_is_refused(tmp_path):
    (tmp_path / "keys.txt").write_bytes(b"1\n" * 3_000_000)
    with pytest.raises(VerifyError, match=r"keys.txt: must be at most 4000000 bytes"):
        run(tmp_path, "keys_open\nquit\n")
