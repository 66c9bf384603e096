"""Every command: what it prints, writes and leaves with."""

import json
import os
import subprocess
import sys
from pathlib import Path

import click
import numpy as np
import pytest
from PIL import Image

from scenekit.build import run_stages
from scenekit.cli.commands.preview_command import moving_steps
from scenekit.cli.main import COMMANDS, main
from scenekit.model.store import load
from scenekit.render.scene import render


def test_help_lists_every_command(call) -> None:
    shown = call("--help").out
    for name, about in COMMANDS.items():
        assert name in shown
        assert about.split(".")[0][:30] in shown


@pytest.mark.parametrize("name", list(COMMANDS))
def test_every_command_explains_itself(call, name: str) -> None:
    called = call(name, "--help")
    assert called.code == 0
    command = main.get_command(click.Context(main), name)
    assert command is not None
    for part in (command, *(command.commands.values() if isinstance(command, click.Group) else ())):
        assert part.help
        for parameter in part.params:
            if isinstance(parameter, click.Option) and parameter.name != "help":
                assert parameter.help, f"{name} {part.name}: {parameter.name} has no help"


def test_help_imports_no_numpy() -> None:
    code = "import sys; from scenekit.cli.main import outcome; outcome(['-h']); print('numpy' in sys.modules)"
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert result.stdout.strip().endswith("False")


def test_all_that_was_printed_is_written_before_leaving() -> None:
    code = "import sys; from scenekit.cli.main import leave; sys.stdout.write('x' * 100_000); leave(1)"
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (result.returncode, result.stdout) == (1, "x" * 100_000)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no file that is always full")
def test_what_cannot_be_printed_shows_in_the_exit_code() -> None:
    code = "import sys; from scenekit.cli.main import leave; sys.stdout.write('x'); leave(0)"
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
    with open("/dev/full", "w", encoding="utf-8") as full:
        result = subprocess.run([sys.executable, "-c", code], stdout=full, env=environment, check=False)
    assert result.returncode == 2


def test_slice_prints_the_contract(call, tmp_path: Path, game: Path) -> None:
    data = call("slice", game / "sheets" / "hero.png", "--cell", "12x16", "--json").json()
    assert data["image"] == {"width": 48, "height": 16}
    assert data["background"]["kind"] == "alpha"
    assert data["method"] == "cells"
    assert data["grid"] == {"cell": [12, 16], "margin": [0, 0], "gutter": [0, 0], "columns": 4, "rows": 1}
    assert [frame["name"] for frame in data["frames"]] == ["r00c00", "r00c01", "r00c02", "r00c03"]
    assert data["frames"][0]["box"] == [0, 0, 12, 16]
    assert data["frames"][0]["content"] == [3, 2, 6, 13]
    assert {"confidence", "reason", "alternatives", "findings"} <= set(data)


def test_slice_overlay_is_a_picture(call, tmp_path: Path, game: Path) -> None:
    out = tmp_path / "over.png"
    assert call("slice", game / "sheets" / "hero.png", "--cell", "12x16", "--overlay", out).code == 0
    with Image.open(out) as image:
        assert image.size == (48 * 4, 16 * 4)


def test_slice_takes_a_folder_of_numbered_pictures(call, tmp_path: Path, game: Path) -> None:
    folder = tmp_path / "run"
    folder.mkdir()
    for number in (1, 2, 10):
        colour = (number * 20, 0, 0, 255)
        Image.new("RGBA", (8, 6), colour).save(folder / f"run{number}.png")
    assert call("slice", folder, "--into", game, "--name", "run").code == 0
    sheet = load(game).sheet("run")
    assert [frame.name for frame in sheet.frames] == ["run1", "run2", "run10"]
    assert (game / sheet.file).exists()


def test_sheet_in_use_is_not_cut_away(call, game: Path) -> None:
    before = (game / "project.toml").read_bytes()
    called = call("slice", game / "sheets" / "hero.png", "--cell", "24x16", "--into", game)
    assert called.code == 2
    assert "is used by sprite hero" in called.err
    assert (game / "project.toml").read_bytes() == before


