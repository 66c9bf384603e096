"""Files of strangers: good ones of every kind that is read, ways to spoil them, and what must hold then."""

import io
import json
import os
import random
import resource
import shutil
import signal
import struct
import sys
import time
import warnings
import zipfile
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from PIL import Image

from scenekit.calibration.benchmark import read_numbers
from scenekit.chosen import choose_for
from scenekit.colour.given import colours_of_file
from scenekit.dialects.dialect import load_dialect
from scenekit.dialects.spell import Options, spell
from scenekit.errors import SceneKitError
from scenekit.export import LEDGER
from scenekit.images import read_pictures
from scenekit.images.art import load_art, read_map
from scenekit.inspection import document_findings
from scenekit.machines.profile import load_machine
from scenekit.model.pending import PENDING_FILE, pack
from scenekit.model.project import Project
from scenekit.model.store import load, save
from scenekit.programs.own import read_own
from scenekit.programs.records import find_records, read_log_file
from scenekit.routines.language import Program
from scenekit.routines.parse import parse_routines
from scenekit.sheets.source import read_source
from scenekit.slicing.boxlist import read_box_file
from scenekit.verify.board import read_sent_screen

PACKAGE = Path(sys.modules["scenekit"].__file__).parent
LONGEST_S, MOST_MB, STUCK_S = 2.0, 500, 60
"""Seconds of the processor, so that other programs do not count; and of the clock, for what waits."""

LONGEST_MESSAGE = 1200


@dataclass(frozen=True)
class Kind:
    """A kind of file: good ones by file name, how it is read, and the folder that it belongs into."""

    seeds: tuple[tuple[str, bytes], ...]
    read: Callable[[Path], object]
    binary: bool = False
    beside: Path | None = None


class Stuck(BaseException):
    """A reader did not come back."""


OWN_PROGRAM = b"""' A game.
do load
over = 0
while over = 0 and tick < 90
  do ride(2, "facing left")
  for n = 0 to 3
    list(n) = list(n) + 1
  end
  key over
end
say list(2) div 3 mod 2
quit

' Rides on.
routine ride(n, f)
  local i
  i = n * 2 - (f + 1)
  if i < 0 or i > 9
    return
  else
    tick = tick + i
  end
end
"""


def read_own_program(path: Path) -> str:
    """Read a program of the user's own over a tiny library, and spell it in a dialect."""
    library = Program(
        name="tiny",
        remarks=(),
        arrays=(("list", 4),),
        main=(),
        routines=parse_routines("routine load\n  tick = 0\nend\n", "tiny"),
    )
    project = Project(folder=path.parent, name="tiny", scenes=(), sheets=(), sprites=(), targets=())
    program = read_own(path.read_bytes().decode("latin-1"), path.name, project, library)
    program = replace(program, library_file="tiny.bas")
    text = spell(load_dialect("brandy", path.parent), program, {"bottom": 398}, Options())
    assert text.isascii()
    assert all(line.strip() and line.isprintable() for line in text.splitlines())
    return text


# what is read


def read_project(path: Path) -> None:
    """Read a whole project as `check` does, and save it."""
    folder = path.parent.parent if path.parent.name == "scenes" else path.parent
    project = load(folder)
    list(document_findings(project))
    load_art(project)
    for target in project.targets:
        for scene in project.scenes:
            choose_for(project, scene, target)
    save(project)


def read_log(path: Path) -> None:
    """Read a log of a board, as numbers and as records."""
    numbers = read_numbers(read_log_file(path))
    find_records([numbers], range(50))


