"""Shipped profiles are sound; a stranger's profile gets one clear line and bounded time."""

import random
import time
import tomllib
from fractions import Fraction
from pathlib import Path

import pytest

from scenekit.errors import MachineError, SceneKitError, UnknownNameError
from scenekit.machines import modes, profile
from scenekit.machines.abilities import ABLE, OPERATIONS
from scenekit.machines.memory import Memory
from scenekit.machines.profile import load_machine, machine_from_table, machine_names
from scenekit.model.tomlfile import LARGEST_FILE_BYTES


def forget() -> None:
    """Let display timings be read again."""
    modes.timings.cache_clear()
    modes._rows.cache_clear()


SMALL = """
summary = "a small machine"

[abilities]
words = ["fill", "blit", "blit-keyed", "blit-flipped", "palette"]
flips = ["h"]
recolours = true
pages = 2
clips = true
image_formats = ["bmp"]

[[modes]]
name = "320x200"
picture = [320, 200]
timing = "vga-640x400-70"
lines_per_row = 2
colour = "indexed"
depth = "4-4-4"
entries = 16

[[memories]]
name = "all"
capacity_bytes = 65536
alignment_bytes = 4
overhead_bytes_per_item = 6
reserve_bytes = 1024
holds = ["art", "pages", "tables", "program"]

[[costs]]
operation = "blit"
per_call_us = 10.5
per_pixel_us = 0.01
provenance = "measured: 2026-03-01, on the machine, 40 runs, residual 2 %"

[[costs]]
operation = "blit"
mode = "320x200"
source = "all"
per_call_us = 7
provenance = "estimated: a guess"
"""


def small(old: str = "", new: str = "") -> str:
    assert old in SMALL
    return SMALL.replace(old, new, 1)


def load(folder: Path, text: str) -> object:
    path = folder / "mine.toml"
    path.write_text(text, encoding="utf-8")
    return load_machine(path)


@pytest.mark.parametrize("name", machine_names())
def test_shipped_profile_is_sound(name: str) -> None:
    machine = load_machine(name)
    assert machine.name == name
    assert machine.summary == machine.summary.strip() != ""
    priced = set(machine.costs)
    assert priced <= set(OPERATIONS)
    able = machine.abilities.words - {"page"}
    assert priced & set(ABLE) == able, "every word of a shipped machine has a price"
    assert ("page" in priced) == bool(machine.abilities.words), "and every picture"
    assert machine.costs["logic"].share_percent == 25
    assert "25 %" in machine.costs["logic"].provenance
    for mode in machine.modes.values():
        assert mode.timing.picture_rows == mode.height_px
        assert 0 < mode.timing.undrawn_ms < mode.timing.period_ms
        assert sum(mode.depth_bits) <= 24
        pages = machine.memory_for("pages")
        if machine.abilities.pages:
            assert pages is not None
            assert machine.abilities.pages * mode.page_bytes <= pages.capacity_bytes
    for kind in ("art", "tables", "program"):
        assert machine.memory_for(kind) is not None
    assert ("blit-flipped" in machine.abilities.words) == bool(machine.abilities.flips)


def test_the_indexed_board_is_what_its_name_says() -> None:
    board = load_machine("indexed-board")
    mode = board.mode("640x400")
    assert (mode.entries, mode.depth_bits, mode.page_bytes) == (256, (4, 4, 4), 256_000)
    assert board.recolours("640x400")
    assert board.abilities.flips == {"h", "v", "hv"}
    assert f"{float(mode.timing.refresh_hz):.6f}" == "70.086303"
    assert board.mode("320x200").timing.double_scan


def test_recolouring_needs_entries_that_can_be_written() -> None:
    brandy = load_machine("brandy-pc")
    assert brandy.recolours("320x200-16")
    assert not brandy.recolours("320x200-colour")
    fixed = load_machine("pcbasic-pc")
    assert not fixed.recolours("320x200")
    assert fixed.recolours("640x350")
    assert fixed.mode("640x350").page_bytes == 112_000


def test_unknown_cost_is_missing_and_never_zero(tmp_path: Path) -> None:
    machine = load_machine("minimal-pc")
    assert machine.cost("blit") is None
    assert set(machine.costs) == {"logic"}
    text = small("per_call_us = 10.5\nper_pixel_us = 0.01\n")
    with pytest.raises(MachineError, match="costs nothing; leave an unknown cost out"):
        load(tmp_path, text)


