"""Bad input: one clear line, exit code 2 or 1, nothing lost, no traceback."""

import os
import shutil
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest

Prepare = Callable[[Path, Path], list[object]]


def png_header(width: int, height: int) -> bytes:
    """Return a PNG that claims a size and holds almost nothing."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\0" * 9))
        + chunk(b"IEND", b"")
    )


def truncated(game: Path, other: Path) -> list[object]:
    data = (game / "layers" / "sky.png").read_bytes()
    (game / "layers" / "sky.png").write_bytes(data[: len(data) // 2])
    return ["budget", game]


def mislabelled(game: Path, other: Path) -> list[object]:
    (game / "layers" / "sky.png").write_text("not a picture at all", encoding="ascii")
    return ["preview", game, "--tick", 0, "--out", other / "x.png"]


def gigantic(game: Path, other: Path) -> list[object]:
    (other / "huge.png").write_bytes(png_header(100_000, 100_000))
    return ["slice", other / "huge.png"]


def empty_picture(game: Path, other: Path) -> list[object]:
    (other / "empty.png").write_bytes(b"")
    return ["slice", other / "empty.png"]


def missing_picture(game: Path, other: Path) -> list[object]:
    return ["slice", other / "nowhere.png", "--into", game]


def broken_toml(game: Path, other: Path) -> list[object]:
    (game / "project.toml").write_text("format = 1\nname = [", encoding="utf-8")
    return ["check", game]


def not_utf8(game: Path, other: Path) -> list[object]:
    (game / "project.toml").write_bytes(b'format = 1\nname = "\xff\xfe"\n')
    return ["check", game]


def future_format(game: Path, other: Path) -> list[object]:
    text = (game / "project.toml").read_text(encoding="utf-8")
    (game / "project.toml").write_text(text.replace("format = 1", "format = 7", 1), encoding="utf-8")
    return ["budget", game]


def unknown_key(game: Path, other: Path) -> list[object]:
    with (game / "scenes" / "first.toml").open("a", encoding="utf-8") as file:
        file.write("ratoi = 3\n")
    return ["check", game]


def climbing_path(game: Path, other: Path) -> list[object]:
    text = (game / "scenes" / "first.toml").read_text(encoding="utf-8")
    path = game / "scenes" / "first.toml"
    path.write_text(text.replace("layers/sky.png", "../../../etc/passwd"), encoding="utf-8")
    return ["preview", game, "--tick", 0, "--out", other / "x.png"]


def link_outside(game: Path, other: Path) -> list[object]:
    if os.name == "nt":
        pytest.skip("links need rights on this system")
    secret = other / "secret.png"
    shutil.copy(game / "layers" / "sky.png", secret)
    (game / "layers" / "sky.png").unlink()
    (game / "layers" / "sky.png").symlink_to(secret)
    return ["budget", game]


def zero_cell(game: Path, other: Path) -> list[object]:
    return ["slice", game / "sheets" / "hero.png", "--cell", "0x16"]


def cell_too_large(game: Path, other: Path) -> list[object]:
    return ["slice", game / "sheets" / "hero.png", "--cell", "500x500"]


def bad_key(game: Path, other: Path) -> list[object]:
    return ["slice", game / "sheets" / "hero.png", "--key", "magenta"]


def frame_outside(game: Path, other: Path) -> list[object]:
    text = (game / "project.toml").read_text(encoding="utf-8")
    (game / "project.toml").write_text(text.replace("[36, 0, 12, 16]", "[40, 0, 12, 16]"), encoding="utf-8")
    return ["budget", game]


def name_with_quotes(game: Path, other: Path) -> list[object]:
    text = (game / "project.toml").read_text(encoding="utf-8")
    (game / "project.toml").write_text(text.replace('name = "walk"', "name = 'wa\"lk'"), encoding="utf-8")
    return ["export", game, "--out", other / "board"]


def name_with_line_end(game: Path, other: Path) -> list[object]:
    return ["add", "animation", game, "hero", "walk\n20 REM", "--ticks", 4]


def unknown_target(game: Path, other: Path) -> list[object]:
    return ["budget", game, "--target", "mian"]


def unknown_machine(game: Path, other: Path) -> list[object]:
    return ["add", "target", game, "more", "--machine", "indexed-bord", "--mode", "x", "--dialect", "plain"]


def unknown_mode(game: Path, other: Path) -> list[object]:
    return [
        "add",
        "target",
        game,
        "more",
        "--machine",
        "indexed-board",
        "--mode",
        "9x9",
        "--dialect",
        "plain",
    ]


def bad_ratio(game: Path, other: Path) -> list[object]:
    return ["add", "plane", game, game / "layers" / "sky.png", "--ratio", "1/0"]


def bad_path(game: Path, other: Path) -> list[object]:
    return ["add", "camera", game, "--path", "ten:1,0"]


def placed_nowhere(game: Path, other: Path) -> list[object]:
    return ["add", "placed", game, "hero", "--over", "clouds", "--at", "0,0"]


def bad_ticks(game: Path, other: Path) -> list[object]:
    return ["verify", game, "--ticks", "1,-4"]


def too_many_ticks(game: Path, other: Path) -> list[object]:
    return ["preview", game, "--ticks", "0:99999", "--out", other / "x.gif"]


def no_such_folder(game: Path, other: Path) -> list[object]:
    return ["preview", game, "--tick", 0, "--out", other / "deep" / "er" / "x.png"]


def wrong_ending(game: Path, other: Path) -> list[object]:
    return ["preview", game, "--tick", 0, "--out", other / "x.tga"]


def export_over_own_file(game: Path, other: Path) -> list[object]:
    (other / "first.words").write_text("my own game", encoding="ascii")
    return ["export", game, "--out", other]


def too_few_entries(game: Path, other: Path) -> list[object]:
    text = (game / "project.toml").read_text(encoding="utf-8")
    cycles = '\n[[cycles]]\nname = "a"\nticks = 4\ncolours = ["000001", "000002", "000003", "000004"]\n'
    text = text.replace("transparent = 0", "transparent = 0\ncolours = 4", 1)
    (game / "project.toml").write_text(text + cycles, encoding="utf-8")
    return ["budget", game]


def panel_not_drawn_yet(game: Path, other: Path) -> list[object]:
    path = game / "scenes" / "first.toml"
    path.write_text(path.read_text(encoding="utf-8") + "\n[panel]\nheight = 20\n", encoding="utf-8")
    return ["export", game, "--out", other / "board"]


def missing_interpreter(game: Path, other: Path) -> list[object]:
    source = Path(__file__).parents[2] / "scenekit" / "dialects" / "targets" / "brandy.toml"
    text = source.read_text(encoding="utf-8").replace('"brandy", "-quit"', '"no-such-basic"')
    (game / "mine.toml").write_text(text, encoding="utf-8")
    project = (game / "project.toml").read_text(encoding="utf-8")
    project = project.replace('dialect = "plain"', 'dialect = "mine.toml"').replace(
        "indexed-board", "brandy-pc"
    )
    (game / "project.toml").write_text(project.replace("320x200", "320x200-16"), encoding="utf-8")
    return ["verify", game, "--trust"]


def untrusted_command(game: Path, other: Path) -> list[object]:
    return missing_interpreter(game, other)[:2]


def endless_program(game: Path, other: Path) -> list[object]:
    from scenekit.cli.main import outcome

    assert outcome(["export", str(game), "--out", str(other / "board"), "--play"]) == 0
    play = other / "board" / "first-play.words"
    text = play.read_text(encoding="ascii").replace("  sk_tick = sk_tick + 1", "  sk_tick = sk_tick + 0")
    play.write_text(text, encoding="ascii")
    return ["verify", game, "--exported", other / "board", "--seconds", 1, "--ticks", "9"]


CASES: list[Prepare] = [
    truncated,
    mislabelled,
    gigantic,
    empty_picture,
    missing_picture,
    broken_toml,
    not_utf8,
    future_format,
    unknown_key,
    climbing_path,
    link_outside,
    zero_cell,
    cell_too_large,
    bad_key,
    frame_outside,
    name_with_quotes,
    name_with_line_end,
    unknown_target,
    unknown_machine,
    unknown_mode,
    bad_ratio,
    bad_path,
    placed_nowhere,
    bad_ticks,
    too_many_ticks,
    no_such_folder,
    wrong_ending,
    export_over_own_file,
    too_few_entries,
    panel_not_drawn_yet,
    missing_interpreter,
    untrusted_command,
    endless_program,
]


@pytest.mark.parametrize("prepare", CASES, ids=lambda case: case.__name__)
def test_bad_input(call, game: Path, tmp_path: Path, prepare: Prepare) -> None:
    other = tmp_path / "other"
    other.mkdir()
    arguments = prepare(game, other)
    before = {path: path.read_bytes() for path in sorted(game.rglob("*")) if path.is_file()}
    called = call(*arguments)
    after = {path: path.read_bytes() for path in sorted(game.rglob("*")) if path.is_file()}
    assert called.code in (1, 2), called.out
    lines = [line for line in called.err.splitlines() if not line.startswith(("Usage:", "Try "))]
    messages = [line for line in lines if line.strip()]
    assert len(messages) == 1, called.err
    assert len(messages[0]) < 400
    assert after == before
    assert not list(tmp_path.rglob("*.part"))


def test_full_disk_loses_nothing(call, game: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = (game / "project.toml").read_bytes()

    def full(descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    called = call("add", "animation", game, "hero", "run", "--ticks", 3)
    assert called.code == 2
    assert "No space left" in called.err
    assert (game / "project.toml").read_bytes() == before
    assert not list(game.rglob("*.part"))
