"""Sheets from the command line: strips, groups, new versions, repeats, pages, credits."""

import csv
import io
import json
import zipfile
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from scenekit.model.store import load

CONTRACT = {
    "image",
    "background",
    "method",
    "grid",
    "frames",
    "findings",
    "confidence",
    "reason",
    "alternatives",
}
CELL_W, CELL_H = 16, 20
SKIN, SHIRT, LEG = (230, 180, 140, 255), (40, 60, 200, 255), (30, 30, 40, 255)


def walker(step: int, shirt: tuple[int, int, int, int] = SHIRT, key: int = 0) -> np.ndarray:
    """Draw a figure that looks right, its feet on row 17."""
    cell = np.zeros((CELL_H, CELL_W, 4), np.uint8)
    cell[2:6, 5:10] = SKIN
    cell[4, 10] = SKIN
    cell[6:12, 4 : 10 + step % 3] = shirt
    cell[7 + key, 5] = LEG
    cell[12:18, 5 - step % 2 : 7 - step % 2] = LEG
    cell[12:18, 8 + step : 10 + step] = LEG
    return cell


def sheet_of(rows: list[list[np.ndarray]]) -> np.ndarray:
    return np.concatenate([np.concatenate(row, axis=1) for row in rows], axis=0)


def save(path: Path, pixels: np.ndarray) -> Path:
    Image.fromarray(pixels).save(path)
    return path


@pytest.fixture
def empty(call, tmp_path: Path) -> Path:
    """Return an empty project for a display of 70.086 Hz."""
    folder = tmp_path / "game"
    assert call("new", folder).code == 0
    return folder


@pytest.fixture
def hero(call, empty: Path, tmp_path: Path) -> Path:
    """Return a project with one sheet of four walkers that a sprite uses."""
    path = save(tmp_path / "hero.png", sheet_of([[walker(n) for n in range(4)]]))
    called = call("slice", path, "--cell", "16x20", "--into", empty, "--sprite", "hero", "--ticks", 5)
    assert called.code == 0, called.err
    return empty


def open_raster(path: Path, layers: list[tuple[str, str, np.ndarray]], size: tuple[int, int]) -> Path:
    """Write layers, the topmost first, each with more attributes."""
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("mimetype", "image/openraster")
        lines = []
        for number, (name, more, pixels) in enumerate(layers):
            data = io.BytesIO()
            Image.fromarray(pixels).save(data, "PNG")
            archive.writestr(f"data/{number}.png", data.getvalue())
            lines.append(f'<layer name="{name}" src="data/{number}.png" {more}/>')
        stack = f'<image w="{size[0]}" h="{size[1]}"><stack>{"".join(lines)}</stack></image>'
        archive.writestr("stack.xml", stack)
    return path


def test_animated_gif_becomes_an_animation_with_its_own_times(call, empty: Path, tmp_path: Path) -> None:
    steps = [Image.fromarray(walker(n)) for n in range(4)]
    path, durations = tmp_path / "gull.gif", [100, 100, 250, 40]
    steps[0].save(path, save_all=True, append_images=steps[1:], duration=durations, loop=0, disposal=2)
    called = call("slice", path, "--into", empty, "--sprite", "gull", "--animation", "flap")
    assert called.code == 0, called.err
    document = load(empty)
    animation = document.sprite("gull").animations[0]
    # VESA: 25.175 MHz / (800 x 449) = 70.086 Hz; ends at 100, 200, 450, 490 ms are 7.01, 14.02, 31.54, 34.34
    assert [step.ticks for step in animation.steps] == [7, 7, 18, 2]
    assert animation.name == "flap"
    assert "250 ms as 18" in called.out
    assert "70.09 refreshes a second" in called.out
    assert document.sheet("gull").file == "sheets/gull.png"
    assert [step.frame for step in animation.steps] == ["gull-00", "gull-01", "gull-02", "gull-03"]
    with Image.open(empty / "sheets" / "gull.png") as image:
        kept = np.asarray(image.convert("RGBA"))
    for number in range(4):
        part = kept[:, number * CELL_W : (number + 1) * CELL_W]
        assert np.array_equal(part[..., 3] > 0, walker(number)[..., 3] > 0)


