"""Looks after work: that none is lost, that what others do is noticed, and that nothing flashes unasked."""

import signal
import threading
from typing import Any

from scenekit.editor import lock, outside, recovery
from scenekit.editor.desk import Desk
from scenekit.editor.session import Session
from scenekit.inspection import document_findings

LOOK_EVERY_S = 2.0


def meet_others(desk: Desk) -> None:
    """Ask when another window works on the project, or work was left from before."""
    session = desk.session
    folder = session.document.folder
    other = lock.take(folder)
    if other is not None:
        session.recovery_own = f"-{lock.this_process().process}"
        desk.ask = ("second", {"holder": other})
        return
    left = []
    for path, document in recovery.left_copies(folder):
        if document == session.document:
            path.unlink(missing_ok=True)
        else:
            left.append((path, document))
    names = ("", *(f"-{number}" for number in range(2, 1000)))
    session.recovery_own = next(
        (own for own in names if not recovery.recovery_file(folder, own).exists()), ""
    )
    if left:
        desk.ask = ("recover", {"path": left[0][0], "document": left[0][1]})


def look_after(desk: Desk) -> None:
    """Keep a copy of unsaved work every half minute, and look at what others do."""
    session = desk.session
    session.keep_recovery()
    now = session.clock()
    if now - desk.local.get("looked-s", 0.0) > LOOK_EVERY_S and desk.ask is None:
        desk.local["looked-s"] = now
        _look_outside(desk)
    if session.clash is not None and desk.ask is None:
        desk.ask = ("outside", {"clash": session.clash})
        session.clash = None


def _look_outside(desk: Desk) -> None:
    """Notice what others did to the project's files, and that others work on it."""
    session = desk.session
    session.clash = outside.meet(session)
    folder = session.document.folder
    holder = lock.other_window(folder)
    if holder is None and lock.read_note(folder) != lock.this_process():
        lock.take(folder)
    if holder is not None and holder != desk.local.get("other-window"):
        session.say(f"another window works on this project too{on_host(holder)}", "alarm")
    desk.local["other-window"] = holder


def keep_work(session: Session, error: BaseException) -> None:
    """Keep unsaved work when the window ends by a fault, and say where it is."""
    session.keep_recovery(now=True)
    if session.dirty and session.recovered is session.document:
        error.add_note("unsaved work was kept; open the project again to take it up")


def on_host(holder: lock.Holder) -> str:
    """Say in words on which computer another window is, where it is another one."""
    here = holder.host == lock.this_process().host
    return "" if here else f", on {holder.host}"


def end_by_exception() -> Any:
    """Make the wish of the system to end the process an exception, so that work is kept; return what was."""
    if threading.current_thread() is not threading.main_thread():
        return None

    def end(_number: int, _frame: Any) -> None:
        raise SystemExit(143)  # common practice: 128 and the number of the signal

    return signal.signal(signal.SIGTERM, end)


def flash_doubt(session: Session) -> str:
    """Return why a scene should not be played without a word of caution, or ""."""
    scene = session.scene
    for finding in document_findings(session.document):
        if finding.code == "fast-colours" and scene is not None and finding.where == f"scene {scene.name}":
            return f"Its {finding.text.split(';')[0]}."
    return ""
