"""Colours that are to move but that no picture shows: a slip that would otherwise go unseen."""

from collections.abc import Iterator, Sequence

import numpy as np

from scenekit.colour.fixed_oklab import bytes_to_fixed
from scenekit.colour.histogram import OPAQUE_WORD, Mask, Packed, pixel_words, tally, unpack
from scenekit.findings import Finding
from scenekit.images.art import Art
from scenekit.images.reduced import flat_colours, picture_names
from scenekit.images.weights import seen_parts
from scenekit.model.arrays import Pixels
from scenekit.model.palette import Colour
from scenekit.model.project import Project


def moving_colour_findings(project: Project, art: Art) -> list[Finding]:
    """Return a warning for each cycle and event that names colours which no picture shows exactly."""
    wanted = list(_moving(project))
    open_ones = {colour for _, _, colours in wanted for colour in colours}
    open_ones -= {c for scene in project.scenes for c in (scene.backdrop, *flat_colours(scene))}
    parts = seen_parts(project, art) if open_ones else ()
    for picture, seen in zip((*art.sheets.values(), *art.planes.values()), parts, strict=False):
        if open_ones:
            open_ones -= _shown(picture, seen, open_ones)
    findings = []
    for where, what, colours in wanted:
        missing = [colour for colour in colours if colour in open_ones]
        if missing:
            text = f"no picture shows {_listed(missing)}: {what} exact colours of the art"
            text += _nearest(art, parts, missing[0])
            findings.append(Finding(level="warning", code="colour-unseen", where=where, text=text))
    return findings


def _moving(project: Project) -> Iterator[tuple[str, str, tuple[Colour, ...]]]:
    """Yield where colours move, what moves them, and which they are."""
    for cycle in project.cycles:
        yield f"cycle {cycle.name}", "cycles turn", cycle.colours
    for scene in project.scenes:
        for event in scene.events:
            yield f"scene {scene.name}, event {event.name}", "events change", event.colours


def _shown(picture: Pixels, seen: Mask | None, colours: set[Colour]) -> set[Colour]:
    """Return those of the colours that the part of a picture shows that is seen."""
    words = pixel_words(picture) if seen is None else pixel_words(picture)[seen.ravel()]
    shown = words[words >= OPAQUE_WORD] & 0xFFFFFF
    return {c for c in colours if bool((shown == c[0] + 256 * c[1] + 65536 * c[2]).any())}


def _listed(colours: list[Colour]) -> str:
    names = [bytes(colour).hex() for colour in colours]
    return ", ".join(names[:4]) + (f" and {len(names) - 4} more" if len(names) > 4 else "")


def _nearest(art: Art, parts: Sequence[Mask | None], wanted: Colour) -> str:
    """Return words for the colour of the art that is nearest in Oklab; of equal ones the lowest."""
    best: tuple[int, int, str] | None = None
    goal = bytes_to_fixed(np.array([wanted], dtype=np.uint8))
    pictures = (*art.sheets.values(), *art.planes.values())
    for name, picture, seen in zip(picture_names(art), pictures, parts, strict=True):
        colours: Packed = tally(picture, 0, seen)[0]
        if colours.size:
            far = ((bytes_to_fixed(unpack(colours)) - goal) ** 2).sum(axis=1)
            n = int(np.argmin(far))
            found = int(far[n]), int(colours[n]), name
            best = found if best is None else min(best, found)
    return "" if best is None else f"; nearest to {bytes(wanted).hex()} is {best[1]:06x} in {best[2]}"
