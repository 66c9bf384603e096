"""Read spoilt files of every kind, a hundred thousand or as many as asked for, and count what goes wrong.

usage: PYTHONPATH=. python tools/bench/fuzz.py [--cases 100000] [--first 0] [--slice 2500] [--keep FOLDER]

Each slice runs in a process of its own.  A case must end within 2 s and 500 MB, with a reading or with one of
our own errors in one line; it writes nothing outside its folder, starts no program, and asks no network.
"""

import argparse
import sys
import tempfile
import time
from collections import Counter
from multiprocessing import get_context
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "tests" / "support"))


def run_slice(first: int, count: int, keep: str) -> tuple[Counter[str], list[str]]:
    """Return cases by kind, and what went wrong."""
    from fuzzing import Sandbox, cases, try_hand_made

    done: Counter[str] = Counter()
    wrong: list[str] = []
    with tempfile.TemporaryDirectory() as folder:
        sandbox = Sandbox(Path(folder))
        if first == 0:
            wrong += try_hand_made(sandbox)
        for number, (kind, name, data, fault) in enumerate(cases(sandbox, first, count), first):
            done[kind] += 1
            if fault:
                wrong.append(f"case {number}, {kind}: {fault}")
                if keep:
                    Path(keep, f"{number}-{Path(name).name}").write_bytes(data)
    return done, wrong


def main() -> int:
    """Print a line for each fault and the sums."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--cases", type=int, default=100_000)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--slice", type=int, default=2500)
    parser.add_argument("--keep", default="")
    options = parser.parse_args()
    if options.keep:
        Path(options.keep).mkdir(parents=True, exist_ok=True)
    done: Counter[str] = Counter()
    wrong, start = 0, time.monotonic()
    with get_context("spawn").Pool(1, maxtasksperchild=1) as pool:
        for first in range(options.first, options.first + options.cases, options.slice):
            count = min(options.slice, options.first + options.cases - first)
            found, faults = pool.apply(run_slice, (first, count, options.keep))
            done += found
            wrong += len(faults)
            for fault in faults:
                print(fault, flush=True)
            print(f"{sum(done.values())} cases, {wrong} faults, {time.monotonic() - start:.0f} s", flush=True)
    print(", ".join(f"{kind} {count}" for kind, count in sorted(done.items())))
    print(f"all: {sum(done.values())} cases, {wrong} faults")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
