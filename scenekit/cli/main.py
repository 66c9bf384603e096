"""The command `scenekit`: finds the subcommand and turns errors into one line and an exit code."""

import os
import sys
from collections.abc import Sequence
from importlib import import_module

import click

from scenekit import __version__
from scenekit.errors import SceneKitError, UnknownNameError

COMMANDS = {
    "new": "Make an empty project.",
    "edit": "Open a project in a window.",
    "slice": "Cut a sheet into frames.",
    "recut": "Take the artist's new version of a sheet; frames follow what they show.",
    "repeats": "Say which frames repeat others: equal, mirrored, in other colours, nearly.",
    "pack": "Pack the frames of a project into pages.",
    "credits": "Say whose art a project holds, and what its licences ask for.",
    "add": "Add an animation, a facing, a plane, a sprite in a scene, a camera or a target.",
    "list": "List machines and their modes, dialects, ways to cut, words, or what a project holds.",
    "target": "Describe a BASIC of your own, and test the description word by word.",
    "check": "Look a project over and list what is wrong with it.",
    "motion": "Say how planes loop and judder, and whether their seams show.",
    "colours": "Show the palette of a target, what each entry is for, and what it costs.",
    "flash": "Look a scene over for flashes that can harm people.",
    "calibrate": "Measure what a machine costs, by a program in its own BASIC.",
    "budget": "Say whether a scene holds its rate and fits the memory.",
    "simulate": "Say what the worst picture may take, and how the scene plays.",
    "advise": "Say which changes make a scene fit, or that none does.",
    "preview": "Draw any tick of a scene as the machine will show it.",
    "contact": "Show all frames or steps beside each other, or play an animation.",
    "report": "Write one page that shows a project and all that is known about it.",
    "export": "Write tables, image files and BASIC for a target.",
    "port": "List how each dialect spells every word, and what it does otherwise.",
    "watch": "Build again whenever the project changes, and say what it costs.",
    "verify": "Run the exported program and compare its screen with the preview.",
    "manual": "Explain a station of the work, or the whole way.",
    "demo": "Build the demo for all its targets and prove it.",
}
FINDINGS, BAD_INPUT, INTERRUPTED = 1, 2, 130
OBJECTS_BETWEEN_COLLECTIONS = 50_000
"""Starting makes many objects and no garbage, so that collecting often would only take time."""


class Commands(click.Group):
    """A group that imports a command's module only when that command is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names in working order."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import a command."""
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = import_module(f"scenekit.cli.commands.{cmd_name}_command").command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command that is named, or say which one was perhaps meant."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            raise UnknownNameError("command", args[0], COMMANDS)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List commands without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.command(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="%(prog)s %(version)s")
def main() -> None:
    """From somebody's sheets to a parallax scene that provably runs in your BASIC.

    \b
    The usual way through:
      scenekit new GAME                        an empty project
      scenekit slice hero.png --into GAME      cut a sheet into frames
      scenekit add animation GAME hero walk    frames become an animation
      scenekit add plane GAME hills.png --ratio 1/4
      scenekit add placed GAME hero --over hills --at 20,150
      scenekit preview GAME --tick 60 --out look.png
      scenekit budget GAME                     does it hold its rate?
      scenekit export GAME --out board         tables, images, BASIC
      scenekit verify GAME                     run it and compare

    Exit code 0: fine. 1: findings at error level. 2: bad input.
    """


def run(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and leave with its exit code; a request to end stops what it started, too."""
    import gc

    gc.set_threshold(OBJECTS_BETWEEN_COLLECTIONS)
    stop_on_request()
    leave(outcome(arguments))


def stop_on_request() -> None:
    """Make a request to end this process an interrupt, so that what it started is stopped, too."""
    import signal

    def end(number: int, frame: object) -> None:
        raise KeyboardInterrupt

    if hasattr(signal, "SIGTERM"):
        signal.signal(signal.SIGTERM, end)


def leave(code: int) -> None:
    """End the process at once: taking all objects apart before would only take time.

    What was printed is written out first; where that fails, the exit code shows it.
    """
    for stream in (sys.stdout, sys.stderr):
        try:
            if stream is not None and not stream.closed:
                stream.flush()
        except OSError:
            code = BAD_INPUT
    os._exit(code)


def outcome(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and return its exit code."""
    try:
        result = main.main(arguments, prog_name="scenekit", standalone_mode=False)
        return result if isinstance(result, int) else 0
    except click.exceptions.NoArgsIsHelpError as error:
        click.echo(error.format_message())
        return 0
    except click.exceptions.Abort:
        click.echo("stopped; nothing is half written", err=True)
        return INTERRUPTED
    except click.ClickException as error:
        error.show()
        return BAD_INPUT
    except SceneKitError as error:
        click.echo(f"error: {error}", err=True)
    except KeyboardInterrupt:
        click.echo("stopped; nothing is half written", err=True)
        return INTERRUPTED
    except BrokenPipeError:
        sys.stderr.close()
        return BAD_INPUT
    except OSError as error:
        name = f"{error.filename}: " if error.filename else ""
        click.echo(f"error: {name}{error.strerror or error}", err=True)
    except MemoryError:
        click.echo("error: not enough memory for this; use smaller pictures", err=True)
    return BAD_INPUT
