"""Reading and saving projects: what is written reads back, bad files are one clear line, saves are atomic."""

import errno
import os
import random
import shutil
import tomllib
from pathlib import Path

import pytest
from random_scenes import random_project
from small_scene import small_project

from scenekit.errors import ProjectError, SceneKitError, UnknownNameError
from scenekit.images.art import load_art
from scenekit.model.project import Project
from scenekit.model.store import inside, load, save, write_atomically
from scenekit.model.tomlfile import read_toml

DEMO = Path(__file__).parents[2] / "demo_assets"


@pytest.fixture
def project(tmp_path):
    return small_project(tmp_path / "p")


def edit(project, old, new, file="project.toml"):
    path = project.folder / file
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))


def refuse(project, words, kind=SceneKitError):
    with pytest.raises(kind) as caught:
        load(project.folder)
    text = str(caught.value)
    assert "\n" not in text
    for word in words if isinstance(words, tuple) else (words,):
        assert word in text, text


def test_the_demo_saves_as_it_stands(tmp_path):
    folder = tmp_path / "demo"
    shutil.copytree(DEMO, folder)
    before = {path: path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}
    project = load(folder)
    save(project)
    assert load(folder) == project
    after = {path: path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}
    assert after == before


@pytest.mark.parametrize("seed", range(30))
def test_random_documents_read_back_as_saved(tmp_path, seed):
    project = random_project(tmp_path / "p", 5000 + seed)
    again = load(project.folder)
    assert again == project
    texts = {path: path.read_bytes() for path in sorted(project.folder.rglob("*.toml"))}
    save(again)
    assert {path: path.read_bytes() for path in sorted(project.folder.rglob("*.toml"))} == texts


def test_a_file_name_opens_its_folder(project):
    assert load(project.folder / "project.toml") == load(project.folder)


def test_comments_stay_at_their_record(project):
    edit(project, "format = 1", "# about the game\n# two lines\nformat = 1")
    edit(project, '[[targets]]\nname = "colour"', '# the second target\n[[targets]]\nname = "colour"')
    edit(project, "[[sprites]]", "# the cat\n[[sprites]]")
    edit(project, 'name = "lamp"', 'name = "lamp" # blinks #twice')
    edit(project, '[[planes]]\nname = "fence"', '# in front\n[[planes]]\nname = "fence"', "scenes/yard.toml")
    project = load(project.folder)
    others = (*project.targets[1:], project.targets[0])
    changed = Project(**{**_fields(project), "targets": others, "cycles": project.cycles[::-1]})
    save(changed)
    text = (project.folder / "project.toml").read_text()
    assert text.startswith("# about the game\n# two lines\n")
    assert '# the second target\n[[targets]]\nname = "colour"' in text
    assert '# the cat\n[[sprites]]\nname = "cat"' in text
    lamp = text.index('name = "lamp"')
    assert "# blinks #twice" in text[text.rindex("\n\n", 0, lamp) : text.index("\n\n", lamp)]
    scene = (project.folder / "scenes/yard.toml").read_text()
    assert '# in front\n[[planes]]\nname = "fence"' in scene
    for word in ("# about the game", "# the second target", "# the cat", "# blinks"):
        assert text.count(word) == 1
    assert load(project.folder) == changed
    save(changed)
    assert (project.folder / "project.toml").read_text() == text


def _fields(project):
    names = ("folder", "name", "sheets", "sprites", "cycles", "palettes", "fonts", "targets", "scenes")
    return {name: getattr(project, name) for name in names}


def test_comments_between_records_without_blank_lines_do_not_wander(project):
    """Frames stand line on line; a comment over one, or beside one of its keys, stays with it."""
    edit(project, '[[sheets.frames]]\nname = "f2"', '# over two\n[[sheets.frames]]\nname = "f2" # beside two')
    edit(project, '[[sprites.facings]]\nfacing = "left"', '# over left\n[[sprites.facings]]\nfacing = "left"')
    path = project.folder / "project.toml"
    path.write_text(path.read_text() + "# at the very end\n")
    texts = []
    for _ in range(3):
        save(load(project.folder))
        texts.append(path.read_text())
    assert texts[1:] == texts[:1] * 2
    assert '# over two\n# beside two\n[[sheets.frames]]\nname = "f2"' in texts[0]
    assert '# over left\n[[sprites.facings]]\nfacing = "left"' in texts[0]
    assert texts[0].count("# at the very end") == 1