def test_narrowest_price_wins(tmp_path: Path) -> None:
    machine = load(tmp_path, SMALL)
    assert machine.costs["blit"].per_call_us == 10.5
    assert machine.costs["blit"].measured
    assert machine.cost("blit", "320x200").per_call_us == 10.5
    assert machine.cost("blit", "320x200", "all", "all").per_call_us == 7
    assert machine.costs_in("320x200", "all")["blit"].per_call_us == 7
    assert machine.costs["blit"].time_us(2, 16, 1000) == pytest.approx(31)


def test_share_of_the_period() -> None:
    logic = load_machine("indexed-board").costs["logic"]
    assert logic.time_us(1, 0, 0, 14268.0) == 3567.0


def test_memory_counts_overhead_and_alignment() -> None:
    memory = Memory(
        name="all", capacity_bytes=100, alignment_bytes=8, overhead_bytes_per_item=6, reserve_bytes=20
    )
    assert [memory.taken_bytes(size) for size in (0, 1, 2, 3, 10)] == [8, 8, 8, 16, 16]
    assert memory.usable_bytes == 80


def test_mode_by_formula_and_by_written_timing(tmp_path: Path) -> None:
    text = small('"vga-640x400-70"', '{ formula = "cvt", size = [640, 480], rate_hz = 60 }')
    assert load(tmp_path, text).mode("320x200").timing.refresh_hz == 59.375
    line = "horizontal = [640, 16, 96, 48], vertical = [400, 12, 2, 35]"
    written = f'{{ clock_hz = "25175000/1", {line}, sync = "-+" }}'
    machine = load(tmp_path, small('"vga-640x400-70"', written))
    assert (
        machine.mode("320x200").timing.line_us == load_machine("indexed-board").mode("640x400").timing.line_us
    )


