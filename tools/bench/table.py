"""Measure what people wait for, each beside its reference in the same run, and how it grows; one table.

usage: PYTHONPATH=. python tools/bench/table.py [--write]     (--write puts the table into README.md)

Times are the shortest of several runs, in ms of the processor; a reference that is not installed is left out.
"""

import argparse
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
import zlib
from collections.abc import Callable, Iterator
from dataclasses import replace
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path

import numpy as np

from scenekit.build import BuildOptions, Kept, run_stages
from scenekit.colour.depth import Depth
from scenekit.colour.quantise import reduce_pictures
from scenekit.costs.estimate import estimate
from scenekit.model.project import Project
from scenekit.model.sprites import Frame, Sheet
from scenekit.model.store import load, save
from scenekit.slicing.cut import SliceOptions
from scenekit.slicing.islands import cut_islands
from scenekit.sprites.pack import pack
from scenekit.tables.packed import encode_tables

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo_assets"
START, END = "<!-- figures -->", "<!-- end of figures -->"
DEPTH = Depth(red_bits=8, green_bits=8, blue_bits=8)
Work = Callable[[], object]
Row = tuple[str, list[float], list[tuple[str, list[float]]], str]


def shortest_ms(work: Work, runs: int = 3) -> float:
    """Return the shortest time of the processor."""
    times = []
    for _ in range(runs):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return 1000 * min(times)


def here(module: str) -> bool:
    """Say whether a reference is installed."""
    return find_spec(module) is not None


def cutting() -> Row:
    """Islands of sheets of 512, 1024 and 2048 px, beside labelling and mask boxes."""
    from scipy import ndimage

    os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
    import pygame

    ours, scipys, masks = [], [], []
    for side in (512, 1024, 2048):
        pixels = sheet(side)
        ours.append(shortest_ms(lambda p=pixels: cut_islands(p, SliceOptions())))
        solid, eight = pixels[..., 3] > 0, np.ones((3, 3), bool)
        scipys.append(shortest_ms(lambda s=solid, e=eight: ndimage.find_objects(ndimage.label(s, e)[0])))
        surface = pygame.image.frombuffer(pixels.tobytes(), (side, side), "RGBA")
        mask = pygame.mask.from_surface(surface, 0)
        masks.append(shortest_ms(mask.get_bounding_rects))
    return (
        "cut a sheet of 512 x 512 px into islands",
        ours,
        [("scipy label", scipys), ("pygame.mask", masks)],
        "",
    )


