"""Every station on SDL's dummy driver: what is drawn, pressed, dragged and typed."""

import re
from pathlib import Path

import numpy as np
import pygame
import pytest
from PIL import Image

from scenekit.editor.backend import Backend
from scenekit.editor.session import STATIONS
from scenekit.editor.theme import DARK, LIGHT, contrast
from scenekit.render.screen import render_screen


def pixels(hand, box) -> np.ndarray:
    x, y, w, h = (round(value) for value in box)
    return pygame.surfarray.array3d(hand.window.backend.surface).swapaxes(0, 1)[y : y + h, x : x + w]


def test_the_scene_is_drawn_byte_for_byte(hand):
    session, desk = hand.window.desk.session, hand.window.desk
    product = session.products.now
    session.station, session.chosen.part = "planes", ""
    hand.post(pygame.MOUSEMOTION, pos=(5, 790), rel=(0, 0), buttons=(0, 0, 0))
    for tick in (0, 37, 150, 311, 500, 739):
        session.playing.go(tick, 740)
        hand.frame(2)
        shown = pixels(hand, desk.preview_box)
        zoom = shown.shape[1] // 320
        wanted = render_screen(
            session.document,
            session.scene,
            product.look,
            (320, 200),
            session.target.view or (0, 0, 320, 200),
            tick,
        )
        assert zoom == 2
        assert np.array_equal(shown, wanted.repeat(zoom, axis=0).repeat(zoom, axis=1)), tick


def test_playing_shows_ticks_at_the_true_rate(hand):
    playing = hand.window.desk.session.playing
    playing.plays = True
    hand.frame(60, 1 / 60)
    hz = float(hand.window.desk.product.mode.timing.refresh_hz)
    assert playing.tick in (int(hz) - 1, int(hz))


@pytest.mark.parametrize("size", [(1024, 600), (1280, 800), (2560, 1440)])
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_every_station_draws_at_every_size(hand, size, theme):
    backend = hand.window.backend
    backend.surface = pygame.display.set_mode(size)
    backend.painter.surface = backend.surface
    hand.window.desk.settings.theme = theme
    ground = (LIGHT if theme == "light" else DARK).ground
    seen = set()
    for station in STATIONS:
        hand.window.desk.session.station = station
        hand.frame(3)
        picture = pixels(hand, (0, 0, *size))
        seen.add(picture.tobytes())
        share = (picture == ground).all(axis=-1).mean()
        assert 0.1 < share < 0.95, station
        for name, (x, y, w, h) in hand.window.desk.ui.marks.items():
            if name.startswith(("station:", "head:", "foot:")):
                assert x >= 0, name
                assert y >= 0, name
                assert x + w <= size[0], name
                assert y + h <= size[1], name
    assert len(seen) == len(STATIONS)


def test_idle_frames_paint_nothing(hand):
    hand.frame(5)
    hand.frame()
    assert hand.window.backend.painted == []


def test_what_is_repainted_in_parts_equals_a_whole_new_picture(hand):
    desk = hand.window.desk
    for station in ("planes", "motion", "budget", "colours"):
        desk.session.station = station
        desk.session.playing.go(desk.session.playing.tick + 37, 740)
        hand.frame(3)
        parts = pixels(hand, (0, 0, 1280, 800)).copy()
        hand.window.backend.painter.forget()
        hand.window.backend.surface.fill((255, 0, 255))
        hand.frame()
        assert np.array_equal(parts, pixels(hand, (0, 0, 1280, 800))), station


def test_words_can_be_read():
    for look in (LIGHT, DARK):
        for colour in (look.ink, look.quiet, look.alarm, look.good):
            for ground in (look.ground, look.rail, look.sheet):
                assert contrast(colour, ground) >= 4.5, (look.name, colour, ground)
        for colour in (look.ink, look.quiet, look.alarm):
            for ground in (look.shade, look.hover, look.well):
                assert contrast(colour, ground) >= 4.5, (look.name, colour, ground)
        assert contrast(look.on_accent, look.accent) >= 4.5


