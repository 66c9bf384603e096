"""A way through the scenes of a game, as a proof goes it: scenes that are entered, and ticks to look at."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from scenekit.build import Build
from scenekit.errors import VerifyError
from scenekit.game import Game
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.programs.changing import MOST_STOPS
from scenekit.sprites.panels import values_at
from scenekit.verify.stops import default_ticks


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """A scene that is entered, and the ticks at which it is looked at, in rising order."""

    scene: int
    ticks: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Leg:
    """A visit as it is gone: the scene's build, and the project with its values as they stand on entering."""

    scene: int
    build: Build
    project: Project
    ticks: tuple[int, ...]


def there_and_back(scenes: Sequence[Scene], ticks: Sequence[int] = ()) -> tuple[Visit, ...]:
    """Return visits to every scene in order and back again to the first, at ticks given or spread."""
    order = [*range(len(scenes)), *range(len(scenes) - 2, -1, -1)]
    return tuple(
        Visit(
            scene=number,
            ticks=tuple(sorted(set(ticks))) or default_ticks(scenes[number], 6 if place else 8),
        )
        for place, number in enumerate(order)
    )


def stop_list(visits: Sequence[Visit], scenes: int) -> tuple[int, ...]:
    """Return the list of stops of a playing program: -2 less its number enters a scene.

    raises   VerifyError: no such scene, a tick out of range, too many stops
    """
    stops: list[int] = []
    for visit in visits:
        good = visit.ticks and visit.ticks[0] >= 0 and visit.ticks[-1] <= 10_000_000
        if not 0 <= visit.scene < scenes or not good:
            raise VerifyError(
                f"visit of scene {visit.scene} at {list(visit.ticks)[:8]}: must be one of "
                f"{scenes} scenes, at ticks from 0 to 10000000"
            )
        stops += [-2 - visit.scene, *sorted(set(visit.ticks))]
    if not stops or len(stops) > MOST_STOPS:
        raise VerifyError(f"visits: {len(stops)} stops; must be 1 to {MOST_STOPS}")
    return tuple(stops)


def legs(game: Game, visits: Sequence[Visit]) -> Iterator[Leg]:
    """Yield each visit as it is gone; values go on from scene to scene."""
    project = game.first.project
    for visit in visits:
        build = game.scenes[visit.scene]
        here = replace(build.project, values=project.values)
        ticks = tuple(sorted(set(visit.ticks)))
        yield Leg(scene=visit.scene, build=build, project=here, ticks=ticks)
        project = carried(here, build, ticks[-1])


def carried(project: Project, build: Build, tick: int) -> Project:
    """Return the project with every value starting as it stands at a tick of a scene."""
    now = values_at(project, build.scene, tick)
    return replace(project, values=tuple(replace(v, start=now[v.name]) for v in project.values))
