"""Takes an artist's new version of a sheet into a project: frames follow what they show."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from math import gcd

import numpy as np
import numpy.typing as npt

from scenekit.errors import ProjectError
from scenekit.findings import Finding
from scenekit.images.art import read_map
from scenekit.model.arrays import Pixels
from scenekit.model.project import Project
from scenekit.model.sprites import Frame, Sheet
from scenekit.model.store import inside
from scenekit.sheets.frames import frames_of
from scenekit.slicing.art import art_mask
from scenekit.slicing.cut import Box, Cut, Pair, SliceOptions
from scenekit.slicing.reimport import KnownFrame, Match, Reimport, match_frames
from scenekit.sprites.trim import default_hit_box


@dataclass(frozen=True, slots=True, kw_only=True)
class Recut:
    """What a new version would make of a sheet.

    frames     of the sheet as it would be
    findings   those at error level forbid it
    """

    reimport: Reimport
    frames: tuple[Frame, ...]
    findings: tuple[Finding, ...]

    @property
    def allowed(self) -> bool:
        """Whether nothing that is in use would be lost."""
        return all(finding.level != "error" for finding in self.findings)


def options_like_before(sheet: Sheet, options: SliceOptions) -> SliceOptions | None:
    """Return options that cut a new version into the grid of a sheet's frames; None where they lie in none.

    options   what is to stay: name, keys
    """
    sizes = {frame.box[2:] for frame in sheet.frames}
    if len(sizes) != 1:
        return None
    cell = next(iter(sizes))
    axes = [_axis_like_before([frame.box[axis] for frame in sheet.frames], cell[axis]) for axis in (0, 1)]
    if axes[0] is None or axes[1] is None:
        return None
    (left, across), (top, down) = axes[0], axes[1]
    return replace(options, cell=(cell[0], cell[1]), margin=(left, top), gutter=(across, down))


def _axis_like_before(starts: Sequence[int], cell: int) -> Pair | None:
    """Return margin and gutter of cells that begin at some places, or None where they would overlap."""
    first = min(starts)
    pitch = reduce(gcd, (start - first for start in starts), 0) or cell
    if pitch < cell:
        return None
    gutter = (pitch - cell) % cell
    return first % (cell + gutter), gutter


def moved_grid(like: SliceOptions, old_pixels: Pixels, new_pixels: Pixels) -> SliceOptions:
    """Return a grid moved as far as the art within its cells moved, as when the canvas grew on one side.

    Rows and columns of art are summed by their place within a cell; the turn of these sums that suits the new
    sheet best is the move.
    old_pixels, new_pixels   (H, W, 4) uint8
    """
    assert like.cell is not None
    masks = [art_mask(pixels, like.keys) for pixels in (old_pixels, new_pixels)]
    margin = []
    for axis in (0, 1):
        pitch = like.cell[axis] + like.gutter[axis]
        old, new = (_sums_within_cell(mask.sum(axis=axis), pitch) for mask in masks)
        fits = [int(old @ np.roll(new, -move)) for move in range(pitch)]
        move = max(range(pitch), key=lambda turn: (fits[turn], -turn))
        margin.append((like.margin[axis] + move) % pitch)
    return replace(like, margin=(margin[0], margin[1]))


def _sums_within_cell(profile: npt.NDArray[np.int64], pitch: int) -> npt.NDArray[np.int64]:
    padded = np.pad(profile.astype(np.int64), (0, -len(profile) % pitch))
    sums: npt.NDArray[np.int64] = padded.reshape(-1, pitch).sum(axis=0)
    return sums


def likest(sheet: Sheet, old_pixels: Pixels, new_pixels: Pixels, cuts: Sequence[Cut]) -> Cut:
    """Return the cut that finds most of a sheet's frames again, at most moved or in other colours.

    old_pixels, new_pixels   (H, W, 4) uint8; cuts are of the new ones, the first is kept where none is better
    """
    found = [_matched(sheet, old_pixels, new_pixels, cut) for cut in cuts]
    kept = [sum(result.count(kind) for kind in ("same", "moved", "recoloured")) for result in found]
    return cuts[max(range(len(cuts)), key=lambda at: (kept[at], -at))]


def _matched(sheet: Sheet, old_pixels: Pixels, new_pixels: Pixels, cut: Cut) -> Reimport:
    known = [KnownFrame(name=frame.name, box=frame.box) for frame in sheet.frames]
    keys = () if sheet.key is None else (sheet.key,)
    return match_frames(old_pixels, known, new_pixels, cut, old_keys=keys, where=f"sheet {sheet.name}")


def recut(project: Project, sheet: Sheet, old_pixels: Pixels, new_pixels: Pixels, cut: Cut) -> Recut:
    """Say what would become of a sheet's frames.

    old_pixels, new_pixels   (H, W, 4) uint8; cut is of the new ones
    """
    found = _matched(sheet, old_pixels, new_pixels, cut)
    gone = [match.name for match in found.matches if match.kind == "gone"]
    fresh = {frame.box: frame for frame in frames_of(new_pixels, cut)}
    shared = _shared_pivot(sheet)
    frames = []
    for match in found.matches:
        if match.kind == "new" and match.new is not None:
            frame = replace(fresh[match.new], name=match.name)
            same_size = bool(sheet.frames) and match.new[2:] == sheet.frames[0].box[2:]
            frames.append(replace(frame, pivot=shared) if shared is not None and same_size else frame)
        elif match.kind != "gone":
            frames.append(_followed(sheet.frame(match.name), match, fresh))
    findings = [*found.findings, *_lost(project, sheet, gone), *_moving_colours(project, found)]
    return Recut(reimport=found, frames=tuple(frames), findings=tuple(findings))


def _followed(frame: Frame | None, match: Match, fresh: dict[Box, Frame]) -> Frame:
    """Return a frame in its new box, its pivot and hit box where they were on the art."""
    assert frame is not None
    assert match.new is not None
    hit = None
    if frame.hit_box is not None:
        hit = match.hit_box(frame.hit_box)
        if hit is None:
            new = fresh.get(match.new)
            hit = new.hit_box if new else default_hit_box(match.new, None)
    return replace(frame, box=match.new, pivot=match.pivot(frame.pivot), hit_box=hit)


def _shared_pivot(sheet: Sheet) -> Pair | None:
    """Return the pivot that all frames of a sheet share, or None."""
    same = {(frame.pivot, frame.box[2:]) for frame in sheet.frames}
    return sheet.frames[0].pivot if len(same) == 1 else None


def users_of(project: Project, sheet: Sheet, names: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Yield (frame, what uses it) for those of a sheet's frames that something uses.

    Maps and fonts count frames by their place, so a frame that goes shifts all after it: those count too.
    """
    gone = set(names)
    for sprite in project.sprites:
        for animation in sprite.animations:
            used = {step.frame for step in animation.steps if animation.sheet == sheet.name}
            for name in sorted(gone & used):
                yield name, f"sprite {sprite.name}, animation {animation.name}"
    places = [number for number, frame in enumerate(sheet.frames) if frame.name in gone]
    for user, last in _numbered(project, sheet):
        for number in places:
            if number <= last:
                yield sheet.frames[number].name, f"{user}, which counts frames by their place"


