"""Runs an exported game through its scenes and proves that each shows and says what it should."""

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from scenekit.build import Build
from scenekit.game import Game
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Outcome, Run
from scenekit.model.arrays import Pixels
from scenekit.plan.enterwork import entries_written, first_picture
from scenekit.programs.assemble import COUNTED
from scenekit.registry import choose
from scenekit.render.screen import render_screen
from scenekit.verify.compare import TickResult, compare_screen, state_values
from scenekit.verify.folders import LONGEST_REST_S, run_folder
from scenekit.verify.journey import Leg, Visit, legs, stop_list
from scenekit.verify.prove import Proof, copy_files, count_different, save_difference, usual_limit_s
from scenekit.verify.stops import write_stops


@dataclass(slots=True)
class _Wanted:
    """What a program must report and show."""

    values: list[int]
    counts: dict[int, str]
    pictures: list[tuple[Build, int, Pixels]]


def prove_game(
    game: Game,
    visits: Sequence[Visit],
    *,
    exported: Path | None = None,
    pictures: Path | None = None,
    time_limit_s: float | None = None,
) -> Proof:
    """Run a game's playing program through visits and compare screens, values and counts at every stop.

    exported  a folder with the exported files; default: the game's own files
    pictures  folder for a picture of each difference
    raises    VerifyError: cannot be run, no time left, nothing fresh to read
    """
    started = time.monotonic()
    stops = stop_list(visits, len(game.scenes))
    build = game.first
    with run_folder() as folder:
        copy_files(game.files, game.play_file, exported, folder)
        write_stops(folder, game.play_file, stops, build.dialect.limits.line_length)
        screens = sum(len(visit.ticks) for visit in visits) if build.scheme.draws else 0
        outcome = choose("reader", build.dialect.reader, readers()).run(
            Run(
                folder=folder,
                program=game.play_file,
                dialect=build.dialect,
                screens=screens,
                flips=build.abilities.flips,
                time_limit_s=time_limit_s or usual_visits_limit_s(game, visits),
                rest_s=0 if time_limit_s else LONGEST_REST_S,
            )
        )
    proof = _judge(game, visits, outcome, pictures)
    return replace(proof, seconds=time.monotonic() - started)


def usual_visits_limit_s(game: Game, visits: Sequence[Visit]) -> float:
    """Return a time limit; reading a scene's art byte by byte counts too."""
    size = sum(len(data) for data in game.files.values())
    work = sum(usual_limit_s(game.scenes[visit.scene], visit.ticks) for visit in visits)
    return work + len(visits) * size / 20_000


def _judge(game: Game, visits: Sequence[Visit], outcome: Outcome, folder: Path | None) -> Proof:
    wanted = _wanted(game, visits)
    ticks: list[TickResult] = []
    names: list[str] = []
    for (build, tick, picture), screen in zip(wanted.pictures, outcome.screens, strict=False):
        result = replace(compare_screen(tick, picture, screen), scene=build.scene.name)
        ticks.append(result)
        if result.different and folder is not None:
            names.append(save_difference(build, folder, tick, picture, screen))
    got, counts = list(outcome.said), wanted.counts
    plain = [value for n, value in enumerate(wanted.values) if n not in counts]
    said = [value for n, value in enumerate(got) if n not in counts]
    counted = [wanted.values[n] for n in sorted(counts)]
    said_counts = [got[n] for n in sorted(counts) if n < len(got)]
    dialect = game.first.dialect
    return Proof(
        target=game.first.target.name,
        scene=" > ".join(game.scenes[visit.scene].scene.name for visit in visits),
        dialect=dialect.name,
        interpreter=dialect.command[0] if dialect.command else dialect.reader,
        version=outcome.version,
        ticks=tuple(ticks),
        values=len(plain),
        different=count_different(plain, said),
        counts=len(counts),
        counts_different=count_different(counted, said_counts),
        seconds=0.0,
        pictures=tuple(names),
        findings=(),
    )


def _wanted(game: Game, visits: Sequence[Visit]) -> _Wanted:
    """Return what the program must report and show; values go on from scene to scene."""
    found = _Wanted(values=[], counts={}, pictures=[])
    found.values += [value for table in game.tables.shared for value in table.values]
    shown = np.arange(len(game.first.reduced.palette), dtype=np.int64)
    for leg in legs(game, visits):
        build, here = leg.build, leg.project
        own = game.tables.scenes[leg.scene]
        found.values += [leg.scene, *(value for table in own for value in table.values)]
        for number, tick in enumerate(leg.ticks):
            view = (build.screen, build.view)
            if build.scheme.draws:
                picture = render_screen(here, build.scene, build.reduced, *view, tick)
                found.pictures.append((build, tick, picture))
            found.values += state_values(
                here, build.scene, build.reduced, build.bundle, build.planner.numbers, build.flags, tick
            )
            if game.options.counting and build.scheme.draws:
                _count(found, leg, number, shown)
        if build.scheme.draws:
            shown = entries_written(build.reduced, build.scene, leg.ticks[-1])
    return found


def _count(
    found: _Wanted, leg: Leg, number: int, shown: "np.ndarray[tuple[int, ...], np.dtype[np.int64]]"
) -> None:
    """Add the counts of a stop: what the draw plan says of it, and of the change before the first."""
    ticks, planner = leg.ticks, leg.build.planner
    before = ticks[number - 1] if number else -1
    older = number - leg.build.abilities.pages
    planner.project = leg.project
    work = planner.plan(ticks[number], before, ticks[older] if older >= 0 else -1)
    if number == 0:
        work = first_picture(planner, work, shown, ticks[0])
    planner.project = leg.build.project
    for operation in COUNTED:
        done = [w for w in work if w.operation == operation]
        for total in (sum(w.calls for w in done), sum(w.pixels for w in done)):
            found.counts[len(found.values)] = operation
            found.values.append(total)
