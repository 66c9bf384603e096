"""What the display hardware of a machine can do, whatever its BASIC calls it."""

from scenekit.records import record

OPERATIONS = (
    "fill",
    "run",
    "plot",
    "blit",
    "blit-keyed",
    "blit-flipped",
    "palette",
    "page",
    "move",
    "plane",
    "row",
    "cell",
    "map-plane",
    "map-row",
    "map-cell",
    "piece",
    "turned-run",
    "edge-run",
    "sprite",
    "changes",
    "seen-plane",
    "seen-sprite",
    "box-added",
    "box-pair",
    "box",
    "box-plane",
    "box-sprite",
    "entry",
    "tick",
    "tick-plane",
    "tick-sprite",
    "tick-path",
    "mixed-entry",
    "logic",
    "sound",
)
"""Every operation that has a price: filled box, horizontal run of one colour, single pixel, opaque copy,
copy without the key colour, the same mirrored, one palette entry, page flip, copy of a part of the page to
another place on it; what the exported routines do around them (see ROUTINE_WORK); the game's own logic a
tick, and sound as a share of all time."""

DRAWING = OPERATIONS[:9]
"""Operations that a machine has or has not."""

ABLE = tuple(operation for operation in DRAWING if operation != "page")
"""Operations that cost something only where a machine has them; a picture begins and ends on one page too."""

ROUTINE_WORK = OPERATIONS[9:-2]
"""What the interpreted routines do beside drawing: a plane, a row of its cells, a cell walked over; a plane
whose map stays in a file looked at, what a row costs more because of that, a cell read from the file; a
piece handed to be drawn; what a run costs more because it is mirrored, and a run held against the view's
edge; a sprite looked up; a picture looked at for what changed, and for that each plane and sprite, each box
that is added, and held against another; a box drawn anew, and for that each plane moved there or back, each
sprite held against it; an entry looked at for a change; a tick of the scene, and in it each plane, sprite
and path; an entry given its colour of a cycle or event."""

FLIPS = ("h", "v", "hv")

IMAGE_FORMATS = ("bmp", "png", "raw")


@record(frozen=True, slots=True, kw_only=True)
class Abilities:
    """What a machine's display can do.

    words          operations it has, out of DRAWING
    flips          mirrorings its keyed blit can do, out of FLIPS
    recolours      whether writing a palette entry changes pixels already on screen
    pages          frame buffers in all; a page may also hold art
    clips          whether drawing over the edge of the screen is cut off rather than an error
    image_formats  files its loader reads, out of IMAGE_FORMATS, best first
    """

    words: frozenset[str]
    flips: frozenset[str]
    recolours: bool
    pages: int
    clips: bool
    image_formats: tuple[str, ...]
