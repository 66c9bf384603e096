"""Options and output that several commands share."""

import re
import sys
from collections.abc import Callable, Iterable
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from scenekit.errors import ProjectError, SceneKitError
from scenekit.findings import Finding, worst_level

if TYPE_CHECKING:
    from scenekit.model.project import Project
    from scenekit.model.scene import Scene

if TYPE_CHECKING:
    from scenekit.build import Build

F = TypeVar("F", bound=Callable[..., Any])

MOST_NAMED = 3
"""So many things that the same is said of are named; JSON names all."""

project_argument = click.argument("project", type=click.Path(path_type=Path))
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON instead of text.")
replace_option = click.option(
    "--replace", "replacing", is_flag=True, help="Put it in the place of another one of that name."
)


def target_options(function: F) -> F:
    """Add --target and --scene."""
    function = click.option("--scene", help="Scene by name; the first when left out.")(function)
    return click.option("--target", help="Target by name; the first when left out.")(function)


def game_options(function: F) -> F:
    """Add --target and --scene, for a command that takes all scenes together where none is named."""
    function = click.option("--scene", help="Scene by name; all of them together when left out.")(function)
    return click.option("--target", help="Target by name; the first when left out.")(function)


def check_free(what: str, taken: bool, replacing: object) -> None:
    """Refuse to put something in the place of another one of that name, unless that was asked for.

    raises   ProjectError
    """
    if taken and not replacing:
        raise ProjectError(
            f"{what}: there is another one of that name; choose another name, or --replace it by this one"
        )


def print_json(data: object) -> None:
    """Print data as JSON."""
    import json

    click.echo(json.dumps(data, indent=1))


def print_findings(findings: Iterable[Finding]) -> None:
    """Print findings to the error stream, the worst last; what is said of several things is said once."""
    order = {"note": 0, "warning": 1, "error": 2}
    said: dict[tuple[str, str, str], list[str]] = {}
    for finding in sorted(findings, key=lambda f: order[f.level]):
        said.setdefault((finding.level, finding.code, finding.text), []).append(finding.where)
    for (level, _, text), places in said.items():
        names = list(dict.fromkeys(places))
        more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
        click.echo(f"{level}: {'; '.join(names[:MOST_NAMED])}{more}: {text}", err=True)


def exit_code(findings: Iterable[Finding]) -> int:
    """Return 1 when a finding is at error level, else 0."""
    return 1 if worst_level(findings) == "error" else 0


def pair(text: str, name: str, separator: str = ",") -> tuple[int, int]:
    """Return two whole numbers, such as 16,16 or, with separator x, 16x16."""
    match = re.fullmatch(rf"\s*(-?\d{{1,7}})\s*{separator}\s*(-?\d{{1,7}})\s*", text)
    if not match:
        raise click.BadParameter(
            f"got {text!r}; must be two whole numbers such as 16{separator}16", param_hint=name
        )
    return int(match.group(1)), int(match.group(2))


def four(text: str, name: str) -> tuple[int, int, int, int]:
    """Return four whole numbers, such as 0,0,320,200."""
    numbers = [part.strip() for part in text.split(",")]
    if len(numbers) != 4 or not all(re.fullmatch(r"-?\d{1,7}", number) for number in numbers):
        raise click.BadParameter(
            f"got {text!r}; must be four whole numbers such as 0,0,320,200", param_hint=name
        )
    return int(numbers[0]), int(numbers[1]), int(numbers[2]), int(numbers[3])


def colour(text: str, name: str) -> tuple[int, int, int]:
    """Return the colour of six hexadecimal digits."""
    if not re.fullmatch(r"[0-9a-fA-F]{6}", text):
        raise click.BadParameter(
            f"got {text!r}; must be six hexadecimal digits such as ff00ff", param_hint=name
        )
    red, green, blue = bytes.fromhex(text)
    return red, green, blue


def ticks(text: str, name: str = "--ticks") -> tuple[int, ...]:
    """Return ticks from a list such as 0,1,7 or 0:120, the end left out."""
    found: list[int] = []
    for part in text.split(","):
        match = re.fullmatch(r"\s*(\d{1,8})\s*(?::\s*(\d{1,8})\s*)?", part)
        if not match:
            raise click.BadParameter(f"got {text!r}; must be ticks such as 0,1,7 or 0:120", param_hint=name)
        first = int(match.group(1))
        last = int(match.group(2)) if match.group(2) else first + 1
        if last <= first or last - first > 100_000:
            raise click.BadParameter(f"got {part!r}; must hold 1 to 100000 ticks", param_hint=name)
        found += range(first, last)
    return tuple(found)


def proof_stops(text: str, scene: "Scene") -> tuple[int, ...]:
    """Return the stops of a proof: a list of ticks, or "auto" for some spread over a scene."""
    from scenekit.verify.stops import default_ticks

    return default_ticks(scene) if text == "auto" else tuple(sorted(set(ticks(text, "--proof"))))


def check_trust(build: "Build", trust: bool) -> None:
    """Refuse a command that a project's own dialect names, unless it was allowed.

    raises   VerifyError
    """
    from scenekit.errors import VerifyError

    if build.target.dialect.endswith(".toml") and build.dialect.command and not trust:
        raise VerifyError(
            f"dialect {build.target.dialect}: names a command of its own, {build.dialect.command[0]!r}; "
            "read it, then allow it with --trust"
        )


class Progress:
    """Shows a line of progress on a terminal; silent elsewhere."""

    def __init__(self, title: str) -> None:
        self.title = title
        self.shows = sys.stderr.isatty()

    def __call__(self, stage: str, done: int, total: int) -> None:
        """Show how far the work is."""
        if self.shows:
            click.echo(f"\r{self.title}: {stage} ({done} of {total})\033[K", err=True, nl=False)

    def done(self) -> None:
        """Remove the line."""
        if self.shows:
            click.echo("\r\033[K", err=True, nl=False)


def save_picture(pixels: Any, path: Path, kind: str = "PNG") -> None:
    """Write a picture file, whole or not at all."""
    import io

    from PIL import Image

    from scenekit.model.store import write_atomically

    if not path.parent.is_dir():
        raise SceneKitError(f"{path.parent}: no such folder")
    buffer = io.BytesIO()
    Image.fromarray(pixels).save(buffer, kind)
    write_atomically(path, buffer.getvalue())


def whole(text: str, name: str, low: int, high: int) -> int:
    """Return a whole number of a range."""
    if not re.fullmatch(r"\s*\d{1,7}\s*", text) or not low <= int(text) <= high:
        raise click.BadParameter(
            f"got {text!r}; must be a whole number from {low} to {high}", param_hint=name
        )
    return int(text)


def fraction(text: str, name: str) -> Fraction:
    """Return an exact fraction, written as 3, 3/2 or 1.5."""
    from scenekit.model.fields import Fields

    return Fields({"value": text.strip()}, name).fraction("value")


def recheck(document: "Project") -> None:
    """Read a changed document back from its own text, so that every rule of the format is applied."""
    import tomllib

    from scenekit.model.project import read_project
    from scenekit.model.project_text import project_text
    from scenekit.model.scene import read_scene
    from scenekit.model.scene_text import scene_text

    scenes = tuple(read_scene(tomllib.loads(scene_text(s)), s.name) for s in document.scenes)
    read_project(tomllib.loads(project_text(document)), document.folder, scenes)
