"""Export: the program for the machine, its files and sizes, the way to a board, and the proof."""

from pathlib import Path
from typing import Any

from scenekit.editor.arithmetic import whole
from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.exporting import Run, Wishes, open_folder
from scenekit.editor.history import Edit
from scenekit.editor.pathdialog import ask_path
from scenekit.editor.proofview import draw_proof
from scenekit.editor.ui import Column
from scenekit.report.paper import plain_bytes

LABEL = 82
WITH_PLAYER, LIBRARY = "with a player", "library only"


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, session = desk.ui, desk.session
    with ui.backend.region("export", box, scrolls=True) as scroll:
        ui.fill(box, ui.look.ground)
        column = Column(box[0], box[1] - scroll, box[2] - ui.px(12))
        scene, target = session.scene, session.target
        if scene is None or target is None:
            ui.heading(column, "Export")
            words = "There is nothing to export until there is a scene and a target."
            ui.paragraph(column, words, colour=ui.look.quiet)
        else:
            ui.heading(column, "Export", f"{scene.name} for {target.name}")
            wish = _wish(desk)
            _options(desk, column, wish)
            _start_row(desk, column, wish)
            _files(desk, column)
            _board(desk, column, wish)
            draw_proof(desk, column, desk.local.get("run prove"))
        ui.backend.extent(column.y + ui.px(50))
    return None


def _wish(desk: Desk) -> dict[str, Any]:
    """Return what is wished, as it was left; the folder follows the target until somebody names one."""
    session = desk.session
    assert session.target is not None
    usual = {"folder": "", "play": WITH_PLAYER, "prefix": "sk_", "line": 1000, "board": "", "check": True}
    wish: dict[str, Any] = desk.local.setdefault("export", usual)
    if not wish["folder"] or wish.get("named-for", session.target.name) != session.target.name:
        wish["folder"] = str(session.document.folder / "out" / session.target.name)
        wish["named-for"] = session.target.name
    return wish


def _path_row(
    desk: Desk, column: Column, wish: dict[str, Any], key: str, words: tuple[str, str, str]
) -> None:
    """One folder: its label, a field, and a press to look for it."""
    ui = desk.ui
    label, title, tip = words
    x, y, w, h = column.take(ui.px(30), ui.px(8))
    ui.text(x, y + h / 2, label, colour=ui.look.quiet)
    left = x + ui.px(LABEL)
    place = (left, y, w - ui.px(LABEL + 90), h)
    text = ui.field(f"export:{key}", place, wish[key], str.strip, tip=tip, hint="a folder")
    if text is not None:
        wish[key] = text
        wish.pop("named-for", None)
    if ui.button(f"export:choose-{key}", (x + w - ui.px(82), y, ui.px(82), h), "Choose"):
        start = Path(wish[key]) if wish[key] else desk.session.document.folder
        ask_path(desk, title, start, lambda path: wish.update({key: str(path)}), folder=True)


def _options(desk: Desk, column: Column, wish: dict[str, Any]) -> None:
    ui = desk.ui
    words = ("into", "A folder for the export", "The folder for the files; made when it is new.")
    _path_row(desk, column, wish, "folder", words)
    x, y, w, h = column.take(ui.px(30), ui.px(8))
    ui.text(x, y + h / 2, "program", colour=ui.look.quiet)
    left, wide = x + ui.px(LABEL), max(w * 0.46, ui.px(210))
    tip = "A player is a program that plays the scene; a library waits for your own."
    picked = ui.segments("export:play", (left, y, wide, h), (WITH_PLAYER, LIBRARY), wish["play"], tip=tip)
    wish["play"] = picked or wish["play"]
    left += wide + 8
    if x + w - left < ui.px(190):
        x, y, w, h = column.take(ui.px(30), ui.px(8))
        left = x + ui.px(LABEL)
    part = (x + w - left - 8) / 2
    tip = "Before names of variables and routines."
    text = ui.field("export:prefix", (left, y, part, h), wish["prefix"], str.strip, tip=tip, unit="prefix")
    wish["prefix"] = wish["prefix"] if text is None else text
    tip = "First line number, where lines have numbers."
    place = (left + part + 8, y, part, h)
    line = ui.field(
        "export:line", place, str(wish["line"]), lambda t: whole(t, 1, 9000), unit="line", tip=tip
    )
    wish["line"] = wish["line"] if line is None else line


def _start_row(desk: Desk, column: Column, wish: dict[str, Any]) -> None:
    """What can be begun; while something runs, how far it is, and a press to stop it."""
    ui = desk.ui
    run: Run | None = desk.local.get("run")
    x, y, w, h = column.take(ui.px(34), ui.px(12))
    wide = min(ui.px(150), (w - 20) / 3)
    if run is not None and not run.done:
        _running(desk, run, (x, y, w, h), wide)
        return
    tip = "Only files that an earlier export wrote and nobody edited are replaced."
    if ui.button("export:write", (x, y, wide, h), "Write the files", kind="main", tip=tip):
        _start(desk, "write", wish)
    tip = "Runs the program at ten moments of the scene and compares its screen with this one."
    if ui.button("export:verify", (x + wide + 10, y, wide, h), "Run and compare", tip=tip):
        _start(desk, "prove", wish)
    folder = Path(wish["folder"])
    there = desk.remember("export-there", folder.is_dir, wish["folder"], run, int(desk.now_s))
    place = (x + 2 * (wide + 10), y, wide, h)
    if ui.button("export:open", place, "Open the folder", kind="quiet", on=there):
        why = open_folder(folder)
        if why:
            desk.session.say(why, "alarm")


