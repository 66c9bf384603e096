"""Try every fault at every step of a save, and count the bytes of saved work that are lost.

usage: python tools/bench/faults.py
"""

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "tests" / "support"))

from faults import KINDS, lost_by, steps_of
from small_scene import small_project


def main() -> int:
    """Print a line for each kind of fault."""
    tried = lost = 0
    with tempfile.TemporaryDirectory() as folder:
        steps = steps_of(small_project(Path(folder) / "count"))
        for kind in KINDS:
            gone = [lost_by(small_project(Path(folder) / f"{kind}-{at}"), kind, at) for at in range(steps)]
            print(f"{kind:26} {steps} faults, {sum(gone)} bytes of saved work lost")
            tried, lost = tried + steps, lost + sum(gone)
    print(f"all: {tried} faults, {lost} bytes of saved work lost")
    return 1 if lost else 0


if __name__ == "__main__":
    sys.exit(main())
