"""The tables of colours: the palette, cycles and events, and transitions that cover the view."""

from scenekit.images.reduced import ReducedArt
from scenekit.model.scene import Scene
from scenekit.motion.covers import turnover_of
from scenekit.tables.collected import Collected, starts_of


def colour_table(art: ReducedArt, scene: Scene) -> list[tuple[int, int, int]]:
    """Return the base palette, then the colours of every event's steps in order."""
    colours = [(int(c[0]), int(c[1]), int(c[2])) for c in art.palette]
    for change in art.changes[scene.name]:
        for step in change.colours:
            colours.extend(step)
    return colours


def palette_tables(tables: Collected, art: ReducedArt, scene: Scene) -> None:
    changes = art.changes[scene.name]
    moving = {e for c in art.cycles for e in range(c.first, c.first + c.count)}
    moving |= {entry for change in changes for entry in change.entries}
    tables.add("moving_entry", sorted(moving), "entries that cycles and events recolour")
    tables.add("cycle_first", [c.first for c in art.cycles], "first entry of each cycle")
    tables.add("cycle_count", [c.count for c in art.cycles], "its entries")
    tables.add("cycle_ticks", [c.ticks for c in art.cycles], "ticks between two turns")
    tables.add("cycle_period", [c.period for c in art.cycles], "turns until it looks the same again")
    tables.add("cycle_back", [int(c.backward) for c in art.cycles], "1 when colours move to the entry before")
    tables.add("event_tick", [c.tick for c in changes], "tick of each event's first step")
    tables.add("event_steps", [len(c.colours) for c in changes], "its steps")
    tables.add("event_wait", [c.ticks_per_step for c in changes], "ticks between two steps")
    tables.add("event_first", starts_of([len(c.entries) for c in changes]), "its first place in event_entry")
    tables.add("event_count", [len(c.entries) for c in changes], "entries it recolours")
    lengths = [len(c.entries) * len(c.colours) for c in changes]
    tables.add("event_colour", [len(art.palette) + s for s in starts_of(lengths)], "its first colour")
    tables.add("event_entry", [e for c in changes for e in c.entries], "entries of all events")


def cover_tables(tables: Collected, scene: Scene, art: ReducedArt, view: tuple[int, int]) -> None:
    turns = [turnover_of(transition, view, scene.name) for transition in scene.transitions]
    tables.add("cover_tick", [t.tick for t in scene.transitions], "tick at which each transition begins")
    tables.add("cover_ticks", [t.ticks for t in scene.transitions], "ticks that it takes")
    tables.add("cover_opens", [int(t.opens) for t in scene.transitions], "1 when it uncovers the view")
    tables.add("cover_entry", [art.covers[t.colour] for t in scene.transitions], "entry that it covers with")
    tables.add("cover_columns", [turn.columns for turn in turns], "columns of its cells")
    tables.add("cover_cells", [len(turn.order) for turn in turns], "cells in all")
    tables.add("cover_w", [t.cell[0] for t in scene.transitions], "pixels of a cell")
    tables.add("cover_h", [t.cell[1] for t in scene.transitions], "")
    tables.add("cover_first", starts_of([len(turn.order) for turn in turns]), "its first place in cover_cell")
    tables.add(
        "cover_begin", starts_of([len(turn.starts) for turn in turns]), "its first place in cover_count"
    )
    tables.add(
        "cover_cell", [c for turn in turns for c in turn.order], "cells in the order in which they turn"
    )
    tables.add("cover_count", [n for turn in turns for n in turn.starts], "cells turned after each tick")