def test_keys_walk_stations_ticks_and_steps(hand):
    session = hand.window.desk.session
    session.station = "machine"
    hand.key(pygame.K_PAGEDOWN, pygame.KMOD_CTRL)
    assert session.station == "sheets"
    hand.key(pygame.K_PAGEUP, pygame.KMOD_CTRL)
    hand.key(pygame.K_PAGEUP, pygame.KMOD_CTRL)
    assert session.station == "export"
    session.playing.go(0, 740)
    hand.key(pygame.K_RIGHT, pygame.KMOD_CTRL)
    assert session.playing.tick == 1
    hand.key(pygame.K_F1)
    assert hand.window.desk.ask[0] == "keys"
    hand.key(pygame.K_ESCAPE)
    assert hand.window.desk.ask is None


def test_walking_the_stations_marks_nothing_and_scrolls_nothing(hand):
    desk = hand.window.desk
    desk.session.station = "machine"
    hand.frame(2)
    before = {name: desk.ui.marks[name] for name in desk.ui.marks if name.startswith("target")}
    assert before
    for _ in range(9):
        hand.key(pygame.K_PAGEDOWN, pygame.KMOD_CTRL)
        assert not desk.ui.backend.walking
    assert desk.session.station == "machine"
    assert {name: desk.ui.marks[name] for name in before} == before
    hand.key(pygame.K_TAB)
    hand.key(pygame.K_DOWN)
    assert desk.ui.backend.walking, "keys without Ctrl do walk"


def test_escape_takes_the_mark_away_and_tab_brings_it_back(hand):
    desk = hand.window.desk
    for key in (pygame.K_TAB, pygame.K_DOWN):
        hand.key(key)
    assert desk.ui.backend.walking
    hand.key(pygame.K_ESCAPE)
    assert not desk.ui.backend.walking, "now Space plays"
    hand.key(pygame.K_TAB)
    assert desk.ui.backend.walking
    hand.key(pygame.K_ESCAPE)


def test_tab_and_space_press_without_a_mouse(hand):
    desk = hand.window.desk
    desk.session.station = "machine"
    hand.frame(2)
    for _ in range(60):
        hand.key(pygame.K_TAB)
        if desk.ask is not None or desk.session.station != "machine":
            break
        hand.key(pygame.K_SPACE)
    assert desk.ask is not None or desk.session.station != "machine" or desk.session.dirty


def test_typing_a_ratio_and_taking_it_back(hand):
    session = hand.window.desk.session
    session.station, session.chosen.plane = "planes", "hills"
    hand.frame(3)
    hand.type("plane:ratio", "2*1/8")
    assert str(session.scene.planes[1].ratio[0]) == "1/4"
    assert session.dirty
    hand.key(pygame.K_z, pygame.KMOD_CTRL)
    assert str(session.scene.planes[1].ratio[0]) == "1/6"
    assert not session.dirty
    hand.type("plane:ratio", "fast")
    assert str(session.scene.planes[1].ratio[0]) == "1/6"
    assert "fast" in hand.window.desk.ui.typed["plane:ratio"].error


def test_dragging_a_plane_to_another_depth(hand):
    session = hand.window.desk.session
    session.station = "planes"
    hand.frame(3)
    hand.drag_points(hand.spot("plane:hills"), hand.spot("plane:warehouses", (0.5, 0.7)))
    assert [plane.name for plane in session.scene.planes][:3] == ["sky", "warehouses", "hills"]


def test_dragging_on_the_scene_is_one_step(hand):
    session = hand.window.desk.session
    session.station, session.chosen.plane = "planes", "hills"
    hand.frame(3)
    before = session.scene.planes[1].offset
    start = hand.spot("scene")
    hand.drag_points(start, (start[0] + 20, start[1] - 10))
    assert session.scene.planes[1].offset == (before[0] + 10, before[1] - 5)
    assert session.history.place == 1


