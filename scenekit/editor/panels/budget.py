"""Budget: what the worst tick takes, what the memories hold, and what if."""

from scenekit.editor.advising import draw_advice
from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.history import Edit
from scenekit.editor.products import Product
from scenekit.editor.theme import OPERATION_COLOURS
from scenekit.editor.ui import Column
from scenekit.editor.verdict import known_verdict, verdict_words
from scenekit.editor.whatif import draw_what_if
from scenekit.report.paper import OPERATION_WORDS, SLATE, plain_ms


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, product, scene, target = desk.ui, desk.product, desk.session.scene, desk.session.target
    edit: Edit | None = None
    with ui.backend.region("budget", box, scrolls=True) as scroll:
        ui.fill(box, ui.look.ground)
        column = Column(box[0], box[1] - scroll, box[2] - ui.px(12))
        if scene is not None and target is not None:
            edit = draw_what_if(desk, column, scene, target)
        ui.heading(column, "The worst tick")
        if product is None or product.budget is None or scene is None or product.error:
            level, words = verdict_words(product)
            ui.paragraph(column, words, colour=ui.look.alarm if level == "alarm" else ui.look.quiet)
            column.y += ui.px(12)
        else:
            _worst(desk, column, product)
            _dearest(desk, column, product)
            edit = draw_advice(desk, column, scene) or edit
            _memory(desk, column, product)
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
            ui.fill((left, y + 5, max(1.0, wide - 1), h - 10), OPERATION_COLOURS.get(operation, SLATE))
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


def _dearest(desk: Desk, column: Column, product: Product) -> None:
    """What the game may ask for, beyond what this scene plays: camera anywhere, every sprite in view."""
    ui, worst = desk.ui, product.worst
    if worst is None:
        return
    ui.heading(column, "The worst the game can ask", "camera anywhere, every sprite in view")
    if worst.work_ms is None or worst.spare_ms is None:
        ui.paragraph(column, "Some costs of this machine are not known yet.", colour=ui.look.quiet)
        return
    x, y, w, h = column.take(ui.px(24))
    late = worst.spare_ms < 0
    ui.lamp(x + ui.px(7), y + h / 2, "alarm" if late else "good")
    sure = "" if worst.half_width_ms is None else f", give or take {plain_ms(worst.half_width_ms)}"
    left = f"{plain_ms(abs(worst.spare_ms))} {'too much' if late else 'to spare'}"
    words = f"{plain_ms(worst.work_ms)}{sure}: {left}, camera at {worst.camera[0]}, {worst.camera[1]}"
    ui.text(x + ui.px(20), y + h / 2, words, room=w - ui.px(20))
    column.y += ui.px(14)


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
