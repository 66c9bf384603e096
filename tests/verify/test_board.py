"""What a board sends back: logs with prompts, torn logs, several logs, screens; programs that report."""

import random
import re
import shutil
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from small_scene import TICKS, small_project

import scenekit
from scenekit.build import BuildOptions, run_stages
from scenekit.errors import ExportError, SceneKitError, VerifyError
from scenekit.export import write_export
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.model.store import load
from scenekit.programs.records import record_sums, sums_of
from scenekit.verify.board import FAILED, INCOMPLETE, PASSED, awaited, judge, read_sent
from scenekit.verify.prove import prove, usual_limit_s

STOPS = TICKS[:5]


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    return small_project(tmp_path_factory.mktemp("board") / "p")


@pytest.fixture(scope="module")
def ran(project, tmp_path_factory):
    """Return a function that runs the reporting program of a target once and gives build and outcome."""
    known = {}

    def run(target):
        if target not in known:
            build = run_stages(project, target, options=BuildOptions(play=True, report=STOPS))
            folder = tmp_path_factory.mktemp("run")
            write_export(folder, build.files)
            task = Run(
                folder=folder,
                program=build.play_file,
                dialect=build.dialect,
                screens=len(STOPS) if build.scheme.draws else 0,
                flips=build.abilities.flips,
                time_limit_s=usual_limit_s(build, STOPS),
            )
            known[target] = build, readers()[build.dialect.reader].run(task)
        return known[target]

    return run


def screens_of(outcome):
    return dict(zip(STOPS, outcome.screens, strict=False))


@pytest.mark.parametrize("target", ["board", "colour", "sixteen", "tables"])
def test_a_reporting_program_needs_nothing_but_itself_and_passes(ran, interpreter, project, target):
    interpreter(project.target(target).dialect)
    build, outcome = ran(target)
    proof = judge(build, STOPS, [outcome.said], screens_of(outcome))
    assert proof.verdict == PASSED
    parts = awaited(build, STOPS)
    assert len(outcome.said) == 4 * sum(len(values) for _, values in parts)
    assert len(proof.parts) == len([t for t in build.bundle.tables if t.values]) + len(STOPS)


