"""A build in progress: what the user may choose about it, and what each stage adds."""

from collections.abc import Callable
from dataclasses import dataclass, field

from scenekit.building.kept import Kept
from scenekit.costs.memory import Filled
from scenekit.dialects.dialect import Dialect
from scenekit.findings import Finding
from scenekit.images.art import Art
from scenekit.images.reduced import ReducedArt
from scenekit.machines.machine import DisplayMode, Machine
from scenekit.model.arrays import Indices, Pixels
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.target import Target
from scenekit.motion.shown import Looks
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.schemes import (
    Abilities,
    Scheme,
)
from scenekit.programs.unpack import Packed
from scenekit.render.screen import render_screen
from scenekit.tables.bundle import Bundle
from scenekit.tables.mapfile import Windows
from scenekit.tables.packed import Choice
from scenekit.tables.pieces import Pieces
from scenekit.tiles.flags import FlagMap

Progress = Callable[[str, int, int], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildOptions:
    """What the user may choose about an export.

    prefix      before names in generated code
    first_line  of numbered dialects
    play        also write the program that plays the scene
    counting    count calls and pixels of every operation
    encode      "auto" encodes tables where that is shorter, "always", "never"
    report      stops at which the playing program reports numbered records with sums, for proof on a board
    program     file name without ending, and text, of the user's own program in neutral words, or None
    missed      the playing program reports how many refreshes were missed when it ends
    missed_value  name of the value by which it shows them while it plays, or ""
    row_sums    it reports sums of the screen's rows there, and saves no screen
    """

    prefix: str = "sk_"
    first_line: int = 1000
    play: bool = False
    counting: bool = False
    encode: str = "auto"
    report: tuple[int, ...] = ()
    row_sums: bool = False
    missed: bool = False
    missed_value: str = ""
    program: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Extras:
    """Parts that a program has only where one of its scenes needs them.

    turns     tiles that take turns
    sleepers  sprites that sleep
    spans     rows of sprites, for collisions
    held      planes that are shown anew only every few ticks
    map_file  name of the file that holds large maps, or ""
    """

    turns: bool = False
    sleepers: bool = False
    spans: bool = False
    held: bool = False
    map_file: str = ""


@dataclass(slots=True)
class Build:
    """A build in progress; each stage adds its results.

    together   all scenes that are to be drawn in one way
    extras     parts that the tables have room for, also where only another scene needs them
    map_start  bytes of the file of maps before those of this scene
    arrays     every array of the library with its size, tables included
    common     pieces that several of them share
    kept       what builds before this one made
    """

    project: Project
    scene: Scene
    target: Target
    options: BuildOptions
    together: tuple[Scene, ...] = ()
    common: tuple[Indices, ...] = ()
    kept: Kept = field(default_factory=Kept)
    findings: list[Finding] = field(default_factory=list)
    flags: tuple[FlagMap | None, ...] = ()
    machine: Machine = None  # type: ignore[assignment]
    mode: DisplayMode = None  # type: ignore[assignment]
    dialect: Dialect = None  # type: ignore[assignment]
    abilities: Abilities = None  # type: ignore[assignment]
    scheme: Scheme = None  # type: ignore[assignment]
    art: Art = None  # type: ignore[assignment]
    reduced: ReducedArt = None  # type: ignore[assignment]
    cut_art: ReducedArt = None  # type: ignore[assignment]
    pieces: Pieces = None  # type: ignore[assignment]
    planner: DrawPlanner = None  # type: ignore[assignment]
    changes: bool = False
    windows: Windows = ()
    extras: Extras = field(default_factory=Extras)
    map_start: int = 0
    looks: Looks | None = None
    bundle: Bundle = None  # type: ignore[assignment]
    choices: tuple[Choice, ...] = ()
    packed: Packed | None = None
    art_file: str = ""
    arrays: tuple[tuple[str, int], ...] = ()
    files: dict[str, bytes] = field(default_factory=dict)
    own_files: dict[str, bytes] = field(default_factory=dict)
    memory: tuple[Filled, ...] = ()

    @property
    def label(self) -> tuple[str, str]:
        """Return what tells it from the other builds of a project: scene and target."""
        return self.scene.name, self.target.name

    @property
    def size(self) -> tuple[int, int]:
        """Return (width, height) of the view in pixels."""
        return self.view[2], self.view[3]

    @property
    def view(self) -> tuple[int, int, int, int]:
        """Return (x, y, width, height) of the part of the screen that scrolls."""
        return self.target.view or (0, 0, *self.screen)

    @property
    def screen(self) -> tuple[int, int]:
        """Return (width, height) of the screen in pixels."""
        return self.mode.width_px, self.mode.height_px

    def picture(self, tick: int) -> Pixels:
        """Return the whole screen at a tick, (H, W, 3) uint8, from the reference renderer."""
        return render_screen(self.project, self.scene, self.reduced, self.screen, self.view, tick)

    @property
    def name(self) -> str:
        """Return the stem of the exported files."""
        return self.scene.name

    @property
    def program_file(self) -> str:
        """Return the name of the library file."""
        return f"{self.name}{self.dialect.file_ending}"

    @property
    def play_file(self) -> str:
        """Return the name of the playing program's file."""
        return f"{self.name}-play{self.dialect.file_ending}"