def kinds(folder: Path) -> dict[str, Kind]:
    """Return every kind of file that is read; the folder takes what making the seeds needs."""
    import fuzz_readers as more
    from small_scene import small_project

    seed, exported = folder / "seed", folder / "exported"
    project = small_project(seed)
    several = ("project.toml", "scenes/quay.toml", "scenes/pier.toml")
    rich = tuple((name, (more.KEPT / name).read_bytes()) for name in several)
    texts = {name: (project.folder / name).read_bytes() for name in ("project.toml", "scenes/yard.toml")}
    machines = sorted((PACKAGE / "machines" / "profiles").glob("*.toml"))[:2]
    dialects = sorted((PACKAGE / "dialects" / "targets").glob("*.toml"))[:3]
    pictures = tuple(_pictures())
    archives = (("steps.zip", _zip(pictures[0][1])), ("layers.ora", _ora(pictures[0][1])))
    moving = tuple(_moving())
    pending = pack(project.folder, texts)
    boxes = b"name,x,y,w,h,pivot_x,pivot_y\nwalk-01,0,0,16,24,8,23\nwalk-02,16,0,16,24,8,23\n"
    listed = b'{"boxes": [{"name": "walk-01", "x": 0, "y": 0, "w": 16, "h": 24}]}'
    log = b"READY\nRUN\n0\n123\n1\n877\n1\n64\n1012\n5511\n> 2 128 944 71\n" * 3
    return {
        "project": Kind((("project.toml", texts["project.toml"]),), read_project, beside=seed),
        "scene": Kind((("scenes/yard.toml", texts["scenes/yard.toml"]),), read_project, beside=seed),
        "several scenes": Kind(rich, more.read_document, beside=more.KEPT),
        "build with kept parts": Kind(tuple(texts.items()), more.build_again(), beside=seed),
        "waiting save": Kind(
            ((PENDING_FILE, pending),), lambda path: read_project(path.with_name("project.toml")), beside=seed
        ),
        "unsaved work": Kind(((".unsaved-work.json", more.unsaved(seed)),), more.read_unsaved, beside=seed),
        "list of an export": Kind(((LEDGER, more.ledger(exported)),), more.export_again, beside=exported),
        "machine": Kind(tuple(("machine.toml", p.read_bytes()) for p in machines), load_machine),
        "dialect": Kind(
            tuple(("mine.toml", p.read_bytes()) for p in dialects),
            lambda path: load_dialect(path.name, path.parent),
        ),
        "answers": Kind((("answers.toml", more.examples()),), more.make_target, beside=seed),
        "own program": Kind((("own.words", OWN_PROGRAM),), read_own_program),
        "own game": Kind((("game.words", (more.DEMO / "game.words").read_bytes()),), more.read_game),
        "log": Kind((("log.txt", log),), read_log),
        "log of a proof": Kind((("log.txt", more.proof_log(seed)),), more.judge_log(seed)),
        "log of tests": Kind((("log.txt", more.proof_log(seed)), ("log.txt", log)), more.grade_log(seed)),
        "log of a benchmark": Kind((("log.txt", more.bench_log()),), more.calibrate_log(folder / "bench")),
        "palette": Kind(
            (("own.txt", b"ff0000\n00ff00 # green\n0000ff\n"), ("own.hex", b"#112233\n445566\n")),
            colours_of_file,
        ),
        "boxes": Kind((("boxes.csv", boxes), ("boxes.json", listed)), read_box_file),
        "map": Kind((("map.csv", b"0,1h,2v,-1\n3hv,0,0,1\n"),), lambda path: read_map(path, "map")),
        "picture": Kind(pictures, read_pictures, binary=True),
        "screen": Kind(pictures, read_sent_screen, binary=True),
        "moving picture": Kind(moving, read_pictures, binary=True),
        "archive": Kind(archives, read_pictures, binary=True),
        "sheet": Kind((*pictures[:2], *archives, *moving[:1]), read_source, binary=True),
    }


def _pixels(seed: int = 1) -> np.ndarray:
    random_pixels = np.random.default_rng(seed).integers(0, 256, (9, 11, 4), dtype=np.uint8)
    random_pixels[..., 3] = np.where(random_pixels[..., 3] > 90, 255, 0)
    return random_pixels


def _pictures() -> Iterator[tuple[str, bytes]]:
    image = Image.fromarray(_pixels())
    for name, kind, mode in (
        ("a.png", "PNG", "RGBA"),
        ("b.png", "PNG", "P"),
        ("a.gif", "GIF", "P"),
        ("a.bmp", "BMP", "RGB"),
        ("a.webp", "WEBP", "RGBA"),
        ("a.tiff", "TIFF", "RGB"),
        ("c.png", "PNG", "I;16"),
    ):
        buffer = io.BytesIO()
        shown = (
            Image.fromarray(np.arange(99, dtype=np.uint16).reshape(9, 11) * 600)
            if mode == "I;16"
            else image.convert(mode)
        )
        shown.save(buffer, kind)
        yield name, buffer.getvalue()


