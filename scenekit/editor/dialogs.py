"""What is asked and told in front of everything."""

from typing import Any

from scenekit.editor import pathdialog
from scenekit.editor.backend import Box
from scenekit.editor.care import on_host
from scenekit.editor.desk import Desk
from scenekit.editor.keys import KEYS
from scenekit.editor.settings import SCALES
from scenekit.editor.ui import Column

TOUR = (
    (
        "",
        "This is the lamplighter's quay, or a project of your own. Down the left edge stand the "
        "stations of the work, in its order. Each carries a lamp with a word: how that part of "
        "the work stands.",
    ),
    (
        "scene",
        "Here is the scene, drawn exactly as the machine will draw it: its colours, its pixels, "
        "and when it plays, its true rate.",
    ),
    (
        "ruler",
        "Beside it stands one refresh of the screen as scan lines, level with the picture. Every "
        "cost is a stretch beside it. What goes on past the last line comes too late.",
    ),
    (
        "tape",
        "This is the whole scene in time: the work of every tick against the refresh, the "
        "camera's way, and where colours change. Press it to go there.",
    ),
    (
        "station:sheets",
        "Begin with Sheets: bring in a picture and see how it is cut. Then Frames, Motion, "
        "Planes, and so on down the column.",
    ),
    (
        "station:export",
        "At the end, Export writes the program, runs it, and compares its screen with this one, "
        "pixel by pixel. F1 lists all keys.",
    ),
)

KEYS_REST = 132
"""What the page of keys needs beside its rows, unscaled px."""


def draw_dialog(desk: Desk) -> None:
    """Draw what is asked, if anything is."""
    if desk.ask is None:
        return
    kind, state = desk.ask
    escape = desk.local.pop("ask-escape", False) and kind != "recover"
    if escape and kind != "tour":
        desk.ask = None if kind != "close" else desk.ask
        if kind == "close":
            _done(desk)
            desk.closing = False
        return
    draw = {
        "keys": _keys, "look": _look, "tour": _tour, "close": _close, "flash": _flash, "recover": _recover,
        "outside": _outside, "second": _second, "path": pathdialog.draw, "both": _message, "credit": _message,
    }[kind]  # fmt: skip
    if escape:
        _end_tour(desk)
        return
    draw(desk, state)


def _done(desk: Desk) -> None:
    desk.ask = None


def _box(desk: Desk, width: float, height: float) -> Box:
    ui = desk.ui
    wide, high = ui.backend.surface.get_size()
    w, h = min(ui.px(width), wide - 40), min(ui.px(height), high - 40)
    return round((wide - w) / 2), round((high - h) / 2.4), w, h


def _card(desk: Desk, box: Box, title: str) -> Column:
    ui = desk.ui
    x, y, w, _h = box
    ui.fill(box, ui.look.ground)
    ui.frame(box, ui.look.quiet)
    ui.text(x + ui.px(24), y + ui.px(34), title, "title", weight="bold", room=w - ui.px(48))
    return Column(x + ui.px(24), y + ui.px(60), w - ui.px(48))


def _buttons(desk: Desk, box: Box, words: tuple[tuple[str, str, str], ...]) -> str:
    """Draw the answers along the foot, the first at the right; return the one that was given."""
    ui = desk.ui
    x, y, w, h = box
    right = x + w - ui.px(24)
    given = ""
    for name, word, kind in words:
        wide = max(ui.px(96), ui.width(word, "body", "bold") + ui.px(32))
        right -= wide
        if ui.button(f"answer:{name}", (right, y + h - ui.px(54), wide, ui.px(32)), word, kind=kind):
            given = name
        right -= ui.px(10)
    return given


def _keys(desk: Desk, _state: Any) -> None:
    ui = desk.ui
    room = ui.backend.surface.get_height() / ui.backend.scale - 40 - KEYS_REST
    row = max(17.0, min(27.0, room / len(KEYS)))
    box = _box(desk, 940, KEYS_REST + row * len(KEYS))
    with ui.backend.dialog("keys", box):
        column = _card(desk, box, "Keys")
        for keys, does, where in KEYS:
            x, y, w, h = column.take(ui.px(row))
            size = "body" if h >= ui.px(22) else "small"
            ui.text(x, y + h / 2, keys, size, weight="bold", room=w * 0.28)
            ui.text(x + w * 0.285, y + h / 2, does, size, room=w * 0.49)
            ui.text(x + w, y + h / 2, where, "small", ui.look.quiet, anchor="right", room=w * 0.22)
            ui.fill((x, y + h - 1, w, 1), ui.look.shade)
            ui.mark("keys:last", (x, y, w, h))
        if _buttons(desk, box, (("done", "Good", "main"),)):
            ui.backend.close_dialog()
            _done(desk)


def _look(desk: Desk, _state: Any) -> None:
    ui, settings = desk.ui, desk.settings
    box = _box(desk, 460, 320)
    with ui.backend.dialog("look", box):
        column = _card(desk, box, "Look")
        high = ui.px(30)
        x, y, w, _ = column.take(high, ui.px(14))
        ui.text(x, y + high / 2, "Ground")
        picked = ui.segments(
            "look:theme", (x + ui.px(150), y, w - ui.px(150), high), ("light", "dark"), settings.theme
        )
        if picked:
            settings.theme = picked
        x, y, w, _ = column.take(high, ui.px(14))
        ui.text(x, y + high / 2, "Size")
        names = {f"{round(scale * 100)} %": scale for scale in SCALES}
        now = f"{round(settings.scale * 100)} %"
        chosen = ui.segments("look:scale", (x + ui.px(150), y, w - ui.px(150), high), tuple(names), now)
        if chosen:
            settings.scale = names[chosen]
        x, y, w, _ = column.take(high, ui.px(6))
        ui.text(x, y + high / 2, "Motion")
        picked = ui.segments("look:still", (x + ui.px(150), y, w - ui.px(150), high), ("as it is", "reduced"),
                             "reduced" if settings.still else "as it is")  # fmt: skip
        if picked:
            settings.still = picked == "reduced"
        ui.paragraph(
            column,
            "Reduced: strips, wheels and rings stand still; only the scene moves, and only when you play it.",
            "small",
            ui.look.quiet,
            17,
        )
        if _buttons(desk, box, (("done", "Good", "main"),)):
            ui.backend.close_dialog()
            desk.local["settings-changed"] = True
            _done(desk)


