"""The stages that turn a scene into tables and files, and encode them."""

from collections.abc import Sequence
from dataclasses import replace

from scenekit.building.state import Build, Extras
from scenekit.costs.loading import unpacking_saved_by_plain
from scenekit.dialects.dialect import Dialect
from scenekit.errors import ExportError
from scenekit.findings import Finding
from scenekit.plan.changes import MOST_BOXES
from scenekit.plan.schemes import (
    BLIT,
    PAGE,
    RUNS,
)
from scenekit.programs.unpack import pack_tables
from scenekit.routines.language import Table
from scenekit.routines.library import is_wide
from scenekit.tables.bundle import Bundle, blit_tables, build_bundle, run_arrays
from scenekit.tables.changes import change_parts, inked_tables
from scenekit.tables.holding import holding_parts
from scenekit.tables.image_files import indexed_file, page_file, raw_file
from scenekit.tables.mapfile import keep_in_file
from scenekit.tables.packed import Choice, encode_tables
from scenekit.tables.spans import span_tables, spanned_frames
from scenekit.tables.turning import turning_parts
from scenekit.tables.waking import waking_parts


def needed_extras(builds: Sequence[Build], map_file: str) -> Extras:
    """Return the parts that any of some scenes needs.

    map_file  what a file of their large maps would be called
    """
    return Extras(
        turns=any(build.pieces.turns.lists for build in builds),
        sleepers=any(placed.asleep for build in builds for placed in build.scene.placed),
        spans=any(spanned_frames(build.project, build.scene) for build in builds),
        held=any(plane.cadence[0] > 1 for build in builds for plane in build.scene.planes),
        map_file=map_file if any(any(build.windows) for build in builds) else "",
    )


def basic_bundle(build: Build) -> Bundle:
    """Return the tables, variables and file of maps of a scene that every way to draw has."""
    bundle = build_bundle(
        build.project,
        build.scene,
        build.reduced,
        build.pieces,
        build.view,
        build.screen,
        build.planner.clears,
        build.flags,
    )
    extras = build.extras
    tables, variables, arrays = waking_parts(build.scene, extras.sleepers)
    turn_tables, turn_variables, turn_arrays = turning_parts(build.pieces.turns, extras.turns)
    tables, variables, arrays = tables + turn_tables, variables + turn_variables, arrays + turn_arrays
    held_tables, held_arrays = holding_parts(build.scene, extras.held)
    tables, arrays = tables + held_tables, arrays + held_arrays
    if extras.spans:
        frames = spanned_frames(build.project, build.scene)
        tables += span_tables(build.pieces, frames, build.reduced.transparent)
    whole = replace(
        bundle,
        tables=bundle.tables + tables,
        variables=bundle.variables + variables,
        arrays=bundle.arrays + arrays,
    )
    if not extras.map_file:
        return whole
    return keep_in_file(
        whole, build.pieces, build.flags, build.windows, extras.map_file, start=build.map_start
    )


def make_tables(build: Build) -> None:
    """Turn everything into integer tables and image files."""
    build.extras = needed_extras([build], f"{build.name}-maps.raw")
    bundle = basic_bundle(build)
    tables, arrays, files = bundle.tables, bundle.arrays, dict(bundle.files)
    if build.scheme is BLIT:
        build.art_file = f"{build.name}-art.{build.abilities.image_format}"
        tables += blit_tables(build.pieces)
        palette = build.reduced.palette
        kind, clear = build.abilities.image_format, build.reduced.transparent
        files[build.art_file] = indexed_file(build.pieces.packed, palette, kind, clear)
    variables = bundle.variables
    if build.changes:
        more, sizes = change_parts(build.scene, build.abilities.pages, dict(variables), MOST_BOXES)
        variables, arrays = variables + more, arrays + sizes
        tables += inked_tables(build.planner.inked)
    if build.scheme is PAGE:
        build.art_file = f"{build.name}-art.raw"
        tables += blit_tables(build.pieces)
        variables += page_variables(build)
        files[build.art_file] = page_file(build.pieces.packed)
    if build.scheme is RUNS:
        build.art_file = f"{build.name}-art.raw"
        arrays += run_arrays(build.pieces, build.reduced.transparent)
        files[build.art_file] = raw_file(build.pieces)
    build.bundle = Bundle(tables=tables, arrays=arrays, variables=variables, files=files)
    check_values(build.dialect, tables)


def check_values(dialect: Dialect, tables: Sequence[Table]) -> None:
    """Refuse values that the numbers of a dialect cannot hold.

    raises   ExportError: with the table
    """
    limits = dialect.limits
    for table in tables:
        high = limits.wide_high if is_wide(table.name) else limits.integer_high
        for value in table.values:
            if abs(value) > high:
                raise ExportError(
                    f"table {table.name}: {value} is beyond the integers of dialect {dialect.name} ({high})"
                )


def _encoded(build: Build, table: Table, row: int) -> tuple[Choice, ...]:
    """Encode a table whose values are others than before."""
    return build.kept.get(
        "table", (*build.label, table.name), (table, row), lambda: encode_tables([table], {table.name: row})
    )


def page_variables(build: Build) -> tuple[tuple[str, int], ...]:
    """Return what loading the art into a hidden page needs to know.

    raises   ExportError: the art and its masks do not fit the page
    """
    height, width = build.pieces.packed.shape
    if 2 * height > build.mode.height_px or width > build.mode.width_px:
        raise ExportError(
            f"art: {width} x {height} px packed; a hidden page of {build.mode.width_px} x "
            f"{build.mode.height_px} px holds {build.mode.width_px} x {build.mode.height_px // 2} px and "
            "as much for masks; use fewer or smaller frames and tiles"
        )
    return (
        ("art_w", width),
        ("art_h", height),
        ("all_bits", build.mode.entries - 1),
    )


def encode_bundle(build: Build) -> None:
    """Encode every table the way that makes it smallest, and decode it again.

    Where costs are known, tables whose unpacking would take too long stay plain numbers.
    """
    rows = {"map_cell": max((c.columns for c in build.pieces.planes), default=0)}
    build.choices = tuple(
        choice for table in build.bundle.tables for choice in _encoded(build, table, rows.get(table.name, 0))
    )
    wanted = build.target.encode if build.options.encode == "auto" else build.options.encode
    if wanted == "never":
        return
    packed = pack_tables(build.choices, build.dialect.words, build.dialect.limits.wide_high)
    if packed is not None and (wanted == "always" or packed.saves):
        build.packed = packed
    if build.packed is not None and wanted == "auto":
        prices, limits = build.machine.costs_in(build.mode.name), build.dialect.limits
        size = sum(choice.decimal_bytes for choice in build.choices)
        fits = not limits.program_bytes or size < limits.program_bytes // 2
        slower = unpacking_saved_by_plain(prices, build.choices, build.packed.form)
        if fits and slower is not None:
            build.packed = None
            build.findings.append(
                Finding(
                    level="note",
                    code="plain-tables",
                    where=f"scene {build.scene.name}",
                    text=f"tables are plain numbers: unpacking would take {slower[0]:.0f} s when the game "
                    f"starts, reading them {slower[1]:.0f} s",
                )
            )
