"""scenekit edit."""

import re
from pathlib import Path

import click

from scenekit.cli.shared import project_argument
from scenekit.errors import SceneKitError


@click.command()
@project_argument
@click.option("--size", default="1280x800", show_default=True, metavar="WxH", help="Size of the window.")
@click.option("--new", "make", is_flag=True, help="Make the project first if there is none yet.")
def command(project: Path, size: str, make: bool) -> None:
    """Open PROJECT in a window: cut, name, move, layer, reckon, export and prove in one place."""
    from scenekit.model.store import PROJECT_FILE

    match = re.fullmatch(r"(\d{3,4})x(\d{3,4})", size)
    if not match:
        raise click.BadParameter(f"got {size!r}; must be such as 1280x800", param_hint="--size")
    if make and not (project / PROJECT_FILE).exists():
        from scenekit.cli.commands.new_command import command as new

        new.main([str(project)], standalone_mode=False)
    try:
        from scenekit.editor.environment import check_environment
        from scenekit.editor.window import open_window
    except ImportError as error:
        raise SceneKitError(
            f"the window needs pygame and slimgui ({error}); pip install pygame slimgui"
        ) from None
    check_environment()
    open_window(project, (int(match.group(1)), int(match.group(2))))
