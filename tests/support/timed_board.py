"""Benchmarks of machines in small, and logs of machines that cost exactly what their profile says."""

import random
from collections.abc import Mapping
from pathlib import Path

from scenekit.calibration.benchmark import Benchmark, checksum, write_benchmark
from scenekit.calibration.benchscene import bench_build
from scenekit.calibration.measures import PLANE
from scenekit.machines.cost import Cost
from scenekit.model.project import Project
from scenekit.model.target import Target

COPIES = ("blit", "blit-keyed", "blit-flipped")


def benchmark(folder: Path, machine: str, mode: str, dialect: str, repeats: int = 2) -> Benchmark:
    folder.mkdir(parents=True)
    target = Target(name="t", machine=machine, mode=mode, dialect=dialect)
    empty = Project(folder=folder / "none", name="none")
    inner = folder / "bench"
    inner.mkdir()
    return write_benchmark(bench_build(empty, target, inner), repeats)


def invented(
    bench: Benchmark,
    grain: int = 1,
    noise: float = 0.0,
    seed: int = 1,
    changed: Mapping[str, Cost] | None = None,
    far_us: float = 0.0,
) -> list[int]:
    """Return the log of a machine that costs what the profile of the target says, or what is changed; and so
    much more for each pixel that planes copy.
    """
    chosen = random.Random(seed)
    prices = {**bench.build.machine.costs_in(bench.build.mode.name), **(changed or {})}
    said = [0, bench.identity, grain, checksum(0, bench.identity, grain)]
    for repeat in range(bench.repeats):
        for place, measure in enumerate(bench.measures):
            work: dict[str, list[float]] = {}
            for (operation, part), amount in measure.work:
                work.setdefault(operation, [0, 0, 0])[("call", "row", "pixel").index(part)] = amount
            time_us = 0.5 + sum(
                a * prices[o].per_call_us + b * prices[o].per_row_us + c * prices[o].per_pixel_us
                for o, (a, b, c) in work.items()
            )
            if measure.kind == PLANE:
                time_us += far_us * sum(a for (o, part), a in measure.work if o in COPIES and part == "pixel")
            time_us *= 1 + abs(chosen.gauss(0, noise))
            turns = 2
            while turns * time_us < 200_000:
                turns *= 2
            took = int(turns * time_us / 1000) // grain * grain
            number = repeat * len(bench.measures) + place + 1
            said += [number, turns, took, checksum(number, turns, took)]
    return said