def _running(desk: Desk, run: Run, box: Box, wide: float) -> None:
    ui = desk.ui
    x, y, w, h = box
    if ui.button(
        "export:stop", (x, y, wide, h), "Stop", on=not run.stopped, tip="Leaves nothing half-written."
    ):
        run.stop()
    left = x + wide + 14
    words = "stopping" if run.stopped else run.stage
    ui.text(left, y + ui.px(10), words, "small", ui.look.quiet, room=x + w - left)
    bar = (left, y + ui.px(22), x + w - left, ui.px(6))
    ui.fill(bar, ui.look.sheet)
    ui.fill((*bar[:2], max(2.0, bar[2] * run.part), bar[3]), ui.look.accent)
    ui.frame(bar, ui.look.rule)
    desk.local["animating"] = True


def _start(desk: Desk, kind: str, wish: dict[str, Any]) -> None:
    session = desk.session
    assert session.scene is not None
    assert session.target is not None
    wishes = Wishes(
        into=wish["folder"], play=wish["play"] == WITH_PLAYER, prefix=wish["prefix"],
        first_line=wish["line"], board=wish["board"], check=wish["check"],
    )  # fmt: skip
    run = Run(
        kind=kind, document=session.document, target=session.target.name, scene=session.scene.name,
        wishes=wishes, wake=session.products.wake,
    )  # fmt: skip
    desk.local["run"] = desk.local[f"run {kind}"] = run
    run.start()


def _files(desk: Desk, column: Column) -> None:
    """The files of the last export; before there is one, what it would write."""
    product = desk.product
    run: Run | None = desk.local.get("run write")
    also = ""
    if run is not None and run.done and run.document is desk.session.document:
        files, said = run.files, run.error
        title = "Files" if not said else "Not written"
    elif product is not None and product.build is not None and product.done and not product.error:
        files, said = [(name, len(data), True) for name, data in product.build.files.items()], ""
        title = "What would be written"
        if desk.local["export"]["play"] == WITH_PLAYER:
            also = f"and {product.build.play_file}, the player"
    else:
        return
    _file_rows(desk, column, title, files, said, also)


def _file_rows(
    desk: Desk, column: Column, title: str, files: list[tuple[str, int, bool]], said: str, also: str = ""
) -> None:
    ui = desk.ui
    ui.heading(column, title, "" if said else f"{plain_bytes(sum(size for _, size, _ in files))} in all")
    if said:
        ui.paragraph(column, said, colour=ui.look.alarm)
    for name, size, fresh in files:
        x, y, w, h = column.take(ui.px(21))
        ui.text(x, y + h / 2, name, room=w * 0.6)
        words = f"{size} bytes" + ("" if fresh else ", as before")
        ui.text(x + w, y + h / 2, words, "small", ui.look.quiet, anchor="right")
    if also:
        x, y, w, h = column.take(ui.px(21))
        ui.text(x, y + h / 2, also, colour=ui.look.quiet, room=w)
    column.y += ui.px(14)


def _board(desk: Desk, column: Column, wish: dict[str, Any]) -> None:
    """The files as a board wants them: names, line ends, and a program there that checks them."""
    ui, product = desk.ui, desk.product
    dialect = product.build.dialect if product is not None and product.build is not None else None
    note = "" if dialect is None else way_words(dialect.transfer)
    ui.heading(column, "To a board", note)
    words = ("card", "The folder of the board's card", "Where the card is seen on this computer.")
    _path_row(desk, column, wish, "board", words)
    run: Run | None = desk.local.get("run")
    idle = run is None or run.done
    x, y, w, h = column.take(ui.px(30), ui.px(8))
    wide = min(ui.px(150), w / 3)
    tip = "Names and line ends become those that the board reads."
    if ui.button("export:send", (x, y, wide, h), "Put it there", on=idle and bool(wish["board"]), tip=tip):
        _start(desk, "send", wish)
    options = ("with a check", "without")
    tip = "The check is a program that reads every file on the board and says whether it came whole."
    place = (x + wide + 10, y, min(ui.px(210), w - wide - 10), h)
    picked = ui.segments("export:check", place, options, options[not wish["check"]], tip=tip)
    wish["check"] = wish["check"] if picked is None else picked == options[0]
    sent: Run | None = desk.local.get("run send")
    if sent is None or not sent.done:
        column.y += ui.px(10)
        return
    for old, new in sent.names.items():
        ui.paragraph(column, f"{old} is called {new} there", "small", ui.look.quiet, 17)
    if sent.seconds is not None:
        ui.paragraph(column, f"over its line this takes {sent.seconds:.0f} s", "small", ui.look.quiet, 17)
    _file_rows(desk, column, "Put there" if not sent.error else "Not put there", sent.files, sent.error)


def way_words(way: Any) -> str:
    """Say how files get to a board."""
    by = "by card" if way.by == "card" else f"by a line of {way.baud} baud"
    return f"{by}, names {'of eight and three' if way.names == '8.3' else 'as they are'}"


def _lamp(desk: Desk) -> Lamp:
    run: Run | None = desk.local.get("run prove")
    if run is None or run.proof is None or run.document is not desk.session.document:
        return Lamp(level="empty", word="not proved yet")
    return Lamp(level="good", word="proved") if run.proof.passed else Lamp(level="alarm", word="not the same")


PLUGIN = Panel(name="export", title="Export", draw=_draw, lamp=_lamp, wide=True)