def test_dragging_a_box_on_its_sheet(hand):
    session, desk = hand.window.desk.session, hand.window.desk
    session.station, session.chosen.sheet = "sheets", "items"
    hand.frame(4)
    view = desk.local["view sheet items"]
    frame = session.document.sheet("items").frames[0]
    x, y, w, h = view.to_window(frame.box)
    hand.post(pygame.KEYDOWN, key=pygame.K_LALT, mod=pygame.KMOD_ALT, unicode="")  # edges do not snap then
    hand.drag_points((x + w / 2, y + h / 2), (x + w / 2 + 2 * view.zoom, y + h / 2 + view.zoom))
    hand.post(pygame.KEYUP, key=pygame.K_LALT, mod=0)
    hand.frame(2)
    moved = session.document.sheet("items").frames[0]
    assert moved.box == (frame.box[0] + 2, frame.box[1] + 1, *frame.box[2:])
    assert session.history.place == 1
    x, y, w, h = view.to_window(moved.box)
    hand.drag_points((x + w, y + h / 2), (x + w + 3 * view.zoom, y + h / 2))
    assert session.document.sheet("items").frames[0].box[2] == frame.box[2] + 3


def test_zoom_keeps_the_pixel_under_the_pointer(hand):
    session, desk = hand.window.desk.session, hand.window.desk
    session.station, session.chosen.sheet = "sheets", "trolley"
    hand.frame(4)
    view = desk.local["view sheet trolley"]
    spot = hand.spot("canvas:sheet trolley", (0.3, 0.5))
    before = view.to_picture(spot)
    hand.post(pygame.MOUSEMOTION, pos=spot, rel=(0, 0), buttons=(0, 0, 0))
    hand.frame(2)
    zoom = view.zoom
    for _ in range(3):
        hand.post(pygame.MOUSEWHEEL, x=0, y=1, flipped=False)
        hand.frame(2)
    assert view.zoom > zoom
    assert view.to_picture(spot) == before


def test_dragging_the_peg_and_the_hit_box(hand):
    session, desk = hand.window.desk.session, hand.window.desk
    session.station, session.chosen.sheet, session.chosen.frames = "frames", "trolley", ("turn-01",)
    hand.frame(4)
    frame = session.document.sheet("trolley").frame("turn-01")
    view = desk.local[f"view frame trolley {frame.box[2:]}"]
    x, y, w, h = view.to_window((frame.pivot[0] + 16, frame.pivot[1] + 16, 1, 1))
    hand.drag_points((x + w / 2, y), (x + w / 2 + 3 * view.zoom, y))
    assert session.document.sheet("trolley").frame("turn-01").pivot == (frame.pivot[0] + 3, frame.pivot[1])
    hit = frame.hit_box
    x, y, w, h = view.to_window((hit[0] + 16, hit[1] + 16, *hit[2:]))
    hand.drag_points((x, y + h / 3), (x + 2 * view.zoom, y + h / 3))
    changed = session.document.sheet("trolley").frame("turn-01").hit_box
    assert changed == (hit[0] + 2, hit[1], hit[2] - 2, hit[3])


def test_numbered_names_for_a_selection(hand):
    session = hand.window.desk.session
    session.station, session.chosen.sheet = "frames", "gull"
    names = [frame.name for frame in session.document.sheet("gull").frames]
    session.chosen.frames = tuple(names)
    hand.frame(4)
    hand.type("frame:name", "wing")
    assert [frame.name for frame in session.document.sheet("gull").frames] == [
        f"wing-{n:02d}" for n in range(1, len(names) + 1)
    ]


def test_a_strip_is_dragged_to_more_ticks(hand):
    session = hand.window.desk.session
    session.station, session.chosen.sprite, session.chosen.animation = "motion", "lamplighter", "ride"
    hand.frame(4)
    start = hand.spot("step-end:0")
    hand.drag_points(start, (start[0] + 24, start[1]))
    assert session.sprite.animations[0].steps[0].ticks == 7
    assert session.history.place == 1


def test_closing_with_unsaved_work_asks(hand):
    desk = hand.window.desk
    desk.session.station, desk.session.chosen.plane = "planes", "hills"
    hand.frame(3)
    hand.type("plane:ratio", "1/3")
    hand.post(pygame.QUIT)
    hand.frame(3)
    assert desk.ask[0] == "close"
    assert not desk.closed
    hand.click("answer:stay")
    assert not desk.closed
    hand.post(pygame.QUIT)
    hand.frame(3)
    hand.click("answer:save")
    assert desk.closed
    assert 'ratio = ["1/3", 1]' in (desk.session.document.folder / "scenes" / "quay.toml").read_text()


