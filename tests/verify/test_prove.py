"""What verify runs: the exported files themselves, with limits, and never anything stale."""

import hashlib
import os
import shutil
import sys
import time
from dataclasses import replace
from pathlib import Path

import pytest
from small_scene import TICKS, small_project

from scenekit import interpreters
from scenekit.build import BuildOptions, run_stages
from scenekit.errors import SceneKitError, VerifyError
from scenekit.export import LEDGER, write_export
from scenekit.interpreters.outcome import Reader
from scenekit.verify import prove as prove_module
from scenekit.verify.prove import can_run, prove

PLAYING = BuildOptions(play=True)
POSIX = pytest.mark.skipif(os.name != "posix", reason="process groups are of this kind on POSIX only")


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    return small_project(tmp_path_factory.mktemp("prove") / "project")


@pytest.fixture
def build(project):
    return run_stages(project, "board", options=PLAYING)


def digests(folder: Path) -> dict[str, str]:
    return {p.name: hashlib.sha256(p.read_bytes()).hexdigest() for p in sorted(folder.iterdir())}


def one_line(caught) -> str:
    text = str(caught.value)
    assert "\n" not in text
    assert text[0].islower() or text[0].isdigit() or text.startswith("/") or "." in text.split(":")[0]
    return text


def watch(monkeypatch, build, look):
    """Let a function look at the run's folder just before the real reader runs it."""
    real = interpreters.readers()[build.dialect.reader]

    def run(task):
        look(task)
        return real.run(task)

    name = build.dialect.reader
    spy = Reader(name=name, available=real.available, run=run)
    monkeypatch.setattr(prove_module, "readers", lambda: {name: spy})


@pytest.mark.parametrize("target", ["board", "colour", "sixteen", "tables"])
def test_what_runs_is_what_was_exported_but_for_the_stops(
    project, tmp_path, monkeypatch, interpreter, target
):
    build = run_stages(project, target, options=PLAYING)
    interpreter(build.dialect.name)
    exported = tmp_path / "exported"
    write_export(exported, build.files)
    before = digests(exported)
    seen = {}
    watch(monkeypatch, build, lambda task: seen.update(digests(task.folder)))
    assert prove(build, TICKS, exported=exported).passed
    assert digests(exported) == before, "verify may not change the export"
    assert seen.keys() == before.keys()
    changed = {name for name in before if seen[name] != before[name]}
    assert changed == {"stops.txt" if "stops.txt" in before else build.play_file}


def test_a_program_without_a_stops_file_changes_in_one_line_only(project, tmp_path, monkeypatch):
    build = run_stages(project, "tables", options=PLAYING)
    seen = []
    watch(monkeypatch, build, lambda task: seen.append((task.folder / task.program).read_text()))
    monkeypatch.setattr(prove_module, "_judge", lambda *_: None)
    monkeypatch.setattr(prove_module, "replace", lambda proof, **_: proof)
    if not can_run(build):
        pytest.skip("no Minimal BASIC here")
    prove(build, (0, 4, 9))
    old = build.files[build.play_file].decode("ascii").splitlines()
    new = seen[0].splitlines()
    pairs = [(a, b) for a, b in zip(old, new, strict=True) if a != b]
    assert len(pairs) == 1
    assert pairs[0][0].split(" ", 1)[1] == "DATA -1"
    assert pairs[0][1].split(" ", 1)[1] == "DATA 0,4,9,-1"


@pytest.mark.parametrize("target", ["board", "colour", "tables"])
def test_ticks_may_be_named_after_the_export(project, tmp_path, interpreter, target):
    """Other stops need no other export, and a scene runs on after its last tick."""
    build = run_stages(project, target, options=PLAYING)
    interpreter(build.dialect.name)
    write_export(tmp_path / "exported", build.files)
    for ticks in ((5,), (0, 1, 2, 3, 4, 5, 6, 7), (77, 12, 12, 240)):
        proof = prove(build, ticks, exported=tmp_path / "exported")
        assert proof.passed
        if build.scheme.draws:
            assert [result.tick for result in proof.ticks] == sorted(set(ticks))