BAD = {
    "not toml": ("summary =", "summary", "not valid TOML"),
    "unknown key": ("pages = 2", "pages = 2\npagse = 3", "unknown name 'pagse'; did you mean 'pages'"),
    "unknown table": (
        "[abilities]",
        "[ability]\nx = 1\n[abilities]",
        "unknown name 'ability'; did you mean",
    ),
    "missing key": ("pages = 2", "page = 2", "pages: missing; did you write 'page'"),
    "missing abilities": ("[abilities]", "[abilites]", "abilities: missing; did you write 'abilites'"),
    "no modes": ("[[modes]]", "[[mode]]", "modes: got 0 tables"),
    "wrong type": ("pages = 2", 'pages = "2"', "pages: got '2'; must be a whole number"),
    "truth for number": ("pages = 2", "pages = true", "must be a whole number"),
    "negative": ("capacity_bytes = 65536", "capacity_bytes = -1", "must be a whole number from 1"),
    "huge": ("capacity_bytes = 65536", "capacity_bytes = 1" + "0" * 60, "a huge number"),
    "reserve over capacity": ("reserve_bytes = 1024", "reserve_bytes = 70000", "from 0 to 65536"),
    "nan": ("per_call_us = 10.5", "per_call_us = nan", "per_call_us: got nan; must be a number"),
    "inf": ("per_call_us = 10.5", "per_call_us = inf", "must be a number from 0"),
    "minus inf": ("per_call_us = 10.5", "per_call_us = -inf", "must be a number from 0"),
    "negative cost": ("per_call_us = 10.5", "per_call_us = -0.5", "must be a number from 0"),
    "huge cost": ("per_call_us = 10.5", "per_call_us = 1e300", "must be a number from 0"),
    "unknown operation": ('operation = "blit"', 'operation = "blits"', "did you mean 'blit'"),
    "unknown mode of cost": ('mode = "320x200"', 'mode = "320x201"', "no display mode '320x201'"),
    "unknown memory of cost": ('source = "all"', 'source = "some"', "no memory 'some'"),
    "price without ability": ('"fill", "blit", ', '"fill", ', "not among the words"),
    "two prices": ('mode = "320x200"\nsource = "all"\n', "", "two prices"),
    "no provenance": ('provenance = "estimated: a guess"', "", "provenance: missing"),
    "vague provenance": ('"estimated: a guess"', '"estimated: "', "provenance: got 'estimated: '; must be"),
    "flip unknown": ('flips = ["h"]', 'flips = ["vh"]', "flips: got 'vh'; must be out of h, v, hv"),
    "flip without blit": ('"blit-flipped", ', "", "empty while words has no blit-flipped"),
    "word twice": ('"fill", ', '"fill", "fill", ', "without repetition"),
    "unknown timing": ('"vga-640x400-70"', '"vga-640x400-71"', "did you mean 'vga-640x400-70'"),
    "timing of another type": ('"vga-640x400-70"', "7", "got 7; must be a table"),
    "picture too tall": ("[320, 200]", "[320, 201]", "do not fit into 400 lines"),
    "picture of three": ("[320, 200]", "[320, 200, 1]", "must be 2 whole numbers"),
    "depth": ('"4-4-4"', '"444"', 'such as "5-6-5"'),
    "depth of nothing": ('"4-4-4"', '"0-4-4"', 'such as "5-6-5"'),
    "entries": ("entries = 16", "entries = 257", "from 2 to 256"),
    "entries of direct": ('"indexed"', '"direct"', "key: unknown name 'entries'"),
    "bits too few": ("entries = 16", "entries = 16\nbits_per_pixel = 3", "from 4 to 32"),
    "mode twice": (
        "[[memories]]",
        '[[modes]]\nname = "320x200"\npicture = [1, 1]\ntiming = "dmt-04"\ncolour = "direct"\n'
        'depth = "5-6-5"\n[[memories]]',
        "modes: a name stands twice",
    ),
    "name with a line end": ('name = "all"', 'name = "a\\nll"', "name: got 'a\\\\nll'; must be"),
    "name with a quote": ('name = "all"', "name = 'a\"ll'", "small letters, digits"),
    "long text": ('"a small machine"', '"' + "a" * 500 + '"', "at most 400 characters"),
    "control text": ('"a small machine"', '"a \\u001b[31m machine"', "printable text"),
    "holds": ('holds = ["art",', 'holds = ["arts",', "did you mean 'art'"),
    "formula at a size it cannot": (
        '"vga-640x400-70"',
        '{ formula = "gtf", size = [320, 200], rate_hz = 60 }',
        "front porch",
    ),
    "formula too fast": (
        '"vga-640x400-70"',
        '{ formula = "cvt", size = [640, 400], rate_hz = 2000 }',
        "rate_hz: got 2000; must be",
    ),
    "clock of nothing": (
        '"vga-640x400-70"',
        '{ clock_hz = "1/0", horizontal = [640, 1, 1, 1], vertical = [400, 1, 1, 1], sync = "--" }',
        "clock_hz: got '1/0'",
    ),
    "no sync": (
        '"vga-640x400-70"',
        '{ clock_hz = 9000000, horizontal = [640, 1, 0, 1], vertical = [400, 1, 1, 1], sync = "--" }',
        "horizontal sync is 0",
    ),
    "standard errors": ("per_call_us = 7", "per_call_us = 7\nstandard_errors_us = [1, 2]", "three numbers"),
    "standard errors nan": (
        "per_call_us = 7",
        "per_call_us = 7\nstandard_errors_us = [1, nan, 2]",
        "three numbers from 0",
    ),
}


@pytest.mark.parametrize(("old", "new", "message"), BAD.values(), ids=BAD)
def test_bad_profile(tmp_path: Path, old: str, new: str, message: str) -> None:
    with pytest.raises(SceneKitError, match=message) as caught:
        load(tmp_path, small(old, new))
    text = str(caught.value)
    assert "\n" not in text
    assert len(text) < 600
    assert text.startswith(("mine.toml", "display timing")) or "mine.toml: not valid TOML" in text


