"""Reads whatever an artist sends as one sheet: a picture, or several that are joined into a strip."""

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from scenekit.findings import Finding
from scenekit.images import image_kinds, read_pictures
from scenekit.images.decode import SUFFIXES
from scenekit.images.strip import frame_names, join_strip
from scenekit.model.arrays import Pixels
from scenekit.slicing.cut import GivenBox


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Source:
    """A sheet as it was read.

    pixels      (H, W, 4) uint8
    boxes       where several pictures stand in the strip made of them; () for one picture
    delays_ms   how long each of them stands in an animated file; () elsewhere
    as_it_is    whether the file itself can be kept as the sheet
    """

    path: Path
    pixels: Pixels
    boxes: tuple[GivenBox, ...] = ()
    delays_ms: tuple[Fraction, ...] = ()
    as_it_is: bool
    findings: tuple[Finding, ...] = ()


def read_source(path: Path) -> Source:
    """Read a picture, or an animation, layers, folder or archive as a strip of frames.

    raises   ImageReadError: nothing there that can be read, or a strip that would be too large
    """
    kind = next((name for name, kind in image_kinds().items() if kind.accepts(path)), None)
    pictures = read_pictures(path, kind=kind)
    findings = tuple(finding for picture in pictures for finding in picture.findings)
    if len(pictures) == 1:
        flat = kind == "flat" and path.suffix.lower() in SUFFIXES
        return Source(path=path, pixels=pictures[0].pixels, as_it_is=flat, findings=findings)
    pixels, boxes = join_strip(pictures)
    named = zip(boxes, frame_names(pictures), strict=True)
    delays = tuple(picture.delay_ms for picture in pictures if picture.delay_ms is not None)
    return Source(
        path=path,
        pixels=pixels,
        boxes=tuple(GivenBox(box=box, name=name) for box, name in named),
        delays_ms=delays if len(delays) == len(pictures) else (),
        as_it_is=False,
        findings=findings,
    )
