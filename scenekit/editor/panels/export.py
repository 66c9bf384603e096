"""Export: the program for the machine, its files and sizes, and the proof that it draws what is shown."""

import threading
from pathlib import Path

from scenekit.editor.arithmetic import whole
from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.exporting import Run, open_folder, work
from scenekit.editor.history import Edit
from scenekit.editor.pathdialog import ask_path
from scenekit.editor.ui import Column


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, session = desk.ui, desk.session
    with ui.backend.region("export", box, scrolls=True) as scroll:
        ui.fill(box, ui.look.ground)
        column = Column(box[0], box[1] - scroll, box[2] - ui.px(12))
        ui.heading(column, "Export")
        scene, target = session.scene, session.target
        if scene is None or target is None:
            ui.paragraph(
                column,
                "There is nothing to export until there is a scene and a target.",
                colour=ui.look.quiet,
            )
        else:
            _options(desk, column)
            _files(desk, column)
            _proof(desk, column)
        ui.backend.extent(column.y + ui.px(50))
    return None


def _options(desk: Desk, column: Column) -> None:
    ui, session = desk.ui, desk.session
    wish = desk.local.setdefault(
        "export",
        {
            "folder": str(
                session.document.folder / "out" / (session.target.name if session.target else "main")
            ),
            "play": "with a player",
            "prefix": "sk_",
            "line": 1000,
        },
    )
    row, label = ui.px(30), ui.px(82)
    x, y, w, h = column.take(row, ui.px(8))
    ui.text(x, y + h / 2, "into", colour=ui.look.quiet)
    text = ui.field(
        "export:folder",
        (x + label, y, w - label - ui.px(90), h),
        wish["folder"],
        str.strip,
        tip="The folder for the files; made when it is new.",
    )
    if text:
        wish["folder"] = text
    if ui.button("export:choose", (x + w - ui.px(82), y, ui.px(82), h), "Choose"):
        ask_path(
            desk,
            "A folder for the export",
            Path(wish["folder"]),
            lambda path: wish.__setitem__("folder", str(path)),
            folder=True,
        )
    x, y, w, h = column.take(row, ui.px(8))
    ui.text(x, y + h / 2, "program", colour=ui.look.quiet)
    picked = ui.segments(
        "export:play",
        (x + label, y, w * 0.5, h),
        ("with a player", "library only"),
        wish["play"],
        tip="A player is a program that plays the scene; a library waits for your own.",
    )
    if picked:
        wish["play"] = picked
    left = x + label + w * 0.5 + 8
    part = (x + w - left - 8) / 2
    text = ui.field(
        "export:prefix",
        (left, y, part, h),
        wish["prefix"],
        str.strip,
        tip="Before names of variables and routines.",
    )
    if text:
        wish["prefix"] = text
    line = ui.field(
        "export:line",
        (left + part + 8, y, part, h),
        str(wish["line"]),
        lambda t: whole(t, 1, 9000),
        unit="line",
        tip="First line number, where lines have numbers.",
    )
    if line is not None:
        wish["line"] = line
    run: Run | None = desk.local.get("run")
    idle = run is None or run.done
    x, y, w, h = column.take(ui.px(34), ui.px(16))
    wide = ui.px(150)
    if ui.button(
        "export:write",
        (x, y, wide, h),
        "Write the files",
        kind="main",
        on=idle,
        tip="Only files that an earlier export wrote and nobody edited are replaced.",
    ):
        _start(desk, "write")
    if ui.button(
        "export:verify",
        (x + wide + 10, y, wide, h),
        "Run and compare",
        on=idle,
        tip="Runs the program at ten moments of the scene and compares its screen with this one.",
    ):
        _start(desk, "verify")
    if ui.button(
        "export:open",
        (x + 2 * (wide + 10), y, wide, h),
        "Open the folder",
        kind="quiet",
        on=Path(wish["folder"]).is_dir(),
    ):
        open_folder(Path(wish["folder"]))
    if run is not None and not run.done:
        ui.text(
            x, column.take(ui.px(22), ui.px(6))[1] + ui.px(10), f"working: {run.stage}", colour=ui.look.quiet
        )
        desk.local["animating"] = True


