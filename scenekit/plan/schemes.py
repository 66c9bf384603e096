"""Ways to draw a scene, and which one a target can use."""

from scenekit.errors import DialectError, ProjectError
from scenekit.model.target import Target
from scenekit.records import record
from scenekit.symmetry.flips import ALL_FLIPS, NONE, flip_code

FRAME_WORDS = ("begin_frame", "end_frame", "fill")


@record(frozen=True, slots=True, kw_only=True)
class Scheme:
    """A way to draw pieces.

    words     neutral words that it needs beside those of every program
    routines  files of routines that it brings
    reason    why it is chosen, for the program's remarks and the report
    draws     whether it draws at all
    copies    whether pieces are copied from one packed picture
    """

    name: str
    words: tuple[str, ...]
    routines: tuple[str, ...]
    reason: str
    draws: bool = True
    copies: bool = False


BLIT = Scheme(
    name="blit",
    words=("load_image", "keyed_entry", "blit", "blit_keyed"),
    routines=("draw", "blit"),
    reason="the dialect loads an image file and copies parts of it, leaving out the transparent entry",
    copies=True,
)
PAGE = Scheme(
    name="hidden page",
    words=("art_open", "art_fill", "art_run", "art_close", "file_open", "file_byte", "blit", "blit_keyed"),
    routines=("draw", "blit", "art_page"),
    reason="the dialect loads no image file, but copies parts of a page that is not on show",
    copies=True,
)
RUNS = Scheme(
    name="runs",
    words=("file_open", "file_byte", "file_close", "run"),
    routines=("draw", "runs", "unpack"),
    reason="no copy leaves out an entry here, or copies cannot follow colours that move",
)
TABLES = Scheme(
    name="tables",
    words=(),
    routines=(),
    reason="the dialect cannot draw; it checks tables and scene arithmetic",
    draws=False,
)
SCHEMES = (BLIT, PAGE, RUNS, TABLES)


@record(frozen=True, slots=True, kw_only=True)
class Abilities:
    """What a target can do: its machine's display and its dialect's words together.

    words       neutral words that the dialect spells
    flips       flip codes that its keyed blit can do, 0 included
    recolours   whether a palette write changes what is on screen
    pages       frame buffers that take turns
    direct      whether pixels hold colours rather than entries
    image_format  file kind that both sides read, or ""
    """

    words: frozenset[str]
    flips: frozenset[int]
    recolours: bool
    pages: int
    direct: bool
    image_format: str


def choose_scheme(abilities: Abilities, colours_move: bool = False) -> Scheme:
    """Return the best scheme that a target's abilities allow.

    colours_move   cycles or events change colours, which an image file of colours cannot follow
    """
    ink = "ink_rgb" if abilities.direct else "ink"
    for scheme in SCHEMES:
        needed = {*scheme.words, *((ink, *FRAME_WORDS) if scheme.draws else ())}
        fixed = scheme is BLIT and (not abilities.image_format or (abilities.direct and colours_move))
        if needed <= abilities.words and not fixed:
            return scheme
    raise DialectError("no scheme fits")


def can_move(target: Target, machine: str, dialect: str, scheme: Scheme, abilities: Abilities) -> bool:
    """Say whether pictures may be moved along on their page, so that only what changed is drawn.

    raises   ProjectError: the target asks for it and cannot do it
    """
    able = scheme.draws and "move_part" in abilities.words
    if target.redraw == "changes" and not able:
        raise ProjectError(
            f"target {target.name}: redraw: got 'changes'; must be 'everything' or 'auto', since machine "
            f"{machine} or dialect {dialect} cannot copy a part of the page"
        )
    return able and target.redraw != "everything"


def allowed_flips(scheme: Scheme, abilities: Abilities) -> frozenset[int]:
    """Return the flips by which equal pictures may be shared, closed under combining."""
    if scheme.copies:
        return abilities.flips
    return ALL_FLIPS


def flip_set(names: frozenset[str]) -> frozenset[int]:
    """Return flip codes for flip names; h and v without hv keep h only, so that the set is closed."""
    codes = frozenset({NONE, *(flip_code(name) for name in names)})
    if {1, 2} <= codes and 3 not in codes:
        return frozenset({0, 1})
    return codes
