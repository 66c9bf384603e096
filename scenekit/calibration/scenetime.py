"""Times whole scenes by the program that plays them, and says what their costs foretell."""

from dataclasses import dataclass

from scenekit.build import Build
from scenekit.calibration.benchmark import parts_of, spell_program
from scenekit.costs.margin import margin_ms
from scenekit.machines.machine import Machine
from scenekit.plan.stepwork import step_counts
from scenekit.plan.work import Work
from scenekit.routines.language import Call, Number, Word


@dataclass(frozen=True, slots=True, kw_only=True)
class Foretold:
    """Time of so many pictures, with the half width within which it lies in 95 of 100 cases."""

    time_ms: float
    half_width_ms: float


def foretell(build: Build, machine: Machine, pictures: int) -> Foretold:
    """Return the time that a scene's first pictures and the ticks between them should take.

    raises   KeyError: a price is unknown
    """
    every = build.scene.ticks_per_update
    back = build.planner.abilities.pages * every
    work: list[Work] = []
    for tick in range(0, pictures * every, every):
        work += build.planner.plan(tick, max(0, tick - every), max(-1, tick - back))
    last = (pictures - 1) * every
    steps = step_counts(build.scene, build.reduced, last, last + every)
    work += [Work(name="", operation=o, calls=c, rows=0, pixels=0) for o, c in steps.items()]
    prices = machine.costs_in(build.mode.name)
    time_us = sum(prices[w.operation].time_us(w.calls, w.rows, w.pixels) for w in work)
    margin = margin_ms(work, prices, machine.residual_percent)
    return Foretold(time_ms=time_us / 1000, half_width_ms=margin)


def timing_program(build: Build, pictures: int, rounds: int) -> dict[str, bytes]:
    """Return the files of a program that reports the time of so many pictures in each round."""
    main = (
        Call("load", ()),
        Call("start", ()),
        Word("say_open", ()),
        Call("time_scene", (Number(pictures), Number(rounds))),
        Word("say_close", ()),
        Word("quit", ()),
    )
    text = spell_program(build, parts_of(build), main, ("bench_scene",))
    return {f"time{build.dialect.file_ending}": text, **build.bundle.files}
