"""Writes the user's own program, given in neutral words, over an exported library."""

from collections.abc import Collection, Mapping
from dataclasses import replace

from scenekit.building.state import BuildOptions
from scenekit.dialects.dialect import Dialect
from scenekit.dialects.names import check_includes
from scenekit.dialects.spell import Options, spell
from scenekit.errors import ExportError
from scenekit.model.project import Project
from scenekit.programs.own import read_own
from scenekit.routines.language import Program

KEYS_FILE = "keys.txt"


def own_files(
    project: Project,
    options: BuildOptions,
    dialect: Dialect,
    library: Program,
    library_file: str,
    constants: Mapping[str, int],
    taken: Collection[str],
) -> dict[str, bytes]:
    """Return the user's program in a dialect, and an empty script of keys; nothing where none is asked for.

    taken    names of files that the export writes itself
    raises   DialectError: what is wrong with it; ExportError: its name is taken
    """
    if options.program is None:
        return {}
    check_includes(dialect)
    stem, text = options.program
    name = f"{stem}{dialect.file_ending}"
    if name in taken:
        raise ExportError(f"program {stem}: {name} is a file of the export itself; give yours another name")
    program = read_own(text, f"program {stem}", project, library)
    program = replace(program, library_file=library_file)
    spelled = spell(dialect, program, constants, Options(prefix=options.prefix))
    return {name: spelled.encode("ascii"), **({KEYS_FILE: b""} if "keys_open" in dialect.words else {})}