def test_the_export_ships_without_stops_and_without_finished_screens(project):
    for target in ("board", "colour", "sixteen"):
        build = run_stages(project, target, options=PLAYING)
        assert build.files["stops.txt"] == b""
        pixels = sum(picture.size for picture in build.pieces.pictures)
        art = [len(data) for name, data in build.files.items() if name == build.art_file]
        assert len(art) == 1
        assert art[0] <= 4 * pixels + 4096


def test_only_path_tables_grow_with_the_length_of_a_scene(project):
    longer = replace(project, scenes=(replace(project.scenes[0], ticks=100_000),))
    short = run_stages(project, "board", options=PLAYING).files
    assert run_stages(longer, "board", options=PLAYING).files == short


@pytest.mark.parametrize("ticks", [(), (-1,), (0, 10_000_001)])
def test_bad_ticks_are_refused(build, ticks):
    with pytest.raises(VerifyError, match="ticks"):
        prove(build, ticks)


def test_a_missing_interpreter_is_one_line_with_the_way_to_have_it(project):
    build = run_stages(project, "colour", options=PLAYING)
    build.dialect = replace(build.dialect, command=("no-such-interpreter-here", "{program}"))
    assert not can_run(build)
    with pytest.raises(VerifyError, match="not installed; to install it: apt-get install") as caught:
        prove(build, TICKS)
    one_line(caught)


def fake(project, tmp_path, script, target="colour"):
    """Return a build whose interpreter is Python, and a folder where a script stands for the program."""
    build = run_stages(project, target, options=PLAYING)
    build.dialect = replace(build.dialect, command=(sys.executable, "{program}"))
    exported = tmp_path / "exported"
    write_export(exported, build.files)
    (exported / build.play_file).write_text(script)
    return build, exported


