"""The commands that look at motion, colours and flashes."""

import numpy as np
import pytest
from PIL import Image


def test_motion_tells_loops_judder_and_seams(call, game, tmp_path) -> None:
    called = call("motion", game, "--json", "--pictures", tmp_path / "seams")
    data = called.json()
    sky = next(plane for plane in data["planes"] if plane["name"] == "sky")
    # Camera 1/2 px a tick, ratio 1/3: 1/6 px a tick, one step in six; floor lags by at most 5/6 px (DDA).
    assert sky["px_per_tick"] == "1/6"
    assert sky["steps"] == [0, 0, 0, 0, 0, 1]
    assert sky["judder_px"] == pytest.approx(5 / 6, abs=1e-4)
    assert data["loop_ticks"] == 120
    assert (tmp_path / "seams" / "seam-first-sky.png").exists()


def test_colours_lists_entries_and_ladder(call, game, tmp_path) -> None:
    chart = tmp_path / "chart.png"
    data = call(
        "colours",
        game,
        "--json",
        "--chart",
        chart,
        "--ladder",
        "510,1000,2000,4300",
        "--errors",
        tmp_path / "e",
    ).json()
    assert data["entries"][0] == {
        "entry": 0,
        "colour": "000000",
        "pixels": data["entries"][0]["pixels"],
        "error": 0.0,
        "role": "transparent",
    }
    # Nearest E24 values of a 4-bit ladder at 3.3 V into 75 ohm: 0.715820 V full scale (Millman's theorem).
    assert data["ladder"]["full_scale_v"] == pytest.approx(0.71582, abs=1e-4)
    assert len(data["ladder"]["levels"]) == 16
    assert chart.exists()
    assert (tmp_path / "e" / "error-first-sky.png").exists()
    assert call("colours", game, "--ladder", "a,b").code == 2
    assert call("colours", game, "--look", tmp_path / "x.png").code == 2
    assert call("colours", game, "--differ", "1,999").code == 2


def test_flash_passes_a_calm_scene(call, game) -> None:
    called = call("flash", game, "--json")
    assert called.code == 0
    assert called.json()["passed"] is True
    assert "no certificate" in called.json()["caution"]


def test_flash_finds_a_strobe(call, game, tmp_path) -> None:
    scene = game / "scenes" / "first.toml"
    strobe = "".join(
        f'\n[[events]]\nname = "f{n}"\ntick = {1 + 8 * n}\nticks_per_step = 4\nto = ["ffffff"]\nback = true\n'
        for n in range(12)
    )
    dark = np.zeros((64, 96, 4), dtype=np.uint8)
    dark[..., 3] = 255
    dark[::2, :, 2] = 60
    Image.fromarray(dark).save(game / "layers" / "sky.png")
    text = scene.read_text(encoding="utf-8").replace("wrap = [true, false]", "wrap = [true, true]", 1)
    scene.write_text(text + strobe, encoding="utf-8")
    called = call("flash", game, "--json")
    assert called.code == 1
    finding = called.json()["findings"][0]
    assert finding["code"] == "flash-general"
    assert "event f" in finding["text"]


def test_plane_by_depth_and_by_pace(call, game) -> None:
    scene = game / "scenes" / "first.toml"
    text = scene.read_text(encoding="utf-8")
    assert 'ratio = ["1/3", 1]' in text
    scene.write_text(text.replace('ratio = ["1/3", 1]', "depth = 4"), encoding="utf-8")
    assert call("motion", game, "--json").json()["planes"][0]["ratio"] == "1/4"
    scene.write_text(text.replace('ratio = ["1/3", 1]', 'pace = "1/8"'), encoding="utf-8")
    assert call("motion", game, "--json").json()["planes"][0]["ratio"] == "1/4"
    scene.write_text(text.replace('ratio = ["1/3", 1]', 'ratio = ["1/3", 1]\ndepth = 4'), encoding="utf-8")
    assert call("motion", game).code == 2


def test_what_is_said_of_many_things_is_said_once(call, game, tmp_path) -> None:
    for n in range(5):
        assert call("slice", game / "sheets" / "hero.png", "--into", game, "--name", f"twin{n}").code == 0
    printed = call("check", game).err
    (line,) = (line for line in printed.splitlines() if "no author, licence and source on record" in line)
    assert line.startswith("note: sheet twin0; sheet twin1; sheet twin2 and 4 more: no author")
    found = call("check", game, "--json").json()["findings"]
    assert sum(finding["code"] == "no-credit" for finding in found) == 8, "all of them, and the hero's source"


def test_a_command_that_is_not_there_names_the_nearest(call) -> None:
    called = call("buget", "game")
    assert called.code == 2
    assert called.err.startswith("error: command: unknown name 'buget'; did you mean 'budget'; known: add, ")


def test_sheets_are_listed_and_modes_that_cannot_be_used_are_marked(call, game) -> None:
    assert call("list", "sheets", game).out == "hero  sheets/hero.png, 4 frames\n"
    machines = {row["name"]: row["modes"] for row in call("list", "machines", "--json").json()}
    assert machines["pcbasic-pc"] == ["320x200 (16 fixed colours, not used yet)", "640x350 (16 entries)"]
    words = ("--machine", "pcbasic-pc", "--mode", "320x200", "--dialect", "pcbasic")
    assert call("add", "target", game, "fixed", *words).code == 0
    checked = call("check", game)
    assert checked.code == 1
    assert "error: target fixed, scene first: mode 320x200: fixed palettes are not used yet" in checked.err