def _moving() -> Iterator[tuple[str, bytes]]:
    from scenekit.images.moving import moving_picture

    steps = [_pixels(n) for n in range(4)]
    for name, kind in (("m.gif", "gif"), ("m.png", "apng"), ("m.webp", "webp")):
        yield name, moving_picture(kind, steps, (40, 20, 60, 30))


def _zip(picture: bytes) -> bytes:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for number in range(3):
            archive.writestr(f"walk-{number}.png", picture)
    return buffer.getvalue()


def _ora(picture: bytes) -> bytes:
    stack = (
        '<?xml version="1.0"?><image version="0.0.3" w="11" h="9"><stack>'
        '<layer name="near" src="data/1.png" x="0" y="0"/>'
        '<layer name="far" src="data/0.png" x="1" y="-2" opacity="0.5"/>'
        "</stack></image>"
    )
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        archive.writestr("mimetype", "image/openraster")
        archive.writestr("stack.xml", stack)
        archive.writestr("data/0.png", picture)
        archive.writestr("data/1.png", picture)
    return buffer.getvalue()


# how it is spoilt

NASTY = [
    *(
        b"nan",
        b"inf",
        b"-inf",
        b"1e999",
        b"-0.0",
        b"0",
        b"-1",
        b"1",
        b"999999",
        b"1000000",
        b"9" * 40,
        b"9" * 5000,
    ),
    *(
        b"0x" + b"f" * 400,
        b"true",
        b'""',
        b'"' + b"y" * 500 + b'"',
        b'"../../x"',
        b'"/etc/passwd"',
        b'"a\\u0000b"',
    ),
    *(
        b"[]",
        b"{}",
        b"[[]]",
        b"[" * 3000,
        b"]" * 50,
        b"{a=" * 300,
        b"1979-05-27",
        b"07:32:00",
        b'"1/0"',
        b'"9999/1"',
    ),
    *("\u202e", "\ufeff", "\u0000", "\ud7ff", "é", "e\u0301", "𝟙", "١٢", "\u2028", "⁄"),
    *(
        b"\xff\xfe",
        b"\xed\xa0\x80",
        b"\r",
        b"\n\n",
        b"\t",
        b"#",
        b'"""',
        b"'''",
        b"=",
        b"a.b.c.d" * 60,
        b"\\",
        b",",
    ),
    *(b"<!ENTITY a 'aaaa'>", b"&a;" * 50, b"]]>", b'"', b"'", b"\x1b[2J", b"1_000", b"+7", b"1e9", b"0.1"),
]
TOKENS = [token.encode("utf-8") if isinstance(token, str) else token for token in NASTY]


def spoilt(data: bytes, chosen: random.Random, binary: bool, others: tuple[bytes, ...]) -> bytes:
    """Return a file with one to six faults."""
    changed = bytearray(data)
    for _ in range(chosen.choice((1, 1, 1, 2, 3, 6))):
        ways = BINARY if binary else TEXT
        chosen.choice(ways)(changed, chosen, others)
    return bytes(changed[:2_000_000])


def _flip(data: bytearray, chosen: random.Random, _: object) -> None:
    if data:
        data[chosen.randrange(len(data))] ^= 1 << chosen.randrange(8)


def _set(data: bytearray, chosen: random.Random, _: object) -> None:
    if data:
        data[chosen.randrange(len(data))] = chosen.choice((0, 1, 127, 128, 254, 255))


def _cut(data: bytearray, chosen: random.Random, _: object) -> None:
    del data[chosen.randrange(len(data) + 1) :]


def _drop(data: bytearray, chosen: random.Random, _: object) -> None:
    at = chosen.randrange(len(data) + 1)
    del data[at : at + chosen.choice((1, 2, 4, 9, 40))]


def _double(data: bytearray, chosen: random.Random, _: object) -> None:
    at = chosen.randrange(len(data) + 1)
    size = chosen.choice((1, 4, 12, 80, 400))
    data[at:at] = data[at : at + size] * chosen.choice((1, 2, 50))


def _token(data: bytearray, chosen: random.Random, _: object) -> None:
    at = chosen.randrange(len(data) + 1)
    data[at:at] = chosen.choice(TOKENS)


