"""How the program of a whole game comes by its scenes: shared things once, the others on a change."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from scenekit.plan.schemes import BLIT, PAGE, RUNS
from scenekit.programs.parts import (
    Loading,
    Parts,
    fill_array,
    open_display,
    reset_counts,
    set_variables,
)
from scenekit.programs.unpack import DECIMAL_WORDS, START_OF_PACKED, decoding_routines
from scenekit.routines.language import (
    Assign,
    Binary,
    Call,
    Element,
    Expression,
    For,
    If,
    Name,
    Number,
    Routine,
    Statement,
    Table,
    Text,
    Word,
)
from scenekit.tables.forms import Form
from scenekit.tables.scenes import SceneTables

SHARED_SLOT, OWN_SLOT = 0, 1
"""Images of a program that copies from them: what scenes share, and what the scene on show has to itself."""
STOP_LIST, MOST_STOPS = "stop_list", 200
NEXT_TABLE = "next_table"
INDEX = Name("i")
Make = Callable[[int], tuple[Statement, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Changing:
    """What a program of several scenes is assembled from, beside its parts.

    names         of the scenes
    form          how encoded tables stand in DATA; None where they stand there as plain numbers
    in_files      tables stand in the files instead
    used          encodings used
    packed        text of the encoded tables, or ""
    data          what stands in DATA as numbers
    skips         for each scene, signs or numbers of DATA before its tables; then those of all
    shared_file, files    of bytes: tables where in_files, then pieces; "" where there is none
    shared_image, images  "" where there is none
    shared_pieces  how many pieces scenes share
    rows          hidden page: rows of shared art, then for each scene one after its last
    single        drawing shows at once
    """

    names: tuple[str, ...]
    tables: SceneTables
    form: Form | None
    in_files: bool
    used: tuple[str, ...]
    packed: str
    data: tuple[Table, ...]
    skips: tuple[int, ...]
    shared_file: str
    files: tuple[str, ...]
    shared_image: str
    images: tuple[str, ...]
    shared_pieces: int
    rows: tuple[int, ...]
    single: bool

    @property
    def encoded(self) -> bool:
        """Say whether tables are unpacked."""
        return self.in_files or self.form is not None


def many_scenes(parts: Parts, changing: Changing) -> Loading:
    """Return how a program loads what its scenes share, and each scene when it is entered."""
    recolours = parts.abilities.recolours and parts.scheme.draws
    blanks = changing.single and parts.scheme.draws
    files = ["change", "change_recolour" if recolours else "change_redraw"]
    files += ["blank" if blanks else "no_blank", NEXT_TABLE if changing.encoded else "next_table_read"]
    arrays = [
        *changing.tables.arrays,
        ("stop_list", MOST_STOPS),
        ("table_count", max(1, len(changing.tables.names))),
    ]
    routines = [_load(parts, changing), _load_scene(parts, changing)]
    if changing.encoded:
        arrays.append(("unpacked", changing.tables.longest))
        form = "unpack_file" if changing.form is None else changing.form.routine
        routines += decoding_routines(changing.used, form)
    if not changing.in_files:
        text = changing.form is not None and changing.form.words != DECIMAL_WORDS
        files.append("skip_text" if text else "skip_read")
    return Loading(
        routines=tuple(routines),
        files=tuple(files),
        arrays=tuple(arrays),
        tables=changing.data,
        packed=changing.packed,
    )


def _load(parts: Parts, changing: Changing) -> Routine:
    """Return the routine that reads what all scenes share, opens the display and begins the first scene."""
    tables = changing.tables
    body: list[Statement] = set_variables(tables.variables)
    body += set_variables([("shared_pieces", changing.shared_pieces), ("recolour_all", 0), ("scene", 0)])
    body += set_variables([("scenes", len(changing.names))])
    opened = bool(changing.shared_file) and (changing.in_files or not _from_image(parts))
    if opened:
        body.append(Word("file_open", (Text(changing.shared_file),)))
    if not changing.in_files:
        body += _rewound(changing)
    for table in tables.shared:
        if table.values:
            if changing.encoded:
                body.append(Call("unpack", (Number(len(table.values)),)))
            body.append(fill_array(table.name, Number(len(table.values) - 1), changing.encoded))
    if parts.map_file:
        body.append(Word("map_open", (Text(parts.map_file),)))
    body += open_display(parts)
    if parts.scheme is BLIT:
        if changing.shared_image:
            body.append(Word("load_image", (Number(SHARED_SLOT), Text(changing.shared_image))))
        body.append(Word("keyed_entry", (Name("transparent"),)))
    if parts.scheme is PAGE:
        body.append(Assign(Name("art"), Number(0)))
    if changing.shared_pieces and not _from_image(parts):
        body.append(_read_art(parts, changing, 0, None))
    if opened:
        body.append(Word("file_close", ()))
    if parts.counting and parts.scheme.draws:
        body += reset_counts()
    body += [Call("load_scene", (Number(0),)), Call("set_palette", ())]
    body += [Call("begin_scene", ()), Call("start_values", ())]
    about = "Reads what all scenes share, opens the display and begins scene 0."
    return Routine("load", (), ("i",), tuple(body), (about,))


def _from_image(parts: Parts) -> bool:
    """Say whether pieces come from image files, or not at all."""
    return parts.scheme is BLIT or not parts.scheme.draws


def _read_art(parts: Parts, changing: Changing, scene: int, end: Expression | None) -> Statement:
    """Return the call that reads the pieces of a scene, or with no `end` those that scenes share."""
    if parts.scheme is PAGE:
        if end is None:
            return Call("read_art", (Number(0), Number(changing.rows[0])))
        return Call("read_art", (Number(changing.rows[0]), Number(changing.rows[1 + scene])))
    if end is None:
        return Call("read_pieces", (Number(0), Name("shared_pieces")))
    return Call("read_pieces", (Name("shared_pieces"), end))


def _load_scene(parts: Parts, changing: Changing) -> Routine:
    """Return the routine that reads the tables and art of scene N."""
    count = len(changing.names)
    tables = changing.tables
    opened = any(changing.files)
    body: list[Statement] = []
    if opened:
        body += _by_scene(count, lambda n: (Word("file_open", (Text(changing.files[n]),)),))
    if not changing.in_files:
        body += _rewound(changing)
        body += _by_scene(count, lambda n: (Call("skip", (Number(changing.skips[n]),)),))
    for name in tables.varying:
        body.append(Assign(Name(name), Element(f"scene_{name}", Name("n"))))
    for place, name in enumerate(tables.names):
        body.append(Call("next_table", ()))
        body.append(Assign(Element("table_count", Number(place)), Name("table_long")))
        body.append(fill_array(name, Binary("-", Name("table_long"), Number(1)), changing.encoded))
    if parts.scheme is PAGE:
        body += _by_scene(count, lambda n: (_read_art(parts, changing, n, Number(0)),))
    if parts.scheme is RUNS:
        body.append(_read_art(parts, changing, 0, Name("pieces")))
    if opened:
        body.append(Word("file_close", ()))
    if parts.scheme is BLIT:
        body += _by_scene(
            count, lambda n: (Word("load_image", (Number(OWN_SLOT), Text(changing.images[n]))),)
        )
    about = "Reads the tables and art that scene N has to itself."
    return Routine("load_scene", ("n",), ("i",), tuple(body), (about,))


def _rewound(changing: Changing) -> list[Statement]:
    """Return what goes back to the first value of DATA."""
    start = START_OF_PACKED if changing.form is not None else ()
    return [Word("rewind", ()), *set_variables(start)]


def to_stops(changing: Changing) -> list[Statement]:
    """Return what goes to the end of the tables in DATA, where a list of stops may stand."""
    if changing.in_files:
        return []
    return [*_rewound(changing), Call("skip", (Number(changing.skips[-1]),))]


def _by_scene(count: int, make: Make) -> list[Statement]:
    """Return a choice for each scene N."""
    return [If(Binary("=", Name("n"), Number(number)), make(number)) for number in range(count)]


def from_two_images(routine: Routine) -> Routine:
    """Return the routine that copies pieces, choosing the image that its piece is in."""
    own = If(Binary(">=", Name("n"), Name("shared_pieces")), (Assign(Name("art"), Number(OWN_SLOT)),))
    return replace(routine, body=(Assign(Name("art"), Number(SHARED_SLOT)), own, *routine.body))


def say_scene(tables: SceneTables) -> Routine:
    """Return the routine that reports every table that the scene has to itself."""
    body: list[Statement] = []
    for place, name in enumerate(tables.names):
        say = Word("say", (Element(name, INDEX),))
        last = Binary("-", Element("table_count", Number(place)), Number(1))
        body.append(For("i", Number(0), last, (say,)))
    return Routine("say_scene", (), ("i",), tuple(body), ("Reports every table of the scene.",))


def scene_routines(counting: bool) -> tuple[Routine, ...]:
    """Return the routine that sets the counters to 0 after a change; it is empty where nothing counts."""
    body = tuple(reset_counts()) if counting else ()
    return (Routine("reset_counts", (), (), body, ("Sets all counters to 0.",)),)
