"""Judges what somebody's board sent back of a game of several scenes."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from scenekit.errors import VerifyError
from scenekit.game import Game
from scenekit.model.arrays import Pixels
from scenekit.programs.records import sums_of
from scenekit.render.screen import render_screen
from scenekit.verify.board import Awaited, BoardProof, found_parts, row_sums
from scenekit.verify.compare import compare_screen, state_values
from scenekit.verify.journey import Visit, legs


def awaited_of_game(game: Game, visits: Sequence[Visit], sums: bool = False) -> Awaited:
    """Return what a reporting program says of shared tables, and of tables and ticks of each visit."""
    parts: list[tuple[str, tuple[int, ...]]] = [
        (f"table {table.name}", sums_of(table.values)) for table in game.tables.shared if table.values
    ]
    for number, leg in enumerate(legs(game, visits)):
        build, name = leg.build, f"visit {number}, {leg.build.scene.name}"
        parts.append((name, (leg.scene,)))
        parts += [(f"{name}: table {t.name}", sums_of(t.values)) for t in game.tables.scenes[leg.scene]]
        known = (build.bundle, build.planner.numbers, build.flags)
        for tick in leg.ticks:
            if sums and build.scheme.draws:
                parts.append((f"{name}: rows at tick {tick}", row_sums(build, tick, leg.project)))
            values = state_values(leg.project, build.scene, build.reduced, *known, tick)
            parts.append((f"{name}: tick {tick}", tuple(values)))
    return tuple(parts)


def judge_game(
    game: Game,
    visits: Sequence[Visit],
    logs: Sequence[Sequence[int]],
    screens: Mapping[int, Pixels],
    sums: bool = False,
) -> BoardProof:
    """Compare what a board reported and showed of a game with the reference.

    logs     numbers of each log
    screens  number of the stop, counted from 0 over all visits -> (H, W, 3) uint8
    sums     the program reports sums of the screen's rows, and need not save it
    raises   VerifyError: there is no stop of such a number
    """
    stops = [(leg, tick) for leg in legs(game, visits) for tick in leg.ticks]
    compared = []
    for number in sorted(screens):
        if number >= len(stops):
            raise VerifyError(f"screen {number}: the stops are 0 to {len(stops) - 1}")
        leg, tick = stops[number]
        build = leg.build
        shown = (leg.project, build.scene, build.reduced, build.screen, build.view, tick)
        result = compare_screen(tick, render_screen(*shown), screens[number])
        compared.append(replace(result, scene=build.scene.name))
    parts = found_parts(awaited_of_game(game, visits, sums), logs)
    wanted = range(len(stops)) if game.first.scheme.draws and not sums else ()
    unsent = tuple(number for number in wanted if number not in screens)
    return BoardProof(parts=parts, screens=tuple(compared), unsent=unsent)