@pytest.mark.parametrize(
    ("file", "old", "new", "words"),
    [
        ("project.toml", 'name = "small"', 'name = "small"\nscens = []', ("'scens'", "'scenes'")),
        (
            "project.toml",
            "transparent = 0",
            "transparant = 0",
            ("target board", "'transparant'", "'transparent'"),
        ),
        ("project.toml", "pivot = [2, 7]", "pivott = [2, 7]", ("frame f0", "'pivott'", "'pivot'")),
        ("scenes/yard.toml", "ratio =", "ration =", ("plane wall", "'ration'", "'ratio'")),
        ("scenes/yard.toml", "{ ticks = 11, speed", "{ tick = 11, speed", ("ticks",)),
        ("project.toml", 'sheet = "cats"', 'sheet = "cast"', ("sprite cat", "'cast'", "'cats'")),
        ("project.toml", '["f0", 2]', '["f9", 2]', ("animation walk", "'f9'")),
        ("scenes/yard.toml", 'sprite = "cat"', 'sprite = "cta"', ("tom", "'cta'", "'cat'")),
        ("scenes/yard.toml", 'over = "wall"', 'over = "wal"', ("tom", "over", "wal")),
        ("scenes/yard.toml", 'animation = "sit"', 'animation = "sitt"', ("'sitt'", "'sit'")),
    ],
)
def test_unknown_keys_and_names_say_the_nearest(project, file, old, new, words):
    edit(project, old, new, file)
    refuse(project, words)


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("format = 1", "format = 2", ("format 2 is newer", "install a newer")),
        ("format = 1", "format = 0", "format"),
        ("format = 1\n", "", ("format", "missing")),
        ('name = "board"', 'name = "bo\\"ard"', "a name of letters"),
        ('name = "board"', 'name = "bo\\nard"', "a name of letters"),
        ('name = "board"', 'name = "../board"', "a name of letters"),
        ('name = "board"', f'name = "{"b" * 41}"', "at most 40"),
        ('name = "board"', 'name = ""', "a name of letters"),
        ('name = "board"', "name = 5", "a name of letters"),
        ('name = "board"', 'name = "colour"', "stands twice"),
        ('file = "cat.png"', 'file = "../cat.png"', "a relative path inside"),
        ('file = "cat.png"', 'file = "a/../../cat.png"', "a relative path inside"),
        ('file = "cat.png"', 'file = "/etc/passwd"', "a relative path inside"),
        ('file = "cat.png"', 'file = "C:/cat.png"', "a relative path inside"),
        ('file = "cat.png"', 'file = "a\\\\b.png"', "a relative path inside"),
        ('file = "cat.png"', 'file = "."', "a relative path inside"),
        ('file = "cat.png"', 'file = "c\\u0000at.png"', "a relative path inside"),
        ('author = "nobody"', 'author = "no\\nbody"', "printable text"),
        ("pivot = [2, 7]", "pivot = [2, nan]", "whole numbers"),
        ("pivot = [2, 7]", "pivot = [2, inf]", "whole numbers"),
        ("pivot = [2, 7]", "pivot = [2, 7.0]", "whole numbers"),
        ("pivot = [2, 7]", "pivot = [true, false]", "whole numbers"),
        ("pivot = [2, 7]", "pivot = [2, 99999999999999999999]", "whole numbers"),
        ("pivot = [2, 7]", f"pivot = [2, {'9' * 5000}]", "not valid TOML"),
        ("pivot = [2, 7]", "pivot = " + "[" * 3000 + "]" * 3000, "not valid TOML"),
        ("box = [0, 0, 8, 9]", "box = [0, 0, 0, 9]", "at least 1"),
        ("box = [0, 0, 8, 9]", "box = [-1, 0, 8, 9]", "whole numbers from 0"),
        ("transparent = 0", "transparent = 256", "from 0 to 255"),
        ("ticks = 4", "ticks = 0", "from 1 to 9999"),
        ('["142c5a"', '["142c5g"', "rrggbb"),
        ('direction = "forward"', 'direction = "forwards"', "one of forward, backward"),
    ],
)
def test_bad_values_are_refused_in_one_line(project, old, new, words):
    if old == '["142c5a"':
        text = (project.folder / "project.toml").read_text()
        old = 'colours = ["' + text.split('colours = ["', 1)[1][:6]
        new = 'colours = ["14285g'
    edit(project, old, new)
    refuse(project, words)


