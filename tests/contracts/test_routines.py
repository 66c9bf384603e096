"""What every file of routines owes to every dialect: words that it spells, or a scheme that does without."""

import pytest

from scenekit.dialects.dialect import dialect_names, load_dialect
from scenekit.plan.schemes import SCHEMES
from scenekit.routines.language import For, Word, walk
from scenekit.routines.library import library_names, routines_of
from scenekit.routines.words import WORDS


def words_of(name):
    return {s.word for routine in routines_of(name) for s in walk(routine.body) if isinstance(s, Word)}


def test_every_word_of_the_language_is_used_or_made():
    used = {word for name in library_names() for word in words_of(name)}
    made = {
        "mode",
        "mode_direct",
        "load_image",
        "keyed_entry",
        "rewind",
        "read",
        "stops_open",
        "quit",
        "ink_rgb",
    }
    assert used <= set(WORDS)
    assert set(WORDS) <= used | made


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
