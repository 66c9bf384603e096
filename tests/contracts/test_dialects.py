"""What every dialect owes: it loads, spells what a scene needs of it, and keeps its own limits."""

import re
from pathlib import Path

import pytest
from small_scene import small_project

from scenekit.build import BuildOptions, run_stages
from scenekit.dialects.dialect import TARGETS_FOLDER, dialect_names, load_dialect
from scenekit.dialects.spellings import OPERATORS
from scenekit.errors import SceneKitError
from scenekit.interpreters import readers
from scenekit.model.project import Project
from scenekit.model.target import Target
from scenekit.routines.words import WORDS
from scenekit.verify.prove import prove

NAMES = dialect_names()
HERE = Path(__file__).parent
ALWAYS = ("rewind", "read", "stops_open", "stop_next", "say_open", "say", "say_close", "quit")


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    return small_project(tmp_path_factory.mktemp("dialects") / "p")


def build_for(project, name, **options):
    """Return a build for a dialect, in the first mode of the small machine that it can use."""
    problem = None
    for mode in ("yard-16", "yard-indexed", "yard-direct"):
        target = Target(name="t", machine="small.toml", mode=mode, dialect=name)
        fields = {f: getattr(project, f) for f in ("folder", "name", "sheets", "sprites", "cycles", "scenes")}
        try:
            return run_stages(Project(**fields, targets=(target,)), options=BuildOptions(**options))
        except SceneKitError as error:
            problem = error
    raise AssertionError(f"{name}: {problem}")


def test_every_file_is_a_dialect():
    assert set(NAMES) == {path.stem for path in TARGETS_FOLDER.glob("*.toml")}
    assert {"plain", "brandy", "ecma55"} <= set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_it_says_what_it_is(name):
    dialect = load_dialect(name, HERE)
    assert dialect.summary
    assert re.fullmatch(r"[a-z0-9][a-z0-9-]*", name)
    assert set(dialect.words) <= set(WORDS)
    assert set(ALWAYS) <= set(dialect.words)
    assert dialect.reader == "" or dialect.reader in readers()
    assert not dialect.command or "{program}" in " ".join(dialect.command)
    assert not dialect.command or dialect.package, "say what to install"


@pytest.mark.parametrize("name", NAMES)
def test_it_spells_every_operator_it_needs(name):
    dialect = load_dialect(name, HERE)
    needed = set(OPERATORS) - (set() if dialect.blocks else {"and", "or"})
    assert needed <= set(dialect.operators)
    for operator in needed:
        assert "{a}" in dialect.operators[operator]
        assert "{b}" in dialect.operators[operator]


@pytest.mark.parametrize("name", NAMES)
def test_words_that_give_a_value_use_its_place(name):
    dialect = load_dialect(name, HERE)
    for word, spelling in dialect.words.items():
        place = WORDS[word].sets
        if place is not None and spelling:
            assert "{" + WORDS[word].parameters[place] + "}" in spelling, word


@pytest.mark.parametrize("name", NAMES)
def test_a_scene_is_spelled_within_its_limits(project, name):
    build = build_for(project, name, play=True)
    limits = build.dialect.limits
    for file in (build.program_file, build.play_file):
        text = build.files[file].decode("ascii")
        assert text.endswith("\n")
        assert "\r" not in text
        assert text.replace("\n", "").isprintable()
        assert max(len(line) for line in text.splitlines()) <= limits.line_length
        assert not re.search(r"\{[a-z_]*\}", text), "a placeholder was left"
        if build.dialect.numbered:
            numbers = [int(line.split(" ", 1)[0]) for line in text.splitlines()]
            assert numbers == sorted(set(numbers))
        if limits.program_bytes:
            assert len(text) <= limits.program_bytes


@pytest.mark.parametrize("name", NAMES)
def test_two_builds_and_counting_ones_are_equal(project, name):
    for options in ({"play": True}, {"play": True, "counting": True}):
        assert build_for(project, name, **options).files == build_for(project, name, **options).files


@pytest.mark.parametrize("name", NAMES)
def test_what_it_says_it_can_run_is_proved(project, interpreter, name):
    dialect = interpreter(name)
    if not dialect.reader:
        pytest.skip("no way to run it here")
    build = build_for(project, name, play=True, counting=True)
    proof = prove(build, (0, 3, 14, 30))
    assert proof.passed
    assert (proof.different, proof.counts_different) == (0, 0)
    assert len(proof.ticks) == (4 if build.scheme.draws else 0)


@pytest.mark.parametrize("name", NAMES)
def test_the_text_of_a_tiny_scene_stays_as_it_was_read(tmp_path, golden, name):
    """Golden files: rewritten with pytest --update-golden, and then read."""
    from PIL import Image
    from random_scenes import write_machine

    from scenekit.model.scene import Camera, Plane, Scene

    write_machine(tmp_path / "small.toml", views={"yard": (16, 8)})
    image = Image.new("RGBA", (8, 8), (200, 0, 0, 255))
    image.putpixel((1, 2), (0, 0, 200, 255))
    image.putpixel((5, 5), (0, 0, 0, 0))
    image.save(tmp_path / "dot.png")
    scene = Scene(
        name="tiny",
        ticks=10,
        ticks_per_update=1,
        missed="slow",
        backdrop=(0, 0, 0),
        camera=Camera(),
        planes=(Plane(name="dot", picture="dot.png", tile=(8, 8)),),
        placed=(),
        events=(),
    )
    project = Project(folder=tmp_path, name="tiny", scenes=(scene,))
    build = build_for(project, name, play=True)
    for file in (build.program_file, build.play_file):
        golden(f"programs/{name}/{file}", build.files[file])
