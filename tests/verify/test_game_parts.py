"""Panels, fonts, values, maps with flags and collisions, proved in programs."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from scenekit.build import Build, BuildOptions, run_stages
from scenekit.dialects.spell import Options, spell
from scenekit.errors import ProjectError, SceneKitError
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.model.store import load, save
from scenekit.programs.assemble import Parts, own_program
from scenekit.registry import choose
from scenekit.routines.parse import parse_statements
from scenekit.sprites.lettering import place_text
from scenekit.sprites.panels import place_items
from scenekit.tiles.turning import turned_picture
from scenekit.verify.compare import overlap
from scenekit.verify.prove import prove

TARGETS = [
    ("board", "indexed-board", "320x200", "plain"),
    ("colour", "brandy-pc", "320x200-colour", "brandy"),
    ("sixteen", "brandy-pc", "320x200-16", "brandy"),
    ("tables", "minimal-pc", "320x200", "ecma55"),
    ("sdl", "sdlbrt-pc", "320x200", "sdlbrt"),
    ("yab", "yabasic-pc", "320x200", "yabasic"),
]
CHARACTERS = "0123456789AVOILT :"
PROJECT = """
format = 1
name = "parts"
scenes = ["yard"]

[[sheets]]
name = "tiles"
file = "tiles.png"
[[sheets.frames]]
name = "grass"
box = [0, 0, 16, 16]
flags = ["solid"]
[[sheets.frames]]
name = "rung"
box = [16, 0, 16, 16]
flags = ["ladder"]
[[sheets.frames]]
name = "spike"
box = [32, 0, 16, 16]
flags = ["solid", "deadly"]
[[sheets.frames]]
name = "sky"
box = [48, 0, 16, 16]

[[sheets]]
name = "imp"
file = "imp.png"
[[sheets.frames]]
name = "a"
box = [0, 0, 14, 18]
pivot = [4, 17]
hit_box = [2, 3, 7, 14]
[[sheets.frames]]
name = "b"
box = [14, 0, 14, 18]
pivot = [4, 17]

[[sprites]]
name = "imp"
[[sprites.animations]]
name = "walk"
sheet = "imp"
steps = [["a", 11], ["b", 3], ["a", 5, "v"]]
[[sprites.facings]]
facing = "right"
[[sprites.facings]]
facing = "left"
flip = "h"

[[fonts]]
name = "wide"
sheet = "letters"
characters = "0123456789AVOILT :"

[[fonts]]
name = "narrow"
sheet = "letters"
characters = "0123456789AVOILT :"
proportional = true
spacing = 1
kerning = { AV = -2, VA = -1 }

[[values]]
name = "lives"
start = 3
high = 4

[[values]]
name = "score"
start = 95
high = 1200

[[strings]]
name = "oil"
text = "OIL AVAVA: 10"
"""
SCENE = """
format = 1
ticks = 120
backdrop = "203040"

[camera]
start = [5, 3]
repeat = "from-start"
path = [{ ticks = 60, speed = [2, "1/3"] }, { ticks = 60, speed = [-2, "-1/3"] }]

[[planes]]
name = "ground"
map = "ground.csv"
sheet = "tiles"
wrap = [true, true]
turns = [{ frames = ["rung", "spike", "sky"], ticks = 7 }]

[[planes]]
name = "far"
map = "far.csv"
sheet = "tiles"
turns = [{ frames = ["rung", "grass"], ticks = 4 }]
ratio = ["3/2", 1]
wrap = [false, false]
offset = [30, 100]

[[placed]]
name = "one"
sprite = "imp"
over = "ground"
at = [40, 47]
repeat = "from-start"
follow = true
path = [{ ticks = 50, speed = ["4/3", 0] }, { ticks = 50, speed = ["-4/3", "1/5"] }]

[[placed]]
name = "two"
sprite = "imp"
over = "ground"
at = [74, 50]
facing = "left"

[[placed]]
name = "three"
sprite = "imp"
over = "far"
at = [-20, 15]
path = [{ ticks = 90, speed = [1, 0] }]