def test_bad_files(tmp_path: Path) -> None:
    cases = {
        "large.toml": b"# " + b"x" * 100 + b"\n",
        "binary.toml": b"\xff\xfe\x00summary",
        "empty.toml": b"",
        "long.toml": b"a." * 100_000 + b"b = 1",
        "deep.toml": b"\n".join([b"x = "] + [b"[" * 300] * 300),
    }
    for name, data in cases.items():
        path = tmp_path / name
        path.write_bytes(data * (LARGEST_FILE_BYTES // 100 + 1) if name == "large.toml" else data)
        with pytest.raises(MachineError):
            load_machine(path)
    with pytest.raises(MachineError, match="no such file"):
        load_machine(tmp_path / "none.toml")
    with pytest.raises(MachineError, match="cannot be read"):
        load_machine(tmp_path)
    with pytest.raises(MachineError):
        load_machine("a\0b.toml")


def test_dotted_keys_cannot_take_long(tmp_path: Path) -> None:
    lines = [f"k{number}." + "a." * 180 + "b = 1" for number in range(2400)]
    path = tmp_path / "dots.toml"
    path.write_text("\n".join(lines), encoding="utf-8")
    assert path.stat().st_size < LARGEST_FILE_BYTES
    began = time.process_time()
    with pytest.raises(MachineError):
        load_machine(path)
    assert time.process_time() - began < 20


def test_unknown_machine_suggests_the_nearest() -> None:
    with pytest.raises(UnknownNameError, match="did you mean 'indexed-board'"):
        load_machine("indexd-board")
    with pytest.raises(UnknownNameError, match="did you mean '320x200'"):
        load_machine("indexed-board").mode("320x20")


def test_random_damage_never_ends_in_a_traceback(tmp_path: Path) -> None:
    """Two thousand profiles with a few characters changed: loaded, or refused with our own error."""
    source = random.Random(1)
    refused: list[str] = []
    for _ in range(2000):
        text = list(SMALL)
        for _ in range(source.randint(1, 4)):
            text[source.randrange(len(text))] = source.choice('0123456789.-"[]{}=\n ,xyz#\\')
        try:
            table = tomllib.loads("".join(text))
        except tomllib.TOMLDecodeError:
            continue
        try:
            machine_from_table("mine", "mine.toml", table)
        except SceneKitError as error:
            refused.append(str(error))
    assert len(refused) > 200
    assert not any("\n" in message for message in refused)


@pytest.mark.parametrize("value", [None, 3, "x", [], [1], {}, {"a": {}}, True, 1.5, [[]], [{}]])
@pytest.mark.parametrize("key", ["summary", "abilities", "modes", "memories", "costs", "storage"])
def test_any_type_in_any_place(key: str, value: object) -> None:
    table = tomllib.loads(SMALL)
    if value is None:
        table.pop(key, None)
    else:
        table[key] = value
    message = ""
    try:
        machine_from_table("mine", "mine.toml", table)
    except MachineError as error:
        message = str(error)
    assert message == "" or message.startswith("mine.toml")


def test_new_mode_and_machine_need_no_code(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two new files are found: a timing under its name, and a machine that uses it."""
    (tmp_path / "odd.toml").write_text(
        '[[mode]]\nname = "odd-512x256-50"\nclock_hz = 10000000\nhorizontal = [512, 32, 48, 48]\n'
        'vertical = [256, 20, 4, 32]\nsync = "--"\n',
        encoding="utf-8",
    )
    machines = tmp_path / "machines"
    machines.mkdir()
    text = small('"vga-640x400-70"', '"odd-512x256-50"').replace("[320, 200]", "[320, 128]")
    (machines / "mine.toml").write_text(text, encoding="utf-8")
    monkeypatch.setattr(modes, "MODES_FOLDER", tmp_path)
    monkeypatch.setattr(profile, "PROFILES_FOLDER", machines)
    forget()
    try:
        assert machine_names() == ("mine",)
        assert load_machine("mine").mode("320x200").timing.refresh_hz == Fraction(15625, 312)
        (tmp_path / "twice.toml").write_text((tmp_path / "odd.toml").read_text("utf-8"), encoding="utf-8")
        forget()
        profile._installed.cache_clear()
        with pytest.raises(MachineError, match="stands twice"):
            load_machine("mine")
    finally:
        forget()


def test_time_of_calls_rows_and_pixels_by_hand() -> None:
    price = load_machine("indexed-board").costs["blit-keyed"]
    assert price.time_us(3, 48, 2304) == pytest.approx(3 * 28 + 48 * 0.35 + 2304 * 0.012)
    assert price.time_us(0, 0, 0, 14268.0) == 0