def sheet(side: int) -> np.ndarray:
    """Return round blobs of many sizes in a grid of 64 px."""
    pixels = np.zeros((side, side, 4), np.uint8)
    y, x = np.ogrid[:64, :64]
    for row in range(side // 64):
        for column in range(side // 64):
            radius = 3 + (row * 37 + column * 61) % 25
            blob = (y - 32) ** 2 + (x - 32) ** 2 <= radius * radius
            pixels[row * 64 : row * 64 + 64, column * 64 : column * 64 + 64][blob] = (
                row % 256,
                column % 256,
                radius,
                255,
            )
    return pixels


def reduction() -> Row:
    """256 colours of smooth noise of 320 x 200 px and more."""
    from PIL import Image
    from scipy import ndimage

    ours, others, pillows = [], [], []
    for scale in (1, 2, 4):
        noise = np.random.default_rng(3).random((200 * scale, 320 * scale, 3))
        smooth = ndimage.gaussian_filter(noise, (6 * scale, 6 * scale, 0))
        spread = (smooth - smooth.min()) / (smooth.max() - smooth.min())
        picture = np.dstack([(spread * 255).astype(np.uint8), np.full(noise.shape[:2], 255, np.uint8)])
        ours.append(shortest_ms(lambda p=picture: reduce_pictures([p], entries=256, depth=DEPTH), 2))
        image = Image.fromarray(picture).convert("RGB")
        pillows.append(shortest_ms(lambda i=image: i.quantize(256), 2))
        if here("imagequant"):
            quantise = import_module("imagequant").quantize_raw_rgba_bytes
            height, width = picture.shape[:2]
            data = picture.tobytes()
            others.append(
                shortest_ms(
                    lambda q=quantise, d=data, w=width, h=height: q(
                        d, w, h, dithering_level=0.0, max_colors=256
                    )
                )
            )
    references = [("Pillow, median cut", pillows)]
    return (
        "reduce 320 x 200 px to 256 colours",
        ours,
        [("imagequant", others)] * bool(others) + references,
        "",
    )


def packing() -> Row:
    """250 boxes and more, beside a published packer."""
    random = np.random.default_rng(4)
    ours, others = [], []
    for count in (250, 1000, 4000):
        sizes = [(int(w), int(h)) for w, h in random.integers(6, 64, (count, 2))]
        width = 2 ** int(np.ceil(np.log2(1.02 * sum(w * h for w, h in sizes) ** 0.5)))
        ours.append(shortest_ms(lambda s=sizes, w=width: pack(s, w)))
        if here("rectpack") and count <= 1000:
            others.append(shortest_ms(lambda s=sizes, w=width: packed_by_rectpack(s, w), 1))
    return "pack 250 frames", ours, [("rectpack, skyline", others)] * bool(others), ""


def packed_by_rectpack(sizes: list[tuple[int, int]], width: int) -> None:
    """Pack with one of the other packer's families."""
    rectpack = import_module("rectpack")
    algorithm = import_module("rectpack.skyline").SkylineBl
    packer = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline, pack_algo=algorithm, sort_algo=rectpack.SORT_LSIDE, rotation=False
    )
    for w, h in sizes:
        packer.add_rect(w, h)
    packer.add_bin(width, 1 << 20)
    packer.pack()


def compositing(demo: Project) -> Row:
    """Pictures of the demo, beside copying as many bytes as its planes cover."""
    build = run_stages(demo, "board", last="colours")
    width, height = build.screen
    layer, screen = np.ones((height, width), np.uint8), np.zeros((height, width), np.uint8)
    planes = len(build.scene.planes)
    ours, copies = [], []
    for count in (5, 20, 80):
        ours.append(shortest_ms(lambda c=count: [build.picture(tick) for tick in range(c)], 2))
        copies.append(shortest_ms(lambda c=count: [np.copyto(screen, layer) for _ in range(c * planes)]))
    what = f"draw 5 pictures of {planes} planes, {width} x {height} px"
    return what, ours, [("copying the bytes of its planes", copies)], ""


def encoding(demo: Project) -> Row:
    """Tables of the demo, beside zlib at its best; with the sizes."""
    build = run_stages(demo, "board", last="tables")
    rows = {"map_cell": max(c.columns for c in build.pieces.planes)}
    ours, others = [], []
    note = ""
    for times in (1, 4, 16):
        tables = tuple(replace(t, values=t.values * times) for t in build.bundle.tables)
        plain = b"".join(plain_bytes(table.values) for table in tables)
        ours.append(shortest_ms(lambda t=tables: encode_tables(t, rows), 1))
        others.append(shortest_ms(lambda p=plain: zlib.compress(p, 9)))
        if times == 1:
            size = sum(len(choice.data) for choice in encode_tables(tables, rows))
            note = f"{size} bytes, zlib {len(zlib.compress(plain, 9))}"
    return "encode the tables of a scene, decode and compare", ours, [("zlib level 9", others)], note


def plain_bytes(values: tuple[int, ...]) -> bytes:
    """Return values in as many bytes each as the largest needs."""
    low = min((0, *values))
    wide = max(1, (max((0, *values)) - low).bit_length() + 7 >> 3)
    return b"".join((value - low).to_bytes(wide, "big") for value in values)


def exporting(demo: Project) -> list[Row]:
    """The whole build of a scene, and again with its art and colours at hand."""
    options = BuildOptions(play=True)
    first = run_stages(demo, "board", options=options)
    whole = shortest_ms(lambda: run_stages(demo, "board", options=options), 2)
    again = shortest_ms(lambda: run_stages(demo, "board", options=options, shared=first), 2)
    changed = [rebuilt_ms(options) for _ in range(16)]
    return [
        ("build and export a scene of the demo", [whole], [], ""),
        ("the same when art and colours stay", [again], [], ""),
        ("the same after a sheet's pixels changed", [min(changed)], [], ""),
    ]


def rebuilt_ms(options: BuildOptions) -> float:
    """Return the time for opening, building and exporting again after one sheet was painted on."""
    from PIL import Image

    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "demo"
        shutil.copytree(DEMO, copy)
        kept = Kept()
        run_stages(load(copy), "board", options=options, kept=kept)
        path = copy / load(copy).sheets[0].file
        pixels = np.array(Image.open(path).convert("RGBA"))
        y, x = np.argwhere(pixels[..., 3] > 0)[0]
        pixels[y, x, :3] = 255 - pixels[y, x, :3]
        Image.fromarray(pixels).save(path)
        return shortest_ms(lambda: run_stages(load(copy), "board", options=options, kept=kept), 1)


def simulation(demo: Project) -> Row:
    """The time line of a scene, by its ticks."""
    ours = []
    for ticks in (40, 160, 640):
        build = run_stages(demo, "board", last="plan")  # anew, since a plan remembers what it counted
        what = (build.planner, build.machine, build.mode, build.scene, range(ticks))
        ours.append(shortest_ms(lambda w=what: estimate(*w), 1))
    return "price 40 ticks of a scene", ours, [], ""


def starting() -> list[Row]:
    """Start-up of commands beside importing what they cannot do without, taken in turn."""
    with tempfile.TemporaryDirectory() as cache:
        check = ["-m", "scenekit", "check", str(DEMO)]
        started_ms(check, cache)
        helped, click, first, again, bare = shortest_starts_ms(
            (["-m", "scenekit", "--help"], ""),
            (["-c", "import click"], ""),
            (check, ""),
            (check, cache),
            (["-c", "import click, dataclasses, tomllib, numpy, PIL.Image"], ""),
        )
    beside = [("import click, tomllib, numpy, PIL", [bare])]
    return [
        ("`scenekit --help`", [helped], [("import click", [click])], ""),
        ("`scenekit check` of the demo, first time", [first], beside, ""),
        ("`scenekit check`, nothing changed since", [again], beside, ""),
    ]


def shortest_starts_ms(*commands: tuple[list[str], str], runs: int = 30) -> list[float]:
    """Return the shortest time of each command; they take turns, so that a busy host is so for all."""
    times = [[started_ms(*command) for command in commands] for _ in range(runs)]
    return [min(each) for each in zip(*times, strict=True)]


def started_ms(arguments: list[str], cache: str) -> float:
    """Return the time of the processor that a Python takes from start to end."""
    environment = {**os.environ, "SCENEKIT_CACHE": cache, "PYTHONPATH": str(ROOT)}
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, *arguments], env=environment, capture_output=True, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return 1000 * (after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)