def test_budget_prints_the_contract(call, game: Path, tmp_path: Path) -> None:
    called = call("budget", game, "--json", "--plot", tmp_path / "b.png", "--ruler", tmp_path / "r.png")
    data = called.json()
    assert called.code == 0
    assert data["target"] == "main"
    assert data["scene"] == "first"
    assert data["machine"] == "indexed-board"
    assert data["ticks"] == 120
    assert data["period_ms"] == pytest.approx(1000 / data["refresh_hz"], abs=1e-5)
    worst = data["worst"]
    assert worst["work_ms"] == pytest.approx(sum(cost["ms"] for cost in worst["costs"]), abs=1e-3)
    assert {"name", "operation", "calls", "pixels", "ms"} == set(worst["costs"][0])
    for memory in data["memory"]:
        assert memory["used_bytes"] + memory["free_bytes"] == memory["capacity_bytes"]
        assert sum(item["bytes"] for item in memory["items"]) == memory["used_bytes"]
    for name in ("b.png", "r.png"):
        with Image.open(tmp_path / name) as image:
            assert min(image.size) >= 400


def test_preview_is_the_reference(call, game: Path, tmp_path: Path) -> None:
    out = tmp_path / "look.png"
    assert call("preview", game, "--tick", 31, "--out", out, "--scale", 2).code == 0
    build = run_stages(load(game), last="colours")
    wanted = render(build.project, build.scene, build.reduced, build.size, 31)
    got = np.asarray(Image.open(out).convert("RGB"))
    assert np.array_equal(got[::2, ::2], wanted)
    assert np.array_equal(got[1::2, 1::2], wanted)


@pytest.mark.parametrize("name", ["look.png", "look.gif"])
def test_moving_preview_keeps_time(call, game: Path, tmp_path: Path, name: str) -> None:
    out = tmp_path / name
    assert call("preview", game, "--ticks", "0:70", "--out", out).code == 0
    with Image.open(out) as image:
        total = 0.0
        for number in range(getattr(image, "n_frames", 1)):
            image.seek(number)
            total += image.info["duration"]
    # 70 ticks of a VGA signal at 70.086 Hz are 998.8 ms (VESA: 25.175 MHz / (800 x 449)).
    assert total == pytest.approx(998.8, abs=10 if name.endswith("gif") else 1)


def test_moving_steps_add_up_without_drift() -> None:
    shown, durations = moving_steps(tuple(range(1000)), 1000 / 60, 10, 2)
    assert sum(durations) == pytest.approx(1000 * 1000 / 60, abs=10)
    assert min(durations) >= 20
    assert shown == sorted(set(shown))


def test_export_and_verify(call, game: Path, tmp_path: Path) -> None:
    out = tmp_path / "board"
    data = call("export", game, "--out", out, "--play", "--json").json()
    assert data["scheme"] == "blit"
    names = {file["name"] for file in data["files"]}
    assert names == {"first.words", "first-play.words", "first-art.bmp", "stops.txt", "CREDITS.txt"}
    assert "A. Painter" in (out / "CREDITS.txt").read_text(encoding="utf-8")
    again = call("export", game, "--out", out, "--play", "--json").json()
    assert not any(file["changed"] for file in again["files"])
    proof = call("verify", game, "--ticks", "0,1,33,61,119", "--count", "--json").json()
    assert proof["passed"] is True
    assert [tick["tick"] for tick in proof["ticks"]] == [0, 1, 33, 61, 119]
    assert {tick["different"] for tick in proof["ticks"]} == {0}
    assert proof["tables"]["different"] == 0
    assert proof["counts"] == {"values": 320, "different": 0}
    same = call("verify", game, "--exported", out, "--ticks", "5", "--json").json()
    assert same["passed"] is True


def test_verify_finds_an_edited_export(call, game: Path, tmp_path: Path) -> None:
    out, pictures = tmp_path / "board", tmp_path / "pictures"
    call("export", game, "--out", out, "--play")
    play = out / "first-play.words"
    text = play.read_text(encoding="ascii")
    assert "sk_x + sk_frame_x" not in text
    play.write_text(text.replace("x + sk_frame_x(n)", "x - sk_frame_x(n)"), encoding="ascii")
    called = call("verify", game, "--exported", out, "--pictures", pictures, "--ticks", "0,40", "--json")
    assert called.code == 1
    data = called.json()
    assert data["passed"] is False
    assert (pictures / data["pictures"][0]).exists()