@pytest.mark.parametrize("suffix", ["png", "webp"])
def test_other_animated_files(call, empty: Path, tmp_path: Path, suffix: str) -> None:
    steps = [Image.fromarray(walker(n)) for n in range(3)]
    path = tmp_path / f"gull.{suffix}"
    steps[0].save(path, save_all=True, append_images=steps[1:], duration=[50, 200, 50], lossless=True)
    data = call("slice", path, "--into", empty, "--sprite", "gull", "--json").json()
    assert [ticks for _, ticks in data["animations"][0]["steps"]] == [4, 14, 3]


def test_given_ticks_come_before_a_file_s_own(call, empty: Path, tmp_path: Path) -> None:
    steps = [Image.fromarray(walker(n)) for n in range(2)]
    path = tmp_path / "gull.gif"
    steps[0].save(path, save_all=True, append_images=steps[1:], duration=100, disposal=2)
    assert call("slice", path, "--into", empty, "--sprite", "gull", "--ticks", "3,9").code == 0
    assert [step.ticks for step in load(empty).sprite("gull").animations[0].steps] == [3, 9]


def test_zip_and_layers_become_strips(call, empty: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "run.zip", "w") as archive:
        for number in (1, 2, 10):
            data = io.BytesIO()
            Image.fromarray(walker(number % 4)).save(data, "PNG")
            archive.writestr(f"run{number}.png", data.getvalue())
    assert call("slice", tmp_path / "run.zip", "--into", empty).code == 0
    layers = [("top one", "", walker(1)), ("low", 'x="2"', walker(0))]
    ora = open_raster(tmp_path / "poses.ora", layers, (CELL_W + 4, CELL_H))
    assert call("slice", ora, "--into", empty).code == 0
    document = load(empty)
    assert [frame.name for frame in document.sheet("run").frames] == ["run1", "run2", "run10"]
    assert [frame.name for frame in document.sheet("poses").frames] == ["low", "top-one"]
    assert document.sheet("poses").frames[1].hit_box == (4, 2, 7, 16)  # columns 4 to 10


def test_layers_become_planes_with_ratios_of_their_own(call, empty: Path, tmp_path: Path) -> None:
    sky, road = np.full((40, 64, 4), 200, np.uint8), np.zeros((10, 64, 4), np.uint8)
    sky[..., 3], road[...] = 255, (90, 60, 30, 255)
    layers = [("road", 'y="30"', road), ("hidden", 'visibility="hidden"', sky), ("sky", "", sky)]
    ora = open_raster(tmp_path / "harbour.ora", layers, (64, 40))
    assert call("add", "plane", empty, ora, "--ratio", "1/4,1").code == 0
    planes = load(empty).scenes[0].planes
    assert [(plane.name, str(plane.ratio[0])) for plane in planes] == [("sky", "1/4"), ("road", "1")]
    with Image.open(empty / planes[1].picture) as image:
        assert image.size == (64, 40)
        assert image.getpixel((5, 29))[3] == 0
        assert image.getpixel((5, 30)) == (90, 60, 30, 255)


def test_a_plane_does_not_take_another_one_s_picture(call, empty: Path, tmp_path: Path) -> None:
    first, second = tmp_path / "a", tmp_path / "b"
    for folder, grey in ((first, 50), (second, 90)):
        folder.mkdir()
        save(folder / "sky.png", np.full((20, 20, 3), grey, np.uint8))
    assert call("add", "plane", empty, first / "sky.png", "--scene", "one").code == 0
    before = (empty / "layers" / "sky.png").read_bytes()
    called = call("add", "plane", empty, second / "sky.png", "--scene", "two")
    assert called.code == 2
    assert "choose another --name" in called.err
    assert (empty / "layers" / "sky.png").read_bytes() == before
    assert [scene.name for scene in load(empty).scenes] == ["one"]