@pytest.mark.parametrize(
    "value", ["nan", "inf", "1e400", '"1/0"', '"9/99999"', '"1/2/3"', '""', "1e9", "[]", "{}"]
)
def test_bad_fractions_are_refused(project, value):
    edit(project, 'ratio = ["1/2", "1/3"]', f"ratio = [{value}, 1]", "scenes/yard.toml")
    refuse(project, ("plane wall", "ratio", "fraction"))


def test_a_newer_scene_is_refused_in_clear_words(project):
    edit(project, "format = 1", "format = 7", "scenes/yard.toml")
    refuse(project, ("scenes/yard.toml", "format 7 is newer"))


@pytest.mark.parametrize(
    "data", [b"\xff\xfe", b"name = \x80", b"a = 1\r\nb", b"\x00", b"format = 1\nformat = 1\n", b"[[x]"]
)
def test_files_that_are_no_toml(project, data):
    (project.folder / "project.toml").write_bytes(data)
    refuse(project, "project.toml")


def test_missing_files_and_folders(project, tmp_path):
    with pytest.raises(ProjectError, match="no such project folder"):
        load(tmp_path / "nowhere")
    (project.folder / "scenes" / "yard.toml").unlink()
    refuse(project, ("yard.toml", "no such file"))
    (project.folder / "project.toml").unlink()
    refuse(project, ("project.toml", "no such file"))


def test_a_scene_that_is_a_folder(project):
    (project.folder / "scenes" / "yard.toml").unlink()
    (project.folder / "scenes" / "yard.toml").mkdir()
    refuse(project, "yard.toml")


def test_a_file_too_large_is_not_read(tmp_path):
    path = tmp_path / "project.toml"
    with path.open("wb") as file:
        file.truncate(17_000_000)
    with pytest.raises(ProjectError, match="must be at most"):
        read_toml(path, "project.toml")


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="no links here")
def test_links_that_lead_outside_are_refused(project, tmp_path):
    outside = tmp_path / "outside.png"
    shutil.copy(project.folder / "cat.png", outside)
    (project.folder / "cat.png").unlink()
    (project.folder / "cat.png").symlink_to(outside)
    with pytest.raises(ProjectError, match="leads outside the project folder"):
        load_art(load(project.folder))
    (project.folder / "loop").symlink_to("loop")
    with pytest.raises((ProjectError, OSError, RuntimeError)):
        inside(project.folder, "loop").read_bytes()


def test_a_save_keeps_the_version_before(project):
    old = (project.folder / "project.toml").read_bytes()
    save(Project(**{**_fields(project), "name": "other"}))
    assert load(project.folder).name == "other"
    assert (project.folder / "project.toml.previous").read_bytes() == old
    assert not (project.folder / "scenes" / "yard.toml.previous").exists(), "unchanged files are not written"


@pytest.mark.parametrize("fault", ["replace", "write", "fsync", "chmod"])
def test_a_save_that_fails_loses_nothing(project, monkeypatch, fault):
    before = {path: path.read_bytes() for path in project.folder.rglob("*") if path.is_file()}

    def full(*_args, **_kwargs):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    if fault == "replace":
        monkeypatch.setattr(Path, "replace", full)
    elif fault == "write":
        real = os.fdopen

        def opened(*args, **kwargs):
            file = real(*args, **kwargs)

            class Full:
                def __enter__(self):
                    return self

                def __exit__(self, *_):
                    file.close()

                write = staticmethod(full)

            return Full()

        monkeypatch.setattr(os, "fdopen", opened)
    elif fault == "fsync":
        monkeypatch.setattr(os, "fsync", full)
    else:
        monkeypatch.setattr(Path, "chmod", full)
    with pytest.raises(ProjectError, match="cannot be written: No space left on device"):
        save(Project(**{**_fields(project), "name": "other"}))
    monkeypatch.undo()
    after = {path: path.read_bytes() for path in project.folder.rglob("*") if path.is_file()}
    assert after == before, "no file changed and none was left over"


