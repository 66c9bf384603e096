"""Gathers what the report's page shows: each section from a build, in working order."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from scenekit.cli.commands.budget_command import budget_data, picture_data
from scenekit.cli.commands.colours_command import entry_rows
from scenekit.cli.commands.flash_command import Ticks, cause
from scenekit.cli.shared import Progress
from scenekit.errors import SceneKitError
from scenekit.images.moving import moving_picture, step_times
from scenekit.model.arrays import Pixels
from scenekit.model.credits import NO_ADVICE, ledger
from scenekit.report.contact import animation_steps, contact_sheet, played, sheet_groups
from scenekit.report.page import Section, chips, figure, heading, paragraph, png, row, table

if TYPE_CHECKING:
    from scenekit.build import Build

MOST_ANIMATIONS, MOST_STEPS = 120, 200
SCENE_TICKS, SCENE_STEP = 120, 2
MOST_FLASH_TICKS = 20_000
WIDEST_PX = 960


def scene_section(build: "Build", moves: bool) -> Section:
    """Return the scene at some ticks, and moving where that is harmless."""
    ticks = sorted({build.scene.ticks * part // 4 for part in (1, 2, 3)})
    stills = [_screen(build.picture(tick), f"tick {tick}") for tick in ticks]
    parts = [row(stills)]
    if moves:
        shown = range(0, min(SCENE_TICKS, build.scene.ticks), SCENE_STEP)
        times = step_times([SCENE_STEP] * len(shown), float(build.mode.timing.period_ms))
        pictures = [build.picture(tick) for tick in shown]
        data = moving_picture("apng", pictures, times)
        words = f"ticks 0 to {shown[-1]}, every second one"
        h, w = pictures[0].shape[:2]
        parts.append(figure(png(pictures[len(pictures) // 2]), words, _fitted(w, h), moving=data))
    else:
        parts.append(paragraph("The scene flashes beyond the limits below, so it is not played here.", "bad"))
    return Section(title=f"Scene {build.scene.name}", parts=tuple(parts))


def sheets_section(build: "Build") -> Section:
    """Return the frames of every sheet."""
    groups = sheet_groups(build.project, build.art.sheets)
    if not groups:
        return Section(title="Frames", parts=(paragraph("No sheet is cut yet."),))
    sheet = contact_sheet(groups, "Frames by sheet")
    parts = (figure(png(sheet), "every frame with its name", sheet.shape[1::-1], pixels=False),)
    return Section(title="Frames", parts=parts)


def animations_section(build: "Build") -> Section:
    """Return every animation, playing, as each facing shows it."""
    figures: list[str] = []
    period = float(build.mode.timing.period_ms)
    for sprite in build.project.sprites:
        for animation in sprite.animations:
            for facing in [f.facing for f in sprite.facings] or [""]:
                if len(figures) == MOST_ANIMATIONS:
                    break
                steps = animation_steps(build.project, sprite, animation, build.art.sheets, facing)[
                    :MOST_STEPS
                ]
                ticks = [step.ticks for step in played(animation)][: len(steps)]
                if len(ticks) < len(steps):  # drawn for this facing, with steps of its own
                    ticks = [ticks[n % len(ticks)] for n in range(len(steps))]
                words = " ".join(filter(None, (sprite.name, animation.name, facing)))
                scale = max(1, min(4, 96 // max(steps[0].shape[:2])))
                large = [step.repeat(scale, axis=0).repeat(scale, axis=1) for step in steps]
                data = moving_picture("apng", large, step_times(ticks, period)) if len(steps) > 1 else b""
                h, w = large[0].shape[:2]
                figures.append(figure(png(large[0]), f"{words}: {sum(ticks)} ticks", (w, h), moving=data))
    parts = (row(figures),) if figures else (paragraph("No sprite has an animation yet."),)
    return Section(title="Animations", parts=parts)


def planes_section(build: "Build") -> Section:
    """Return the planes from back to front with how they scroll."""
    rows, figures = [], []
    for plane in build.scene.planes:
        pixels = build.art.planes[build.scene.name, plane.name]
        h, w = pixels.shape[:2]
        x, y = plane.ratio
        wraps = " and ".join(name for name, on in zip(("across", "down"), plane.wrap, strict=True) if on)
        tile = f"{plane.tile[0]} x {plane.tile[1]}"
        rows.append((plane.name, f"{w} x {h} px", f"{x}, {y}", wraps or "no", tile))
        figures.append(figure(png(pixels), f"{plane.name}, ratio {x}", _fitted(w, h, 440)))
    head = ("plane, back to front", "size", "scroll ratio x, y", "repeats", "tiles px")
    return Section(title="Planes", parts=(table(head, rows), row(figures)))


def colours_section(build: "Build") -> Section:
    """Return the palette with the use of each entry, and its cycles turning."""
    rows = entry_rows(build)
    error = f"mean error {build.reduced.mean_error:.2f} (CIEDE2000)"
    words = f"{build.reduced.used} entries hold colours; {error}."
    parts = [paragraph(words)]
    parts.append(chips((r["colour"], f"{r['entry']} {r['role']}".strip()) for r in rows))
    cycles = []
    for cycle in build.reduced.cycles:
        cells = slice(cycle.first, cycle.first + cycle.count)
        run = build.reduced.palette[cells]
        steps = []
        for turn in range(cycle.period):
            turned = np.roll(run, cycle.shift_at(turn * cycle.ticks), axis=0)
            steps.append(turned[None].repeat(28, axis=0).repeat(28, axis=1))
        times = step_times([cycle.ticks] * len(steps), float(build.mode.timing.period_ms))
        last = cycle.first + cycle.count - 1
        title = f"cycle {cycle.name}: entries {cycle.first} to {last}, {cycle.ticks} ticks a turn"
        calm = min(times) * 3 >= 1000 / 3  # slower than three changes there and back in a second
        data = moving_picture("apng", steps, times) if calm else b""
        note = "" if calm else "; turns too fast to be played here"
        cycles.append(figure(png(steps[0]), title + note, (28 * cycle.count, 28), moving=data))
    parts += [heading("Cycles"), row(cycles)] if cycles else []
    events = [
        (e.name, e.tick, len(e.colours), e.ticks_per_step, ", ".join(map(str, e.entries)))
        for e in build.reduced.changes[build.scene.name]
    ]
    if events:
        parts += [heading("Events"), table(("event", "tick", "steps", "ticks a step", "entries"), events)]
    return Section(title="Colours", parts=tuple(parts))


def budget_sections(build: "Build") -> list[Section]:
    """Return time along the scan lines, over all ticks, and memory."""
    from scenekit.costs.estimate import estimate
    from scenekit.report.plots import budget_plot, raster_ruler

    result = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    data = picture_data(budget_data(build, result))
    if result.rate_hz is None:
        verdict = paragraph("The rate is not known, since some costs are not.", "note")
    else:
        kind = "good" if result.holds_target else "bad"
        rates = f"{result.rate_hz:.2f} of {result.target_hz:.2f} pictures a second"
        words = f"{rates}; worst tick {result.worst_tick}."
        verdict = paragraph(words, kind)
    title = f"{build.scene.name} on {build.target.name}, tick {result.worst_tick}"
    ruler = raster_ruler(
        build.mode.timing, data["worst"]["costs"], title=title, refreshes=build.scene.ticks_per_update
    )
    plot = budget_plot(data, result.work_ms)
    memories = [(m["memory"], m["used_bytes"], m["free_bytes"], m["capacity_bytes"]) for m in data["memory"]]
    held = [(m.memory, item.name, taken) for m in build.memory for item, taken in m.items]
    time = (
        verdict,
        paragraph(f"Costs of {build.machine.name}: {_provenance(build)}.", "quiet"),
        figure(png(ruler), "the worst tick along the scan lines", ruler.shape[1::-1], pixels=False),
        figure(png(plot), "every tick, the dearest one, and the memories", plot.shape[1::-1], pixels=False),
    )
    memory = (
        table(("memory", "used bytes", "free bytes", "of bytes"), memories),
        table(("memory", "holds", "bytes"), held),
        *(paragraph(f"{f.level}: {f.where}: {f.text}", "note") for f in (*build.findings, *result.findings)),
    )
    return [Section(title="Time", parts=time), Section(title="Memory", parts=memory)]


def _provenance(build: "Build") -> str:
    kinds = (
        sorted({cost.provenance.partition(":")[0] for cost in build.machine.costs.values()})
        if build.machine.costs
        else []
    )
    return ", ".join(kinds) if kinds else "none known"


def advice_section(build: "Build") -> Section:
    """Return the changes that make the scene fit, or why none does."""
    from scenekit.advice.scene import advise

    try:
        advice = advise(build.project, build.target.name, build.scene.name)
    except SceneKitError as error:
        return Section(title="Advice", parts=(paragraph(str(error), "note"),))
    if advice.before.fits and not advice.changes:
        parts = [paragraph("The worst picture fits as it is, and nothing better was found.", "good")]
    elif advice.after is None:
        parts = [paragraph("Nothing that was weighed makes it fit:", "bad"), *map(paragraph, advice.proof)]
    else:
        parts = [paragraph(change, "note") for change in advice.changes]
    return Section(title="Advice", parts=tuple(parts))


def proof_section(build: "Build", stops: Sequence[int]) -> Section:
    """Run the exported program and return what it drew beside what it should."""
    from scenekit.verify.prove import can_run, prove

    if not stops:
        words = "Not proved in this report; scenekit report --prove runs the program and shows its screens."
        return Section(title="Proof", parts=(paragraph(words, "note"),))
    if not can_run(build):
        words = f"Not proved: the interpreter is missing; to install it: {build.dialect.package}."
        return Section(title="Proof", parts=(paragraph(words, "note"),))
    seen: list[tuple[int, Pixels, Pixels]] = []
    try:
        proof = prove(build, stops, seen=lambda *pictures: seen.append(pictures))
    except SceneKitError as error:
        return Section(title="Proof", parts=(paragraph(f"Failed: {error}", "bad"),))
    wrong = sum(tick.different for tick in proof.ticks)
    words = (
        f"{'Passed' if proof.passed else 'Failed'} in {proof.interpreter}: {len(proof.ticks)} screens, "
        f"{wrong} pixels differ; {proof.values} values, {proof.different} differ."
    )
    parts = [paragraph(words, "good" if proof.passed else "bad")]
    for tick, wanted, got in seen:
        pair = (
            _screen(wanted, f"tick {tick}, preview"),
            _screen(got, f"tick {tick}, as drawn"),
        )
        parts.append(row(pair))
    return Section(title="Proof", parts=tuple(parts))


def flash_section(build: "Build", progress: Progress) -> tuple[Section, bool]:
    """Return what flashes, with the caution, and whether the scene keeps within the limits."""
    from scenekit.safety.flash import CAUTION, analyse
    from scenekit.safety.stripes import moving_stripes, stripe_findings

    if build.scene.ticks > MOST_FLASH_TICKS:
        words = f"Not looked at: {build.scene.ticks} ticks; at most {MOST_FLASH_TICKS} are."
        return Section(title="Flashes", parts=(paragraph(words, "bad"), paragraph(CAUTION))), False
    frames, refresh_hz = Ticks(build, progress), float(build.mode.timing.refresh_hz)
    report = analyse(frames, refresh_hz=refresh_hz)
    where = f"scene {build.scene.name}"
    found = (
        *report.findings(where, lambda *span: cause(build, *span)),
        *stripe_findings(moving_stripes(frames, refresh_hz), where),
    )
    words = "no flashes beyond the limits" if report.passed else "flashes beyond the limits"
    parts = [
        paragraph(
            f"{report.ticks} ticks at {refresh_hz:.2f} Hz: {words}.", "good" if report.passed else "bad"
        ),
        *(paragraph(f"{f.level}: {f.where}: {f.text}", "note") for f in found),
        paragraph(CAUTION),
    ]
    return Section(title="Flashes", parts=tuple(parts)), report.passed


def credits_section(build: "Build") -> Section:
    """Return whose art this is."""
    rows = [
        (line.what, line.author or "-", line.licence or "-", line.source or "-", "; ".join(line.asks) or "-")
        for line in ledger(build.project)
    ]
    head = ("art", "author", "licence", "source", "the licence")
    return Section(
        title="Credits", parts=(table(head, rows), paragraph(NO_ADVICE.capitalize() + ".", "quiet"))
    )


def _screen(pixels: Pixels, words: str) -> str:
    h, w = pixels.shape[:2]
    return figure(png(pixels), words, _fitted(w, h, 352))


def _fitted(width: int, height: int, most: int = WIDEST_PX) -> tuple[int, int]:
    """Return a size to show a picture at: whole multiples, or smaller when it is too wide."""
    if width <= most:
        scale = max(1, min(most // width, 3))
        return width * scale, height * scale
    return most, max(1, round(height * most / width))


def write_page(folder: Path) -> None:
    """Raise when a page cannot be written there."""
    if not folder.is_dir():
        raise SceneKitError(f"{folder}: no such folder")
