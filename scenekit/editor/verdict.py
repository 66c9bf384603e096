"""The budget in one sentence, and how full the memories are."""

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.products import Product
from scenekit.report.paper import plain_bytes, plain_ms


def draw_verdict(desk: Desk, box: Box) -> None:
    """Say whether it fits, in one sentence, and how full the memories are."""
    ui, product = desk.ui, desk.product
    x, y, w, h = box
    if h < ui.px(24):
        return
    level, sentence = known_verdict(desk)
    ui.lamp(x + ui.px(7), y + ui.px(14), level)
    ui.text(
        x + ui.px(20),
        y + ui.px(14),
        sentence,
        "head",
        ui.look.alarm if level == "alarm" else ui.look.ink,
        weight="bold",
        room=w - ui.px(24),
    )
    build = product.build if product is not None else None
    if build is None or not build.memory or product is None:
        return
    top = y + ui.px(40)
    wide = (w - ui.px(20) * (len(build.memory[:3]) - 1)) / max(1, len(build.memory[:3]))
    for number, memory in enumerate(build.memory[:3]):
        if top + ui.px(34) > y + h:
            return
        left = x + number * (wide + ui.px(20))
        part = min(1.0, memory.used_bytes / max(1, memory.capacity_bytes))
        full = memory.used_bytes > memory.capacity_bytes
        free = memory.capacity_bytes - memory.used_bytes
        words = f"{plain_bytes(free)} free" if not full else f"{plain_bytes(-free)} too much"
        ui.text(left, top, memory.memory, "small", ui.look.ink, room=wide * 0.5)
        ui.text(left + wide, top, words, "small", ui.look.alarm if full else ui.look.quiet, anchor="right")
        bar = (left, top + ui.px(10), wide, ui.px(8))
        ui.fill(bar, ui.look.sheet)
        ui.fill((bar[0], bar[1], max(1.0, wide * part), bar[3]), ui.look.alarm if full else ui.look.quiet)
        ui.frame(bar, ui.look.rule)


def known_verdict(desk: Desk) -> tuple[str, str]:
    """Return the verdict on what is known now, in words made once."""
    made: tuple[str, str] = desk.remember("verdict", lambda: verdict_words(desk.product), desk.product)
    return made


def verdict_words(product: Product | None) -> tuple[str, str]:
    """Return a lamp's level and a sentence for the budget."""
    if product is None:
        return "busy", "Reading the art"
    if product.error:
        return "alarm", product.error
    budget = product.budget
    if budget is None:
        return ("busy", "Reckoning the budget") if not product.done else ("empty", "No scene to reckon yet")
    worst = budget.worst_ms
    if worst is None or budget.rate_hz is None:
        return "note", "Some costs of this machine are not known yet"
    allowed = budget.refresh_hz / budget.target_hz * budget.period_ms
    if budget.holds_target:
        return (
            "good",
            f"In time: even tick {budget.worst_tick} takes {plain_ms(worst)} of {plain_ms(allowed)}",
        )
    return "alarm", f"Too slow: tick {budget.worst_tick} takes {plain_ms(worst)} of {plain_ms(allowed)}"
