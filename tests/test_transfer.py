"""The way to a board: time, names, line ends, and a program there that finds what came damaged."""

from dataclasses import replace
from pathlib import Path

import pytest
from small_scene import small_project

from scenekit.build import run_stages
from scenekit.dialects.dialect import TARGETS_FOLDER, load_dialect, read_dialect
from scenekit.dialects.transfer import Transfer
from scenekit.errors import SceneKitError
from scenekit.export import write_export
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.model.store import load, save
from scenekit.model.tomlfile import read_toml
from scenekit.transfer import names_there, ship

HERE = Path(__file__).parent


def with_way(name, **way):
    return replace(load_dialect(name, HERE), transfer=Transfer(**way))


def test_a_serial_line_takes_ten_bits_a_byte():
    """256,000 bytes at 115,200 baud, 8N1: 22 s. Common practice: start bit, eight data bits, stop bit."""
    way = Transfer(by="serial", baud=115_200)
    assert way.seconds(256_000) == pytest.approx(256_000 * 10 / 115_200)
    assert round(way.seconds(256_000)) == 22
    assert Transfer(by="serial", baud=9600, line_pause_ms=20).seconds(960, 50) == pytest.approx(2.0)
    assert Transfer(by="card").seconds(256_000) is None


def test_short_names_are_short_different_and_settled():
    names = [
        "quay-play.bas",
        "quay-art.raw",
        "quay-art.rawx",
        "stops.txt",
        "CREDITS.txt",
        "quayart1.raw",
        "ä.b.c",
    ]
    found = names_there(names, Transfer(names="8.3"))
    assert found["stops.txt"] == "stops.txt"
    assert found["CREDITS.txt"] == "CREDITS.txt"
    assert len({name.lower() for name in found.values()}) == len(names)
    for name in found.values():
        stem, _, ending = name.partition(".")
        assert 1 <= len(stem) <= 8
        assert len(ending) <= 3
    assert found == names_there(names, Transfer(names="8.3"))
    assert names_there(names, Transfer()) == {name: name for name in names}


def test_programs_name_the_files_by_their_names_there():
    dialect = with_way("brandy", names="8.3", line_end="crlf")
    files = {
        "harbour-play.bas": b'A=OPENIN("harbour-art.raw")\nB=1\n',
        "harbour-art.raw": b"\n\r\n",
        "CREDITS.txt": b"a\n",
    }
    shipment = ship(files, dialect)
    assert shipment.names["harbour-art.raw"] == "harbour1.raw"
    assert shipment.files["harbour1.bas"] == b'A=OPENIN("harbour1.raw")\r\nB=1\r\n'
    assert shipment.files["harbour1.raw"] == b"\n\r\n"
    assert shipment.files["CREDITS.txt"] == b"a\r\n"


def test_lines_too_long_for_the_way_are_refused():
    with pytest.raises(SceneKitError, match="a line of 90 characters; the way to the board lets 80"):
        ship({"a.bas": b"x" * 90 + b"\n"}, with_way("brandy", longest_line=80))


@pytest.mark.parametrize("name", ["plain", "brandy", "sdlbrt", "yabasic", "pcbasic"])
def test_the_check_program_finds_every_damaged_file(interpreter, tmp_path, name):
    dialect = interpreter(name)
    if not readers()[dialect.reader].available(dialect):
        pytest.skip("its display is missing")
    dialect = replace(dialect, transfer=Transfer(names="8.3"))
    art = bytes(n * 7 % 256 for n in range(2345))
    files = {
        "one.raw": art,
        "two-long-name.raw": art[:999],
        "three.raw": bytes(range(256)),
        "four.raw": b"\x1a",
        "five.raw": art[:40],
    }
    shipment = ship(files, dialect, check=True)
    there = dict(shipment.files)
    damaged = bytearray(there["three.raw"])
    damaged[200] ^= 1
    there["three.raw"] = bytes(damaged)
    there["five.raw"] += b"\r\n"
    write_export(tmp_path, there)
    program = f"check{dialect.file_ending}"
    task = Run(folder=tmp_path, program=program, dialect=dialect, screens=0, time_limit_s=60)
    assert readers()[dialect.reader].run(task).said == (1, 1, 2, 1, 3, 0, 4, 1, 5, 0)


def test_a_dialect_that_reads_no_files_cannot_check_them():
    with pytest.raises(SceneKitError, match="no spelling for file_open, file_byte, file_close"):
        ship({"a.raw": b"1"}, load_dialect("ecma55", HERE), check=True)


@pytest.mark.parametrize(
    "way",
    [
        {"by": "pigeon"},
        {"baud": 0},
        {"baud": True},
        {"names": "9.4"},
        {"line_end": "\n"},
        {"longest_line": -1},
        {"x": 1},
        5,
    ],
)
def test_a_bad_way_is_said_in_one_line(way):
    table = read_toml(TARGETS_FOLDER / "plain.toml", "plain")
    with pytest.raises(SceneKitError) as caught:
        read_dialect({**table, "transfer": way}, "plain")
    assert "\n" not in str(caught.value)


def test_only_changed_files_are_copied_and_none_is_deleted(call_export):
    game, card, call = call_export
    (card / "mine.bas").write_text("10 REM", encoding="ascii")
    first = call("export", game, "--to", card, "--play", "--check", "--json").json()["transfer"]
    assert all(row["changed"] for row in first["files"])
    again = call("export", game, "--to", card, "--play", "--check", "--json").json()["transfer"]
    assert not any(row["changed"] for row in again["files"])
    assert (card / "mine.bas").read_text(encoding="ascii") == "10 REM"
    assert {row["name"] for row in first["files"]} <= {path.name for path in card.iterdir()}


def test_a_target_may_have_a_way_of_its_own(tmp_path):
    project = small_project(tmp_path / "game")
    first = replace(project.targets[0], transfer=(("baud", 9600), ("by", "serial"), ("names", "8.3")))
    save(replace(project, targets=(first, *project.targets[1:])))
    again = load(project.folder)
    assert again.targets[0].transfer == first.transfer
    build = run_stages(again, first.name)
    assert build.dialect.transfer == Transfer(by="serial", baud=9600, names="8.3")
    assert ship(build.files, build.dialect).seconds == pytest.approx(
        10 * sum(len(data) for data in ship(build.files, build.dialect).files.values()) / 9600
    )
    assert run_stages(again, "colour").dialect.transfer == Transfer()


@pytest.mark.parametrize(
    "way",
    [(("by", "pigeon"),), (("baud", 1),), (("bau", 9600),), (("line_end", "\u2028"),), (("baud", "x"),)],
)
def test_a_bad_way_of_a_target_is_said_in_one_line(tmp_path, way):
    project = small_project(tmp_path / "game")
    with pytest.raises(SceneKitError, match="target board: transfer") as caught:
        run_stages(replace(project, targets=(replace(project.targets[0], transfer=way),)))
    assert "\n" not in str(caught.value)


@pytest.fixture
def call_export(tmp_path, capsys):
    """Return a project, a card, and a function that runs the command line."""
    import json
    from types import SimpleNamespace

    from scenekit.cli.main import outcome

    small_project(tmp_path / "game")
    card = tmp_path / "card"
    card.mkdir()

    def call(*arguments):
        capsys.readouterr()
        code = outcome([str(argument) for argument in arguments])
        printed = capsys.readouterr()
        assert code == 0, printed.err
        return SimpleNamespace(json=lambda: json.loads(printed.out))

    return tmp_path / "game", card, call
