"""Take the processor time of exporting the demo for every target, and compare its bytes elsewhere.

usage: python tools/bench/exporting.py [OTHER PYTHON ...]

Each Python named exports once more, with another hash seed, locale and folder; the bytes must be equal.
"""

import hashlib
import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo_assets"
OTHER = {"PYTHONHASHSEED": "4711", "LC_ALL": "C", "LANG": "C", "TZ": "Pacific/Auckland"}
LIMIT_S = 3.0


def digests(folder: Path) -> tuple[dict[str, str], dict[str, float]]:
    """Return the digest of every exported file, and the processor seconds of each target."""
    from scenekit.build import BuildOptions, run_stages
    from scenekit.errors import SceneKitError
    from scenekit.model.store import load

    project = load(folder)
    found, seconds = {}, {}
    for target in project.targets:
        started = time.process_time()
        for scene in project.scenes:
            try:
                build = run_stages(project, target.name, scene.name, options=BuildOptions(play=True))
            except SceneKitError as error:
                found[f"{target.name}/{scene.name}"] = str(error)
                continue
            for name, data in build.files.items():
                found[f"{target.name}/{scene.name}/{name}"] = hashlib.sha256(data).hexdigest()
        seconds[target.name] = time.process_time() - started
    return found, seconds


def elsewhere(python: str) -> dict[str, str]:
    """Return the digests that another Python gives, from a copy of the project in another folder."""
    import shutil

    with tempfile.TemporaryDirectory() as temporary:
        copy = Path(temporary) / "a folder"
        shutil.copytree(DEMO, copy)
        done = subprocess.run(
            [python, __file__, "--digests", str(copy)],
            env={**os.environ, **OTHER, "PYTHONPATH": str(ROOT)},
            cwd=temporary,
            capture_output=True,
            check=True,
        )
        return dict(json.loads(done.stdout))


def main() -> int:
    """Print processor seconds and whether all bytes are equal."""
    if sys.argv[1:2] == ["--digests"]:
        print(json.dumps(digests(Path(sys.argv[2]))[0]))
        return 0
    first, seconds = digests(DEMO)
    for name, took in seconds.items():
        print(f"{name:16} {took:6.2f} s")
    total = sum(seconds.values())
    print(f"all targets      {total:6.2f} s, {len(first)} files; must be below {LIMIT_S:g} s")
    different = 0
    for python in [sys.executable, *sys.argv[1:]]:
        other = elsewhere(python)
        wrong = [name for name in {**first, **other} if first.get(name) != other.get(name)]
        different += len(wrong)
        print(f"{python}: {len(other)} files, {len(wrong)} differ {' '.join(wrong[:4])}")
    return 1 if different or total >= LIMIT_S else 0


if __name__ == "__main__":
    sys.exit(main())