def test_groups_become_animations_and_a_mirrored_row_a_facing(call, empty: Path, tmp_path: Path) -> None:
    green = (30, 190, 60, 255)
    walk = [walker(n) for n in range(4)]
    jump = [np.roll(walker(n, green), -2, axis=0) for n in range(4)]
    rows = [walk, [cell[:, ::-1] for cell in walk], jump]
    path = save(tmp_path / "hero.png", sheet_of(rows))
    seen = call("slice", path, "--cell", "16x20", "--groups", "--json").json()
    assert set(seen) == CONTRACT | {"groups"}
    assert [group["mirrors"] for group in seen["groups"]] == [None, "row00", None]
    called = call(
        *("slice", path, "--cell", "16x20", "--groups", "--into", empty),
        *("--sprite", "hero", "--animation", "walk,jump", "--ticks", 4),
    )
    assert called.code == 0, called.err
    sprite = load(empty).sprite("hero")
    assert [animation.name for animation in sprite.animations] == ["walk", "jump"]
    assert [step.frame for step in sprite.animations[1].steps] == [f"r02c0{n}" for n in range(4)]
    assert [(facing.facing, facing.flip) for facing in sprite.facings] == [("right", 0), ("left", 1)]
    assert "row01: 4 frames, is walk mirrored h; used as a facing" in called.out


def test_first_row_may_look_left(call, empty: Path, tmp_path: Path) -> None:
    walk = [walker(n)[:, ::-1] for n in range(4)]
    path = save(tmp_path / "hero.png", sheet_of([walk, [cell[:, ::-1] for cell in walk]]))
    arguments = ("--cell", "16x20", "--groups", "--into", empty, "--sprite", "hero", "--looks", "left")
    assert call("slice", path, *arguments).code == 0
    facings = load(empty).sprite("hero").facings
    assert [(facing.facing, facing.flip) for facing in facings] == [("left", 0), ("right", 1)]


def test_pivots_of_a_strip_are_one_on_the_foot_line(call, empty: Path, tmp_path: Path) -> None:
    cells = [walker(n) for n in range(4)]
    cells[2] = np.roll(cells[2], -3, axis=0)
    path = save(tmp_path / "hop.png", sheet_of([cells]))
    assert call("slice", path, "--cell", "16x20", "--into", empty, "--shrink", "2,1").code == 0
    frames = load(empty).sheet("hop").frames
    assert {frame.pivot[1] for frame in frames} == {17}
    assert len({frame.pivot for frame in frames}) == 1
    # The first walker is drawn in columns 4 to 10 and rows 2 to 17.
    assert frames[0].hit_box == (4 + 2, 2 + 1, 7 - 4, 16 - 2)


def test_json_of_slice_is_the_contract(call, tmp_path: Path) -> None:
    path = save(tmp_path / "hero.png", sheet_of([[walker(n) for n in range(4)]]))
    data = call("slice", path, "--json").json()
    assert set(data) == CONTRACT
    assert 0 <= data["confidence"] <= 1
    assert data["reason"]
    for other in data["alternatives"]:
        assert {"method", "grid", "count", "confidence"} == set(other)
    assert set(data["frames"][0]) == {"name", "box", "content"}


def test_key_colour_stays_with_the_sheet(call, empty: Path, tmp_path: Path) -> None:
    picture = sheet_of([[walker(n) for n in range(3)]])
    flat = np.where(picture[..., 3:] > 0, picture, np.array([255, 0, 255, 255], np.uint8))
    path = save(tmp_path / "keyed.png", flat[..., :3])
    called = call("slice", path, "--cell", "16x20", "--key", "ff00ff", "--into", empty, "--json")
    data = called.json()
    assert data["background"]["kind"] == "key"
    assert data["background"]["colour"] == "ff00ff"
    assert not any(finding["code"] == "key-missing" for finding in data["findings"])
    assert load(empty).sheet("keyed").key == (255, 0, 255)
    again = call("slice", path, "--cell", "16x20", "--json").json()
    assert again["frames"][0]["content"] == [0, 0, 16, 20]