def _numbered(project: Project, sheet: Sheet) -> Iterator[tuple[str, int]]:
    """Yield every map and font of a sheet with the highest frame number that it uses."""
    for font in project.fonts:
        if font.sheet == sheet.name:
            yield f"font {font.name}", len(font.characters) - 1
    for scene in project.scenes:
        for plane in scene.planes:
            if plane.sheet == sheet.name:
                where = f"scenes/{scene.name}.toml: plane {plane.name}"
                rows = read_map(inside(project.folder, plane.map), where)
                yield f"scene {scene.name}, plane {plane.name}", max(n for row in rows for n, _ in row)


def _lost(project: Project, sheet: Sheet, gone: Sequence[str]) -> Iterator[Finding]:
    users: dict[str, list[str]] = {}
    for name, user in users_of(project, sheet, gone):
        users.setdefault(user, []).append(name)
    for user, names in users.items():
        shown = ", ".join(names[:8]) + (", ..." if len(names) > 8 else "")
        text = (
            f"{shown}: not on the new sheet, but used by {user}; "
            "take it out there first, or cut so that it is found"
        )
        yield Finding(level="error", code="gone-but-used", where=f"sheet {sheet.name}", text=text)


def _moving_colours(project: Project, found: Reimport) -> Iterator[Finding]:
    if project.cycles and found.count("recoloured"):
        text = "frames have other colours now; cycles and events name colours exactly, so look at them too"
        yield Finding(level="note", code="colours-changed", where="cycles", text=text)


def followed_sheet(sheet: Sheet, result: Recut, file: str, key: tuple[int, int, int] | None) -> Sheet:
    """Return the sheet as it will be.

    raises   ProjectError: something in use would be lost
    """
    if not result.allowed:
        first = next(finding for finding in result.findings if finding.level == "error")
        raise ProjectError(f"{first.where}: {first.text}")
    return replace(sheet, file=file, key=key, frames=result.frames)
