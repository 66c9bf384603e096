"""What reading an image gives, and what an image kind is."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

from scenekit.errors import ImageReadError
from scenekit.findings import Finding
from scenekit.model.arrays import Pixels
from scenekit.records import record

Colour = tuple[int, int, int]

MAX_PIXELS = 1 << 24
"""4096 x 4096; all pictures of one source together.  Any file of so many is read in 2 s and 500 MB."""


@record(frozen=True, slots=True, kw_only=True, eq=False)
class Picture:
    """One picture, ready to be cut or drawn.

    name          stem of the file, entry or layer, or stem and step such as "walk-03"
    pixels        (H, W, 4) uint8, read-only; where alpha is 0 all four samples are 0
    mode          how the file held it, such as "indexed, 16 entries" or "rgb, 16 bits a sample"
    file_palette  the entries of an indexed file in file order, or None
    delay_ms      how long the picture stands in an animated source, exact; None elsewhere
    findings      facts about the reading
    """

    name: str
    pixels: Pixels
    mode: str
    file_palette: tuple[Colour, ...] | None = None
    delay_ms: Fraction | None = None
    findings: tuple[Finding, ...] = ()


@record(frozen=True, slots=True, kw_only=True)
class ReadOptions:
    """How to read.

    keys        key colours: opaque pixels of exactly these colours become clear
    max_pixels  limit for all pictures of one source together
    """

    keys: tuple[Colour, ...] = ()
    max_pixels: int = MAX_PIXELS


@record(frozen=True, slots=True, kw_only=True)
class ImageKind:
    """One kind of picture source.

    accepts   looks at the path and its first bytes only; never raises
    read      returns one picture or more; raises ImageReadError
    summary   one line for a list of kinds
    """

    name: str
    accepts: Callable[[Path], bool]
    read: Callable[[Path, ReadOptions], tuple[Picture, ...]]
    summary: str


def as_keys(key: Colour | tuple[Colour, ...] | None) -> tuple[Colour, ...]:
    """Return key colours as a tuple of colours, whether one, several or none are given.

    raises   ImageReadError: not three samples of 0 to 255 each
    """
    if key is None or key == ():
        return ()
    several: tuple[object, ...] = (key,) if isinstance(key[0], int) else key
    return tuple(_as_colour(colour) for colour in several)


def _as_colour(value: object) -> Colour:
    if isinstance(value, tuple) and len(value) == 3 and all(_is_sample(sample) for sample in value):
        return int(value[0]), int(value[1]), int(value[2])
    raise ImageReadError(f"key colour: {value!r}; allowed: three numbers from 0 to 255")


def _is_sample(value: object) -> bool:
    return isinstance(value, int) and 0 <= value <= 255
