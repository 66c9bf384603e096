"""Measures how small tables get: source text against plain decimal DATA, bytes against zlib level 9.

python3 tools/bench/encoding.py [FOLDER ...]    the demo's scenes, and folders of planes back to front
"""

import sys
import tempfile
import zlib
from collections import Counter
from pathlib import Path

from PIL import Image

from scenekit.build import Build, run_stages
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Plane, Scene
from scenekit.model.store import load, save
from scenekit.model.target import Target

DEMO = Path(__file__).parents[2] / "demo_assets"
TEXT_MOST, BYTES_MOST = 0.45, 1.5


def planes_project(source: Path, folder: Path) -> Project:
    """Write a project of planes that follow the camera, the nearer the faster."""
    names = sorted(path.name for path in source.glob("*.png"))
    planes = []
    for number, name in enumerate(names):
        Image.open(source / name).convert("RGBA").save(folder / name)
        ratio = ((number + 1, len(names)), (1, 1))
        planes.append(_plane(f"plane{number}", name, ratio))
    scene = Scene(
        name="planes",
        ticks=60,
        ticks_per_update=1,
        missed="slow",
        backdrop=(0, 0, 0),
        camera=Camera(start=(0, 0)),
        planes=tuple(planes),
        placed=(),
        events=(),
    )
    target = Target(name="board", machine="indexed-board", mode="320x200", dialect="plain")
    save(Project(folder=folder, name="planes", targets=(target,), scenes=(scene,)))
    return load(folder)


def _plane(name: str, picture: str, ratio: tuple[tuple[int, int], tuple[int, int]]) -> Plane:
    from fractions import Fraction

    return Plane(name=name, picture=picture, ratio=(Fraction(*ratio[0]), Fraction(*ratio[1])), tile=(16, 16))


def plain_bytes(build: Build) -> bytes:
    """Return all values, one or two bytes each as the table needs."""
    parts = []
    for table in build.bundle.tables:
        low = min((0, *table.values))
        wide = max(1, (max((0, *table.values)) - low).bit_length() + 7 >> 3)
        parts += [(value - low).to_bytes(wide, "big") for value in table.values]
    return b"".join(parts)


def report(label: str, build: Build) -> bool:
    """Print a line for a scene and say whether it keeps to the bars."""
    data = b"".join(choice.data for choice in build.choices)
    decimal = sum(choice.decimal_bytes for choice in build.choices)
    text = len(build.packed.text) if build.packed else decimal
    squeezed = len(zlib.compress(plain_bytes(build), 9))
    used = Counter(choice.encoding for choice in build.choices)
    print(
        f"{label:24} {decimal:7} characters of decimal DATA, {text:6} encoded ({text / decimal:.2f}); "
        f"{len(data):6} bytes, zlib {squeezed:6} ({len(data) / squeezed:.2f}); "
        + ", ".join(f"{name} {count}" for name, count in used.items())
    )
    return text <= TEXT_MOST * decimal and len(data) <= BYTES_MOST * squeezed


def main(folders: list[str]) -> int:
    """Measure the demo and the folders."""
    demo = load(DEMO)
    good = [
        report(f"demo {name}", run_stages(demo, "board", name, last="encode")) for name in ("quay", "pier")
    ]
    for name in folders:
        with tempfile.TemporaryDirectory() as folder:
            project = planes_project(Path(name), Path(folder))
            good.append(report(Path(name).name, run_stages(project, last="encode")))
    return 0 if all(good) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