def test_two_key_colours_are_cleared_in_the_copy(call, empty: Path, tmp_path: Path) -> None:
    picture = sheet_of([[walker(n) for n in range(3)]])
    flat = np.where(picture[..., 3:] > 0, picture, np.array([255, 0, 255, 255], np.uint8))
    flat[:2] = (0, 255, 255, 255)
    path = save(tmp_path / "keyed.bmp", flat[..., :3])
    keys = ("--key", "ff00ff", "--key", "00ffff")
    assert call("slice", path, "--cell", "16x20", *keys, "--into", empty).code == 0
    sheet = load(empty).sheet("keyed")
    assert (sheet.file, sheet.key) == ("sheets/keyed.png", None)
    with Image.open(empty / sheet.file) as image:
        assert np.array_equal(np.asarray(image)[..., 3], picture[..., 3])


def test_boxes_from_a_list_as_the_help_says(call, empty: Path, tmp_path: Path) -> None:
    path = save(tmp_path / "hero.png", sheet_of([[walker(n) for n in range(2)]]))
    shown = call("slice", "--help").out
    assert '{"boxes": [{"name": "walk-01", "x": 0, "y": 0, "w": 16, "h": 24}]}' in shown
    (tmp_path / "list.csv").write_text(
        "w,h,x,y,name,pivot_x,pivot_y\n16,20,0,0,stand,3,19\n16,20,16,0,go,,\n", encoding="utf-8"
    )
    assert call("slice", path, "--boxes", tmp_path / "list.csv", "--into", empty).code == 0
    frames = load(empty).sheet("hero").frames
    assert [frame.name for frame in frames] == ["stand", "go"]
    assert frames[0].pivot == (3, 19)
    table = {"boxes": [{"x": 0, "y": 0, "w": 16, "h": 20, "name": "a name with spaces"}]}
    (tmp_path / "list.json").write_text(json.dumps(table), encoding="utf-8")
    assert call("slice", path, "--boxes", tmp_path / "list.json", "--json").code == 0
    called = call("slice", path, "--boxes", tmp_path / "list.json", "--into", empty, "--name", "other")
    assert called.code == 2
    assert "a name with spaces" in called.err


def test_another_picture_does_not_replace_a_sheet(call, hero: Path, tmp_path: Path) -> None:
    before = (hero / "project.toml").read_bytes(), (hero / "sheets" / "hero.png").read_bytes()
    save(tmp_path / "hero.png", sheet_of([[walker(n, (200, 0, 0, 255)) for n in range(4)]]))
    called = call("slice", tmp_path / "hero.png", "--cell", "16x20", "--into", hero)
    assert called.code == 2
    assert "scenekit recut" in called.err
    assert before == ((hero / "project.toml").read_bytes(), (hero / "sheets" / "hero.png").read_bytes())


def new_version(tmp_path: Path) -> Path:
    """Draw the sheet anew: the first walker moved to the end, the second in red, a new one, two as before."""
    red = (200, 30, 30, 255)
    cells = [walker(1, red), walker(2), walker(3), walker(0), walker(1, (250, 250, 90, 255), key=3)]
    return save(tmp_path / "new.png", sheet_of([cells]))


def test_recut_shows_and_changes_nothing(call, hero: Path, tmp_path: Path) -> None:
    before = {path: path.read_bytes() for path in sorted(hero.rglob("*")) if path.is_file()}
    picture = tmp_path / "changes.png"
    called = call("recut", hero, "hero", new_version(tmp_path), "--changes", picture)
    assert called.code == 0, called.err
    assert "frames: 3 moved, 1 recoloured, 1 new" in called.out
    assert "r00c00: moved 48 px right" in called.out
    assert "r00c01: in other colours, moved 16 px left" in called.out
    assert "nothing was changed yet" in called.out
    assert before == {path: path.read_bytes() for path in sorted(hero.rglob("*")) if path.is_file()}
    with Image.open(picture) as image:
        assert image.size[0] > 5 * CELL_W
        assert image.size[1] > 2 * CELL_H