def _start(desk: Desk, kind: str) -> None:
    session, wish = desk.session, desk.local["export"]
    assert session.scene is not None
    assert session.target is not None
    run = Run(kind=kind, document=session.document, target=session.target.name, scene=session.scene.name)
    desk.local["run"] = run
    desk.local[f"run {kind}"] = run
    threading.Thread(target=work, args=(run, dict(wish), session.products.wake), daemon=True).start()


def _files(desk: Desk, column: Column) -> None:
    ui = desk.ui
    run: Run | None = desk.local.get("run write")
    if run is None or not run.done:
        return
    ui.heading(column, "Files", "" if run.error else f"{sum(size for _, size, _ in run.files)} bytes in all")
    if run.error:
        ui.paragraph(column, run.error, colour=ui.look.alarm)
    for name, size, changed in run.files:
        x, y, w, h = column.take(ui.px(22))
        ui.text(x, y + h / 2, name, room=w * 0.5)
        ui.text(
            x + w,
            y + h / 2,
            f"{size} bytes" + ("" if changed else ", as before"),
            "small",
            ui.look.quiet,
            anchor="right",
        )
    column.y += ui.px(14)


def _proof(desk: Desk, column: Column) -> None:
    ui = desk.ui
    run: Run | None = desk.local.get("run verify")
    if run is None or not run.done:
        return
    ui.heading(column, "Proof", f"{run.scene} for {run.target}")
    if run.document is not desk.session.document:
        ui.paragraph(column, "The project changed since; run it again.", "small", ui.look.quiet)
    if run.error or run.proof is None:
        ui.paragraph(column, run.error, colour=ui.look.alarm)
        return
    proof = run.proof
    x, y, w, h = column.take(ui.px(30), ui.px(4))
    ui.lamp(x + ui.px(7), y + h / 2, "good" if proof.passed else "alarm")
    words = "The same, pixel by pixel" if proof.passed else "Not the same"
    ui.text(
        x + ui.px(22),
        y + h / 2,
        words,
        "head",
        weight="bold",
        colour=ui.look.ink if proof.passed else ui.look.alarm,
    )
    wrong = sum(tick.different for tick in proof.ticks)
    pixels = sum(tick.pixels for tick in proof.ticks)
    ui.paragraph(
        column,
        f"{proof.interpreter} {proof.version} drew {len(proof.ticks)} screens: "
        f"{wrong} of {pixels} pixels differ; "
        f"{proof.different} of {proof.values} values differ; {proof.seconds:.1f} s.",
        "small",
        ui.look.quiet,
        17,
    )
    column.y += ui.px(8)
    session = desk.session
    for tick in proof.ticks:
        x, y, w, h = column.take(ui.px(22))
        ui.lamp(x + ui.px(7), y + h / 2, "good" if not tick.different else "alarm")
        ui.text(x + ui.px(22), y + h / 2, f"tick {tick.tick}", room=ui.px(90))
        ui.text(
            x + ui.px(120),
            y + h / 2,
            "equal" if not tick.different else f"{tick.different} pixels differ, within {tick.box}",
            "small",
            ui.look.quiet,
        )
        if (
            ui.press(f"proof:{tick.tick}", (x, y, w, h), "Show this tick.").clicked
            and session.scene is not None
        ):
            session.playing.go(tick.tick, session.scene.ticks)
    for name, picture in run.pictures:
        high = column.w / picture.shape[1] * picture.shape[0]
        ui.text(
            column.x,
            column.y + ui.px(14),
            f"{name}: expected, drawn, and where they differ",
            "small",
            ui.look.quiet,
            room=column.w,
        )
        column.y += ui.px(26)
        ui.backend.image(desk.picture(picture), column.take(high, ui.px(10)))


def _lamp(desk: Desk) -> Lamp:
    run: Run | None = desk.local.get("run verify")
    if run is not None and run.done and run.proof is not None and run.document is desk.session.document:
        return (
            Lamp(level="good", word="proved")
            if run.proof.passed
            else Lamp(level="alarm", word="not the same")
        )
    return Lamp(level="empty", word="not proved yet")


PLUGIN = Panel(name="export", title="Export", draw=_draw, lamp=_lamp, wide=True)