def _end_tour(desk: Desk) -> None:
    desk.settings.toured = True
    desk.local["settings-changed"] = True
    _done(desk)


def _tour(desk: Desk, state: Any) -> None:
    ui = desk.ui
    number = state.setdefault("at", 0)
    target, words = TOUR[number]
    wide, high = ui.backend.surface.get_size()
    box = _box(desk, 440, 220)
    spot = state.get("spots", {}).get(target) or desk.local.get("tour-spots", {}).get(target)
    if spot is not None:
        left = spot[0] + min(spot[2], ui.px(200)) + ui.px(16)
        if left + box[2] > wide:
            left = max(20, spot[0] - box[2] - ui.px(16))
        box = (round(left), round(min(max(20, spot[1] + 10), high - box[3] - 20)), box[2], box[3])
    with ui.backend.dialog(f"tour {number}", box):
        column = _card(desk, box, "A short walk" if number == 0 else f"{number + 1} of {len(TOUR)}")
        ui.paragraph(column, words, line=21)
        last = number == len(TOUR) - 1
        answers = (("next", "Begin" if last else "Next", "main"), ("leave", "Leave", "quiet"))
        given = _buttons(desk, box, answers)
        if given:
            ui.backend.close_dialog()
        if given == "next" and not last:
            state["at"] = number + 1
        elif given:
            _end_tour(desk)


def _question(
    desk: Desk, name: str, title: str, words: str, answers: tuple[tuple[str, str, str], ...]
) -> str:
    ui = desk.ui
    box = _box(desk, 520, 150 + 21 * (len(words) // 62 + 1))
    given = ""
    with ui.backend.dialog(name, box):
        column = _card(desk, box, title)
        ui.paragraph(column, words, line=21)
        given = _buttons(desk, box, answers)
        if given:
            ui.backend.close_dialog()
            _done(desk)
    return given


def _close(desk: Desk, _state: Any) -> None:
    words = (
        f"The last thing done was: {desk.session.history.undo_label or 'a change'}. "
        "Without saving, everything since the last save is lost."
    )
    answers = (
        ("save", "Save and close", "main"),
        ("lose", "Close without saving", "plain"),
        ("stay", "Stay", "quiet"),
    )
    given = _question(desk, "close", "There is work that is not saved", words, answers)
    if given == "save" and desk.session.save():
        desk.closed = True
    elif given == "lose":
        desk.local["discard"] = True
        desk.closed = True
    elif given:
        desk.closing = False


def _flash(desk: Desk, state: Any) -> None:
    from scenekit.safety.flash import CAUTION

    words = f"{state['why']} {CAUTION}"
    answers = (("stay", "Do not play", "main"), ("play", "Play", "plain"))
    if _question(desk, "flash", "This scene may flash", words, answers) == "play" and desk.session.scene:
        desk.session.flash_seen.add(desk.session.scene.name)
        desk.session.playing.toggle()


def _recover(desk: Desk, state: Any) -> None:
    words = (
        "The window closed last time before work was saved; a copy of it was kept. Taking "
        "it up again is one step that can be taken back."
    )
    answers = (("take", "Take it up again", "main"), ("leave", "Throw it away", "plain"))
    given = _question(desk, "recover", "There is unsaved work from before", words, answers)
    from scenekit.editor.history import Edit

    if given == "take":
        desk.session.apply(Edit(document=state["document"], label="taking up earlier work"))
        desk.session.keep_recovery(now=True)
    if given:
        state["path"].unlink(missing_ok=True)


def _outside(desk: Desk, state: Any) -> None:
    from scenekit.editor.outside import listed, settle

    clash = state["clash"]
    if clash.merge is None:
        words = "The project's files changed on disk, and do not go together with what you did here. "
    else:
        words = (
            f"The project's files changed on disk, in places that you changed too: "
            f"{listed(clash.merge.clashes)}. All else is joined. "
        )
    words += "Whatever you choose is one step that can be taken back; nothing is written before you save."
    answers = (("mine", "Keep mine there", "main"), ("theirs", "Take theirs there", "plain"))
    if clash.merge is None:
        answers = (("mine", "Keep mine", "main"), ("theirs", "Take theirs", "plain"))
    given = _question(desk, "outside", "Two changed the same", words, answers)
    if given:
        settle(desk.session, clash, given)


def _second(desk: Desk, state: Any) -> None:
    words = (
        f"Another window works on this project{on_host(state['holder'])}. Two can: what one saves, the "
        "other reads and joins with its own. Where both change the same, it asks."
    )
    answers = (("leave", "Close this one", "main"), ("stay", "Open it here too", "plain"))
    if _question(desk, "second", "This project is open already", words, answers) == "leave":
        desk.closed = True


def _message(desk: Desk, state: Any) -> None:
    _question(desk, "message", state["title"], state["words"], (("done", "Good", "main"),))