def test_recut_applied_keeps_names_pivots_and_animations(call, hero: Path, tmp_path: Path) -> None:
    text = (hero / "project.toml").read_text(encoding="utf-8")
    first = text.index("pivot = ")
    text = text[:first] + "pivot = [3, 15]" + text[text.index("\n", first) :]
    (hero / "project.toml").write_text(text, encoding="utf-8")
    old = load(hero).sheet("hero")
    data = call("recut", hero, "hero", new_version(tmp_path), "--apply", "--json").json()
    assert data["applied"] is True
    changes = {frame["name"]: frame["change"] for frame in data["frames"]}
    assert list(changes.values()) == ["moved", "recoloured", "moved", "moved", "new"]
    document = load(hero)
    new = document.sheet("hero")
    assert [frame.name for frame in new.frames][:4] == [frame.name for frame in old.frames]
    assert new.frames[0].box == (48, 0, 16, 20)
    assert new.frames[0].pivot == (3, 15)
    for before, after in zip(old.frames, new.frames[:4], strict=True):
        assert (after.pivot, after.hit_box) == (before.pivot, before.hit_box)
    assert [step.frame for step in document.sprite("hero").animations[0].steps] == [
        f.name for f in old.frames
    ]
    assert (hero / "sheets" / "hero.png").read_bytes() == (tmp_path / "new.png").read_bytes()
    assert (hero / "sheets" / "hero.png.previous").read_bytes() == (tmp_path / "hero.png").read_bytes()
    again = call("recut", hero, "hero", tmp_path / "new.png", "--json").json()
    assert {frame["change"] for frame in again["frames"]} == {"same"}


def test_recut_follows_art_inside_its_cell(call, hero: Path, tmp_path: Path) -> None:
    old = load(hero).sheet("hero")
    cells = [np.roll(walker(n), (1, 2), axis=(0, 1)) for n in range(4)]
    path = save(tmp_path / "shifted.png", sheet_of([cells]))
    assert call("recut", hero, "hero", path, "--apply").code == 0
    for before, after in zip(old.frames, load(hero).sheet("hero").frames, strict=True):
        assert after.pivot == (before.pivot[0] + 2, before.pivot[1] + 1)


def test_frames_gone_but_used_are_an_error_with_their_names(call, hero: Path, tmp_path: Path) -> None:
    path = save(tmp_path / "fewer.png", sheet_of([[walker(0), walker(1)]]))
    before = {path: path.read_bytes() for path in sorted(hero.rglob("*")) if path.is_file()}
    called = call("recut", hero, "hero", path, "--apply")
    assert called.code == 1
    assert "r00c02, r00c03: not on the new sheet, but used by sprite hero, animation hero" in called.err
    assert "nothing was changed" in called.out
    assert before == {path: path.read_bytes() for path in sorted(hero.rglob("*")) if path.is_file()}


def test_unused_frames_may_go(call, empty: Path, tmp_path: Path) -> None:
    path = save(tmp_path / "hero.png", sheet_of([[walker(n) for n in range(4)]]))
    call("slice", path, "--cell", "16x20", "--into", empty)
    fewer = save(tmp_path / "fewer.png", sheet_of([[walker(3), walker(1)]]))
    assert call("recut", empty, "hero", fewer, "--apply").code == 0
    assert [frame.name for frame in load(empty).sheet("hero").frames] == ["r00c01", "r00c03"]


def test_a_frame_before_those_that_a_map_counts_may_not_go(call, empty: Path, tmp_path: Path) -> None:
    path = save(tmp_path / "tiles.png", sheet_of([[walker(n) for n in range(4)]]))
    call("slice", path, "--cell", "16x20", "--into", empty)
    call("add", "plane", empty, save(tmp_path / "sky.png", np.full((40, 40, 3), 9, np.uint8)))
    (empty / "ground.csv").write_text("0,2\n", encoding="utf-8")
    scene = empty / "scenes" / "first.toml"
    plane = '\n[[planes]]\nname = "ground"\nmap = "ground.csv"\nsheet = "tiles"\ntile = [16, 20]\n'
    scene.write_text(scene.read_text(encoding="utf-8") + plane, encoding="utf-8")
    last = save(tmp_path / "last.png", sheet_of([[walker(0), walker(1), walker(2)]]))
    assert call("recut", empty, "tiles", last).code == 0
    middle = save(tmp_path / "middle.png", sheet_of([[walker(0), walker(2), walker(3)]]))
    called = call("recut", empty, "tiles", middle)
    assert called.code == 1
    assert "r00c01: not on the new sheet, but used by scene first, plane ground" in called.err


