"""scenekit target."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import json_option, print_json, project_argument
from scenekit.errors import ProjectError, VerifyError

if TYPE_CHECKING:
    from scenekit.dialects.answers import Question
    from scenekit.dialects.dialect import Dialect
    from scenekit.dialects.painter import Display
    from scenekit.machines.profile import Machine
    from scenekit.model.arrays import Pixels
    from scenekit.model.project import Project
    from scenekit.model.target import Target

SHOT = re.compile(r"shot(\d{1,3})\.\w+", re.IGNORECASE)


@click.group()
def command() -> None:
    """Describe a BASIC of your own by examples, and find out whether the description is right.

    The guide walks through all of it: scenekit manual own_target
    """


@command.command("sheet")
def sheet_of_answers() -> None:
    """Print a file of answers to fill in."""
    from scenekit.dialects.answers import sheet

    click.echo(sheet(), nl=False)


@command.command("new")
@project_argument
@click.argument("name")
@click.option("--like", metavar="DIALECT", help="Start from a dialect that ships; answers change it.")
@click.option(
    "--answers", type=click.Path(path_type=Path), help="File of answers; asks for them when left out."
)
@click.option("--machine", help="A machine that is there already, instead of one from the answers.")
@click.option("--mode", help="Display mode of that machine.")
@click.option("--again", is_flag=True, help="Replace the files of an earlier try.")
def new(
    project: Path,
    name: str,
    like: str | None,
    answers: Path | None,
    machine: str | None,
    mode: str | None,
    again: bool,
) -> None:
    """Add a target NAME to PROJECT with a dialect, and a machine, made from answers.

    Writes targets/NAME/NAME.toml, NAME-machine.toml and answers.toml into the project folder.
    """
    from scenekit.dialects.answers import collect, read_answers
    from scenekit.model.fields import NAME_PATTERN
    from scenekit.model.store import load

    document = load(project)
    if not NAME_PATTERN.fullmatch(name):
        raise ProjectError(
            f"name: got {name!r}; must be letters, digits, - and _, the first no sign, at most 40"
        )
    if (machine is None) != (mode is None):
        raise click.UsageError("--machine and --mode go together")
    folder = document.folder / "targets" / name
    if (folder / f"{name}.toml").exists() and not again:
        raise ProjectError(
            f"targets/{name}/{name}.toml: exists; replace it with --again, or take another name"
        )
    given = read_answers(answers) if answers is not None else collect(_Asker(like))
    own = None if machine is None or mode is None else (machine, mode)
    target = _write(document, name, given, like, own)
    click.echo(f"target {name}: {target.machine}, {target.mode}, dialect {target.dialect}")
    click.echo(f"next: scenekit target check {project} --target {name}")


class _Asker:
    """Puts questions on the terminal, each group with its title."""

    def __init__(self, like: str | None) -> None:
        self.group = ""
        self.number = 0
        self.empty = (
            "leave empty to keep what the other dialect has" if like else "leave empty what it has not"
        )

    def __call__(self, question: "Question") -> str:
        """Ask one question; some take several lines, the last one empty."""
        if not self.group:
            click.echo(f"Answer with a line of your BASIC that does what is asked; {self.empty}.")
        if question.group != self.group:
            self.group = question.group
            self.number += 1
            click.echo(f"\n{self.number}. {question.group}. {question.about}")
        click.echo(f"  {question.ask}\n    such as: {question.example}")
        lines: list[str] = []
        while len(lines) < 12:
            line = str(click.prompt("   ", default="", show_default=False, prompt_suffix="> "))
            if line:
                lines.append(line)
            if not line or not question.lines:
                break
        return "\n".join(lines)


def _write(
    document: "Project", name: str, given: dict[str, str], like: str | None, own: tuple[str, str] | None
) -> "Target":
    """Write the files of a target and put it into the project; nothing is written if any part is wrong."""
    import tomllib

    from scenekit.dialects.answers import Answers
    from scenekit.dialects.dialect import TARGETS_FOLDER, read_dialect
    from scenekit.dialects.owntarget import dialect_tables, machine_tables
    from scenekit.machines.profile import machine_from_table
    from scenekit.model.edits import put_target
    from scenekit.model.store import inside, save, write_atomically
    from scenekit.model.target import Target
    from scenekit.model.toml_tables import toml_text
    from scenekit.model.tomlfile import read_toml
    from scenekit.registry import choose, data_files

    base = None
    if like is not None:
        base = read_toml(choose("dialect", like, data_files(TARGETS_FOLDER)), like)
    tables = dialect_tables(given, name, base)
    files = {
        f"{name}.toml": toml_text(tables, f"The BASIC of target {name}, from answers; see answers.toml.")
    }
    if own is None:
        if like is not None and not given.get("screen"):
            raise ProjectError(f"target {name}: answer screen, or name a machine with --machine and --mode")
        made = machine_tables(given, name, tables["words"])
        files[f"{name}-machine.toml"] = toml_text(made, f"The machine of target {name}, from answers.")
        own = f"targets/{name}/{name}-machine.toml", made["modes"][0]["name"]
        machine = machine_from_table(f"{name}-machine", f"{name}-machine.toml", made)
    else:
        machine = _machine(document, own[0])
    files["answers.toml"] = toml_text(dict(given), f"What was answered about target {name}.")
    target = Target(
        name=name,
        machine=own[0],
        mode=own[1],
        dialect=f"targets/{name}/{name}.toml",
        transparent=Answers(given).whole("transparent", 0, 255, 0),
    )
    _display(machine, read_dialect(tomllib.loads(files[f"{name}.toml"]), name), target)
    changed = put_target(document, target)
    folder = inside(document.folder, f"targets/{name}")
    folder.mkdir(parents=True, exist_ok=True)
    for file, text in files.items():
        write_atomically(folder / file, text.encode("utf-8"))
    save(changed)
    return target


def _machine(document: "Project", name: str) -> "Machine":
    """Return a machine that ships, or one of the project's."""
    from scenekit.machines.profile import load_machine
    from scenekit.model.store import inside

    return load_machine(inside(document.folder, name) if name.endswith(".toml") else name)


