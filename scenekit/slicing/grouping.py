"""Groups the frames of a sheet into animations by rows, gaps and likeness."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import median_low

from scenekit.model.arrays import Pixels
from scenekit.slicing.art import art_mask
from scenekit.slicing.cut import Colour, Cut, CutFrame, reading_order
from scenekit.slicing.likeness import Art, best_fit, colour_likeness, same_key, take_art
from scenekit.symmetry.flips import ALL_FLIPS, NONE, flip_picture

UNLIKE = 550
"""Neighbours whose colours are less alike than this, of 1000, belong to different things."""

WIDE_GAP = 3
"""A gap is wide when it is so many times the usual one, and at least half a frame."""

LEAST_STEP = 240
"""Frames of a long animation follow each other at least so closely, of 1000."""

CONTINUES = 900
"""A row goes on in the next one when its end and the next start are so alike, of 1000 of its own steps."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameGroup:
    """Frames that stand together.

    frames      indices into the cut's frames, in order
    alike       True: probably one animation, or a frame that stands alone; False: single frames side by side
    reason      why they stand together, one sentence
    mirrors     name of an earlier group that this one is a flip of, or ""
    flip        that flip
    """

    name: str
    frames: tuple[int, ...]
    alike: bool
    reason: str
    mirrors: str = ""
    flip: int = NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """Frames of one row, or of several that go on in each other.

    head   the first frame of the last row
    """

    row: int
    last_row: int
    head: int
    frames: tuple[int, ...]
    alike: bool
    reason: str


def group_frames(pixels: Pixels, cut: Cut, *, keys: tuple[Colour, ...] = ()) -> tuple[FrameGroup, ...]:
    """Group the frames of a cut.

    A row is split at wide gaps and where colours change; a row goes on in the next one where its last frame
    is followed by the next row's first as by its own. Rows of one frame each
    are read as a column.

    pixels   (H, W, 4) uint8, the sheet that was cut
    """
    mask = art_mask(pixels, keys or cut.background.colours)
    arts = [take_art(pixels, mask, frame.content) for frame in cut.frames]
    runs: list[_Run] = []
    rows = _rows(cut)
    upright = len(rows) > 1 and all(len(row) == 1 for row in rows)
    if upright:
        rows = [[row[0] for row in rows]]
    for row, members in enumerate(rows):
        runs += _split(row, members, cut.frames, arts, upright)
    return _named(_join(runs, arts), arts)


def _rows(cut: Cut) -> list[list[int]]:
    """Return frames by row, left to right."""
    rows: list[list[int]] = []
    for row, _, index in reading_order([frame.box for frame in cut.frames]):
        if row == len(rows):
            rows.append([])
        rows[row].append(index)
    return rows


def _split(
    row: int, members: list[int], frames: Sequence[CutFrame], arts: list[Art], upright: bool
) -> list[_Run]:
    """Split a row at wide gaps and where the colours change; single frames side by side stay together.

    upright   the row is a column
    """
    near, size = (1, 3) if upright else (0, 2)
    line = "column" if upright else "row"
    gaps = [frames[b].box[near] - frames[a].box[near] - frames[a].box[size] for a, b in pairwise(members)]
    usual = max(1, median_low(gaps)) if gaps else 1
    width = median_low(sorted(frames[index].box[size] for index in members))
    parts: list[tuple[list[int], bool]] = [([members[0]], False)]
    for gap, (before, after) in zip(gaps, pairwise(members), strict=True):
        wide = gap >= WIDE_GAP * usual and 2 * gap >= width
        if wide or _colours(arts[before], arts[after]) < UNLIKE:
            parts.append(([], wide))
        parts[-1][0].append(after)
    runs: list[_Run] = []
    for part, wide in parts:
        alike = len(part) > 1
        reason = ("one frame" if len(members) == 1 else f"frames of one {line}") + (
            ", alone in its row"
            if len(members) == 1
            else ", after a wide gap"
            if wide
            else ", alike in colour"
            if alike
            else ""
        )
        if not alike and not wide and runs and not runs[-1].alike:
            part, reason = [*runs.pop().frames, *part], f"single frames of one {line}, unlike each other"
        runs.append(_Run(row=row, last_row=row, head=part[0], frames=tuple(part), alike=alike, reason=reason))
    return runs


def _join(runs: list[_Run], arts: list[Art]) -> list[_Run]:
    """Join runs of whole rows that go on in the next row."""
    in_row = Counter(run.row for run in runs)
    joined: list[_Run] = []
    for run in runs:
        last = joined[-1] if joined else None
        if (
            last is not None
            and in_row[run.row] == in_row[last.row] == 1
            and last.alike
            and _goes_on(last, run, arts)
        ):
            joined[-1] = replace(
                last,
                last_row=run.row,
                head=run.head,
                frames=(*last.frames, *run.frames),
                reason="rows that go on in each other",
            )
        else:
            joined.append(run)
    return joined


def _goes_on(last: _Run, run: _Run, arts: list[Art]) -> bool:
    """Say whether a row is followed by the next as its own frames follow each other.

    Rows of one figure begin alike; rows of one long animation do not.
    """
    own = last.frames[last.frames.index(last.head) :]
    steps = [best_fit(arts[a], arts[b]).score for a, b in pairwise(own)]
    if len(steps) < 2:
        return False
    step = best_fit(arts[own[-1]], arts[run.head]).score
    heads = best_fit(arts[last.head], arts[run.head]).score
    return min(steps) >= LEAST_STEP and step * 1000 >= CONTINUES * min(steps[-3:]) and 4 * step >= 5 * heads


def _named(runs: list[_Run], arts: list[Art]) -> tuple[FrameGroup, ...]:
    """Name groups after their first row, and find those that are flips of earlier ones."""
    in_row = Counter(run.row for run in runs)
    numbers: Counter[int] = Counter()
    names: dict[tuple[bytes, ...], str] = {}
    groups: list[FrameGroup] = []
    for run in runs:
        name = f"row{run.row:02d}" + (f"-{numbers[run.row]}" if in_row[run.row] > 1 else "")
        numbers[run.row] += 1
        mirrors, flip = "", NONE
        alike = run.alike or len(run.frames) == 1
        if alike:
            for flip in sorted(ALL_FLIPS):
                keys = tuple(same_key(flip_picture(arts[index], flip)) for index in run.frames)
                mirrors = names.get(keys, "")
                if mirrors:
                    break
            else:
                flip = NONE
            names.setdefault(tuple(same_key(arts[index]) for index in run.frames), name)
        groups.append(
            FrameGroup(
                name=name, frames=run.frames, alike=alike, reason=run.reason, mirrors=mirrors, flip=flip
            )
        )
    return tuple(groups)


def _colours(first: Art, second: Art) -> int:
    """Return how alike colours are, 0 to 1000."""
    return int(colour_likeness([first], [second])[0, 0]) * 1000 // 65025