def test_scenes_that_may_flash_ask_before_they_play(hand):
    from dataclasses import replace

    from scenekit.editor.history import Edit

    desk = hand.window.desk
    session = desk.session
    fast = replace(session.document, cycles=(replace(session.document.cycles[0], ticks=4),))
    session.apply(Edit(document=fast, label="faster"))
    hand.frame(2)
    hand.click("tape:play")
    assert desk.ask[0] == "flash"
    assert not session.playing.plays
    hand.click("answer:stay")
    assert not session.playing.plays
    hand.click("tape:play")
    hand.click("answer:play")
    assert session.playing.plays


def test_a_scene_that_begins_to_flash_while_it_plays_stops_and_asks(hand):
    from dataclasses import replace

    from scenekit.editor.history import Edit

    desk = hand.window.desk
    session = desk.session
    hand.click("tape:play")
    hand.frame(6)
    assert session.playing.plays
    fast = replace(session.document, cycles=(replace(session.document.cycles[0], ticks=4),))
    session.apply(Edit(document=fast, label="faster"))
    hand.post(pygame.MOUSEMOTION, pos=(5, 790), rel=(0, 0), buttons=(0, 0, 0))
    hand.frame(2)
    assert desk.ask[0] == "flash"
    assert not session.playing.plays
    tick = session.playing.tick
    hand.frame(5)
    assert session.playing.tick == tick
    hand.click("answer:stay")


def test_dropping_a_picture_shows_ways_to_cut_it(hand, tmp_path: Path):
    picture = np.zeros((16, 64, 4), dtype=np.uint8)
    for n in range(4):
        picture[3:13, n * 16 + 3 : n * 16 + 12] = (200, 40 + 30 * n, 60, 255)
    Image.fromarray(picture).save(tmp_path / "dots.png")
    hand.window.desk.session.station = "sheets"
    hand.post(pygame.DROPFILE, file=str(tmp_path / "dots.png"))
    desk = hand.window.desk
    for _ in range(200):
        hand.frame()
        if desk.local.get("cutting") is not None and desk.local["cutting"].done:
            break
        pygame.time.wait(20)
    hand.frame(2)
    assert len(desk.local["cutting"].cut.frames) == 4
    before = len(desk.session.document.sheets)
    hand.click("cut:keep")
    assert len(desk.session.document.sheets) == before + 1
    assert (desk.session.document.folder / "sheets" / "dots.png").exists()
    assert "no such" not in (desk.session.notice.text if desk.session.notice else "")


def test_two_drawing_packages_at_once_are_refused(monkeypatch):
    from scenekit.editor import environment
    from scenekit.errors import SceneKitError

    environment.check_environment()
    monkeypatch.setattr(environment, "installed", lambda name: True)
    with pytest.raises(SceneKitError, match="overwrite each other"):
        environment.check_environment()


def test_binding_is_spoken_to_by_the_parts_of_the_backend_only():
    import scenekit.editor

    folder = Path(scenekit.editor.__file__).parent
    texts = {path.name: path.read_text() for path in folder.rglob("*.py")}
    assert [name for name, text in texts.items() if "slimgui" in text] == ["binding.py"]
    users = {name for name, text in texts.items() if re.search(r"\bimgui\b", text)} - {"binding.py"}
    assert users == {f"{module.rpartition('.')[2]}.py" for part in Backend.__mro__[:-1]
                     if (module := part.__module__)}  # fmt: skip


def test_a_playing_scene_shows_every_tick_exactly(hand):
    session, desk = hand.window.desk.session, hand.window.desk
    session.station = "planes"
    session.playing.go(140, 740)
    session.playing.plays = True
    hand.frame(3)
    quick = 0
    assert desk.product.error == ""
    for _ in range(12):
        hand.window.frame([], 1 / 70)
        quick += hand.window.quick > 0
        view = session.target.view or (0, 0, 320, 200)
        wanted = render_screen(
            session.document, session.scene, desk.product.look, (320, 200), view, session.playing.tick
        )
        assert np.array_equal(pixels(hand, desk.preview_box)[::2, ::2], wanted)
    assert quick >= 6