def _number(data: bytearray, chosen: random.Random, _: object) -> None:
    """Put a large number, in the order of either end, where binary files keep sizes."""
    at = chosen.randrange(len(data) + 1)
    value = chosen.choice((0, 1, 255, 65535, 65536, 0x7FFFFFFF, 0xFFFFFFFF, chosen.randrange(1 << 32)))
    form = chosen.choice(("<I", ">I", "<H", ">H"))
    packed = struct.pack(form, value & (0xFFFF if form[1] == "H" else 0xFFFFFFFF))
    data[at : at + len(packed)] = packed


def _splice(data: bytearray, chosen: random.Random, others: tuple[bytes, ...]) -> None:
    other = chosen.choice(others)
    at, start = chosen.randrange(len(data) + 1), chosen.randrange(len(other) + 1)
    data[at:] = other[start:]


def _value(data: bytearray, chosen: random.Random, _: object) -> None:
    """Replace the value of one line by a nasty one."""
    lines = bytes(data).split(b"\n")
    with_value = [n for n, line in enumerate(lines) if b"=" in line or b"," in line or line.strip().isdigit()]
    if not with_value:
        return
    number = chosen.choice(with_value)
    line = lines[number]
    sign = b"=" if b"=" in line else b","
    parts = line.split(sign)
    parts[chosen.randrange(len(parts))] = b" " + chosen.choice(TOKENS)
    lines[number] = sign.join(parts)
    data[:] = b"\n".join(lines)


def _line(data: bytearray, chosen: random.Random, _: object) -> None:
    """Take a line out, double it, or put it elsewhere."""
    lines = bytes(data).split(b"\n")
    line = lines.pop(chosen.randrange(len(lines)))
    for _ in range(chosen.choice((0, 1, 2, 300))):
        lines.insert(chosen.randrange(len(lines) + 1), line)
    data[:] = b"\n".join(lines)


def _digits(data: bytearray, chosen: random.Random, _: object) -> None:
    """Change a digit, so that a number stays a number."""
    places = [n for n, byte in enumerate(data) if 48 <= byte < 58]
    if places:
        at = chosen.choice(places)
        data[at : at + 1] = b"%d" % chosen.choice((0, 1, 2, 5, 9, 99, 9999, 123456))


def _mend(data: bytearray, _chosen: random.Random, _others: object) -> None:
    """Put the sums of a PNG right again, so that what is wrong inside is reached."""
    at = 8
    while data[:4] == b"\x89PNG" and at + 12 <= len(data):
        (size,) = struct.unpack_from(">I", data, at)
        if at + 12 + size > len(data):
            return
        struct.pack_into(">I", data, at + 8 + size, zlib.crc32(bytes(data[at + 4 : at + 8 + size])))
        at += 12 + size


TEXT = (_value, _value, _value, _line, _line, _digits, _digits, _token, _flip, _cut, _drop, _double, _splice)
BINARY = (_flip, _set, _number, _number, _cut, _drop, _double, _splice, _token, _mend, _mend)


# what must hold