[panel]
box = [0, 150, 320, 50]
colour = "102010"
[[panel.items]]
name = "word"
kind = "text"
at = [4, 152]
string = "oil"
font = "narrow"
[[panel.items]]
name = "word-wide"
kind = "text"
at = [4, 164]
string = "oil"
font = "wide"
[[panel.items]]
name = "score"
kind = "number"
at = [200, 152]
value = "score"
font = "wide"
digits = 5
[[panel.items]]
name = "score-zeros"
kind = "number"
at = [200, 164]
value = "score"
font = "narrow"
digits = 3
zeros = true
[[panel.items]]
name = "bar"
kind = "bar"
at = [10, 180]
value = "score"
size = [100, 7]
colour = "e0a020"
[[panel.items]]
name = "hearts"
kind = "icons"
at = [150, 178]
value = "lives"
sheet = "imp"
lit = "a"
dark = "b"
count = 5
step = 15
[[panel.items]]
name = "sign"
kind = "picture"
at = [280, 180]
sheet = "tiles"
lit = "rung"
"""
CHANGES = [
    (3, "score", 7),
    (20, "score", -500),
    (30, "lives", 5),
    (31, "lives", -1),
    (64, "score", 1100),
    (90, "score", 900),
]
TICKS = (0, 1, 2, 3, 4, 20, 29, 30, 33, 61, 64, 65, 66, 91, 119)


def draw(folder: Path) -> None:
    """Draw tiles, an imp and letters."""
    tiles = np.zeros((16, 64, 4), dtype=np.uint8)
    y, x = np.mgrid[0:16, 0:16]
    tiles[:, 0:16] = np.where((y > 3)[..., None], (60, 120, 50, 255), (90, 170, 80, 255))
    tiles[:, 16:32][(x % 12 == 2) | (y % 5 == 1)] = (150, 110, 60, 255)
    tiles[:, 32:48][y >= abs(x - 8) * 2] = (190, 190, 200, 255)
    tiles[:, 48:64] = (70, 110, 170, 255)
    Image.fromarray(tiles).save(folder / "tiles.png")
    imp = np.zeros((18, 28, 4), dtype=np.uint8)
    for n in range(2):
        imp[2:17, n * 14 + 2 : n * 14 + 9] = (180, 40 + 60 * n, 60, 255)
        imp[5:7, n * 14 + 6 : n * 14 + 12] = (240, 240, 120, 255)
        imp[17, n * 14 + 2 + n : n * 14 + 6 + n] = (20, 20, 20, 255)
    Image.fromarray(imp).save(folder / "imp.png")
    letters = np.zeros((9, 8 * len(CHARACTERS), 4), dtype=np.uint8)
    for n, character in enumerate(CHARACTERS):
        for row in range(8):
            for column in range(2 + n % 5):
                if character != " " and (ord(character) * (row + 3) >> (column + 1)) % 3:
                    letters[row, n * 8 + 1 + column] = (240, 230, 200, 255)
    Image.fromarray(letters).save(folder / "letters.png")
    ground = [[(r * 7 + c * 3 + (r * c) % 5) % 5 - 1 for c in range(23)] for r in range(11)]
    flips = ["", "h", "v", "hv"]
    lines = [
        ",".join(f"{n}{flips[(c + n) % 4] if n > 0 else ''}" for c, n in enumerate(row)) for row in ground
    ]
    (folder / "ground.csv").write_text("\n".join(lines) + "\n", encoding="ascii")
    (folder / "far.csv").write_text("0,-1,2,2h,1\n-1,1,1,-1,0\n", encoding="ascii")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("parts")
    (path / "scenes").mkdir()
    text = PROJECT + '\n[[sheets]]\nname = "letters"\nfile = "letters.png"\n'
    for n in range(len(CHARACTERS)):
        text += f'[[sheets.frames]]\nname = "l{n:02d}"\nbox = [{n * 8}, 0, 8, 9]\n'
    for name, machine, mode, dialect in TARGETS:
        text += f'\n[[targets]]\nname = "{name}"\nmachine = "{machine}"\nmode = "{mode}"\n'
        text += f'dialect = "{dialect}"\nview = [16, 10, 288, 140]\n'
    (path / "project.toml").write_text(text, encoding="utf-8")
    scene = SCENE + "".join(f'\n[[changes]]\ntick = {t}\nvalue = "{v}"\nadd = {n}\n' for t, v, n in CHANGES)
    (path / "scenes" / "yard.toml").write_text(scene, encoding="utf-8")
    draw(path)
    return path


@pytest.mark.parametrize(("target", "dialect"), [(name, dialect) for name, _, _, dialect in TARGETS])
def test_game_parts_are_proved(folder: Path, interpreter, target: str, dialect: str) -> None:
    interpreter(dialect)
    build = run_stages(load(folder), target, options=BuildOptions(play=True, counting=True))
    proof = prove(build, TICKS, pictures=folder / "pictures")
    assert [(tick.tick, tick.box) for tick in proof.ticks if tick.different] == []
    assert (proof.different, proof.counts_different) == (0, 0)
    assert proof.passed


def test_document_keeps_game_parts(folder: Path) -> None:
    document = load(folder)
    save(document)
    assert load(folder) == document


def test_picture_shows_what_was_asked(folder: Path) -> None:
    """Look at places whose colours follow from the document by hand."""
    build = run_stages(load(folder), "colour", last="colours")
    picture = build.picture(4)
    assert tuple(picture[0, 0]) == (0x20, 0x30, 0x40)
    assert tuple(picture[199, 319]) == (0x10, 0x20, 0x10)
    # score 95 + 7 = 102 of 1200 on a bar of 100 px: 8 px
    bar = [tuple(picture[183, x]) == (0xE0, 0xA0, 0x20) for x in range(10, 110)]
    assert sum(bar) == 8
    assert all(bar[:8])


def test_tiles_take_turns(folder: Path) -> None:
    """Cells of the map hold a rung, a spike after 7 ticks, sky after 14, a rung after 21."""
    build = run_stages(load(folder), "colour", last="plan")
    ways = {(cells, ticks) for ticks, cells in build.pieces.turns.lists}
    assert {len(cells) for cells, _ in ways} == {2, 3}
    assert {ticks for _, ticks in ways} == {4, 7}
    maps = build.art.maps["yard", "ground"]
    row, column = next(
        (r, c) for r, line in enumerate(maps) for c, (n, f) in enumerate(line) if (n, f) == (1, 0)
    )
    tiles = build.reduced.sheets["tiles"]
    plane, sheet = build.scene.planes[0], build.project.sheet("tiles")
    for tick, frame in ((0, 1), (6, 1), (7, 2), (14, 3), (20, 3), (21, 1)):
        cells = build.reduced.turning["yard", "ground"]
        picture = turned_picture(
            build.reduced.planes["yard", "ground"], plane, sheet, build.reduced.sheets, cells, tick
        )
        shown = picture[row * 16 : row * 16 + 16, column * 16 : column * 16 + 16]
        assert np.array_equal(shown, tiles[:, frame * 16 : frame * 16 + 16])


def test_flags_and_touching_are_listed(folder: Path) -> None:
    build = run_stages(load(folder), "board", options=BuildOptions(play=True))
    text = build.files["yard.words"].decode("ascii")
    assert "Tile flags: 1 solid, 2 ladder, 4 deadly." in text, text[:900]
    assert "do sk_tile_at" in text or "routine sk_tile_at" in text
    assert build.flags[0] is not None
    assert build.flags[0].at(0, 0) == 0
    assert {value for row in build.flags[0].cells for value in row} == {0, 1, 2, 5}


def test_boxes_overlap_by_pixels() -> None:
    assert overlap((0, 0, 4, 4), (3, 3, 4, 4))
    assert not overlap((0, 0, 4, 4), (4, 0, 4, 4))
    assert not overlap((0, 0, 0, 4), (0, 0, 4, 4))


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("at = [4, 152]", "at = [300, 152]", "the panel is"),
        ('string = "oil"\nfont = "narrow"', 'string = "oli"\nfont = "narrow"', "did you mean 'oil'"),
        ('lit = "rung"', 'lit = "rugn"', "did you mean 'rung'"),
        ("box = [0, 150, 320, 50]", "box = [0, 140, 320, 60]", "lies over the view"),
        ("box = [0, 150, 320, 50]", "box = [0, 150, 320, 60]", "leaves the screen"),
        ('["rung", "grass"], ticks', '["rung", "gras"], ticks', "did you mean 'grass'"),
        ('["rung", "grass"], ticks', '["rung"], ticks', "2 to 64 frames"),
        ("tile = [16, 16]", "tile = [8, 8]", "as frames"),
    ],
)
def test_bad_game_parts_are_said(folder: Path, old: str, new: str, message: str) -> None:
    path = folder / "scenes" / "yard.toml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    try:
        with pytest.raises(SceneKitError, match=message):
            run_stages(load(folder), "board")
    finally:
        path.write_text(text, encoding="utf-8")


def test_missing_character_is_said(folder: Path) -> None:
    document = load(folder)
    strings = (replace(document.strings[0], text="OIL?"),)
    with pytest.raises(ProjectError, match="no character '\\?'"):
        run_stages(replace(document, strings=strings), "board")


EDGES = ((-7, 20), (301, 40), (50, -4), (60, 195), (-500, 90), (40, 300))
"""Where a text is cut at the left, right, upper and lower edge of the screen, or not seen at all."""


def own_screen(build: Build, main: str, folder: Path) -> np.ndarray:
    """Run a few lines of a program over the library in the dialect of a build, and return the screen."""
    parts = Parts(
        name="own",
        title=("a program of one's own",),
        scheme=build.scheme,
        abilities=build.abilities,
        bundle=build.bundle,
        size=build.screen,
        art_file=build.art_file,
    )
    width, height = build.screen
    constants = {"screen_width": width, "screen_height": height, "bottom": 2 * (height - 1)}
    constants |= {"art_height": build.pieces.packed.shape[0], "widest": 64, "highest": 64}
    text = spell(build.dialect, own_program(parts, parse_statements(main, "own"), ()), constants, Options())
    folder.mkdir()
    for name, data in {**build.bundle.files, build.play_file: text.encode("ascii")}.items():
        (folder / name).write_bytes(data)
    reader = choose("reader", build.dialect.reader, readers())
    task = Run(
        folder=folder,
        program=build.play_file,
        dialect=build.dialect,
        screens=1,
        time_limit_s=60.0,
        flips=build.abilities.flips,
    )
    return np.asarray(reader.run(task).screens[0])


@pytest.mark.parametrize(("target", "dialect"), [t[::3] for t in TARGETS if t[3] != "ecma55"])
def test_text_is_cut_at_the_edges(
    folder: Path, tmp_path: Path, interpreter, target: str, dialect: str
) -> None:
    """The string of the narrow font, kerned, over every edge, against glyphs pasted from the sheet."""
    interpreter(dialect)
    build = run_stages(load(folder), target)
    lines = ["say_open", "do load", "do start", "begin_frame 0", "do use_screen", "do clear"]
    lines += [f"do draw_string(0, {x}, {y})" for x, y in EDGES]
    main = "\n".join([*lines, "end_frame 0", "save_screen 0", "say 1", "say_close", "quit"])
    shown = own_screen(build, main, tmp_path / "own")
    art, project, scene = build.reduced, build.project, build.scene
    place = next(p for p in place_items(project, scene, art.sheets, art.transparent) if p.item.name == "word")
    assert place.letters is not None
    glyphs = place_text(place.letters, "OIL AVAVA: 10", "test")[0]
    sheet = project.sheet("letters")
    wide = np.full((200 + 800, 320 + 1600), art.backdrops[scene.name], dtype=np.uint8)
    for x, y in EDGES:
        for name, left in glyphs:
            frame = sheet.frame(name)
            assert frame is not None
            a, b, w, h = frame.box
            picture = art.sheets["letters"][b : b + h, a : a + w]
            part = wide[400 + y : 400 + y + h, 800 + x + left : 800 + x + left + w]
            np.copyto(part, picture, where=picture != art.transparent)
    wanted = art.palette[wide[400:600, 800:1120]]
    assert len(np.unique(wanted.reshape(-1, 3), axis=0)) == 2
    assert np.array_equal(shown, wanted)
