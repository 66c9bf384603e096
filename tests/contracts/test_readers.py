"""What every way to run a program owes: listed, named after its module, and only our own errors."""

from dataclasses import replace

import pytest

from scenekit import interpreters
from scenekit.dialects.dialect import dialect_names, load_dialect
from scenekit.errors import SceneKitError
from scenekit.interpreters.outcome import Outcome, Reader, Run

READERS = interpreters.readers()


def dialect_of(name, folder):
    return next(d for d in (load_dialect(n, folder) for n in dialect_names()) if d.reader == name)


def test_each_is_listed_under_its_own_name():
    assert list(READERS) == interpreters.MODULES
    assert all(isinstance(reader, Reader) and reader.name == name for name, reader in READERS.items())


@pytest.mark.parametrize("name", READERS)
def test_each_is_used_by_a_dialect(name, tmp_path):
    assert dialect_of(name, tmp_path)


@pytest.mark.parametrize("name", [name for name in READERS if name != "executor"])
def test_a_missing_interpreter_is_not_available_and_says_so(name, tmp_path):
    dialect = replace(dialect_of(name, tmp_path), command=("no-such-program-here", "{program}"))
    assert not READERS[name].available(dialect)
    (tmp_path / "p").write_text("x\n")
    with pytest.raises(SceneKitError) as caught:
        READERS[name].run(Run(folder=tmp_path, program="p", dialect=dialect, screens=1, time_limit_s=5))
    assert str(caught.value).isprintable()


@pytest.mark.parametrize("name", READERS)
@pytest.mark.parametrize("data", [b"", b"\n", b"garbage $%&\n", b"\x00\xff" * 50, b"10 PRINT\n"])
def test_a_program_that_is_none_is_our_own_error(name, data, tmp_path, interpreter):
    dialect = dialect_of(name, tmp_path)
    interpreter(dialect.name)
    program = f"p{dialect.file_ending}"
    (tmp_path / program).write_bytes(data)
    task = Run(folder=tmp_path, program=program, dialect=dialect, screens=1, time_limit_s=2)
    with pytest.raises(SceneKitError) as caught:
        assert not isinstance(READERS[name].run(task), Outcome)
    assert str(caught.value).isprintable()


def test_a_missing_interpreter_skips_here_and_fails_where_all_must_be_proved(
    interpreter, monkeypatch, tmp_path
):
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setenv("CI", "")
    with pytest.raises(pytest.skip.Exception, match="brandy is missing; to install it: apt-get install"):
        interpreter("brandy")
    monkeypatch.setenv("CI", "true")
    with pytest.raises(pytest.fail.Exception, match="brandy is missing"):
        interpreter("brandy")
    assert interpreter("plain").name == "plain"
