"""Budget: what the worst tick takes, what the memories hold, and what if."""

import threading
from dataclasses import dataclass, field, replace

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.history import Edit
from scenekit.editor.products import Product
from scenekit.editor.theme import OPERATION_COLOURS
from scenekit.editor.ui import Column
from scenekit.editor.verdict import known_verdict, verdict_words
from scenekit.errors import SceneKitError
from scenekit.model.edits import put_scene
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.report.paper import OPERATION_WORDS, plain_ms


@dataclass(slots=True, eq=False)
class WhatIf:
    """Questions to the budget, answered beside the window: what it would be otherwise."""

    key: tuple[object, ...]
    answers: dict[str, str] = field(default_factory=dict)
    done: bool = False


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, product, scene = desk.ui, desk.product, desk.session.scene
    edit: Edit | None = None
    with ui.backend.region("budget", box, scrolls=True) as scroll:
        ui.fill(box, ui.look.ground)
        column = Column(box[0], box[1] - scroll, box[2] - ui.px(12))
        ui.heading(column, "The worst tick")
        if product is None or product.budget is None or scene is None:
            level, words = verdict_words(product)
            ui.paragraph(column, words, colour=ui.look.alarm if level == "alarm" else ui.look.quiet)
        else:
            _worst(desk, column, product)
            _memory(desk, column, product)
            edit = _what_if(desk, column, product, scene)
            _findings(desk, column, product)
        ui.backend.extent(column.y + ui.px(50))
    return edit


def _worst(desk: Desk, column: Column, product: Product) -> None:
    """One bar for each thing drawn, dearest first, with what kind of work it is."""
    ui, budget = desk.ui, product.budget
    assert budget is not None
    sums: dict[str, dict[str, float]] = {}
    unknown = set()
    for priced in budget.worst:
        if priced.time_ms is None:
            unknown.add(priced.work.name)
        part = sums.setdefault(priced.work.name, {})
        part[priced.work.operation] = part.get(priced.work.operation, 0.0) + (priced.time_ms or 0.0)
    rows = sorted(sums.items(), key=lambda item: (-sum(item[1].values()), item[0]))
    longest = max([sum(parts.values()) for _, parts in rows] + [1e-9])
    name_px, time_px = ui.px(120), ui.px(70)
    for name, parts in rows[:10]:
        x, y, w, h = column.take(ui.px(24))
        ui.text(
            x,
            y + h / 2,
            name,
            room=name_px - 8,
            weight="bold" if name == desk.session.chosen.part else "regular",
        )
        left, room = x + name_px, w - name_px - time_px
        for operation, spent in sorted(parts.items(), key=lambda item: -item[1]):
            wide = spent / longest * room
            ui.fill(
                (left, y + 5, max(1.0, wide - 1), h - 10), OPERATION_COLOURS.get(operation, ui.look.quiet)
            )
            left += wide
        words = "unknown" if name in unknown else plain_ms(sum(parts.values()))
        ui.text(x + w, y + h / 2, words, "small", ui.look.quiet, anchor="right")
        felt = ui.press(
            f"worst:{name}",
            (x, y, w, h),
            ", ".join(f"{OPERATION_WORDS.get(o, o)} {plain_ms(s)}" for o, s in parts.items()),
        )
        if felt.hovered:
            desk.hovered = name
        if felt.clicked:
            desk.session.chosen.part = name
    if len(rows) > 10:
        rest = sum(sum(parts.values()) for _, parts in rows[10:])
        x, y, w, h = column.take(ui.px(22))
        ui.text(x, y + h / 2, f"{len(rows) - 10} more", colour=ui.look.quiet)
        ui.text(x + w, y + h / 2, plain_ms(rest), "small", ui.look.quiet, anchor="right")
    column.y += ui.px(14)


def _memory(desk: Desk, column: Column, product: Product) -> None:
    ui = desk.ui
    build = product.build
    if build is None or not build.memory:
        return
    ui.heading(column, "Memory")
    for memory in build.memory:
        for item, taken in memory.items:
            x, y, w, h = column.take(ui.px(20))
            ui.text(x, y + h / 2, f"{memory.memory}: {item.name}", "small", room=w * 0.6)
            ui.text(
                x + w,
                y + h / 2,
                f"{taken} bytes, {'shared by all scenes' if item.shared else 'this scene'}",
                "small",
                ui.look.quiet,
                anchor="right",
            )
    column.y += ui.px(14)


