"""scenekit motion."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scenekit.cli.shared import (
    exit_code,
    json_option,
    print_findings,
    print_json,
    project_argument,
    save_picture,
)

if TYPE_CHECKING:
    from scenekit.findings import Finding
    from scenekit.images.art import Art
    from scenekit.model.project import Project
    from scenekit.model.scene import Scene

LONGEST_PATTERN = 16


@click.command()
@project_argument
@click.option("--scene", help="Scene by name; the first when left out.")
@click.option("--pictures", type=click.Path(path_type=Path), help="Folder for a picture of each seam.")
@json_option
def command(project: Path, scene: str | None, pictures: Path | None, as_json: bool) -> int:
    """Say when the planes of a scene of PROJECT repeat, how evenly they step, and whether their seams show.

    A plane at a fraction of a pixel a tick steps unevenly: its judder is the worst distance between where
    it should be and where it is shown, always below one pixel unless it is held for some ticks.
    """
    from scenekit.images.art import load_art
    from scenekit.model.store import load
    from scenekit.motion.expand import expand_project

    document = expand_project(load(project))
    chosen = document.scene(scene)
    art = load_art(document)
    rows = [_plane(chosen, art, number, pictures) for number in range(len(chosen.planes))]
    loop = _loop(document, chosen, art) | _steady(chosen, art, rows)
    findings = list(_findings(chosen, rows))
    data = {"scene": chosen.name, **loop, "planes": rows, "findings": [f.as_dict() for f in findings]}
    if as_json:
        print_json(data)
    else:
        _describe(data)
        print_findings(findings)
    return exit_code(findings)


def _plane(scene: "Scene", art: "Art", number: int, pictures: Path | None) -> dict[str, Any]:
    from scenekit.motion.expand import camera_speed
    from scenekit.motion.seams import check_seam, quieter_trims, seam_picture
    from scenekit.motion.steps import step_pattern

    plane = scene.planes[number]
    speed = camera_speed(scene.camera.path) * plane.ratio[0] + plane.drift[0]
    pattern = step_pattern(speed, plane.cadence[0])
    steps = list(pattern.floor_steps[:LONGEST_PATTERN])
    row: dict[str, Any] = {
        "name": plane.name,
        "ratio": str(plane.ratio[0]),
        "px_per_tick": str(speed),
        "held_ticks": plane.cadence[0],
        "judder_px": round(float(pattern.max_lag_px), 4),
        "steps": steps,
        "steps_repeat_after": pattern.period_ticks,
        "seam": None,
    }
    if plane.wrap[0]:
        pixels = art.planes[scene.name, plane.name]
        seam = check_seam(pixels)
        trims = quieter_trims(pixels) if seam.visible else ()
        row["seam"] = {
            "figure": round(seam.figure, 2),
            "visible": seam.visible,
            "narrower": [{"columns": trim.lines, "figure": round(trim.seam.figure, 2)} for trim in trims],
        }
        if pictures is not None:
            pictures.mkdir(parents=True, exist_ok=True)
            save_picture(seam_picture(pixels), pictures / f"seam-{scene.name}-{plane.name}.png")
    return row


def _loop(document: "Project", scene: "Scene", art: "Art") -> dict[str, Any]:
    from scenekit.motion.paths import unroll
    from scenekit.motion.scene_loop import scene_loop

    sizes = {
        p.name: (art.planes[scene.name, p.name].shape[1], art.planes[scene.name, p.name].shape[0])
        for p in scene.planes
    }
    turns = [2 * len(c.colours) - 2 if c.there_and_back else len(c.colours) for c in document.cycles]
    periods = [cycle.ticks * turn for cycle, turn in zip(document.cycles, turns, strict=True)]
    for placed in scene.placed:
        for animation in document.sprite(placed.sprite).animations:
            numbers, again = unroll(animation)
            periods += [sum(animation.steps[n].ticks for n in numbers)] if again else []
    found = scene_loop(scene, sizes)
    everything = scene_loop(scene, sizes, periods)
    planes = {plane.name: plane.ticks for plane in found.planes}
    return {
        "loop_from_tick": found.from_tick,
        "loop_ticks": found.ticks,
        "all_ticks": everything.ticks,
        "loops": planes,
    }


def _steady(scene: "Scene", art: "Art", rows: list[dict[str, Any]]) -> dict[str, Any]:
    """Return when planes repeat at the camera's usual speed, and add nearby ratios that repeat sooner."""
    from scenekit.motion.expand import camera_speed
    from scenekit.motion.loops import Wrapping, loop_ticks, simpler_ratios

    usual = camera_speed(scene.camera.path)
    planes = [
        Wrapping(
            name=plane.name,
            size_px=art.planes[scene.name, plane.name].shape[1],
            step_px=usual * plane.ratio[0] + plane.drift[0],
        )
        for plane in scene.planes
        if plane.wrap[0]
    ]
    by_name = {row["name"]: row for row in rows}
    for number, plane in enumerate(planes):
        drifts = next(p.drift[0] for p in scene.planes if p.name == plane.name)
        found = () if drifts or not plane.step_px else simpler_ratios(planes, number, usual)
        by_name[plane.name]["simpler"] = [
            {
                "ratio": str(simple.ratio),
                "change_percent": round(float(simple.change_percent), 2),
                "loop_ticks": simple.loop_ticks,
            }
            for simple in found
        ]
    return {"steady_loop_ticks": loop_ticks(planes)}


def _findings(scene: "Scene", rows: list[dict[str, Any]]) -> "list[Finding]":
    from scenekit.findings import Finding

    found = []
    for row in rows:
        seam = row["seam"]
        if seam is not None and seam["visible"]:
            way = ", ".join(f"{t['columns']} columns less ({t['figure']})" for t in seam["narrower"])
            text = f"the seam shows: {seam['figure']} times the picture's usual step" + (
                f"; quieter with {way}" if way else ""
            )
            found.append(
                Finding(
                    level="warning", code="seam", where=f"scene {scene.name}: plane {row['name']}", text=text
                )
            )
    return found


def _describe(data: dict[str, Any]) -> None:
    for row in data["planes"]:
        steps = " ".join(str(step) for step in row["steps"])
        more = " ..." if row["steps_repeat_after"] > LONGEST_PATTERN else ""
        seam = row["seam"]
        seen = (
            "does not repeat"
            if seam is None
            else f"seam {'shows' if seam['visible'] else 'quiet'} ({seam['figure']})"
        )
        loop = data["loops"][row["name"]]
        pace = f"ratio {row['ratio']:<7} {row['px_per_tick']:>7} px a tick, judder {row['judder_px']:.2f} px"
        pace += f", held {row['held_ticks']} ticks" if row["held_ticks"] > 1 else ""
        again = "never" if loop is None else f"{loop} ticks"
        click.echo(f"{row['name']:<20} {pace}, loop {again}, {seen}")
        click.echo(f"{'':<20} steps {steps}{more}")
    whole = data["loop_ticks"]
    click.echo(f"planes together: {'never repeat' if whole is None else f'repeat after {whole} ticks'}")
    if data["all_ticks"] is not None:
        click.echo(f"with cycles and animations: after {data['all_ticks']} ticks")
    steady = f"all planes repeat after {data['steady_loop_ticks']} ticks"
    click.echo(f"where the camera goes on and on at its usual speed: {steady}")
    for row in data["planes"]:
        for simple in row.get("simpler", [])[-1:]:
            change = f"{simple['ratio']} ({simple['change_percent']:+.1f} % in speed)"
            click.echo(f"  {row['name']} at a ratio of {change}: after {simple['loop_ticks']} ticks")
