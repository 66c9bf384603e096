"""What follows from a document: reduced art, budget, memory; made in the background, newest wish first."""

import threading
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from scenekit.errors import SceneKitError
from scenekit.model.project import Project
from scenekit.model.scene import Scene

if TYPE_CHECKING:
    from scenekit.build import Build, Kept
    from scenekit.costs.estimate import Estimate, Priced
    from scenekit.costs.worst import WorstCase
    from scenekit.machines.machine import DisplayMode, Machine


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What is wanted: a scene of a document for a target, with the state of the art's files."""

    document: Project
    scene: str
    target: str
    files: tuple[object, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Product:
    """What was made of a wish, as far as it got.

    look      reduced art to draw with, and the mode's size and timing; None until there is one
    budget    costs of every tick; None until known
    worst     the dearest picture that the game can ask for; None until known
    error     why it went no further, in words
    made      whether the art is of this wish; until then it is that of the wish before
    """

    wish: Wish
    art: Any = None
    look: Any = None
    mode: "DisplayMode | None" = None
    machine: "Machine | None" = None
    build: "Build | None" = None
    budget: "Estimate | None" = None
    worst: "WorstCase | None" = None
    error: str = ""
    stage: str = ""
    made: bool = False
    done: bool = False


def art_key(project: Project) -> tuple[object, ...]:
    """Return everything on which the pictures of a project depend."""
    sheets = tuple((sheet.name, sheet.file, sheet.key) for sheet in project.sheets)
    planes = tuple(
        (scene.name, plane.name, plane.picture, plane.map, plane.sheet, plane.key)
        for scene in project.scenes
        for plane in scene.planes
    )
    rows = tuple(
        (plane.rows, *(band.rows for band in plane.bands))
        for scene in project.scenes
        for plane in scene.planes
    )
    mapped = {plane.sheet for scene in project.scenes for plane in scene.planes if plane.map}
    frames = tuple(sheet.frames for sheet in project.sheets if sheet.name in mapped)
    return sheets, planes, rows, frames


def colours_key(project: Project, target: str) -> tuple[object, ...]:
    """Return everything on which the reduced pictures of a project depend."""
    from scenekit.images.reduced import flat_colours
    from scenekit.images.weights import shown_sheet_pixels
    from scenekit.model.usage import frames_in_use

    chosen = next((t for t in project.targets if t.name == target), None)
    scenes = tuple((s.name, s.backdrop, s.events, *flat_colours(s)) for s in project.scenes)
    used = frames_in_use(project)
    areas = tuple(
        (s.name, f.name, f.box) for s in project.sheets for f in s.frames if (s.name, f.name) in used
    )
    wraps = tuple(plane.wrap for scene in project.scenes for plane in scene.planes)
    weights = (areas, wraps, shown_sheet_pixels(project))
    return art_key(project), project.cycles, project.palettes, scenes, chosen, weights


def file_states(project: Project) -> tuple[object, ...]:
    """Return size and time of every picture file of a project."""
    files = [sheet.file for sheet in project.sheets]
    files += [plane.picture or plane.map for scene in project.scenes for plane in scene.planes]
    files += [palette.file for palette in project.palettes if palette.file]
    return tuple((name, *_state(project.folder / name)) for name in dict.fromkeys(files))


def _state(path: Path) -> tuple[int, int]:
    try:
        found = path.stat()
    except OSError:
        return 0, 0
    return found.st_size, found.st_mtime_ns


class _Superseded(Exception):
    """A newer wish came."""


@dataclass(slots=True, eq=False)
class Products:
    """One worker that makes the newest wish, and what it has made so far."""

    wake: Callable[[], None] = lambda: None
    now: Product | None = None
    wanted: Wish | None = None
    _lock: threading.Lock = field(default_factory=threading.Lock)
    _worker: threading.Thread | None = None
    _kept: "Kept | None" = None

    @property
    def busy(self) -> bool:
        """Whether something is being made."""
        return self.now is None or not self.now.done or self.now.wish is not self.wanted

    def wish(self, wish: Wish) -> None:
        """Ask for something; what is being made for an older wish is dropped."""
        with self._lock:
            if self.wanted is not None and _same(self.wanted, wish):
                return
            self.wanted = wish
            if self._worker is None:
                self._worker = threading.Thread(target=self._work, daemon=True)
                self._worker.start()

    def wait(self) -> Product:
        """Return the finished product of the newest wish; for tests and tools."""
        while True:
            worker = self._worker
            if worker is not None:
                worker.join()
            elif self.now is not None and self.now.wish is self.wanted:
                return self.now

    def _work(self) -> None:
        while True:
            with self._lock:
                wish = self.wanted
                if wish is None or (self.now is not None and self.now.wish is wish and self.now.done):
                    self._worker = None
                    return
            try:
                self._make(wish)
            except _Superseded:
                continue

    def _publish(self, product: Product) -> None:
        if self.wanted is not product.wish:
            raise _Superseded
        self.now = product
        self.wake()

    def _make(self, wish: Wish) -> None:
        old = self.now
        product = Product(wish=wish, stage="reading art")
        if old is not None and old.wish.document.folder == wish.document.folder:
            product = replace(product, art=old.art)
            if old.wish.target == wish.target and old.wish.scene == wish.scene:
                product = replace(
                    product,
                    mode=old.mode,
                    machine=old.machine,
                    build=old.build,
                    budget=old.budget,
                    worst=old.worst,
                )
            if _same_look(old.wish, wish):
                product = replace(product, look=old.look)
        try:
            self._steps(product, old)
        except SceneKitError as error:
            self._fail(product, str(error))
        except _Superseded:
            raise
        except (
            OSError,
            MemoryError,
            ArithmeticError,
            LookupError,
            TypeError,
            ValueError,
            AttributeError,
            AssertionError,
        ) as error:
            self._fail(product, f"this could not be reckoned: {type(error).__name__}: {error}")

    def _fail(self, product: Product, error: str) -> None:
        latest = self.now if self.now is not None and self.now.wish is product.wish else product
        self._publish(replace(latest, error=error, done=True, stage=""))

    def _steps(self, product: Product, old: Product | None) -> None:
        from scenekit.build import Build, Kept, run_stages
        from scenekit.costs.estimate import estimate
        from scenekit.costs.worst import worst_case

        wish = product.wish
        project, target, scene = wish.document, wish.target, wish.scene
        self._publish(product)
        shared: Build | None = None
        if old is not None and old.made and old.art is not None and _same_art(old.wish, wish):
            shared = Build(project=project, scene=None, target=None, options=None)  # type: ignore[arg-type]
            shared.art = old.art
            if old.look is not None and _same_look(old.wish, wish):
                shared.target, shared.reduced = project.target(target), old.look
        if not project.scenes:
            from scenekit.images.art import load_art

            art = load_art(project)
            self._publish(replace(product, art=art, made=True, done=True, stage=""))
            return

        def stage(name: str, _done: int, _total: int) -> None:
            if self.wanted is not wish:
                raise _Superseded(name)

        kept = self._kept = self._kept or Kept()
        first = run_stages(project, target, scene, last="colours", progress=stage, shared=shared, kept=kept)
        product = replace(
            product, art=first.art, look=first.reduced, mode=first.mode, machine=first.machine, made=True,
            stage="reckoning the budget",
        )  # fmt: skip
        self._publish(product)
        full = run_stages(project, target, scene, progress=stage, shared=_with(first, old), kept=kept)
        product = replace(product, build=full)
        self._publish(product)
        budget = estimate(full.planner, full.machine, full.mode, full.scene, range(full.scene.ticks))
        product = replace(product, budget=budget)
        self._publish(product)
        worst = worst_case(full.project, full.scene, full.planner, full.machine, full.mode, budget)
        self._publish(replace(product, worst=worst, done=True, stage=""))


def _with(first: "Build", old: Product | None) -> "Build":
    """Return a build to take art, colours and, for the same scene and sprites, motion from."""
    if old is not None and old.build is not None and old.build.looks is not None:
        same = old.build.scene is first.scene and old.build.project.sprites is first.project.sprites
        if same and old.build.project.sheets is first.project.sheets:
            first.looks = old.build.looks
    return first


def _same(one: Wish, two: Wish) -> bool:
    return (
        one.document is two.document
        and one.scene == two.scene
        and one.target == two.target
        and one.files == two.files
    )


def _same_art(one: Wish, two: Wish) -> bool:
    return one.files == two.files and art_key(one.document) == art_key(two.document)


def _same_look(one: Wish, two: Wish) -> bool:
    if one.files != two.files:
        return False
    return colours_key(one.document, one.target) == colours_key(two.document, two.target)


def costs_at(product: Product, scene: Scene, tick: int) -> "tuple[Priced, ...]":
    """Return the priced work of one tick, in drawing order; empty until the plan is known."""
    from scenekit.costs.estimate import price

    build = product.build
    if build is None or build.planner is None or product.mode is None or product.machine is None:
        return ()
    step = scene.ticks_per_update
    drawn = tick - tick % step
    work = build.planner.plan(drawn, max(0, drawn - step))
    return price(work, product.machine.costs_in(product.mode.name), float(product.mode.timing.period_ms))
