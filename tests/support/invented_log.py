"""The log of a board that does not exist: every cost a little above its profile, with some noise."""

import random
import tempfile
from pathlib import Path

from scenekit.calibration.benchmark import checksum, write_benchmark
from scenekit.calibration.benchscene import bench_build
from scenekit.model.store import load


def invented_log(game: Path, seed: int = 3) -> str:
    """Return the log of a machine on which everything costs a little more than its profile says."""
    chosen = random.Random(seed)
    project = load(game)
    with tempfile.TemporaryDirectory() as folder:
        bench = write_benchmark(bench_build(project, project.target(None), Path(folder)), 1)
    prices = bench.build.machine.costs_in(bench.build.mode.name)
    lines = ["READY", "RUN", "0", f"{bench.identity}", "1", f"{checksum(0, bench.identity, 1)}"]
    for number, measure in enumerate(bench.measures, 1):
        time_us = 1.0
        for (operation, part), amount in measure.work:
            cost = prices[operation]
            each = {"call": cost.per_call_us, "row": cost.per_row_us, "pixel": cost.per_pixel_us}[part]
            time_us += amount * each * 1.1
        time_us *= 1 + abs(chosen.gauss(0, 0.01))
        turns = 2
        while turns * time_us < 100_000:
            turns *= 2
        took = int(turns * time_us / 1000)
        lines += [str(number), str(turns), str(took), str(checksum(number, turns, took))]
    return "\n".join(lines) + "\n"
