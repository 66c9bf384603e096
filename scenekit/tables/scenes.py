"""The bundles of several scenes as one: what is the same for all, and what is read when a scene begins."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scenekit.routines.language import Table
from scenekit.tables.bundle import Bundle

FAR = 30_000
ABSENT = {
    "camera_left": -FAR,
    "camera_top": -FAR,
    "camera_right": FAR,
    "camera_bottom": FAR,
    "kept": -1,
}
"""Constants of scenes that go without: a camera free within the numbers of small BASICs, no sprite kept."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SceneTables:
    """The tables of all scenes of a game.

    shared     tables that are read once: those that are the same in every scene, and the table of scenes
    names      tables that are read anew for each scene, in order
    scenes     for each scene, these tables
    arrays     every array with its largest size in any scene, tables included
    variables  constants that are the same in every scene
    varying    names of constants that each scene takes from the table of scenes
    """

    shared: tuple[Table, ...]
    names: tuple[str, ...]
    scenes: tuple[tuple[Table, ...], ...]
    arrays: tuple[tuple[str, int], ...]
    variables: tuple[tuple[str, int], ...]
    varying: tuple[str, ...]

    @property
    def longest(self) -> int:
        """Return the values of the longest table."""
        tables = [*self.shared, *(table for tables in self.scenes for table in tables)]
        return max((len(table.values) for table in tables), default=1)


def merge_bundles(
    bundles: Sequence[Bundle], facts: Mapping[str, Sequence[int]], early: Sequence[Table] = ()
) -> SceneTables:
    """Return the bundles of several scenes as one.

    facts   further numbers of each scene for the table of scenes, by name
    early   beginnings of tables that are needed before the first scene is read
    """
    known = [{table.name: table for table in bundle.tables} for bundle in bundles]
    names = list(dict.fromkeys(name for tables in known for name in tables))
    whole = [[tables.get(name) or _absent(name, tables) for name in names] for tables in known]
    same, own = list[Table](), list[int]()
    for number, column in enumerate(zip(*whole, strict=True)):
        if all(table.values == column[0].values for table in column):
            same.append(column[0])
        else:
            own.append(number)
    constants = [dict(bundle.variables) for bundle in bundles]
    variables, varying = _split(constants)
    listed = [
        Table(
            f"scene_{name}", tuple(c.get(name, ABSENT.get(name, 0)) for c in constants), f"{name}, by scene"
        )
        for name in varying
    ]
    listed += [Table(f"scene_{name}", tuple(values), f"{name}, by scene") for name, values in facts.items()]
    shared = (*listed, *same, *early)
    sizes: dict[str, int] = {table.name: 1 for table in shared}
    for tables in (shared, *whole):
        for table in tables:
            sizes[table.name] = max(sizes.get(table.name, 1), len(table.values))
    for bundle in bundles:
        for name, size in bundle.arrays:
            sizes[name] = max(sizes.get(name, 1), size)
    return SceneTables(
        shared=shared,
        names=tuple(names[number] for number in own),
        scenes=tuple(tuple(tables[number] for number in own) for tables in whole),
        arrays=tuple(sizes.items()),
        variables=variables,
        varying=varying,
    )


def _constant(scene: Mapping[str, int], name: str) -> int:
    """Return a constant of a scene, or what stands for it where the scene goes without."""
    return scene.get(name, ABSENT.get(name, 0))


def _split(constants: Sequence[Mapping[str, int]]) -> tuple[tuple[tuple[str, int], ...], tuple[str, ...]]:
    """Return the constants that are the same everywhere, and the names of the others."""
    names = dict.fromkeys(name for scene in constants for name in scene)
    same, varying = list[tuple[str, int]](), list[str]()
    for name in names:
        values = {_constant(scene, name) for scene in constants}
        if len(values) == 1:
            same.append((name, values.pop()))
        else:
            varying.append(name)
    return tuple(same), tuple(varying)


def _absent(name: str, tables: Mapping[str, Table]) -> Table:
    """Return the table of a scene that does without it: no mirrored copies, or nothing."""
    if name == "frame_turned":
        return Table(name, (-1,) * (4 * len(tables["frame_cell"].values)))
    return Table(name, ())