def test_check_finds_what_is_wrong(call, game: Path) -> None:
    assert call("check", game).code == 0
    (game / "layers" / "sky.png").unlink()
    called = call("check", game, "--json")
    assert called.code == 1
    assert any("sky.png" in finding["text"] for finding in called.json()["findings"])


def test_camera_beyond_its_limits_is_a_finding(call, game: Path) -> None:
    path = game / "scenes" / "first.toml"
    text = path.read_text(encoding="utf-8").replace("[camera]\n", "[camera]\nlimits = [0, 0, 20, 0]\n")
    path.write_text(text, encoding="utf-8")
    called = call("check", game, "--json")
    assert called.code == 1
    assert "tick 42" in next(f["text"] for f in called.json()["findings"] if f["code"] == "camera-limits")


@pytest.mark.parametrize("kind", ["machines", "dialects", "methods", "words"])
def test_lists(call, kind: str) -> None:
    assert call("list", kind).code == 0
    rows = call("list", kind, "--json").json()
    assert rows
    assert all(row["name"] and row["about"] for row in rows)


@pytest.mark.parametrize("kind", ["targets", "scenes", "sprites", "frames"])
def test_lists_of_a_project(call, game: Path, kind: str) -> None:
    assert call("list", kind, game, "--json").json()
    assert call("list", kind).code == 2


def test_demo_builds_and_proves_itself(call, tmp_path: Path, interpreter) -> None:
    for name in ("brandy", "ecma55"):
        interpreter(name)
    called = call("demo", "--out", tmp_path / "demo")
    assert called.code == 0, called.out
    assert len(called.out.splitlines()) <= 15
    proofs = json.loads((tmp_path / "demo" / "proof.json").read_text(encoding="utf-8"))
    assert len(proofs) == 8
    for proof in proofs:
        assert proof["passed"] is True
        if proof["dialect"] != "ecma55":
            assert len(proof["ticks"]) >= 12
            assert {tick["different"] for tick in proof["ticks"]} == {0}


def test_demo_can_be_copied(call, tmp_path: Path) -> None:
    assert call("demo", "--copy", tmp_path / "mine").code == 0
    assert call("check", tmp_path / "mine").code == 0
    assert call("demo", "--copy", tmp_path / "mine").code == 2


def test_a_camera_that_keeps_a_sprite(call, game: Path) -> None:
    asked = ("--keeps", "hero", "--zone", "20,10,40,30", "--limits", "0,0,99,9")
    assert call("add", "camera", game, *asked).code == 0
    again = load(game).scene(None).camera
    assert (again.keeps, again.zone, again.limits) == ("hero", (20, 10, 40, 30), (0, 0, 99, 9))
    done = call("verify", game, "--ticks", "0,40,100")
    assert done.code == 0, done.err
    assert call("add", "camera", game, "--keeps", "hero").code == 2
    assert call("add", "camera", game, "--keeps", "heron", "--zone", "1,1,2,2").code == 2
    assert call("add", "camera", game, "--keeps", "hero", "--zone", "1,1,2").code == 2


def test_a_sprite_that_sleeps_and_one_with_rows(call, game: Path) -> None:
    placed = ("add", "placed", game, "hero", "--over", "road", "--name", "late", "--at", "390,12", "--asleep")
    assert call(*placed).code == 2
    assert call(*placed, "--wakes", "-16,336").code == 0
    assert call("add", "animation", game, "hero", "run", "--ticks", "3", "--spans").code == 0
    again = load(game)
    assert again.scenes[0].placed[-1].asleep
    assert (again.scenes[0].wakes.start, again.scenes[0].wakes.end) == (-16, 336)
    assert again.sprite("hero").spans
    done = call("verify", game, "--ticks", "0,40,100", "--count")
    assert done.code == 0, done.err