class Sandbox:
    """A folder in which files of strangers are read; what is written elsewhere is noticed."""

    def __init__(self, folder: Path, longest_s: float = LONGEST_S) -> None:
        self.folder = folder
        self.longest_s = longest_s
        self.outside: list[str] = []
        self.watching = False
        self.kinds = kinds(folder)
        self.others = tuple(data for kind in self.kinds.values() for _, data in kind.seeds)
        sys.addaudithook(self._audit)

    def _audit(self, event: str, arguments: tuple[object, ...]) -> None:
        if not self.watching:
            return
        if event == "open":
            path, mode, flags = arguments
            writes = (isinstance(mode, str) and set(mode) & set("wax+")) or (
                isinstance(flags, int) and flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT)
            )
            if writes and isinstance(path, str | bytes | os.PathLike) and not self._inside(os.fsdecode(path)):
                self.outside.append(f"writes {path!r}")
        elif event in (
            "os.mkdir",
            "os.rename",
            "os.remove",
            "os.rmdir",
            "os.symlink",
            "os.link",
            "os.truncate",
        ):
            if not all(
                self._inside(os.fsdecode(a)) for a in arguments if isinstance(a, str | bytes | os.PathLike)
            ):
                self.outside.append(f"{event} {arguments!r}")
        elif event in ("subprocess.Popen", "os.system", "os.exec", "socket.connect", "os.posix_spawn"):
            self.outside.append(f"{event} {arguments!r}")

    def _inside(self, path: str) -> bool:
        allowed = (str(self.folder), "/dev/null")
        return os.path.realpath(path).startswith(allowed) or "__pycache__" in path

    def try_file(self, kind: Kind, name: str, data: bytes) -> str:
        """Read a file and return what is wrong with how that went, or nothing."""
        case = self.folder / "case"
        shutil.rmtree(case, ignore_errors=True)
        if kind.beside is not None:
            shutil.copytree(kind.beside, case)
        case.mkdir(exist_ok=True)
        path = case / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)
        return self.watched(lambda: kind.read(path))

    def watched(self, work: Callable[[], object]) -> str:
        """Do something and return what is wrong with how it went."""
        self.outside.clear()
        before_mb, start = peak_mb(), time.process_time()
        signal.signal(signal.SIGALRM, self._stuck)
        signal.alarm(STUCK_S)
        self.watching = True
        wrong = ""
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("error")
                work()
        except SceneKitError as error:
            wrong = _message_fault(str(error))
        except Stuck:
            wrong = f"did not come back in {STUCK_S} s"
        except BaseException as error:
            wrong = f"{type(error).__name__}: {str(error)[:200]}"
        finally:
            self.watching = False
            signal.alarm(0)
        took, grown = time.process_time() - start, peak_mb() - before_mb
        if not wrong and took > self.longest_s:
            wrong = f"took {took:.1f} s"
        if not wrong and grown > MOST_MB:
            wrong = f"took {grown:.0f} MB"
        if not wrong and self.outside:
            wrong = "; ".join(self.outside[:3])
        return wrong

    def _stuck(self, *_: object) -> None:
        raise Stuck


def _message_fault(text: str) -> str:
    if not text.isprintable():
        return f"a message that is not one printable line: {text[:200]!r}"
    return "" if len(text) <= LONGEST_MESSAGE else f"a message of {len(text)} characters"


