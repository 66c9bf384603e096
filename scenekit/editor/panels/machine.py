"""Machine: the targets of the project, and what each can do."""

from dataclasses import replace

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.form import Form, read_name
from scenekit.editor.history import Edit
from scenekit.editor.parts.storing import draw_storing
from scenekit.editor.targets import known_machine, with_machine
from scenekit.editor.ui import Column
from scenekit.machines.machine import Machine
from scenekit.machines.profile import machine_names
from scenekit.model.edits import put_target
from scenekit.model.named import with_named, without_named
from scenekit.model.target import Target
from scenekit.report.paper import plain_bytes, plain_ms


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, session = desk.ui, desk.session
    edit: Edit | None = None
    with ui.backend.region("machine", box, scrolls=True) as scroll:
        ui.fill(box, ui.look.ground)
        column = Column(box[0], box[1] - scroll, box[2] - ui.px(12))
        ui.heading(column, "Targets", f"{len(session.document.targets)} in this project")
        for target in session.document.targets:
            x, y, w, h = column.take(ui.px(40))
            chosen = session.target is target
            if ui.row(
                f"target:{target.name}", (x, y, w, h), chosen=chosen, tip="Look at the scene on this target."
            ).clicked:
                session.target_name = target.name
            ui.text(x + 12, y + ui.px(13), target.name, weight="bold" if chosen else "regular", room=w - 20)
            words = f"{target.machine}, {target.mode}, {target.dialect}"
            ui.text(x + 12, y + ui.px(29), words, "small", ui.look.quiet, room=w - 20)
        column.y += ui.px(6)
        place = column.take(ui.px(30), ui.px(20))
        if ui.button(
            "target:add",
            (place[0], place[1], ui.px(140), place[3]),
            "Add a target",
            tip="A further machine for the same scenes.",
        ):
            edit = _added(desk)
        target_now = session.target
        if target_now is not None:
            edit = _target(desk, column, target_now) or edit
        ui.backend.extent(column.y + ui.px(40))
    return edit


def _added(desk: Desk) -> Edit:
    document = desk.session.document
    taken = {target.name for target in document.targets}
    name = next(f"target-{n}" for n in range(len(taken) + 1, 999) if f"target-{n}" not in taken)
    first = desk.session.target or Target(
        name="main", machine="indexed-board", mode="320x200", dialect="plain"
    )
    desk.session.target_name = name
    return Edit(document=put_target(document, replace(first, name=name)), label=f"adding target {name}")


def _target(desk: Desk, column: Column, target: Target) -> Edit | None:
    ui, document = desk.ui, desk.session.document
    ui.heading(column, f"Target {target.name}")
    machine = known_machine(desk, target)
    row, label = ui.px(30), ui.px(96)
    picked: Target | None = None

    def line(word: str) -> Box:
        x, y, w, h = column.take(row, ui.px(8))
        ui.text(x, y + h / 2, word, colour=ui.look.quiet)
        return x + label, y, w - label, h

    names = list(machine_names())
    edit = _named(desk, Form(ui, column, "target", 96), target)
    if edit is not None:
        return edit
    chosen = ui.choice("target:machine", line("machine"), names, target.machine, tip="What it runs on.")
    if chosen:
        picked = with_machine(target, chosen)
    modes = list(machine.modes) if machine is not None else []
    chosen = ui.choice(
        "target:mode", line("mode"), modes, target.mode, tip="Display mode: size, colours and refresh."
    )
    if chosen:
        picked = replace(target, mode=chosen)
    chosen = ui.choice(
        "target:dialect",
        line("dialect"),
        _dialects(desk),
        target.dialect,
        tip="The BASIC that programs are written in.",
    )
    if chosen:
        picked = replace(target, dialect=chosen)
    tip = "Most palette entries to use; empty for all that the mode has."
    now = str(target.colours or "")
    colours = ui.field("target:colours", line("colours"), now, _colours, hint="all of the mode", tip=tip)
    if colours is not None:
        picked = replace(target, colours=colours or None)
    picked = _screen(Form(ui, column, "target", 96), target, machine) or picked
    picked = draw_storing(Form(ui, column, "target", 96), target) or picked
    _facts(desk, column, machine, target)
    if picked is None:
        return None
    return Edit(document=put_target(document, picked), label=f"changing target {target.name}")


