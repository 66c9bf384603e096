"""scenekit verify."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import (
    Progress,
    check_trust,
    game_options,
    json_option,
    print_findings,
    print_json,
    project_argument,
    proof_stops,
    ticks,
)
from scenekit.errors import VerifyError

if TYPE_CHECKING:
    from scenekit.verify.board import BoardProof
    from scenekit.verify.prove import Proof


@click.command()
@project_argument
@game_options
@click.option(
    "--ticks", "stops", metavar="LIST", help="Stops such as 0,1,7 or 0:5; spread over the scene otherwise."
)
@click.option(
    "--from",
    "sent",
    multiple=True,
    metavar="FILE",
    help="Log, or screen such as shot0.bmp or 60=screen.png, of a board that ran an export --proof; "
    "repeatable.",
)
@click.option("--sums", is_flag=True, help="With --from: the program was exported with --sums.")
@click.option("--count", "counting", is_flag=True, help="Compare calls and pixels with the draw plan too.")
@click.option(
    "--exported", type=click.Path(path_type=Path), help="Folder exported with --play, to be proved as it is."
)
@click.option("--pictures", type=click.Path(path_type=Path), help="Folder for pictures of differences.")
@click.option(
    "--seconds", type=click.FloatRange(1, 3600), help="Time limit of the run; from the work if left out."
)
@click.option("--trust", is_flag=True, help="Run the command that a dialect file of the project names.")
@json_option
def command(
    project: Path,
    target: str | None,
    scene: str | None,
    stops: str | None,
    sent: tuple[str, ...],
    sums: bool,
    counting: bool,
    exported: Path | None,
    pictures: Path | None,
    seconds: float | None,
    trust: bool,
    as_json: bool,
) -> int:
    """Export PROJECT, run it, and compare screens and values with the reference at every stop.

    Without --scene, all scenes are entered one after the other and back again, with the same stops in each.
    The program runs in a temporary folder, in the dialect's interpreter or the built-in executor.
    """
    from scenekit.build import BuildOptions, run_stages
    from scenekit.model.store import load
    from scenekit.verify.prove import prove, usual_limit_s
    from scenekit.verify.stops import default_ticks

    if sent:
        return judge_sent(project, target, scene, stops or "auto", sent, as_json, sums)
    if sums:
        raise click.UsageError("--sums goes with --from")
    progress = Progress("verify")
    options = BuildOptions(play=True, counting=counting)
    document = load(project)
    if scene is None and len(document.scenes) > 1:
        from scenekit.cli.games import verify_game

        found = verify_game(document, target, options, stops or "auto", trust, progress)
        return tell(found(exported, pictures, seconds), progress, as_json)
    build = run_stages(document, target, scene, options=options, progress=progress)
    check_trust(build, trust)
    if exported is not None and not (exported / build.play_file).is_file():
        raise VerifyError(f"{exported / build.play_file}: no such file; export with --play first")
    chosen = ticks(stops) if stops else default_ticks(build.scene)
    progress(f"running, for {seconds or usual_limit_s(build, chosen):.0f} s at the most", 0, 1)
    proof = prove(build, chosen, exported=exported, pictures=pictures, time_limit_s=seconds)
    return tell(proof, progress, as_json)


def tell(proof: "Proof", progress: Progress, as_json: bool) -> int:
    """Print a proof and return the exit code."""
    progress.done()
    if as_json:
        print_json(proof.as_dict())
    else:
        describe(proof)
        print_findings(proof.findings)
    return 0 if proof.passed else 1


def judge_sent(
    project: Path,
    target: str | None,
    scene: str | None,
    stops: str,
    sent: tuple[str, ...],
    as_json: bool,
    sums: bool,
) -> int:
    """Judge what a board sent back; 0 only when all that it should report and show is here and equal."""
    from scenekit.build import run_stages
    from scenekit.model.store import load
    from scenekit.verify.board import PASSED, judge, read_sent

    document = load(project)
    if scene is None and len(document.scenes) > 1:
        from scenekit.cli.games import judge_game_sent

        proof = judge_game_sent(document, target, stops, sent, sums)
        what = "all scenes"
    else:
        build = run_stages(document, target, scene)
        chosen = proof_stops(stops, build.scene)
        proof = judge(build, chosen, *read_sent(sent, chosen), sums)
        what = build.scene.name
    if as_json:
        print_json(proof.as_dict())
        return 0 if proof.verdict == PASSED else 1
    tell_sent(proof, what, document.target(target).name, len(sent))
    return 0 if proof.verdict == PASSED else 1


def tell_sent(proof: "BoardProof", what: str, target: str, files: int) -> None:
    """Print what a board proved."""
    click.echo(f"{proof.verdict}: {what} for {target}, from {files} files")
    for part in proof.parts:
        if part.different:
            click.echo(f"  {part.name}: {len(part.different)} of {part.values} records differ")
        if part.missing:
            numbers = ", ".join(str(n) for n in part.missing[:8]) + (", ..." if len(part.missing) > 8 else "")
            click.echo(f"  {part.name}: {len(part.missing)} of {part.values} records missing: {numbers}")
    for screen in proof.screens:
        if screen.different:
            click.echo(
                f"  {screen.where}: {screen.different} of {screen.pixels} pixels differ, in {screen.box}"
            )
    equal = sum(part.values - len(part.missing) - len(part.different) for part in proof.parts)
    click.echo(f"records: {equal} of {sum(part.values for part in proof.parts)} equal")
    click.echo(
        f"screens: {sum(not s.different for s in proof.screens)} of {len(proof.screens)} sent are equal"
    )
    if proof.unsent:
        kind = "screens" if what == "all scenes" else "screens of ticks"
        click.echo(f"unproven, since not sent: {kind} " + ", ".join(str(t) for t in proof.unsent))


def describe(proof: "Proof") -> None:
    """Print what a proof found."""
    verdict = "passed" if proof.passed else "FAILED"
    where = f"{proof.scene} for {proof.target}"
    who = f"{proof.interpreter} {proof.version}".strip()
    click.echo(f"{verdict}: {where}, run by {who} in {proof.seconds:.1f} s")
    for tick in proof.ticks:
        if tick.different:
            click.echo(f"  {tick.where}: {tick.different} of {tick.pixels} pixels differ, within {tick.box}")
    if proof.ticks:
        wrong = sum(tick.different for tick in proof.ticks)
        click.echo(f"screens: {len(proof.ticks)} compared, {wrong} pixels differ")
    click.echo(f"values: {proof.values} compared, {proof.different} differ")
    if proof.counts:
        click.echo(f"calls and pixels: {proof.counts} compared, {proof.counts_different} differ")
    for name in proof.pictures:
        click.echo(f"  picture of the difference: {name}")
