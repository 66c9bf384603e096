"""What export and verify do with all scenes of a project together."""

from collections.abc import Callable, Collection
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import Progress, check_trust, exit_code, print_findings, print_json, ticks

if TYPE_CHECKING:
    from scenekit.build import BuildOptions
    from scenekit.cli.delivering import Way
    from scenekit.game import Game
    from scenekit.model.project import Project
    from scenekit.verify.board import BoardProof
    from scenekit.verify.journey import Visit
    from scenekit.verify.prove import Proof

Run = Callable[[Path | None, Path | None, float | None], "Proof"]


def export_game(
    project: "Project",
    target: str | None,
    options: "BuildOptions",
    progress: Progress,
    way: "Way",
    as_json: bool,
) -> int:
    """Export all scenes as one library, say what was written, and return the exit code."""
    from scenekit.cli.delivering import deliver
    from scenekit.game import build_game

    game = build_game(project, target, options=options, progress=progress)
    delivery = deliver(game.files, game.own_files, game.first.dialect, way)
    progress.done()
    if as_json:
        print_json({**game_data(game, delivery.changed or ()), **delivery.as_dict()})
        return exit_code(game.findings)
    first = game.first
    where = f"{way.out or way.to}: {len(game.scenes)} scenes"
    click.echo(f"{where} for {first.target.name} in dialect {first.dialect.name}")
    click.echo(f"drawing by {first.scheme.name}: {first.scheme.reason}")
    _describe(game, delivery.changed)
    delivery.describe()
    print_findings(game.findings)
    return exit_code(game.findings)


def game_data(game: "Game", changed: Collection[str]) -> dict[str, object]:
    """Return what was built of a game as plain JSON data."""
    first = game.first
    files = [
        {"name": name, "bytes": len(data), "changed": name in changed} for name, data in game.files.items()
    ]
    return {
        "target": first.target.name,
        "scenes": scene_data(game),
        "dialect": first.dialect.name,
        "scheme": first.scheme.name,
        "reason": first.scheme.reason,
        "shared_pieces": len(game.common),
        "files": files,
        "memory": [memory.as_dict() for memory in game.memory],
        "findings": [finding.as_dict() for finding in game.findings],
    }


def scene_data(game: "Game") -> list[dict[str, object]]:
    """Return what entering each scene of a game reads, as plain JSON data."""
    from scenekit.game import scene_files

    return [
        {
            "name": build.scene.name,
            "files": list(scene_files(game, number)),
            "bytes": sum(len(game.files[name]) for name in scene_files(game, number)),
            "read_ms": None if time is None else round(time, 3),
        }
        for number, (build, time) in enumerate(zip(game.scenes, game.change_ms, strict=True))
    ]


def _describe(game: "Game", changed: Collection[str] | None) -> None:
    """Say what scenes share, what each reads when it is entered, and which files were written."""
    from scenekit.game import scene_files

    own = ", ".join(
        f"{len(build.pieces.pictures) - len(game.common)} of {build.scene.name}" for build in game.scenes
    )
    if game.first.scheme.draws:
        click.echo(f"pieces: {len(game.common)} shared, in memory once; {own}")
    for number, (build, time) in enumerate(zip(game.scenes, game.change_ms, strict=True)):
        size = sum(len(game.files[name]) for name in scene_files(game, number))
        known = "time not known" if time is None else f"{time:.0f} ms to read, unpacking left out"
        click.echo(f"  entering {number} {build.scene.name:<16} {size:>9} bytes, {known}")
    if changed is None:
        return
    for name, data in game.files.items():
        click.echo(f"  {name:<24} {len(data):>9} bytes{'' if name in changed else '  unchanged'}")


def visits_of(project: "Project", text: str) -> "tuple[Visit, ...]":
    """Return the way through all scenes and back that a list of ticks stands for; "auto" spreads them."""
    from scenekit.verify.journey import there_and_back

    return there_and_back(project.scenes, () if text == "auto" else ticks(text, "--proof"))


def game_stops(project: "Project", text: str) -> tuple[int, ...]:
    """Return the list of stops at which the program of a game reports, for proof on a board."""
    from scenekit.verify.journey import stop_list

    return stop_list(visits_of(project, text), len(project.scenes))


def verify_game(
    project: "Project",
    target: str | None,
    options: "BuildOptions",
    stops: str,
    trust: bool,
    progress: Progress,
) -> Run:
    """Return what runs a project's scenes there and back."""
    from scenekit.errors import VerifyError
    from scenekit.game import build_game
    from scenekit.verify.visits import prove_game, usual_visits_limit_s

    game = build_game(project, target, options=options, progress=progress)
    check_trust(game.first, trust)

    def run(exported: Path | None, pictures: Path | None, seconds: float | None) -> "Proof":
        if exported is not None and not (exported / game.play_file).is_file():
            raise VerifyError(f"{exported / game.play_file}: no such file; export with --play first")
        visits = visits_of(project, stops)
        limit_s = seconds or usual_visits_limit_s(game, visits)
        progress(f"running, for {limit_s:.0f} s at the most", 0, 1)
        return prove_game(game, visits, exported=exported, pictures=pictures, time_limit_s=seconds)

    return run


def judge_game_sent(
    project: "Project", target: str | None, stops: str, sent: tuple[str, ...], sums: bool
) -> "BoardProof":
    """Judge what a board sent back of all scenes; screens are named by the number of their stop."""
    from scenekit.game import build_game
    from scenekit.verify.board import read_sent
    from scenekit.verify.board_games import judge_game

    game = build_game(project, target)
    visits = visits_of(project, stops)
    numbers = range(sum(len(visit.ticks) for visit in visits))
    return judge_game(game, visits, *read_sent(sent, numbers), sums)
