"""Follows frames to a changed sheet by what they show, so that names, pivots and animations stay."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from scenekit.findings import Finding
from scenekit.model.arrays import Pixels
from scenekit.slicing.art import art_mask, content_box
from scenekit.slicing.cut import Box, Colour, Cut, CutFrame, Mask, Pair
from scenekit.slicing.likeness import take_art
from scenekit.slicing.relink import Link, Piece, Pieces, link_pieces

KINDS = ("same", "moved", "recoloured", "grown", "redrawn", "new", "gone")


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownFrame:
    """A frame as it was cut from the old sheet.

    box   (x, y, w, h) on the old sheet
    """

    name: str
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """What became of a frame.

    name       of the frame; a new one gets a name that is free
    kind       one of KINDS; "grown" when its size changed, "redrawn" when only its pixels did
    old, new   (x, y, w, h) on the old and on the new sheet, None where it is not
    move       (x, y) that its art moved from the old sheet to the new one
    score      0 to 1000, how much of it is equal
    """

    name: str
    kind: str
    old: Box | None
    new: Box | None
    move: Pair = (0, 0)
    score: int = 1000

    def pivot(self, pivot: Pair) -> Pair:
        """Return where a pivot of the old box lies in the new one, both counted from the box's top left."""
        if self.old is None or self.new is None:
            return pivot
        x, y = (self.old[axis] + self.move[axis] + pivot[axis] - self.new[axis] for axis in (0, 1))
        return x, y

    def hit_box(self, box: Box) -> Box | None:
        """Return where a box inside the old box lies in the new one, cut off at its sides, or None."""
        if self.new is None:
            return None
        x, y = self.pivot(box[:2])
        left, top = max(0, x), max(0, y)
        right, bottom = min(self.new[2], x + box[2]), min(self.new[3], y + box[3])
        return (left, top, right - left, bottom - top) if left < right and top < bottom else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reimport:
    """What became of all frames.

    matches   one for each known frame in their order, then the new ones in the order of the cut
    """

    matches: tuple[Match, ...]
    findings: tuple[Finding, ...]

    def count(self, kind: str) -> int:
        """Return how many matches are of a kind."""
        return sum(match.kind == kind for match in self.matches)


def match_frames(
    old_pixels: Pixels,
    known: Sequence[KnownFrame],
    new_pixels: Pixels,
    cut: Cut,
    *,
    old_keys: tuple[Colour, ...] = (),
    where: str = "sheet",
) -> Reimport:
    """Match the frames of an old sheet with a cut of the new one.

    Equal art is matched first, then equal art in other colours, then what is most alike, then what lies in
    the same box; of several that fit, the one that stayed in its place, then in order.

    old_pixels, new_pixels   (H, W, 4) uint8
    old_keys                 key colours of the old sheet; those of the new one stand in the cut
    """
    old_mask = art_mask(old_pixels, old_keys)
    new_mask = art_mask(new_pixels, cut.background.colours)
    olds = _pieces(old_pixels, old_mask, [(frame.box, content_box(old_mask, frame.box)) for frame in known])
    news = _pieces(new_pixels, new_mask, [(frame.box, frame.content) for frame in cut.frames])
    links = link_pieces(olds, news)
    matches = [
        _match(frame, olds.get(index), news, links.get(index), cut.size_px)
        for index, frame in enumerate(known)
    ]
    taken = {new for new, _ in links.values()}
    fresh = [frame for index, frame in enumerate(cut.frames) if index not in taken]
    matches += _new_matches(fresh, {frame.name for frame in known})
    return Reimport(matches=tuple(matches), findings=tuple(_findings(matches, where)))


def _pieces(
    pixels: Pixels,
    mask: Mask,
    boxes: Iterable[tuple[Box, Box | None]],
) -> Pieces:
    """Return the pieces that hold art, by index."""
    return {
        index: Piece(box=box, content=content, art=take_art(pixels, mask, content))
        for index, (box, content) in enumerate(boxes)
        if content is not None
    }


def _match(
    frame: KnownFrame,
    old: Piece | None,
    news: Pieces,
    link: tuple[int, Link] | None,
    size: Pair,
) -> Match:
    if old is None:
        x, y, w, h = frame.box
        stays = x + w <= size[0] and y + h <= size[1]
        kind = "same" if stays else "gone"
        return Match(name=frame.name, kind=kind, old=frame.box, new=frame.box if stays else None)
    if link is None:
        return Match(name=frame.name, kind="gone", old=frame.box, new=None, score=0)
    new, how = news[link[0]], link[1]
    move = (
        new.content[0] + how.shift[0] - old.content[0],
        new.content[1] + how.shift[1] - old.content[1],
    )
    kind = "moved" if how.kind == "same" and move != (0, 0) else how.kind
    return Match(name=frame.name, kind=kind, old=old.box, new=new.box, move=move, score=how.score)


def _new_matches(frames: Iterable[CutFrame], taken: set[str]) -> list[Match]:
    """Return new frames under names that are free."""
    matches = []
    for frame in frames:
        name, number = frame.name, 2
        while name in taken:
            name, number = f"{frame.name}-{number}", number + 1
        taken.add(name)
        matches.append(Match(name=name, kind="new", old=None, new=frame.box, score=0))
    return matches


def _findings(matches: Sequence[Match], where: str) -> list[Finding]:
    findings = []
    gone = [match.name for match in matches if match.kind == "gone"]
    if gone:
        shown = ", ".join(gone[:8]) + (" ..." if len(gone) > 8 else "")
        text = f"{len(gone)} frames are not on the new sheet: {shown}"
        findings.append(Finding(level="warning", code="frames-gone", where=where, text=text))
    unsure = [match.name for match in matches if match.kind in ("grown", "redrawn") and match.score < 600]
    if unsure:
        shown = ", ".join(unsure[:8]) + (" ..." if len(unsure) > 8 else "")
        text = f"{len(unsure)} frames changed so much that the match should be looked at: {shown}"
        findings.append(Finding(level="warning", code="match-unsure", where=where, text=text))
    return findings
