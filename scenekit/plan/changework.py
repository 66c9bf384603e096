"""The work of a picture of which only what changed is drawn."""

from typing import TYPE_CHECKING

from scenekit.motion.covers import covered_at, turnover_of
from scenekit.motion.parallax import camera_at, shown_scroll
from scenekit.plan.changes import Box, Changes, changes, meet, plane_box
from scenekit.plan.stepwork import mixed_entries
from scenekit.plan.work import Work, called, merged

if TYPE_CHECKING:
    from scenekit.plan.drawplan import DrawPlanner

LOOKING = "changes"
"""The name of what finding out what changed takes."""


def changed_work(planner: "DrawPlanner", tick: int, page_tick: int) -> list[Work]:
    """Return the work of drawing planes and sprites of a tick on a page that shows an earlier one.

    page_tick   -1 when the page shows nothing yet
    """
    scene = planner.scene
    work = [called(p.name, "seen-sprite", 1) for p in scene.placed]
    found = changes_at(planner, tick, page_tick)
    work += looking_work(planner, found)
    if any(found.moved) and not found.whole:
        wide, high = (side - abs(by) for side, by in zip(planner.view, found.moved, strict=True))
        work.append(Work(name="picture", operation="move", calls=1, rows=high, pixels=wide * high))
    for box in found.boxes:
        work += box_work(planner, tick, box)
    return work


def looking_work(planner: "DrawPlanner", found: Changes) -> list[Work]:
    """Return the work of finding out what changed, without that of each sprite."""
    counts = {
        "changes": 1,
        "seen-plane": len(planner.scene.planes) * (2 if found.apart else 1),
        "box-added": found.added,
        "box-pair": found.pairs,
    }
    return [called(LOOKING, operation, count) for operation, count in counts.items() if count]


def changes_at(planner: "DrawPlanner", tick: int, page_tick: int) -> Changes:
    """Return what is drawn of a tick's picture on a page that shows an earlier one."""
    now = [planner.seen(shown) for shown in planner.looks.at(tick)]
    if page_tick < 0:
        return changes(planner.view, None, ())
    before = [planner.seen(shown) for shown in planner.looks.at(page_tick)]
    moved, apart = moved_between(planner, tick, page_tick)
    return changes(planner.view, moved, zip(before, now, strict=True), apart)


def moved_between(
    planner: "DrawPlanner", tick: int, page_tick: int
) -> tuple[tuple[int, int] | None, list[Box] | None]:
    """Return how far all planes moved alike, or None when the picture is drawn whole; and, where they moved
    apart, the boxes of those that moved.
    """
    scene = planner.scene
    for transition in scene.transitions:
        turns = turnover_of(transition, planner.view, scene.name)
        for when in (page_tick, tick):
            first, last = covered_at(transition, turns, when)
            if first != last:
                return None, None
    if not planner.abilities.recolours and mixed_entries(scene, planner.art, page_tick, tick):
        return None, None
    here, there = camera_at(scene, tick), camera_at(scene, page_tick)
    now = [shown_scroll(scene, plane, tick, here) for plane in scene.planes]
    then = [shown_scroll(scene, plane, page_tick, there) for plane in scene.planes]
    steps = [(a[0] - b[0], a[1] - b[1]) for a, b in zip(now, then, strict=True)]
    if len(set(steps)) == 1:
        return steps[0], None
    return (0, 0), [
        plane_box(planner.view, inked, plane.wrap, place, step)
        for plane, inked, place, step in zip(scene.planes, planner.inked, now, steps, strict=True)
        if any(step) and inked[2]
    ]


def box_work(planner: "DrawPlanner", tick: int, box: Box) -> list[Work]:
    """Return the work of drawing all that a box of the view shows."""
    scene, (x, y, w, h) = planner.scene, box
    work = [called("boxes", "box", 1)]
    if scene.placed:
        work.append(called("boxes", "box-sprite", len(scene.placed)))
    if x or y:
        work.append(called("boxes", "box-plane", 2 * len(scene.planes)))
    if planner.clears:
        work.append(planner.clear_work((w, h)))
    camera = camera_at(scene, tick)
    for number, plane in enumerate(scene.planes):
        left, top = shown_scroll(scene, plane, tick, camera)
        work += planner.plane_work(number, (left + x, top + y), (w, h))
        for placed, shown in zip(scene.placed, planner.looks.at(tick), strict=True):
            seen = planner.seen(shown)
            if placed.over == plane.name and meet(seen.box, box):
                drawn = planner.piece_work(seen.piece, seen.box[0] - x, seen.box[1] - y, seen.flip, (w, h))
                piece = Work(name="", operation="piece", calls=1, rows=0, pixels=0)
                work += merged(placed.name, [piece, *drawn])
    return work