def _what_if(desk: Desk, column: Column, product: Product, scene: Scene) -> Edit | None:
    """Other targets, more or fewer pictures a second: what each would give, and one press to do it."""
    ui, session = desk.ui, desk.session
    ui.heading(column, "What if", "each is one step that can be taken back")
    key = (session.document, scene, session.target)
    asked: WhatIf | None = desk.local.get("what-if")
    if asked is None or any(a is not b for a, b in zip(asked.key, key, strict=True)):
        asked = None
    x, y, w, h = column.take(ui.px(30), ui.px(8))
    if asked is None:
        if ui.button(
            "what-if:ask",
            (x, y, ui.px(160), h),
            "Reckon them all",
            tip="Takes a moment for each; runs beside the window.",
        ):
            asked = WhatIf(key=key)
            desk.local["what-if"] = asked
            target = session.target.name if session.target else ""
            threading.Thread(
                target=_reckon, args=(asked, session.document, scene, target, product), daemon=True
            ).start()
    else:
        ui.text(x, y + h / 2, "done" if asked.done else "reckoning", colour=ui.look.quiet)
        if not asked.done:
            desk.local["animating"] = True
    edit: Edit | None = None
    for name, words in choices(session.document, scene).items():
        x, y, w, h = column.take(ui.px(28), ui.px(2))
        ui.text(x, y + h / 2, words, room=w * 0.44)
        answer = asked.answers.get(name, "") if asked else ""
        ui.text(x + w * 0.46, y + h / 2, answer, "small", ui.look.quiet, room=w * 0.36)
        if ui.button(f"what-if:{name}", (x + w - ui.px(90), y, ui.px(90), h - 2), "Do it", kind="plain"):
            edit = _apply(desk, name, scene)
    column.y += ui.px(14)
    return edit


def choices(document: Project, scene: Scene) -> dict[str, str]:
    """Return what can be tried: a name for each, and words."""
    found = {f"target {t.name}": f"seen on target {t.name}" for t in document.targets[:4]}
    step = scene.ticks_per_update
    found["slower"] = f"a picture every {step + 1} ticks instead of {step}"
    if step > 1:
        found["faster"] = f"a picture every {step - 1} ticks instead of {step}"
    return found


def _changed(document: Project, name: str, scene: Scene) -> Project:
    step = scene.ticks_per_update + {"slower": 1, "faster": -1}.get(name, 0)
    return (
        put_scene(document, replace(scene, ticks_per_update=step))
        if name in ("slower", "faster")
        else document
    )


def _apply(desk: Desk, name: str, scene: Scene) -> Edit | None:
    if name.startswith("target "):
        desk.session.target_name = name.removeprefix("target ")
        return None
    return Edit(document=_changed(desk.session.document, name, scene), label=f"pictures a second: {name}")


def _reckon(asked: WhatIf, document: Project, scene: Scene, target: str, product: Product) -> None:
    from scenekit.build import run_stages
    from scenekit.costs.estimate import estimate

    for name in choices(document, scene):
        other = name.removeprefix("target ") if name.startswith("target ") else target
        changed = _changed(document, name, scene)
        try:
            build = run_stages(changed, other, scene.name)
            result = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
            worst = result.worst_ms
            if worst is None or result.rate_hz is None:
                asked.answers[name] = "some costs are not known"
            else:
                fits = "in time" if result.holds_target else "too slow"
                asked.answers[name] = f"{fits}: {plain_ms(worst)}, {result.rate_hz:.1f} a second"
        except SceneKitError as error:
            asked.answers[name] = str(error)
    del product
    asked.done = True


def _findings(desk: Desk, column: Column, product: Product) -> None:
    ui = desk.ui
    build, budget = product.build, product.budget
    found = (*(build.findings if build else ()), *(budget.findings if budget else ()))
    if not found:
        return
    ui.heading(column, "Worth knowing", f"{len(found)}")
    for finding in found[:30]:
        x, y = column.x, column.y
        level = {"error": "alarm", "warning": "note"}.get(finding.level, "empty")
        ui.lamp(x + ui.px(6), y + ui.px(9), level)
        inner = Column(x + ui.px(20), y, column.w - ui.px(20))
        ui.paragraph(inner, f"{finding.where}: {finding.text}", "small", line=17)
        column.y = inner.y + ui.px(6)


def _lamp(desk: Desk) -> Lamp:
    product = desk.product
    level, _ = known_verdict(desk)
    if product is None or product.budget is None:
        return Lamp(level=level, word="reckoning" if level == "busy" else "unknown")
    worst = product.budget.worst_ms
    return Lamp(
        level=level,
        word={"good": "in time", "alarm": "too slow"}.get(level, "not known")
        + (f", {worst:.1f} ms" if worst else ""),
    )


PLUGIN = Panel(name="budget", title="Budget", draw=_draw, lamp=_lamp, wide=True)
