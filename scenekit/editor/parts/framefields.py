"""The fields of a frame, or of several at once: name, pivot, hit box, flags, and what it is equal to."""

import math
import re
from collections.abc import Callable
from dataclasses import replace

from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, read_name
from scenekit.editor.history import Edit
from scenekit.editor.parts.alike import like_words, likeness
from scenekit.editor.ui import Column
from scenekit.model.frame_edits import change_frames, rename_frames
from scenekit.model.sprites import Frame, Sheet

FAR, NARROW = 32_767, 380
FLIPS = ("drawn", "mirrored", "over", "both")


def draw_fields(desk: Desk, column: Column, sheet: Sheet, frame: Frame) -> Edit | None:
    """Draw the fields of the chosen frames; return an edit."""
    form = Form(desk.ui, column, "frame", 70)
    session = desk.session
    document, names = session.document, session.chosen.frames
    word = f"{len(names)} names" if len(names) > 1 else "name"
    narrow = column.w < desk.ui.px(NARROW)
    name, flips = (form.line(word), None) if narrow else form.split(word, (0.9, 1.4))
    text = form.text(
        "name", name, frame.name, read_name,
        tip="With several chosen, they are numbered: walk gives walk-01, walk-02.",
    )  # fmt: skip
    if text is not None:
        changed = rename_frames(document, sheet.name, numbered(text, names))
        return Edit(document=changed, label="naming frames")
    now = FLIPS[desk.local.get("frame-flip", 0)]
    picked = form.either(
        "flip", flips or form.line("seen"), FLIPS, now, tip="See it flipped; pivot and hit box follow."
    )
    if picked:
        desk.local["frame-flip"] = FLIPS.index(picked)
    changes: list[tuple[Callable[[Frame], Frame], str] | None] = [
        _pivot_fields(form, frame), _hit_box(form, frame), _flags(form, frame)
    ]  # fmt: skip
    other = likeness(desk, sheet).get(frame.name)
    if other is not None:
        form.note(
            f"The same picture as {like_words(other)}: stored once where the machine can do that.", "good"
        )
    change = next((change for change in changes if change is not None), None)
    if change is None:
        return None
    return Edit(document=change_frames(document, sheet.name, names, change[0]), label=change[1])


def _pivot_fields(form: Form, frame: Frame) -> tuple[Callable[[Frame], Frame], str] | None:
    boxes = form.split("pivot", (1, 1, 1, 1))
    for axis, word in ((0, "across"), (1, "down")):
        at = form.whole(
            f"pivot-{word}", boxes[axis], frame.pivot[axis], -FAR, FAR, unit="px",
            tip=f"The pixel that stands on the sprite's position, {word}.",
        )  # fmt: skip
        if at is not None:
            return _pivot(axis, at), "moving the pivot"
    return None


def _hit_box(form: Form, frame: Frame) -> tuple[Callable[[Frame], Frame], str] | None:
    if frame.hit_box is None:
        tip = "A box that hits, for touch and collisions; it is mirrored with the flip."
        if form.button("hit", form.split("hit box", (1, 1.6))[0], "Give it one", tip=tip):
            return lambda f: replace(f, hit_box=(0, 0, *f.box[2:])), "giving hit boxes"
        return None
    boxes = form.split("hit box", (1, 1, 1, 1, 0.7))
    for number, word in enumerate(("left", "top", "wide", "high")):
        value = form.whole(
            f"hit-{word}", boxes[number], frame.hit_box[number], 1 if number > 1 else -FAR, FAR, unit=word,
            tip=f"The hit box, {word}, in pixels from the frame's corner.",
        )  # fmt: skip
        if value is not None:
            return _hit(number, value), "the hit box"
    if form.button("no-hit", boxes[4], "Out", kind="quiet", tip="Without a hit box."):
        return lambda f: replace(f, hit_box=None), "taking hit boxes away"
    return None


def read_flags(text: str) -> tuple[str, ...]:
    """Return names of flags from a text such as `solid ladder`.

    raises   ProjectError: one is no name
    """
    return tuple(dict.fromkeys(read_name(word) for word in text.replace(",", " ").split()))


def _flags(form: Form, frame: Frame) -> tuple[Callable[[Frame], Frame], str] | None:
    flags = form.text(
        "flags", form.line("flags"), " ".join(frame.flags), read_flags, hint="such as solid ladder",
        tip="Names that a map carries along with this tile, for tile_at in your program.",
    )  # fmt: skip
    return None if flags is None else (lambda f: replace(f, flags=flags), "flags")


def numbered(text: str, names: tuple[str, ...]) -> dict[str, str]:
    """Return a new name for each old one: the text itself for one, numbered from 01 for several."""
    if len(names) == 1:
        return {names[0]: text}
    digits = max(2, math.floor(math.log10(len(names))) + 1)
    stem = re.sub(r"-?\d+$", "", text) or text
    return {name: f"{stem}-{number:0{digits}d}" for number, name in enumerate(names, 1)}


def _pivot(axis: int, at: int) -> Callable[[Frame], Frame]:
    return lambda f: replace(f, pivot=(at, f.pivot[1]) if axis == 0 else (f.pivot[0], at))


def _hit(number: int, value: int) -> Callable[[Frame], Frame]:
    def change(frame: Frame) -> Frame:
        box = list(frame.hit_box or (0, 0, *frame.box[2:]))
        box[number] = value
        return replace(frame, hit_box=(box[0], box[1], box[2], box[3]))

    return change