def _named(desk: Desk, form: Form, target: Target) -> Edit | None:
    """The target's name, and taking it out."""
    document = desk.session.document
    name, drop = form.split("name", (1.6, 1))
    text = form.text(
        "name", name, target.name, read_name, tip="What the target is called in lists and files."
    )
    if text is not None:
        desk.session.target_name = text
        changed = with_named(document.targets, replace(target, name=text), target.name)
        return Edit(document=replace(document, targets=changed), label=f"naming target {text}")
    if form.button("drop", drop, "Take it out", kind="quiet", on=len(document.targets) > 1):
        left = without_named(document.targets, target.name)
        return Edit(document=replace(document, targets=left), label=f"taking out target {target.name}")
    return None


def _screen(form: Form, target: Target, machine: Machine | None) -> Target | None:
    """The part of the screen that scrolls, and the entry that is never drawn."""
    mode = machine.modes.get(target.mode) if machine is not None else None
    whole = (0, 0, mode.width_px, mode.height_px) if mode is not None else (0, 0, 320, 200)
    new: Target | None = None
    view = target.view or whole
    for number, (box, word) in enumerate(
        zip(form.split("view", (1, 1, 1, 1)), ("across", "down", "wide", "high"), strict=True)
    ):
        value = form.whole(
            f"view-{word}", box, view[number], 1 if number > 1 else 0, 32_767,
            tip=f"The part of the screen that scrolls, {word}; the rest can be a score panel.",
        )  # fmt: skip
        if value is not None:
            sides = [*view]
            sides[number] = value
            made = (sides[0], sides[1], sides[2], sides[3])
            new = replace(target, view=None if made == whole else made)
    entry = form.whole(
        "transparent", form.line("never drawn"), target.transparent, 0, 255, unit="entry",
        tip="The palette entry that stands for clear pixels.",
    )  # fmt: skip
    return new if entry is None else replace(target, transparent=entry)


def _colours(text: str) -> int:
    from scenekit.editor.arithmetic import whole

    return whole(text, 2, 256) if text.strip() else 0


def _dialects(desk: Desk) -> list[str]:
    from pathlib import Path

    import scenekit.dialects.dialect as module
    from scenekit.registry import data_files

    def read() -> list[str]:
        return list(data_files(Path(module.__file__ or "").parent / "targets"))

    made: list[str] = desk.remember("dialects", read)
    return made


def _facts(desk: Desk, column: Column, machine: Machine | None, target: Target) -> None:
    ui = desk.ui
    if machine is None or target.mode not in machine.modes:
        ui.paragraph(column, "This machine or mode is not known here.", colour=ui.look.alarm)
        return
    mode = machine.modes[target.mode]
    timing = mode.timing
    column.y += ui.px(10)
    colours = f"{mode.entries} entries" if mode.indexed else f"direct colour, {mode.depth} bits"
    measured = sum(price.measured for price in machine.prices)
    facts = [
        ("picture", f"{mode.width_px} x {mode.height_px} px, {colours}"),
        ("refresh", f"{float(timing.refresh_hz):.2f} Hz, {plain_ms(float(timing.period_ms))}"),
        ("blanking", f"{plain_ms(float(timing.blank_ms))} of it shows nothing"),
        ("one page", plain_bytes(mode.page_bytes)),
        ("can do", ", ".join(sorted(machine.abilities.words)) or "no drawing"),
        ("prices", f"{measured} of {len(machine.prices)} measured, the rest estimated"),
    ]
    for word, words in facts:
        ui.text(column.x, column.y + ui.px(10), word, "small", ui.look.quiet)
        beside = Column(column.x + ui.px(96), column.y, column.w - ui.px(96))
        ui.paragraph(beside, words, line=20)
        column.y = beside.y + ui.px(3)


def _lamp(desk: Desk) -> Lamp:
    target = desk.session.target
    if target is None:
        return Lamp(level="empty", word="none yet")
    return Lamp(level="good", word=target.mode)


PLUGIN = Panel(name="machine", title="Machine", draw=_draw, lamp=_lamp)