def test_repeats_counts_what_flips_save(call, tmp_path: Path) -> None:
    cell = walker(1)
    near = cell.copy()
    near[8, 6, 0] += 9
    cells = [cell, cell, cell[:, ::-1], cell[::-1], walker(1, (200, 30, 30, 255)), near, np.zeros_like(cell)]
    path = save(tmp_path / "set.png", sheet_of([cells]))
    data = call("repeats", path, "--cell", "16x20", "--json").json()
    area = CELL_W * CELL_H
    assert [(row["up_to"], row["distinct"]) for row in data["kept"]] == [
        ("equal", 5),
        ("h", 4),
        ("h, v, hv", 3),
        ("quarter turns", 3),
    ]
    assert data["drawn"] == 6
    assert data["flips_save_px"] == 2 * area
    turned = {row["frame"]: (row["as"], row["turned"]) for row in data["equal"]}
    assert turned == {
        "r00c01": ("r00c00", "none"),
        "r00c02": ("r00c00", "h"),
        "r00c03": ("r00c00", "v"),
    }
    assert data["recolours"][0]["frame"] == "r00c04"
    assert data["recolours"][0]["colours"] == [["283cc8", "c81e1e"]]
    assert data["near"][0]["pixels_different"] == 1
    assert data["near"][0]["largest"] == 9
    shown = call("repeats", path, "--cell", "16x20").out
    assert f"mirroring saves {2 * area} px (40 %)" in shown


def test_repeats_of_a_project(call, hero: Path) -> None:
    data = call("repeats", hero, "--near", 0, "--json").json()
    assert data["frames"] == 4
    assert data["near"] == []
    assert call("repeats", hero, "--sheet", "nobody").code == 2


def test_pack_puts_every_frame_where_the_list_says(call, hero: Path, tmp_path: Path) -> None:
    out = tmp_path / "pages"
    called = call("pack", hero, "--out", out, "--page", "24x40", "--gutter", 2, "--align", 2)
    assert called.code == 0, called.err
    rows = list(csv.DictReader(io.StringIO((out / "places.csv").read_text(encoding="utf-8"))))
    document = load(hero)
    pages = [np.asarray(Image.open(path)) for path in sorted(out.glob("page-*.png"))]
    assert {page.shape for page in pages} == {(40, 24, 4)}
    taken = [np.zeros((40 + 2, 24 + 2), bool) for _ in pages]
    for row, frame in zip(rows, document.sheet("hero").frames, strict=True):
        page, x, y, w, h = (int(row[name]) for name in ("page", "x", "y", "w", "h"))
        assert row["frame"] == frame.name
        assert x % 2 == y % 2 == 0
        whole = walker(int(frame.name[-1]))
        left, top = int(row["offset_x"]), int(row["offset_y"])
        assert np.array_equal(pages[page][y : y + h, x : x + w], whole[top : top + h, left : left + w])
        assert int(row["pivot_x"]) + left == frame.pivot[0]
        assert int(row["pivot_y"]) + top == frame.pivot[1]
        area = taken[page][y : y + h + 2, x : x + w + 2]
        assert not area.any()
        area[...] = True
    before = {path.name: path.read_bytes() for path in out.iterdir()}
    data = call("pack", hero, "--out", out, "--page", "24x40", "--gutter", 2, "--align", 2, "--json").json()
    assert not any(file["changed"] for file in data["files"])
    assert before == {path.name: path.read_bytes() for path in out.iterdir()}


