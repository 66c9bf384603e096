"""What if: machine, mode, redraw, flips, holes, view and rate as switches that act at once."""

from dataclasses import dataclass, replace
from fractions import Fraction

from scenekit.editor.arithmetic import whole
from scenekit.editor.desk import Desk
from scenekit.editor.history import Edit
from scenekit.editor.products import Product
from scenekit.editor.targets import known_machine, with_machine
from scenekit.editor.ui import Column
from scenekit.errors import ProjectError
from scenekit.machines.profile import machine_names
from scenekit.model.edits import put_scene, put_target
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.target import FLIPS, HOLES, REDRAWS, Target
from scenekit.report.paper import plain_bytes, plain_ms

MOST_TICKS = 4
FLIP_WORDS = dict(zip(FLIPS, ("as the machine can", "stored"), strict=True))
WHOLE_SCREEN = "whole screen"
ROW_WORDS = {"ticks": "ticks a picture", "flips": "mirrored art"}
LABEL = 104
View = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Was:
    """How a scene stood on a target before switches were turned, with the figures of that time."""

    scene: str
    target: Target
    ticks: int
    figures: "Figures"


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What is compared: the worst tick, whether the rate is held, and each memory.

    memory   (name, bytes used) of each
    """

    worst_ms: float | None
    holds: bool | None
    memory: tuple[tuple[str, int], ...]


def figures_of(product: Product) -> Figures | None:
    """Return the figures of a finished product; None while there are none."""
    budget, build = product.budget, product.build
    if budget is None or build is None or not product.done or product.error:
        return None
    memory = tuple((filled.memory, filled.used_bytes) for filled in build.memory)
    return Figures(worst_ms=budget.worst_ms, holds=budget.holds_target, memory=memory)


def draw_what_if(desk: Desk, column: Column, scene: Scene, target: Target) -> Edit | None:
    """Draw the switches, and what they changed since they were first turned."""
    ui = desk.ui
    ui.heading(column, "What if", "acts at once, and can be taken back")
    edit = _switches(desk, column, scene, target)
    was = _was(desk, scene, target)
    if was is not None and (was.target != target or was.ticks != scene.ticks_per_update):
        edit = _compare(desk, column, was, scene) or edit
    column.y += ui.px(10)
    return edit


def _was(desk: Desk, scene: Scene, target: Target) -> Was | None:
    """Return how it was; what nobody turned a switch on is remembered as it is now."""
    product, document = desk.product, desk.session.document
    kept: Was | None = desk.local.get("was")
    if kept is not None and (kept.scene, kept.target.name) != (scene.name, target.name):
        kept = None
    same = kept is None or (kept.target == target and kept.ticks == scene.ticks_per_update)
    if same and product is not None and product.wish.document is document:
        figures = figures_of(product)
        if figures is not None:
            kept = Was(scene=scene.name, target=target, ticks=scene.ticks_per_update, figures=figures)
    desk.local["was"] = kept
    return kept


def _switches(desk: Desk, column: Column, scene: Scene, target: Target) -> Edit | None:
    ui, document = desk.ui, desk.session.document
    machine = known_machine(desk, target)
    x, y, w, h = column.take(ui.px(28), ui.px(6))
    half = (w - ui.px(LABEL) - ui.px(16)) / 2
    ui.text(x, y + h / 2, "on", colour=ui.look.quiet)
    left = x + ui.px(LABEL)
    changed: Target | None = None
    tip = "Another machine for this target: colours, prices and timing become its own."
    picked = ui.choice("what-if:machine", (left, y, half, h), list(machine_names()), target.machine, tip=tip)
    if picked:
        changed = with_machine(target, picked)
    modes = list(machine.modes) if machine is not None else []
    place = (left + half + ui.px(16), y, half, h)
    picked = ui.choice("what-if:mode", place, modes, target.mode, tip="Another display mode.")
    if picked:
        changed = replace(target, mode=picked)
    tip = "Draw everything in each picture, or move it along and draw what changed; auto takes the cheaper."
    picked = _row(desk, column, "redraw", REDRAWS, target.redraw, tip)
    if picked:
        changed = replace(target, redraw=picked)
    tip = "Mirrored pictures as art of their own take memory, and spare what mirroring costs."
    picked = _row(desk, column, "flips", tuple(FLIP_WORDS.values()), FLIP_WORDS[target.flips], tip)
    if picked:
        changed = replace(target, flips=next(way for way, words in FLIP_WORDS.items() if words == picked))
    tip = "Holes of the rearmost plane: before it the view is filled, or they are filled as part of its art."
    picked = _row(desk, column, "holes", HOLES, target.holes, tip)
    if picked:
        changed = replace(target, holes=picked)
    ticks = _row(
        desk, column, "ticks", tuple(map(str, range(1, MOST_TICKS + 1))), str(scene.ticks_per_update),
        f"Ticks a picture: {rate_words(desk, scene)}. More give time, and look less smooth.",
    )  # fmt: skip
    view = _view_field(desk, column, target)
    if view is not None:
        changed = replace(target, view=view if any(view) else None)
    if ticks:
        slower = replace(scene, ticks_per_update=int(ticks))
        return Edit(document=put_scene(document, slower), label=f"{ticks} ticks a picture")
    return (
        None
        if changed is None
        else Edit(document=put_target(document, changed), label=f"what if: {difference(target, changed)}")
    )


def _row(
    desk: Desk, column: Column, name: str, options: tuple[str, ...], current: str, tip: str
) -> str | None:
    ui = desk.ui
    x, y, w, h = column.take(ui.px(28), ui.px(6))
    ui.text(x, y + h / 2, ROW_WORDS.get(name, name), colour=ui.look.quiet)
    place = (x + ui.px(LABEL), y, w - ui.px(LABEL), h)
    return ui.segments(f"what-if:{name}", place, options, current, tip=tip)


def rate_words(desk: Desk, scene: Scene) -> str:
    """Say how many pictures a second a scene shows at its rate."""
    product = desk.product
    if product is None or product.mode is None:
        return f"{scene.ticks_per_update}"
    hz = Fraction(product.mode.timing.refresh_hz) / scene.ticks_per_update
    return f"{float(hz):.1f} pictures a second now"


def _view_field(desk: Desk, column: Column, target: Target) -> View | None:
    ui = desk.ui
    x, y, w, h = column.take(ui.px(28), ui.px(6))
    ui.text(x, y + h / 2, "view", colour=ui.look.quiet)
    shown = ", ".join(map(str, target.view)) if target.view else ""
    tip = "The part of the screen that scrolls: left, top, width, height. Empty is the whole screen."
    place = (x + ui.px(LABEL), y, w - ui.px(LABEL), h)
    made: View | None = ui.field(
        "what-if:view", place, shown, read_view, tip=tip, hint=WHOLE_SCREEN, unit="px"
    )
    return made


def read_view(text: str) -> View:
    """Return a view from its text; (0, 0, 0, 0) of an empty one is the whole screen.

    raises   ProjectError: not four numbers, or without width or height
    """
    if text.strip() in ("", WHOLE_SCREEN):
        return 0, 0, 0, 0
    parts = text.split(",")
    if len(parts) != 4:
        raise ProjectError(f"got {text[:40]!r}; must be left, top, width, height, or nothing")
    left, top = (whole(part, 0, 32_767) for part in parts[:2])
    wide, high = (whole(part, 1, 32_767) for part in parts[2:])
    return left, top, wide, high


def difference(old: Target, new: Target) -> str:
    """Say which switch differs between two targets."""
    names = ("machine", "mode", "redraw", "flips", "holes", "view")
    return next((name for name in names if getattr(old, name) != getattr(new, name)), "nothing")


def _compare(desk: Desk, column: Column, was: Was, scene: Scene) -> Edit | None:
    """Say how it was and how it is now, with one press to go back and one to stay."""
    ui, product = desk.ui, desk.product
    now = None
    if product is not None and product.wish.document is desk.session.document:
        now = figures_of(product)
    column.y += ui.px(2)
    for word, words, bold in (
        ("it was", figure_words(was.figures), False),
        ("it is", figure_words(now) if now else _waiting(product), True),
    ):
        x, y, w, h = column.take(ui.px(21))
        ui.text(x, y + h / 2, word, "small", ui.look.quiet)
        weight = "bold" if bold else "regular"
        ui.text(x + ui.px(LABEL), y + h / 2, words, weight=weight, room=w - ui.px(LABEL))
    if now is not None:
        for name, step in memory_steps(was.figures, now):
            x, y, w, h = column.take(ui.px(19))
            ui.text(x + ui.px(LABEL), y + h / 2, f"{name}: {step}", "small", ui.look.quiet)
    x, y, w, h = column.take(ui.px(30), ui.px(4))
    x += ui.px(LABEL)
    if ui.button("what-if:keep", (x, y, ui.px(110), h), "Keep it", tip="Compare with this from now on."):
        desk.local["was"] = None
    if ui.button("what-if:back", (x + ui.px(118), y, ui.px(110), h), "As it was", kind="quiet"):
        return Edit(document=_back(desk.session.document, was, scene), label="as it was before what if")
    return None


def _back(document: Project, was: Was, scene: Scene) -> Project:
    back = put_scene(document, replace(scene, ticks_per_update=was.ticks))
    return put_target(back, was.target)


def _waiting(product: Product | None) -> str:
    return product.error if product is not None and product.error else "being reckoned"


def figure_words(figures: Figures) -> str:
    """Say a verdict and the worst tick."""
    if figures.worst_ms is None or figures.holds is None:
        return "some costs are not known"
    return f"{'in time' if figures.holds else 'too slow'}, worst tick {plain_ms(figures.worst_ms)}"


def memory_steps(old: Figures, new: Figures) -> list[tuple[str, str]]:
    """Return what each memory holds, and how much more or less that is than before."""
    before = dict(old.memory)
    steps = []
    for name, used in new.memory:
        more = used - before.get(name, used)
        words = "as before" if not more else f"{plain_bytes(abs(more))} {'more' if more > 0 else 'less'}"
        steps.append((name, f"{plain_bytes(used)}, {words}"))
    return steps
