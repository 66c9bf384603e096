"""What every file of routines owes to every dialect: words that it spells, or a scheme that does without."""

from pathlib import Path

import pytest

import scenekit
from scenekit.dialects.dialect import dialect_names, load_dialect
from scenekit.plan.schemes import SCHEMES
from scenekit.routines.language import For, Word, walk
from scenekit.routines.library import library_names, routines_of
from scenekit.routines.words import WORDS


def words_of(name):
    return {s.word for routine in routines_of(name) for s in walk(routine.body) if isinstance(s, Word)}


def test_every_word_of_the_language_is_used_or_made():
    used = {word for name in library_names() for word in words_of(name)}
    assert used <= set(WORDS)
    package = Path(scenekit.__file__).parent
    sources = [
        path.read_text(encoding="utf-8") for path in sorted(package.rglob("*.py")) if path.stem != "words"
    ]
    made = {word for word in WORDS if any(f'"{word}"' in source for source in sources)}
    measuring = {"clock"}  # for programs that time a machine
    assert set(WORDS) <= used | made | measuring


@pytest.mark.parametrize("scheme", SCHEMES, ids=lambda scheme: scheme.name)
def test_a_scheme_names_files_that_exist_and_words_that_are_known(scheme):
    assert set(scheme.routines) <= set(library_names())
    assert set(scheme.words) <= set(WORDS)
    assert scheme.reason


@pytest.mark.parametrize("name", library_names())
def test_a_dialect_lacks_words_only_with_reason(name, tmp_path):
    """Each file can be spelled by one dialect that ships at least."""
    able = [d for d in dialect_names() if words_of(name) <= set(load_dialect(d, tmp_path).words)]
    assert able


@pytest.mark.parametrize("name", library_names())
def test_loops_are_over_places_and_not_over_ticks(name):
    """Nothing in a program grows with ticks: no loop runs to the tick itself."""
    for routine in routines_of(name):
        for loop in walk(routine.body):
            if isinstance(loop, For):
                assert "tick'" not in repr(loop.last).replace("ticks_per_update'", "")