def test_pack_shares_places_and_turns(call, empty: Path, tmp_path: Path) -> None:
    wide = np.zeros((8, 40, 4), np.uint8)
    wide[1:7, 1:39] = np.random.default_rng(3).integers(1, 255, (6, 38, 4))
    wide[1:7, 1:39, 3] = 255
    path = save(tmp_path / "bars.png", sheet_of([[wide, wide[:, ::-1]]]))
    call("slice", path, "--cell", "40x8", "--into", empty)
    assert call("pack", empty, "--out", tmp_path / "a", "--page", "16x64").code == 2
    arguments = ("--page", "16x64", "--turn", "--mirror", "--json")
    data = call("pack", empty, "--out", tmp_path / "b", *arguments).json()
    assert data["shared"] == 1
    first, second = data["places"]
    assert (first["flip"], second["flip"]) == ("none", "h")
    assert first["turned"]
    assert (first["w"], first["h"]) == (6, 38)
    with Image.open(tmp_path / "b" / "page-00.png") as image:
        page = np.asarray(image)
    lying = page[first["y"] : first["y"] + 38, first["x"] : first["x"] + 6]
    assert np.array_equal(lying, np.rot90(wide[1:7, 1:39], -1))


def test_page_is_as_large_as_the_display_mode(call, hero: Path, tmp_path: Path) -> None:
    data = call("pack", hero, "--out", tmp_path / "pages", "--json").json()
    assert data["pages"] == [{"width": 320, "height": 200}]
    data = call("pack", hero, "--out", tmp_path / "strip", "--width", 64, "--json").json()
    assert data["pages"][0]["width"] == 64
    assert data["pages"][0]["height"] < 64


def test_credits_are_recorded_and_explained(call, hero: Path) -> None:
    data = call("credits", hero, "--json").json()
    assert data["credits"][0]["missing"] == ["author", "licence", "source"]
    called = call("check", hero)
    assert "sheet hero: no author, licence and source on record" in called.err
    given = ("--of", "hero", "--author", "A. Painter", "--licence", "CC-BY-SA-4.0", "--source", "a fair")
    shown = call("credits", hero, *given).out
    assert "CC-BY-SA-4.0 asks you to name its author and the licence" in shown
    assert "passed on under the same licence" in shown
    assert "information, not legal advice" in shown
    checked = call("check", hero, "--json").json()["findings"]
    assert [f["code"] for f in checked if f["where"] == "sheet hero"].count("licence") == 2
    assert not any(f["code"] == "no-credit" for f in checked)
    assert load(hero).sheet("hero").author == "A. Painter"


def test_exports_carry_what_licences_ask_for(call, game: Path, tmp_path: Path) -> None:
    call("credits", game, "--of", "hero", "--licence", "CC-BY-4.0")
    assert call("export", game, "--out", tmp_path / "board").code == 0
    text = (tmp_path / "board" / "CREDITS.txt").read_text(encoding="utf-8")
    assert "CC-BY-4.0 asks you to name its author and the licence (information, not legal advice)" in text


def bad(name: str, *arguments: object) -> object:
    return pytest.param(arguments, id=name)


