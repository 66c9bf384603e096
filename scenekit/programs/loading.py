"""How the program of one scene comes by its tables and art: all of it at once."""

from scenekit.plan.schemes import BLIT, PAGE, RUNS
from scenekit.programs.parts import (
    Loading,
    Parts,
    fill_array,
    open_display,
    reset_counts,
    set_variables,
)
from scenekit.programs.unpack import START_OF_PACKED, unpack_routines
from scenekit.routines.language import Assign, Call, Name, Number, Routine, Statement, Text, Word


def one_scene(parts: Parts) -> Loading:
    """Return how a program loads its one scene."""
    bundle, packed = parts.bundle, parts.packed
    sizes = tuple((table.name, max(1, len(table.values))) for table in bundle.tables)
    if packed is not None:
        sizes += (("unpacked", max(len(table.values) for table in bundle.tables)),)
    return Loading(
        routines=(_load(parts), *(unpack_routines(packed) if packed is not None else ())),
        files=("no_scenes",),
        arrays=(*sizes, *bundle.arrays),
        tables=bundle.tables if packed is None else packed.tables,
        packed="" if packed is None else packed.text,
    )


def _load(parts: Parts) -> Routine:
    """Return the routine that reads the tables, opens the display and loads the art."""
    body: list[Statement] = set_variables(parts.bundle.variables)
    body.append(Word("rewind", ()))
    if parts.packed is not None:
        body += set_variables(START_OF_PACKED)
    for table in parts.bundle.tables:
        if table.values:
            if parts.packed is not None:
                body.append(Call("unpack", (Number(len(table.values)),)))
            body.append(fill_array(table.name, Number(len(table.values) - 1), parts.packed is not None))
    if parts.map_file:
        body.append(Word("map_open", (Text(parts.map_file),)))
    body += open_display(parts)
    if parts.scheme is BLIT:
        body.append(Assign(Name("art"), Number(0)))
        body.append(Word("load_image", (Name("art"), Text(parts.art_file))))
        body.append(Word("keyed_entry", (Name("transparent"),)))
    if parts.scheme is PAGE:
        body.append(Assign(Name("art"), Number(0)))
        body.append(Call("load_art", ()))
    if parts.scheme is RUNS:
        body.append(Call("load_pieces", ()))
    body.append(Call("set_palette", ()))
    if parts.counting and parts.scheme.draws:
        body += reset_counts()
    return Routine(
        "load", (), ("i",), tuple(body), ("Reads the tables, opens the display and loads the art.",)
    )
