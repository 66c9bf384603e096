"""Counts the draw plan of many ticks at once; tick by tick it equals what the planner gives."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.motion.tracks import cameras_along, shown_scrolls
from scenekit.motion.waking import own_ticks
from scenekit.plan.amounts import Amounts
from scenekit.plan.changecounts import ChangeCounts
from scenekit.plan.changework import LOOKING
from scenekit.plan.coloursalong import colours_along, mixed_along
from scenekit.plan.distinct import distinct_pairs
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.mapwork import cells_read_along
from scenekit.plan.panelwork import border_work
from scenekit.plan.planecounts import PlaneCounts
from scenekit.plan.spritecounts import Scrolls, SpriteCounts
from scenekit.plan.stepwork import planes_of_a_tick
from scenekit.plan.work import Work

Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Counted:
    """What is done at some ticks.

    ticks   (T,) that are drawn
    whole   everything
    others  what is neither plane nor sprite, by name
    """

    ticks: Whole
    whole: Amounts
    others: dict[str, Amounts]

    def most_of_others(self) -> list[Work]:
        """Return each operation of each other thing as often as on the tick that has most of it."""
        found = []
        for name, amounts in self.others.items():
            for operation, (calls, rows, pixels) in amounts.items():
                place = int(np.lexsort((-np.arange(len(calls)), pixels, calls))[-1])
                found.append(
                    Work(
                        name=name,
                        operation=operation,
                        calls=int(calls[place]),
                        rows=int(rows[place]),
                        pixels=int(pixels[place]),
                    )
                )
        return found


class Counter:
    """Counts the ticks of a planner's scene; sums that all ticks share are made once."""

    def __init__(self, planner: DrawPlanner) -> None:
        self.planner = planner
        self.planes = [PlaneCounts(planner, number) for number in range(len(planner.scene.planes))]
        self.sprites = SpriteCounts(planner)

    def count(self, ticks: Whole, before: Whole, page: Whole) -> Counted:
        """Return the work of drawing ticks.

        ticks   (T,) to draw
        before  (T,) the tick on show before each, -1 for none
        page    (T,) the tick drawn last on the same page, -1 for none
        """
        planner = self.planner
        whole, others = Amounts(len(ticks)), dict[str, Amounts]()
        if planner.scheme.draws:
            camera = cameras_along(planner.scene, ticks)
            scrolls = [shown_scrolls(planner.scene, plane, camera, ticks) for plane in planner.scene.planes]
            partly = (
                self._partly(ticks, page, scrolls) if planner.changes else np.zeros(len(ticks), dtype=bool)
            )
            chosen = np.flatnonzero(~partly)
            mine = [(across[chosen], down[chosen]) for across, down in scrolls] if partly.any() else scrolls
            self._add_everything(whole, chosen, ticks[chosen], mine)
            if planner.changes:
                looking = others[LOOKING] = Amounts(len(ticks))
                looking.add("changes", 1)
                looking.add("seen-plane", len(planner.scene.planes))
                if partly.any():
                    self._add_changes(whole, looking, np.flatnonzero(partly), ticks, page, scrolls)
            self._add_maps(others, ticks, before, scrolls)
            self._add_others(others, ticks, np.maximum(0, before), page)
            if planner.clears:
                width, height = planner.view
                backdrop = others["backdrop"] = Amounts(len(ticks))
                backdrop.of("fill")[:, chosen] += np.array([[1], [height], [width * height]])
            for amounts in others.values():
                whole.add_all(amounts)
        return Counted(ticks=ticks, whole=whole, others=others)

    def _add_everything(self, amounts: Amounts, places: Whole, ticks: Whole, scrolls: Scrolls) -> None:
        """Add planes and sprites at the ticks, by their places, that draw everything."""
        whole = amounts if len(places) == amounts.count else Amounts(len(places))
        for number, scroll in enumerate(scrolls):
            if self.planner.turning[number]:
                for place, tick in enumerate(ticks.tolist()):
                    here = (int(scroll[0][place]), int(scroll[1][place]))
                    whole.add_work(self.planner.plane_work(number, here, tick=tick), place)
            else:
                self.add_plane(whole, number, scroll)
        for placed in self.planner.scene.placed:
            self.sprites.add(whole, placed, ticks, scrolls)
        self.sprites.finish(whole)
        if self.planner.changes:
            whole.add("box", 1)
            whole.add("box-sprite", len(self.planner.scene.placed))
        if whole is not amounts:
            for operation, sums in whole.sums.items():
                amounts.of(operation)[:, places] += sums

    def _add_changes(
        self,
        amounts: Amounts,
        looking: Amounts,
        places: Whole,
        ticks: Whole,
        page: Whole,
        scrolls: Scrolls,
    ) -> None:
        """Add what changed at the ticks that stand at some places."""
        counts = ChangeCounts(self.planner, self.planes, self.sprites)
        scene = self.planner.scene
        camera = cameras_along(scene, page[places])
        old = [shown_scrolls(scene, plane, camera, page[places]) for plane in scene.planes]
        now = [(across[places], down[places]) for across, down in scrolls]
        counts.add(amounts, looking, places, (ticks[places], now), (page[places], old))

    def _partly(self, ticks: Whole, page: Whole, scrolls: Scrolls) -> Flags:
        """Return at which ticks it may be that only what changed is drawn: where the page's picture is still
        partly in view, no transition covers it, and what is on show has its colours still.
        """
        scene, old = self.planner.scene, np.maximum(page, 0)
        camera = cameras_along(scene, old)
        steps = np.array(scrolls) - [shown_scrolls(scene, plane, camera, old) for plane in scene.planes]
        apart = (steps != steps[:1]).any(axis=(0, 1))
        partly = (page >= 0) & (apart | (np.abs(steps[0]) < np.array(self.planner.view)[:, None]).all(axis=0))
        for transition in scene.transitions:
            for when in (old, ticks):
                partly &= self.planner.covers.along(transition, when) == 0
        if not self.planner.abilities.recolours:
            cycles, events = self.planner.art.cycles, self.planner.art.changes[scene.name]
            gone = np.where(partly, ticks - old, 0)
            for back in range(int(gone.max(initial=0)) if cycles or events else 0):
                partly &= (gone <= back) | (mixed_along(cycles, events, ticks - back) == 0)
        return np.asarray(partly, dtype=np.bool_)

    def add_plane(self, amounts: Amounts, number: int, scroll: tuple[Whole, Whole]) -> None:
        """Add the work of a plane at scroll positions, each different one counted once."""
        across, down, places = self.different_scrolls(number, scroll)
        amounts.add_all(self.planes[number].at(across, down), places)

    def different_scrolls(self, number: int, scroll: tuple[Whole, Whole]) -> tuple[Whole, Whole, Whole]:
        """Return the scroll positions of a plane that differ, x and y, and which of them each one is."""
        plane = self.planes[number]
        along = [
            places % plane.whole[axis] if plane.wrap[axis] else places for axis, places in enumerate(scroll)
        ]
        down, across, which = distinct_pairs(along[1], along[0])
        return across, down, which

    def _add_maps(self, others: dict[str, Amounts], ticks: Whole, before: Whole, scrolls: Scrolls) -> None:
        """Add the cells that are read of maps that stay in a file."""
        planner, scene = self.planner, self.planner.scene
        if not any(planner.windows):
            return
        old = np.maximum(before, 0)
        camera = cameras_along(scene, old)
        amounts = others["maps"] = Amounts(len(ticks))
        for number, (plane, window) in enumerate(zip(scene.planes, planner.windows, strict=True)):
            if window is not None:
                last, cut = shown_scrolls(scene, plane, camera, old), planner.pieces.planes[number]
                amounts.add("map-plane", 1)
                amounts.add(
                    "map-cell", cells_read_along(plane, cut, window, last, scrolls[number], before < 0)
                )

    def _add_others(self, others: dict[str, Amounts], ticks: Whole, before: Whole, page: Whole) -> None:
        planner, scene = self.planner, self.planner.scene

        def named(name: str) -> Amounts:
            return others.setdefault(name, Amounts(len(ticks)))

        if planner.bordered and (page < 0).any():
            for work in border_work(scene, planner.screen):
                fresh = (page < 0).astype(np.int64)
                named(work.name).add(
                    work.operation, work.calls * fresh, work.rows * fresh, work.pixels * fresh
                )
        self._add_steps(named("scene"), ticks, before)
        for transition in scene.transitions:
            planner.covers.add_along(named(transition.name), transition, ticks)
        self._add_panel(others, ticks, page)
        named("page").add("page", 1, 0, 1)
        if planner.abilities.recolours:
            palette = named("palette")
            palette.add("entry", planner.moving)
            writes = self._palette_writes(ticks, before)
            palette.add("palette", writes, 0, writes)

    def _add_steps(self, amounts: Amounts, ticks: Whole, before: Whole) -> None:
        """Add the scene's arithmetic between the tick before and each tick."""
        scene = self.planner.scene
        gone = np.maximum(0, ticks - before)
        amounts.add("tick", gone)
        amounts.add("tick-plane", gone * planes_of_a_tick(scene))
        movers = [(scene.camera.path, ticks, before)]
        awake = [placed for placed in scene.placed if not placed.asleep]
        amounts.add("tick-sprite", gone * len(awake))
        movers += [(placed.path, ticks, before) for placed in awake]
        for placed in scene.placed:
            if placed.asleep:
                (own, asleep), (old, slept) = (own_ticks(scene, placed, some) for some in (ticks, before))
                movers.append((placed.path, own, old))
                amounts.add("tick-sprite", own - old + (slept & ~asleep))
        for path, own, old in movers:
            if path.segments:
                end = path.edges[-1][0]
                once = np.maximum(0, np.minimum(own, end) - np.minimum(old, end))
                amounts.add("tick-path", once if path.repeat == "no" else np.maximum(0, own - old))
        if scene.camera.keeps:
            amounts.add("tick-path", gone)
        cycles, changes = self.planner.art.cycles, self.planner.art.changes[scene.name]
        if cycles or changes:
            for back in range(int(gone.max(initial=0))):
                mixed = mixed_along(cycles, changes, ticks - back)
                amounts.add("mixed-entry", np.where(ticks - back > before, mixed, 0))

    def _add_panel(self, others: dict[str, Amounts], ticks: Whole, page: Whole) -> None:
        """Add the items of the panel at the ticks at which they are drawn anew."""
        planner = self.planner
        for place in planner.places:
            changes = np.sort(
                np.array(
                    [c.tick for c in planner.scene.changes if c.value == place.item.value], dtype=np.int64
                )
            )
            set_since = np.searchsorted(changes, ticks, "right") > np.searchsorted(changes, page, "right")
            amounts = others.setdefault(place.item.name, Amounts(len(ticks)))
            for number in np.flatnonzero(set_since | (page < 0)).tolist():
                amounts.add_work(planner.item_work(place, int(ticks[number])), number)

    def _palette_writes(self, ticks: Whole, before: Whole) -> Whole:
        """Return how many entries show another colour than at the tick before."""
        cycles, changes = self.planner.art.cycles, self.planner.art.changes[self.planner.scene.name]
        writes = np.zeros(len(ticks), dtype=np.int64)
        if cycles or changes:
            for now, then in zip(
                colours_along(cycles, changes, ticks, len(self.planner.art.palette)),
                colours_along(cycles, changes, before, len(self.planner.art.palette)),
                strict=True,
            ):
                writes += now != then
        return writes


def counter_of(planner: DrawPlanner) -> Counter:
    """Return the counter of a planner, made when it is first asked for."""
    if not isinstance(planner.counter, Counter):
        planner.counter = Counter(planner)
    return planner.counter