def test_the_second_write_of_a_save_may_fail_too(project, monkeypatch):
    """The previous version is written first; when the file itself then fails, both hold the old text."""
    old = (project.folder / "project.toml").read_bytes()
    real, calls = Path.replace, []

    def second_fails(self, target):
        calls.append(target)
        if len(calls) == 2:
            raise OSError(errno.ENOSPC, "full")
        return real(self, target)

    monkeypatch.setattr(Path, "replace", second_fails)
    with pytest.raises(ProjectError, match="cannot be written"):
        save(Project(**{**_fields(project), "name": "other"}))
    assert (project.folder / "project.toml").read_bytes() == old
    assert (project.folder / "project.toml.previous").read_bytes() == old
    assert not list(project.folder.rglob("*.part"))


def test_a_folder_that_cannot_be_made_is_one_line(project, tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(SceneKitError) as caught:
        save(Project(**{**_fields(project), "folder": tmp_path / "file" / "inner"}))
    assert "\n" not in str(caught.value)


def test_an_atomic_write_keeps_the_mode(tmp_path):
    path = tmp_path / "a"
    path.write_bytes(b"old")
    path.chmod(0o640)
    write_atomically(path, b"new")
    assert path.read_bytes() == b"new"
    assert path.stat().st_mode & 0o777 == 0o640


VALUES = [
    *("0", "-1", "1", "7", "300", "-99999999", "1e30", "nan", "inf", "true", "99999999999999999999999"),
    *('""', '"x"', '"none"', '"../x"', '"h"', '"1/3"', '"\\u0007"', '"ffffff"', '"' + "y" * 500 + '"'),
    *("[]", "[1]", "[1, 2]", "[1, 2, 3, 4]", '["a", "b"]', "[[]]", "[[1, 2]]", '[["f0", 2, "h"]]'),
    *("{}", "{ a = 1 }", "[{ ticks = 3 }]", "1979-05-27", "07:32:00", '["ffffff", "000000"]'),
]


def test_mutated_documents_load_or_say_what_is_wrong(project):
    """A few hundred broken documents: nothing but our own errors, each in one line."""
    texts = {name: (project.folder / name).read_text() for name in ("project.toml", "scenes/yard.toml")}
    chosen = random.Random(77)
    loaded = 0
    for _ in range(300):
        name = chosen.choice(sorted(texts))
        lines = texts[name].split("\n")
        for _ in range(chosen.randint(1, 3)):
            lines = mutated(lines, chosen)
        text = "\n".join(lines)
        (project.folder / name).write_text(text)
        failure = ""
        try:
            again = load(project.folder)
            save(again)
            loaded += 1
        except SceneKitError as error:
            failure = str(error)
        assert "\n" not in failure
        assert len(failure) < 1000
        if not failure:
            assert load(project.folder) == again
        (project.folder / name).write_text(texts[name])
        other = next(n for n in texts if n != name)
        (project.folder / other).write_text(texts[other])
    assert 10 < loaded < 250


def mutated(lines, chosen):
    """Return lines with one of them changed, lost, doubled, moved or cut."""
    place = chosen.randrange(len(lines))
    line = lines[place]
    kind = chosen.randrange(6)
    if kind <= 2 and " = " in line:
        return [*lines[:place], line.split(" = ")[0] + " = " + chosen.choice(VALUES), *lines[place + 1 :]]
    if kind == 3:
        return [*lines[:place], *lines[place + 1 :]]
    if kind == 4:
        other = chosen.randrange(len(lines))
        return [*lines[:other], line, *lines[other:]]
    cut = chosen.randrange(len(line) + 1)
    return [
        *lines[:place],
        line[:cut] + chosen.choice(("", "x", '"', "]", "#", "\\")) + line[cut:],
        *lines[place + 1 :],
    ]


def test_names_in_errors_cannot_move_the_cursor(project):
    edit(project, 'name = "small"', 'name = "small"\n"\\u001b[2Jx" = 1')
    with pytest.raises(UnknownNameError) as caught:
        load(project.folder)
    assert str(caught.value).isprintable()


def test_saved_text_is_plain_toml_with_short_lists_on_one_line(project):
    text = (project.folder / "project.toml").read_text(encoding="utf-8")
    assert "\r" not in text
    assert text.endswith("\n")
    assert tomllib.loads(text)["name"] == "small"
    assert "box = [0, 0, 8, 9]" in text