def gone(pid: int) -> bool:
    """Say whether a process has ended (a zombie that nobody waits for has, too)."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()[0] in "ZX"
    except OSError:
        return True


@POSIX
@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="needs /proc")
def test_a_program_that_never_ends_is_stopped_with_all_its_children(project, tmp_path):
    note = tmp_path / "pids"
    script = (
        "import subprocess, sys, os, time\n"
        "child = subprocess.Popen([sys.executable, '-c', 'import time; time.sleep(600)'])\n"
        f"open({str(note)!r}, 'w').write(f'{{os.getpid()}} {{child.pid}}')\n"
        "time.sleep(600)\n"
    )
    build, exported = fake(project, tmp_path, script)
    started = time.monotonic()
    with pytest.raises(VerifyError, match="still running after 1 s; stopped") as caught:
        prove(build, TICKS, exported=exported, time_limit_s=1)
    assert time.monotonic() - started < 5
    one_line(caught)
    pids = [int(word) for word in note.read_text().split()]
    assert len(pids) == 2
    deadline = time.monotonic() + 5
    while not all(gone(pid) for pid in pids) and time.monotonic() < deadline:
        time.sleep(0.02)
    assert all(gone(pid) for pid in pids)


@POSIX
@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="needs /proc")
def test_children_of_a_program_that_ended_are_stopped_too(project, tmp_path):
    note = tmp_path / "pid"
    script = (
        "import subprocess, sys\n"
        "child = subprocess.Popen([sys.executable, '-c', 'import time; time.sleep(600)'])\n"
        f"open({str(note)!r}, 'w').write(str(child.pid))\n"
    )
    build, exported = fake(project, tmp_path, script)
    with pytest.raises(VerifyError):
        prove(build, TICKS, exported=exported, time_limit_s=20)
    deadline = time.monotonic() + 5
    while not gone(int(note.read_text())) and time.monotonic() < deadline:
        time.sleep(0.02)
    assert gone(int(note.read_text()))


def test_an_executor_program_that_never_ends_is_stopped(build, tmp_path):
    exported = tmp_path / "exported"
    write_export(exported, build.files)
    for loop in ("while 0 < 1\nsk_i = 1\nend\n", "while 0 < 1\nend\n", "for sk_i = 0 to 99999999999\nend\n"):
        (exported / build.play_file).write_text(loop)
        started = time.monotonic()
        with pytest.raises(VerifyError, match=r"still running after .* s; stopped"):
            prove(build, TICKS, exported=exported, time_limit_s=0.5)
        assert time.monotonic() - started < 4


def test_an_interpreter_that_writes_nothing(project, tmp_path):
    build, exported = fake(project, tmp_path, "")
    with pytest.raises(VerifyError, match="did not save this screen") as caught:
        prove(build, TICKS, exported=exported)
    one_line(caught)


def test_an_interpreter_that_writes_screens_but_no_values(project, tmp_path):
    write = "from PIL import Image\nfor n in range(40): Image.new('RGB', (48, 32)).save(f'shot{n}.bmp')\n"
    build, exported = fake(project, tmp_path, write)
    with pytest.raises(VerifyError, match=r"said\.txt: the program did not write its values"):
        prove(build, TICKS, exported=exported)


@pytest.mark.parametrize(
    ("said", "words"),
    [("12\nabc\n", "must be a number"), ("1e999\n", "must be a number"), ("nan\n", "must be a number")],
)
def test_values_that_are_no_numbers(project, tmp_path, said, words):
    write = "from PIL import Image\nfor n in range(40): Image.new('RGB', (48, 32)).save(f'shot{n}.bmp')\n"
    build, exported = fake(project, tmp_path, f"{write}open('said.txt', 'w').write({said!r})\n")
    with pytest.raises(VerifyError, match=words) as caught:
        prove(build, TICKS, exported=exported)
    one_line(caught)


def test_a_screen_that_is_no_picture_or_of_another_size(project, tmp_path):
    script = "for n in range(40): open(f'shot{n}.bmp', 'w').write('BM')\nopen('said.txt', 'w').write('1')\n"
    build, exported = fake(project, tmp_path, script)
    with pytest.raises(SceneKitError) as caught:
        prove(build, TICKS, exported=exported)
    one_line(caught)
    script = (
        "from PIL import Image\nfor n in range(40): Image.new('RGB', (7, 5)).save(f'shot{n}.bmp')\n"
        "open('said.txt', 'w').write('1')\n"
    )
    (exported / build.play_file).write_text(script)
    proof = prove(build, TICKS, exported=exported, pictures=tmp_path / "pictures")
    assert not proof.passed
    assert all(result.different == 48 * 32 for result in proof.ticks)
    assert len(list((tmp_path / "pictures").iterdir())) == len(TICKS)


def test_results_of_an_earlier_run_do_not_count(project, tmp_path, interpreter):
    """An export folder with screens and values of an earlier, good run: the program now writes nothing."""
    build = run_stages(project, "colour", options=PLAYING)
    interpreter(build.dialect.name)
    exported = tmp_path / "exported"
    write_export(exported, build.files)

    def keep(task):
        for name in ("said.txt", "shot0.bmp", "shot1.bmp"):
            if (task.folder / name).exists():
                shutil.copy(task.folder / name, exported)

    real = interpreters.readers()["screenfile"]
    with pytest.MonkeyPatch.context() as patch:

        def run(task):
            outcome = real.run(task)
            keep(task)
            return outcome

        spy = Reader(name="screenfile", available=real.available, run=run)
        patch.setattr(prove_module, "readers", lambda: {"screenfile": spy})
        assert prove(build, (0, 3), exported=exported).passed
    assert (exported / "shot1.bmp").exists()
    build.dialect = replace(build.dialect, command=(sys.executable, "-c", "pass"))
    with pytest.raises(VerifyError, match="did not save this screen"):
        prove(build, (0, 3), exported=exported)


def test_a_program_that_fails_says_its_exit_code(project, tmp_path):
    build, exported = fake(project, tmp_path, "raise SystemExit(3)\n")
    with pytest.raises(VerifyError, match="ended with code 3"):
        prove(build, TICKS, exported=exported)


def test_an_interpreter_that_prints_nothing(project, tmp_path):
    build, exported = fake(project, tmp_path, "print('hello')\n", target="tables")
    (exported / build.play_file).write_text("print('hello')\n10\n#DATA\n'''\n10 DATA -1\n'''\n")
    with pytest.raises(VerifyError, match="printed no values"):
        prove(build, TICKS, exported=exported)


def test_an_export_folder_that_is_missing_or_not_for_playing(build, tmp_path):
    with pytest.raises(SceneKitError) as caught:
        prove(build, TICKS, exported=tmp_path / "nowhere")
    one_line(caught)
    (tmp_path / "empty").mkdir()
    with pytest.raises(SceneKitError) as caught:
        prove(build, TICKS, exported=tmp_path / "empty")
    one_line(caught)
    exported = tmp_path / "exported"
    write_export(exported, build.files)
    (exported / build.play_file).unlink()
    with pytest.raises(SceneKitError) as caught:
        prove(build, TICKS, exported=exported)
    one_line(caught)


def test_a_build_without_the_playing_program_cannot_be_proved(project):
    with pytest.raises(SceneKitError) as caught:
        prove(run_stages(project, "board"), TICKS)
    one_line(caught)


@pytest.mark.parametrize("target", ["board", "tables"])
def test_an_exported_program_that_is_not_ascii(project, tmp_path, target):
    build = run_stages(project, target, options=PLAYING)
    write_export(tmp_path / "exported", build.files)
    (tmp_path / "exported" / build.play_file).write_bytes(b"\xff\xfe\x00")
    with pytest.raises(SceneKitError) as caught:
        prove(build, TICKS, exported=tmp_path / "exported")
    one_line(caught)


def test_the_run_folder_is_temporary_and_gone_afterwards(build, tmp_path, monkeypatch):
    seen = []
    watch(monkeypatch, build, lambda task: seen.append(task.folder))
    exported = tmp_path / "exported"
    write_export(exported, build.files)
    prove(build, (0,), exported=exported)
    assert not seen[0].exists()
    assert exported not in (seen[0], *seen[0].parents)


def test_secrets_of_the_environment_are_not_handed_on(project, tmp_path, monkeypatch):
    monkeypatch.setenv("SOME_TOKEN", "secret")
    note = tmp_path / "names"
    build, exported = fake(
        project, tmp_path, f"import os\nopen({str(note)!r}, 'w').write(' '.join(sorted(os.environ)))\n"
    )
    with pytest.raises(VerifyError):
        prove(build, TICKS, exported=exported)
    names = note.read_text().split()
    assert "SOME_TOKEN" not in names
    assert "SDL_VIDEODRIVER" in names


def test_the_proof_as_plain_data(build):
    data = prove(build, (0, 3)).as_dict()
    assert data["passed"] is True
    assert data["target"] == "board"
    assert [tick["tick"] for tick in data["ticks"]] == [0, 3]
    assert all(tick["pixels"] == 48 * 32 and tick["different"] == 0 for tick in data["ticks"])
    assert data["tables"]["different"] == 0


def test_nothing_compared_is_not_passed(build):
    proof = replace(prove(build, (0,)), values=0, ticks=())
    assert not proof.passed


def test_the_ledger_is_no_part_of_what_runs(build, tmp_path, monkeypatch):
    """The list of exported files is copied along, but the program runs without it."""
    exported = tmp_path / "exported"
    write_export(exported, build.files)
    (exported / LEDGER).unlink()
    assert prove(build, (0, 3), exported=exported).passed
