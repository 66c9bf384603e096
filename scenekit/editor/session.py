"""One person's work on one project: document, history, what is chosen and shown. Knows no window."""

import os
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from scenekit.editor import drafts, recovery
from scenekit.editor.history import Clock, Edit, History
from scenekit.editor.playing import Playing
from scenekit.editor.products import Products, Wish, file_states
from scenekit.errors import SceneKitError
from scenekit.model.arrays import Pixels
from scenekit.model.edits import checked
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.sprites import Sheet, Sprite
from scenekit.model.store import PROJECT_FILE, load, save
from scenekit.model.target import Target
from scenekit.motion.covers import first_clear_tick

if TYPE_CHECKING:
    from scenekit.editor.outside import Clash

STATIONS = ("machine", "sheets", "frames", "motion", "planes", "colours", "score", "budget", "export")
NOTICE_S = 6.0


@dataclass(slots=True)
class Chosen:
    """What is chosen in the stations, by name; "" is nothing."""

    sheet: str = ""
    frames: tuple[str, ...] = ()
    sprite: str = ""
    animation: str = ""
    step: int = 0
    plane: str = ""
    placed: str = ""
    cycle: str = ""
    part: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """A sentence for the person, and until when it stays."""

    text: str
    level: str
    until_s: float


@dataclass(slots=True, eq=False)
class Session:
    """Everything that changes while somebody works."""

    history: History
    saved: Project
    clock: Clock
    products: Products
    station: str = "machine"
    scene_name: str = ""
    target_name: str = ""
    chosen: Chosen = field(default_factory=Chosen)
    playing: Playing = field(default_factory=Playing)
    notice: Notice | None = None
    recovered_s: float = 0.0
    recovered: Project | None = None
    recovery_own: str = ""
    disk: tuple[object, ...] = ()
    unread: tuple[object, ...] = ()
    clash: "Clash | None" = None
    files: tuple[object, ...] = ()
    files_s: float = -10.0
    files_of: Project | None = None
    changed_pictures: set[str] = field(default_factory=set)
    old_pictures: dict[str, Pixels] = field(default_factory=dict)
    flash_seen: set[str] = field(default_factory=set)

    @property
    def document(self) -> Project:
        """Return the document as it is now."""
        return self.history.document

    @property
    def dirty(self) -> bool:
        """Whether there is work that is not saved."""
        return self.document is not self.saved

    @property
    def scene(self) -> Scene | None:
        """Return the scene that is shown."""
        scenes = self.document.scenes
        return next((s for s in scenes if s.name == self.scene_name), scenes[0] if scenes else None)

    @property
    def target(self) -> Target | None:
        """Return the target that is looked at."""
        targets = self.document.targets
        return next((t for t in targets if t.name == self.target_name), targets[0] if targets else None)

    @property
    def sheet(self) -> Sheet | None:
        """Return the chosen sheet, or the first."""
        sheets = self.document.sheets
        return next((s for s in sheets if s.name == self.chosen.sheet), sheets[0] if sheets else None)

    @property
    def sprite(self) -> Sprite | None:
        """Return the chosen sprite, or the first."""
        sprites = self.document.sprites
        return next((s for s in sprites if s.name == self.chosen.sprite), sprites[0] if sprites else None)

    def show_scene(self, name: str) -> None:
        """Show a scene, at its first tick that no transition covers."""
        self.scene_name = name
        if (scene := self.scene) is not None:
            self.playing.go(first_clear_tick(scene.transitions, scene.ticks), scene.ticks)

    def apply(self, edit: Edit | None) -> bool:
        """Take an edit into the history; one that breaks a rule of the format is refused in words."""
        if edit is None or edit.document is self.document:
            return False
        if not edit.held:
            try:
                checked(edit.document)
            except SceneKitError as error:
                self.say(str(error), "alarm")
                return False
        self.history.put(edit)
        return True

    def attempt(self, make: Callable[[], Edit | None]) -> bool:
        """Take an edit that may turn out to be impossible; say why when it does."""
        try:
            return self.apply(make())
        except SceneKitError as error:
            self.say(str(error), "alarm")
            return False

    def say(self, text: str, level: str = "note") -> None:
        """Show a sentence for a while."""
        self.notice = Notice(text=text, level=level, until_s=self.clock() + NOTICE_S)

    def undo(self) -> None:
        """Take the last step back."""
        label = self.history.undo_label
        if self.history.undo():
            self.say(f"taken back: {label}")

    def redo(self) -> None:
        """Do the step again that was taken back."""
        if self.history.redo():
            self.say(f"done again: {self.history.undo_label}")

    def save(self) -> bool:
        """Write the document, joined with what others wrote meanwhile; return whether it is on disk."""
        from scenekit.editor.outside import meet

        self.clash = meet(self)
        if self.clash is not None:
            return False
        try:
            checked(self.document)
            for old, new in drafts.settle(self.document):
                self.history.rewrite(partial(drafts.with_map, old=old, new=new))
            save(self.document)
        except SceneKitError as error:
            self.say(str(error), "alarm")
            return False
        self.saved = self.document
        self.disk = disk_state(self.document)
        recovery.drop(self.document.folder, self.recovery_own)
        self.recovered = None
        self.say("saved")
        return True

    def changed_outside(self) -> bool:
        """Say whether somebody else wrote the project's files since they were read or saved."""
        return bool(self.disk) and disk_state(self.saved) != self.disk

    def keep_recovery(self, *, now: bool = False) -> None:
        """Write the recovery copy when there is something new, at most every half minute."""
        time_s = self.clock()
        if not self.dirty or self.recovered is self.document:
            return
        if not now and time_s - self.recovered_s < recovery.EVERY_S:
            return
        self.recovered_s = time_s
        try:
            recovery.keep(self.history.newest(_sound), self.recovery_own)
            self.recovered = self.document
        except (SceneKitError, OSError) as error:
            self.say(f"no recovery copy: {error}", "alarm")

    def wish(self) -> None:
        """Ask for everything that follows from the document as it is."""
        time_s = self.clock()
        if time_s - self.files_s > 1.0 or self.files_of is not self.document:
            same, before = self.files_of is self.document, self.files
            self.files_s, self.files_of = time_s, self.document
            self.files = file_states(self.document)
            if same and before != self.files:
                self.pictures_changed(before)
        if self.target is None:
            return
        scene = self.scene.name if self.scene else ""
        self.products.wish(
            Wish(document=self.document, scene=scene, target=self.target.name, files=self.files)
        )

    def pictures_changed(self, before: tuple[object, ...]) -> None:
        """Say which picture files others changed, and remember them for the station of sheets."""
        from scenekit.editor.outside import listed, pictures_changed

        names = pictures_changed(before, self.files)
        art = self.products.now.art if self.products.now is not None else None
        known = art.sheets if art is not None else {}
        for sheet in self.document.sheets:
            if sheet.file in names and sheet.name in known:
                self.old_pictures.setdefault(sheet.file, known[sheet.name])
        if names:
            self.changed_pictures |= set(names)
            self.say(f"changed on disk and read again: {listed(tuple(names))}")

    def files_changed(self) -> None:
        """Look at the picture files again at once."""
        self.files_s = -10.0

    def walk(self, steps: int) -> None:
        """Go to another station."""
        self.station = STATIONS[(STATIONS.index(self.station) + steps) % len(STATIONS)]


def _sound(document: Project) -> bool:
    """Say whether a document could be read back from its own text."""
    try:
        checked(document)
    except SceneKitError:
        return False
    return True


def disk_state(project: Project) -> tuple[object, ...]:
    """Return size and time of a project's own files."""
    names = [PROJECT_FILE, *(os.path.join("scenes", f"{scene.name}.toml") for scene in project.scenes)]
    states = []
    for name in names:
        try:
            found = (project.folder / name).stat()
            states.append((name, found.st_size, found.st_mtime_ns))
        except OSError:
            states.append((name, 0, 0))
    return tuple(states)


def open_session(folder: Path, clock: Clock = time.monotonic) -> Session:
    """Open a project.

    raises   ProjectError, UnknownNameError: it cannot be read
    """
    document = load(folder)
    session = Session(
        history=History(document, clock),
        saved=document,
        clock=clock,
        products=Products(),
        recovered_s=clock(),
    )
    session.disk = disk_state(document)
    session.show_scene("")
    session.station = "sheets" if not document.sheets else "planes"
    return session