def large_project(demo: Project) -> Iterator[Row]:
    """5,000 frames in 200 sheets."""
    with tempfile.TemporaryDirectory() as folder:
        opened, saved = [], []
        for sheets in (50, 200):
            path = Path(folder) / str(sheets)
            document = replace(
                demo, folder=path, sheets=(*demo.sheets, *many_sheets(min(sheets, 450), 25 * sheets))
            )
            save(document)
            opened.append(shortest_ms(lambda p=path: load(p), 2))
            names = iter("abcdef")
            saved.append(shortest_ms(lambda d=document, n=names: save(replace(d, name=next(n))), 2))
        yield "open a project of 1,250 frames (4x: 5,000 in 200 sheets)", opened, [], ""
        yield "save it", saved, [], ""


def many_sheets(count: int, frames: int) -> tuple[Sheet, ...]:
    """Return sheets with frames shared out among them."""
    each = frames // count
    return tuple(
        Sheet(
            name=f"s{n}",
            file=f"s{n}.png",
            frames=tuple(Frame(name=f"f{k:03}", box=(k * 8, 0, 8, 8), pivot=(4, 7)) for k in range(each)),
        )
        for n in range(count)
    )


def line(row: Row) -> str:
    """Return a row of the table."""
    name, ours, references, note = row
    beside = "; ".join(f"{what} {figure(times[0])}" for what, times in references)
    ratio = "; ".join(f"{ours[0] / times[0]:.2f}" for _, times in references if times[0] > 0)
    grown = " / ".join(f"{value / ours[0]:.1f}" for value in ours[1:])
    if references and len(references[0][1]) > 1:
        grown += "; " + " / ".join(f"{value / references[0][1][0]:.1f}" for value in references[0][1][1:])
    return (
        f"| {name} | {figure(ours[0])} | {beside or '-'} | {ratio or '-'} | {grown or '-'} | {note or '-'} |"
    )


def figure(value_ms: float) -> str:
    """Return a time to three digits."""
    return f"{value_ms:.0f} ms" if value_ms >= 100 else f"{value_ms:.3g} ms"


def rows_of(demo: Project) -> Iterator[Row]:
    """Yield every row, in the order of the work."""
    yield cutting()
    yield reduction()
    yield packing()
    yield compositing(demo)
    yield simulation(demo)
    yield from exporting(demo)
    yield encoding(demo)
    yield from starting()
    yield from large_project(demo)


def main() -> None:
    """Print the table, and write it where that is asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--write", action="store_true", help="put the table into README.md")
    options = parser.parse_args()
    demo = load(DEMO)
    head = "| what | time | beside it | ratio | growth at 4x and 16x: ours; the first reference's | size |"
    lines = [head, "|" + "---|" * 6]
    print("\n".join(lines), flush=True)
    for row in rows_of(demo):
        lines.append(line(row))
        print(lines[-1], flush=True)
    table = "\n".join(lines)
    if options.write:
        path = ROOT / "README.md"
        text = path.read_text(encoding="utf-8")
        before, rest = text.split(START, 1)
        path.write_text(f"{before}{START}\n{table}\n{END}{rest.split(END, 1)[1]}", encoding="utf-8")


if __name__ == "__main__":
    main()