def load_parts(document: "Project", target: "Target") -> "tuple[Dialect, Display | None]":
    """Return the dialect of a target, and what tests of drawing must know; None where nothing is drawn."""
    from scenekit.dialects.dialect import load_dialect

    dialect = load_dialect(target.dialect, document.folder)
    return dialect, _display(_machine(document, target.machine), dialect, target)


def _display(machine: "Machine", dialect: "Dialect", target: "Target") -> "Display | None":
    """Return what tests of drawing must know; None where nothing is drawn."""
    from scenekit.dialects.painter import Display
    from scenekit.plan.schemes import flip_set

    mode = machine.mode(target.mode)
    if not machine.abilities.words:
        return None
    shared = [kind for kind in dialect.image_formats if kind in machine.abilities.image_formats]
    return Display(
        mode=mode,
        transparent=target.transparent,
        flips=flip_set(machine.abilities.flips),
        recolours=machine.recolours(mode.name),
        pages=max(1, min(2, machine.abilities.pages)),
        image_format=shared[0] if shared else "",
    )


@command.command("check")
@project_argument
@click.option("--target", help="Target by name; the first when left out.")
@click.option("--trust", is_flag=True, help="Run the tests by the command that the dialect names.")
@click.option(
    "--write", type=click.Path(path_type=Path), help="Folder for the tests, to be brought to the board."
)
@click.option(
    "--from",
    "sent",
    type=click.Path(path_type=Path),
    multiple=True,
    help="Log, or screen such as shot21.bmp, that came back; may be given often.",
)
@json_option
def check(
    project: Path, target: str | None, trust: bool, write: Path | None, sent: tuple[Path, ...], as_json: bool
) -> int:
    """Say what the dialect of a target lacks and what that costs, and test every word that it has.

    What was not run, or whose report is torn, is unproven and never passed.
    """
    from scenekit.cli.grading import describe, tell
    from scenekit.dialects.lacking import able, lacks
    from scenekit.model.store import load
    from scenekit.verify.wordtests import grade_logs, run_tests

    document = load(project)
    dialect, display = load_parts(document, document.target(target))
    direct = display is not None and not display.mode.indexed
    missing = lacks(dialect, direct)
    if write is not None:
        _write_tests(dialect, display, write)
    if trust and sent:
        raise click.UsageError("--trust runs the tests here, --from grades what came back: one of the two")
    if trust:
        if not dialect.command and dialect.reader != "executor":
            raise VerifyError(f"dialect {dialect.name}: [run] names no command; write the tests with --write")
        grades = run_tests(dialect, display, tell)
    else:
        logs, screens = _read_sent(sent)
        grades = grade_logs(dialect, display, logs, screens)
    if as_json:
        print_json(
            {
                "dialect": dialect.name,
                "missing": [{"name": m.name, "needed": m.needed, "costs": list(m.costs)} for m in missing],
                "features": list(able(dialect, direct)),
                "words": [grade.as_dict() for grade in grades],
            }
        )
    else:
        describe(missing, able(dialect, direct), grades, bool(trust or sent))
    bad = any(lack.needed for lack in missing) or any(grade.grade == "failed" for grade in grades)
    return 1 if bad else 0


def _write_tests(dialect: "Dialect", display: "Display | None", folder: Path) -> None:
    from scenekit.export import write_export
    from scenekit.verify.wordtests import all_tests, files_of

    tests, _ = all_tests(dialect, display, board=True)
    names = [f"{test.program_file}  {test.word}" for test in tests]
    files = {**files_of(tests), "TESTS.txt": ("\n".join(names) + "\n").encode("ascii")}
    write_export(folder, files)
    click.echo(f"{folder}: {len(tests)} tests; run them all, keep what each reports and shows", err=True)


def _read_sent(sent: tuple[Path, ...]) -> "tuple[list[tuple[int, ...]], dict[int, Pixels]]":
    """Read logs, and screens by the number in their name."""
    from scenekit.programs.records import numbers_in, read_log_file
    from scenekit.verify.board import read_sent_screen

    logs, screens = [], {}
    for path in sent:
        match = SHOT.fullmatch(path.name)
        if match:
            screens[int(match.group(1))] = read_sent_screen(path)
        else:
            logs.append(numbers_in(read_log_file(path)))
    return logs, screens