def peak_mb() -> float:
    """Return the largest memory that this process has had."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def cases(sandbox: Sandbox, first: int, count: int) -> Iterator[tuple[str, str, bytes, str]]:
    """Yield (kind, file name, data, what is wrong) of cases; a number always means the same one."""
    names = list(sandbox.kinds)
    for number in range(first, first + count):
        chosen = random.Random(number)
        kind_name = names[number % len(names)]
        kind = sandbox.kinds[kind_name]
        name, data = chosen.choice(kind.seeds)
        changed = spoilt(data, chosen, kind.binary, sandbox.others)
        yield kind_name, name, changed, sandbox.try_file(kind, name, changed)


# made by hand


def _png(width: int, height: int, data: bytes, *more: tuple[bytes, bytes]) -> bytes:
    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    head = struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0)
    middle = b"".join(chunk(kind, body) for kind, body in more)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + middle + chunk(b"IDAT", data) + chunk(b"IEND", b"")


def _archive(entries: dict[str, bytes], links: tuple[str, ...] = ()) -> bytes:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in entries.items():
            entry = zipfile.ZipInfo(name)
            entry.compress_type = zipfile.ZIP_DEFLATED
            if name in links:
                entry.external_attr, entry.create_system = 0o120777 << 16, 3
            archive.writestr(entry, data)
    return buffer.getvalue()


def hand_made() -> Iterator[tuple[str, str, bytes]]:
    """Yield (kind, file name, data) of bombs, climbing paths, links, nesting, and tricks with names."""
    picture = next(_pictures())[1]
    zeros = zlib.compress(b"\0" * 200_000_000, 9)
    yield "picture", "bomb.png", _png(5000, 5000, zeros)
    yield "picture", "claims.png", _png(2**31 - 1, 2**31 - 1, zlib.compress(b"\0" * 9))
    yield "picture", "wide.png", _png(40_000_000, 1, zlib.compress(b"\0" * 99))
    yield "picture", "text.png", _png(3, 3, zlib.compress(b"\0" * 39), (b"zTXt", b"a\0\0" + zeros))
    yield "picture", "profile.png", _png(3, 3, zlib.compress(b"\0" * 39), (b"iCCP", b"a\0\0" + zeros))
    for kind in ("archive", "sheet"):
        yield (
            kind,
            "climbs.zip",
            _archive({"../../evil.png": picture, "/abs.png": picture, "..\\x.png": picture}),
        )
        yield kind, "link.zip", _archive({"a-1.png": b"/etc/passwd", "a-2.png": picture}, ("a-1.png",))
        yield kind, "bomb.zip", _archive({f"a-{n}.png": b"\0" * 30_000_000 for n in range(12)})
        yield kind, "many.zip", _archive({f"a-{n}.png": b"" for n in range(20_000)})
        yield kind, "names.zip", _archive({"a\u202e1.png": picture, "CON.png": picture, "a\n2.png": picture})
        yield kind, "nested.zip", _archive({"a.zip": _archive({"a-1.png": picture})})
        for stack in (
            "<stack>" * 20_000,
            "<!DOCTYPE x [<!ENTITY a 'aaaaaaaaaa'>"
            + "".join(f"<!ENTITY {chr(98 + n)} '{f'&{chr(97 + n)};' * 10}'>" for n in range(9))
            + "]><image w='1' h='1'><stack>&j;</stack></image>",
            "<!DOCTYPE x [<!ENTITY a SYSTEM 'file:///etc/passwd'>]>"
            "<image w='9' h='9'><stack><layer src='&a;'/></stack></image>",
            "<image w='9' h='9'><stack><layer src='../../../etc/passwd'/></stack></image>",
            "<image w='999999999' h='999999999'><stack><layer src='data/0.png'/></stack></image>",
            "<image w='9' h='9'><stack>"
            "<layer src='data/0.png' x='-999999999999' y='nan' opacity='inf'/></stack></image>",
        ):
            entries = {"mimetype": b"image/openraster", "stack.xml": stack.encode(), "data/0.png": picture}
            yield kind, "hand.ora", _archive(entries)
    for kind, name in (
        ("project", "project.toml"),
        ("machine", "machine.toml"),
        ("dialect", "mine.toml"),
        ("answers", "answers.toml"),
    ):
        for text in (
            b"a = " + b"[" * 100_000,
            b"a = " + b"{b = " * 50_000,
            b".".join([b"a"] * 30_000) + b" = 1",
            b"\n".join(b"a%d = %d" % (n, n) for n in range(60_000)),
            b"\n".join(b"[a.b%d.c]" % n for n in range(40_000)),
            b"a = " + b"9" * 1_000_000,
            b"format = 1e400\nname = nan",
            b'"' + b"k" * 900_000 + b'" = 1',
            b"a = '''" + b"x" * 15_000_000 + b"'''",
        ):
            yield kind, name, text
    yield "map", "map.csv", b",".join([b"0"] * 2_000_000)
    yield "map", "map.csv", b'"' + b"0," * 4_000_000
    yield "boxes", "boxes.json", b"[" * 200_000
    yield (
        "boxes",
        "boxes.json",
        json.dumps({"boxes": [{"name": "a", "x": 1e308, "y": 5, "w": 1, "h": 1}]}).encode(),
    )
    yield (
        "boxes",
        "boxes.json",
        b'{"boxes": [{"name": "a", "x": ' + b"9" * 6000 + b', "y": NaN, "w": Infinity, "h": 1}]}',
    )
    yield "boxes", "boxes.csv", b"name,x,y,w,h\n" + b"a,0,0,1,1\n" * 300_000
    yield "log", "log.txt", b"9" * 3_000_000
    yield "log", "log.txt", b"1 2 3 4\n" * 500_000
    yield "palette", "own.txt", b"ff0000\n" * 500_000


def try_hand_made(sandbox: Sandbox) -> list[str]:
    """Return what is wrong with the hand-made cases."""
    wrong = []
    for kind, name, data in hand_made():
        fault = sandbox.try_file(sandbox.kinds[kind], name, data)
        if fault:
            wrong.append(f"{kind} {name} of {len(data)} bytes, {data[:24]!r}: {fault}")
    return wrong