@pytest.mark.parametrize(
    "arguments",
    [
        bad("sprite-without-project", "slice", "SHEET", "--sprite", "hero"),
        bad("ticks-without-sprite", "slice", "SHEET", "--into", "GAME", "--ticks", "4"),
        bad("looks-without-groups", "slice", "SHEET", "--looks", "left"),
        bad(
            "bad-ticks", "slice", "SHEET", "--into", "GAME", "--name", "x", "--sprite", "y", "--ticks", "4,x"
        ),
        bad(
            "tick-count",
            *("slice", "SHEET", "--cell", "16x20", "--into", "GAME", "--name", "x"),
            *("--sprite", "y", "--ticks", "4,5"),
        ),
        bad("zero-ticks", "slice", "SHEET", "--into", "GAME", "--name", "x", "--sprite", "y", "--ticks", "0"),
        bad("bad-sprite", "slice", "SHEET", "--into", "GAME", "--name", "x", "--sprite", "a\nb"),
        bad("negative-shrink", "slice", "SHEET", "--into", "GAME", "--name", "x", "--shrink", "-1,0"),
        bad("margin-alone", "slice", "SHEET", "--margin", "1,1"),
        bad("no-method", "slice", "SHEET", "--by", "magic"),
        bad("no-boxes", "slice", "SHEET", "--boxes", "nowhere.csv"),
        bad("bad-boxes", "slice", "SHEET", "--boxes", "BAD.csv"),
        bad("boxes-outside", "slice", "SHEET", "--boxes", "OUTSIDE.csv"),
        bad("folder-with-cell", "slice", "FOLDER", "--cell", "4x4"),
        bad("overlay-nowhere", "slice", "SHEET", "--overlay", "no/such/x.png"),
        bad("no-project", "slice", "SHEET", "--into", "nowhere"),
        bad("no-sheet", "recut", "GAME", "nobody", "SHEET"),
        bad("no-new-file", "recut", "GAME", "hero", "nowhere.png"),
        bad("text-as-picture", "recut", "GAME", "hero", "TEXT.png", "--apply"),
        bad("cell-too-large", "recut", "GAME", "hero", "SHEET", "--cell", "900x900"),
        bad("changes-nowhere", "recut", "GAME", "hero", "SHEET", "--changes", "no/such/x.png"),
        bad("repeats-nowhere", "repeats", "nowhere.png"),
        bad("repeats-cut-twice", "repeats", "GAME", "--cell", "16x16"),
        bad("repeats-sheet-of-file", "repeats", "SHEET", "--sheet", "hero"),
        bad("page-too-small", "pack", "GAME", "--out", "OUT", "--page", "4x4"),
        bad("page-zero", "pack", "GAME", "--out", "OUT", "--page", "0x40"),
        bad("page-huge", "pack", "GAME", "--out", "OUT", "--page", "99999x99999"),
        bad("page-and-width", "pack", "GAME", "--out", "OUT", "--page", "64x64", "--width", "64"),
        bad("too-few-pages", "pack", "GAME", "--out", "OUT", "--page", "16x20", "--pages", "1"),
        bad("pack-into-file", "pack", "GAME", "--out", "SHEET"),
        bad("credit-of-nothing", "credits", "GAME", "--of", "nobody", "--author", "x"),
        bad("credit-without-name", "credits", "GAME", "--author", "x"),
        bad("credit-line-end", "credits", "GAME", "--of", "hero", "--author", "a\nb"),
        bad("plane-animated", "add", "plane", "GAME", "MOVING.gif"),
        bad("plane-ratios", "add", "plane", "GAME", "FOLDER", "--ratio", "1,1/2,1/3"),
    ],
)
def test_bad_input_is_one_line(call, hero: Path, tmp_path: Path, arguments: tuple[object, ...]) -> None:
    (tmp_path / "TEXT.png").write_text("no picture", encoding="ascii")
    (tmp_path / "BAD.csv").write_text("left,top\n1,2\n", encoding="utf-8")
    (tmp_path / "OUTSIDE.csv").write_text("x,y,w,h\n900,0,16,16\n", encoding="utf-8")
    (tmp_path / "FOLDER").mkdir()
    for number in range(2):
        save(tmp_path / "FOLDER" / f"p{number}.png", walker(number))
    steps = [Image.fromarray(walker(n)) for n in range(2)]
    steps[0].save(tmp_path / "MOVING.gif", save_all=True, append_images=steps[1:], duration=90)
    known = {"SHEET": tmp_path / "hero.png", "GAME": hero, "OUT": tmp_path / "out"}
    files = ("TEXT.png", "BAD.csv", "OUTSIDE.csv", "FOLDER", "MOVING.gif")
    known |= {name: tmp_path / name for name in files}
    before = {path: path.read_bytes() for path in sorted(hero.rglob("*")) if path.is_file()}
    called = call(*(known.get(str(argument), argument) for argument in arguments))
    assert called.code == 2
    lines = called.err.strip().splitlines()
    told = [line for line in lines if line.lower().startswith("error:")]
    assert len(told) == 1
    assert all(line.startswith(("Usage:", "Try ", "Error:", "error:")) for line in lines if line)
    assert before == {path: path.read_bytes() for path in sorted(hero.rglob("*")) if path.is_file()}


def test_a_strip_of_unequal_pictures_stays_bounded(call, tmp_path: Path) -> None:
    folder = tmp_path / "many"
    folder.mkdir()
    Image.new("L", (4096, 2048)).save(folder / "a0.png")
    for number in range(1, 9):
        Image.new("L", (2, 2)).save(folder / f"a{number}.png")
    called = call("slice", folder)
    assert called.code == 2
    assert "use fewer or smaller ones" in called.err
