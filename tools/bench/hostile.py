"""Run programs of thousands of hostile names and texts in every BASIC; count errors and marker files.

usage: python tools/bench/hostile.py [NAMES]
"""

import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "tests" / "support"))

from hostile_names import TARGETS, hostile_project

from scenekit.build import BuildOptions, run_stages
from scenekit.cli.main import stop_on_request
from scenekit.errors import SceneKitError
from scenekit.verify.prove import can_run, prove

NAMES = 10_000


def main() -> int:
    """Print what ran, and every program that failed."""
    wanted = int(sys.argv[1]) if len(sys.argv) > 1 else NAMES
    done = ran = failed = seed = 0
    started = time.monotonic()
    with tempfile.TemporaryDirectory() as temporary:
        marker = Path(temporary) / "marker"
        while done < wanted:
            seed += 1
            project, used = hostile_project(Path(temporary) / str(seed), seed, marker)
            done += used
            for target, (dialect, *_) in zip(project.targets, TARGETS, strict=True):
                build = run_stages(project, target.name, options=BuildOptions(play=True))
                if not can_run(build):
                    continue
                ran += 1
                try:
                    good = prove(build, (0, 3)).passed
                except SceneKitError as error:
                    print(f"seed {seed}, {dialect}: {error}")
                    good = False
                failed += not good
        print(
            f"{done} names and texts, {ran} programs in {len(TARGETS)} dialects, {failed} failed, "
            f"marker file {'THERE' if marker.exists() else 'absent'}, {time.monotonic() - started:.0f} s"
        )
        return 1 if failed or marker.exists() else 0


if __name__ == "__main__":
    stop_on_request()
    sys.exit(main())