@pytest.mark.parametrize("target", ["board", "plain", "sdlbrt", "yabasic"])
def test_sums_of_rows_prove_a_screen_that_nobody_can_save(interpreter, project, target, tmp_path):
    if target != "board":
        direct = replace(project.target("colour"), name=target, dialect=target)
        project = replace(project, targets=(direct,))
    interpreter(project.target(target).dialect)
    stops = STOPS[:2]
    build = run_stages(project, target, options=BuildOptions(play=True, report=stops, row_sums=True))
    if not readers()[build.dialect.reader].available(build.dialect):
        pytest.skip("its display is missing")
    write_export(tmp_path, build.files)
    task = Run(
        folder=tmp_path,
        program=build.play_file,
        dialect=build.dialect,
        screens=0,
        flips=build.abilities.flips,
        time_limit_s=60 + usual_limit_s(build, stops),
    )
    said = readers()[build.dialect.reader].run(task).said
    proof = judge(build, stops, [said], {}, sums=True)
    assert (proof.verdict, proof.unsent) == (PASSED, ())
    rows = [part for part in proof.parts if part.name.startswith("rows at tick")]
    assert [part.values for part in rows] == [2 * -(-build.screen[1] // 16)] * len(stops)
    assert judge(build, (stops[0], 57), [said], {}, sums=True).verdict == FAILED


def test_sums_that_cannot_be_foretold_or_read_are_refused(project):
    for target, text in (("colour", "no word see"), ("sixteen", "no word see")):
        with pytest.raises(ExportError, match=text):
            run_stages(project, target, options=BuildOptions(play=True, report=STOPS, row_sums=True))


def test_without_screens_or_lines_it_is_incomplete_and_names_them(ran):
    build, outcome = ran("board")
    proof = judge(build, STOPS, [outcome.said], {})
    assert (proof.verdict, proof.unsent) == (INCOMPLETE, STOPS)
    said = list(outcome.said)
    del said[40]
    proof = judge(build, STOPS, [said], screens_of(outcome))
    assert proof.verdict == INCOMPLETE
    assert [part.missing for part in proof.parts if part.missing] == [(11,)]
    assert judge(build, STOPS, [], {}).verdict == INCOMPLETE


def test_a_wrong_value_or_pixel_fails(ran):
    build, outcome = ran("board")
    said = list(outcome.said)
    said[41] += 1
    said[42:44] = record_sums(said[40], said[41])
    proof = judge(build, STOPS, [said], screens_of(outcome))
    assert proof.verdict == FAILED
    assert [part.different for part in proof.parts if part.different] == [(11,)]
    both = judge(build, STOPS, [outcome.said, said], screens_of(outcome))
    assert both.verdict == FAILED
    screens = {tick: np.array(screen) for tick, screen in screens_of(outcome).items()}
    screens[STOPS[1]][3, 4] ^= 1
    proof = judge(build, STOPS, [outcome.said], screens)
    assert proof.verdict == FAILED
    assert [s.box for s in proof.screens if s.different] == [(4, 3, 1, 1)]


def test_another_scene_fails(ran, project):
    outcome = ran("board")[1]
    scene = replace(project.scenes[0], camera=replace(project.scenes[0].camera, start=(6, -3)))
    other = run_stages(replace(project, scenes=(scene,)), "board")
    assert judge(other, STOPS, [outcome.said], screens_of(outcome)).verdict == FAILED


def mangle(lines, chosen):
    kept = []
    for line in lines:
        if chosen.random() >= 0.1:
            kept.append(line)
        elif chosen.random() < 0.7:
            kept.append(line[:-1] + chosen.choice("0123456789 ?"))
    return kept


def test_torn_logs_never_pass_and_complete_each_other(ran, tmp_path):
    """A tenth of the lines lost or mangled: never a wrong "passed", never a wrong "FAILED"."""
    build, outcome = ran("board")
    screens = screens_of(outcome)
    wrong = list(outcome.said)
    wrong[5] += 1
    wrong[6:8] = record_sums(wrong[4], wrong[5])
    together = 0
    for seed in range(200):
        chosen = random.Random(seed)
        logs = []
        for said in (outcome.said, outcome.said, wrong):
            text = [chosen.choice(["", "> ", "= ", " "]) + str(value) for value in said]
            path = tmp_path / "log.txt"
            path.write_text("\n".join(["RUN", *mangle(text, chosen), "OK"]), encoding="ascii")
            logs += read_sent([str(path)], STOPS)[0]
        assert judge(build, STOPS, logs[:1], screens).verdict == INCOMPLETE
        assert judge(build, STOPS, logs[2:], screens).verdict != PASSED
        several = judge(build, STOPS, logs[:2], screens)
        assert several.verdict != FAILED
        one = judge(build, STOPS, logs[:1], screens)
        together += sum(len(part.missing) for part in several.parts) < sum(len(p.missing) for p in one.parts)
    assert together == 200


def test_sent_screens_are_taken_by_name_or_by_tick(ran, tmp_path):
    build, outcome = ran("board")
    Image.fromarray(outcome.screens[1]).save(tmp_path / "shot1.bmp")
    Image.fromarray(outcome.screens[2]).save(tmp_path / "photo.png")
    sent = [str(tmp_path / "shot1.bmp"), f"{STOPS[2]}={tmp_path / 'photo.png'}"]
    logs, screens = read_sent(sent, STOPS)
    assert logs == []
    assert sorted(screens) == [STOPS[1], STOPS[2]]
    proof = judge(build, STOPS, [outcome.said], screens)
    assert [screen.different for screen in proof.screens] == [0, 0]
    assert proof.unsent == (STOPS[0], STOPS[3], STOPS[4])


@pytest.mark.parametrize(
    "name", ["shot99.bmp", "photo.png", "none.txt", "5=photo.bmp", "shot0.bmp", "shot1.txt"]
)
def test_bad_files_are_said_in_one_line(tmp_path, name):
    if name != "none.txt":
        (tmp_path / name.split("=")[-1]).write_bytes(b"no picture" * 5)
    sent = name if "=" not in name else f"5={tmp_path / 'photo.bmp'}"
    with pytest.raises(SceneKitError) as caught:
        read_sent([str(tmp_path / name) if "=" not in name else sent], STOPS)
    assert "\n" not in str(caught.value)


def test_a_screen_of_no_stop_is_refused(ran):
    build, outcome = ran("board")
    with pytest.raises(SceneKitError, match="not among the stops"):
        judge(build, STOPS, [], {5000: outcome.screens[0]})


def test_sums_see_every_change_that_was_tried():
    chosen = random.Random(3)
    values = [chosen.randrange(-40, 3000) for _ in range(400)]
    whole = sums_of(values)
    for place in range(400):
        for change in (-1, 1, 10, 991, 997, -100):
            other = list(values)
            other[place] += change
            assert sums_of(other) != whole
        swapped = list(values)
        swapped[place], swapped[place - 1] = swapped[place - 1], swapped[place]
        assert swapped == values or sums_of(swapped) != whole
        assert sums_of(values[:place] + values[place + 1 :]) != whole


def test_a_dialect_that_saves_no_screen_still_draws_and_is_proved_by_sums(project, tmp_path):
    dialect = (Path(scenekit.__file__).parent / "dialects/targets/plain.toml").read_text("utf-8")
    unable = re.sub(r"(?m)^save_screen = .*\n", "", dialect)
    folder = tmp_path / "p"
    shutil.copytree(project.folder, folder)
    (folder / "unable.toml").write_text(unable, encoding="utf-8")
    mine = replace(
        load(folder), targets=(replace(project.target("board"), name="mine", dialect="unable.toml"),)
    )
    stops = STOPS[:2]
    build = run_stages(mine, "mine", options=BuildOptions(play=True, report=stops, row_sums=True))
    run = tmp_path / "run"
    write_export(run, build.files)
    task = Run(
        folder=run,
        program=build.play_file,
        dialect=build.dialect,
        screens=0,
        flips=build.abilities.flips,
        time_limit_s=60.0,
    )
    said = readers()["executor"].run(task).said
    assert judge(build, stops, [said], {}, sums=True).verdict == PASSED
    plain = run_stages(mine, "mine", options=BuildOptions(play=True))
    assert b"save_screen" not in plain.files[plain.play_file]
    with pytest.raises(VerifyError, match="no word save_screen"):
        prove(plain, stops)
