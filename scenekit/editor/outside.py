"""What others do to a project's files while it is open: noticed, and joined with what was done here."""

from dataclasses import dataclass

from scenekit.editor.history import Edit
from scenekit.editor.merging import Merge, merge
from scenekit.editor.session import Session, disk_state
from scenekit.errors import SceneKitError
from scenekit.model.edits import checked
from scenekit.model.project import Project
from scenekit.model.store import load

MOST_NAMED = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Both sides changed the same, so that somebody has to say which of the two stays.

    theirs  the document on disk; disk: the state of its files when it was read
    merge   both sides' changes in one, where they can be joined
    """

    theirs: Project
    disk: tuple[object, ...]
    merge: Merge | None


def meet(session: Session) -> Clash | None:
    """Take in what others wrote; return what has to be asked, else None.

    Without work of one's own it is read; else both sides' changes are joined in one step of the history.
    """
    if not session.changed_outside():
        return None
    state = disk_state(session.saved)
    try:
        theirs = load(session.document.folder)
    except SceneKitError as error:
        if session.unread != state:  # somebody may be in the middle of writing
            session.unread = state
            session.say(f"the project changed on disk and cannot be read: {error}", "alarm")
        return None
    session.unread = ()
    disk = disk_state(theirs)
    if theirs == session.saved:
        session.disk = disk
        return None
    if session.document == session.saved:
        _put(session, theirs, theirs, disk, "what changed on disk")
        session.say("the project changed on disk, and was read again; undo brings back what was")
        return None
    joined = merge(session.saved, session.document, theirs)
    sound = _sound(joined.mine) and _sound(joined.theirs)
    if joined.clashes or not sound:
        return Clash(theirs=theirs, disk=disk, merge=joined if sound else None)
    _put(session, joined.mine, theirs, disk, "what changed on disk as well")
    session.say(f"the project changed on disk; joined with what you did: {listed(joined.taken)}")
    return None


def settle(session: Session, clash: Clash, answer: str) -> None:
    """Do what was answered: keep `mine` or take `theirs` where both changed the same, and join the rest."""
    if clash.merge is None:
        document = session.document if answer == "mine" else clash.theirs
    else:
        document = clash.merge.mine if answer == "mine" else clash.merge.theirs
    _put(session, document, clash.theirs, clash.disk, "what changed on disk as well")


def listed(places: tuple[str, ...]) -> str:
    """Return places in words, the first few of many."""
    more = len(places) - MOST_NAMED
    return "; ".join(places[:MOST_NAMED]) + (f"; {more} more" if more > 0 else "")


def _put(session: Session, document: Project, theirs: Project, disk: tuple[object, ...], label: str) -> None:
    if document == theirs:
        document = theirs
    if document is not session.document:
        session.history.put(Edit(document=document, label=label))
    session.saved, session.disk = theirs, disk


def _sound(document: Project) -> bool:
    try:
        checked(document)
    except SceneKitError:
        return False
    return True


def pictures_changed(before: tuple[object, ...], after: tuple[object, ...]) -> list[str]:
    """Return the picture files of a project that others wrote between two states of its files."""
    olds = {item[0]: item[1:] for item in before if isinstance(item, tuple)}
    news = {item[0]: item[1:] for item in after if isinstance(item, tuple)}
    return [str(name) for name, state in news.items() if name in olds and olds[name] != state and any(state)]
