"""What licences ask for, as their deeds say (Creative Commons deeds; from memory)."""

import pytest

from scenekit.model.credits import (
    GIVE_SOURCE,
    KEEP_NOTICE,
    NAME_THEM,
    NO_CHANGES,
    NO_SELLING,
    SHARE_ALIKE,
    is_known,
    licence_asks,
)


@pytest.mark.parametrize(
    ("text", "asks"),
    [
        ("CC0-1.0", ()),
        ("cc0", ()),
        ("Public Domain", ()),
        ("CC-BY-4.0", (NAME_THEM,)),
        ("CC BY 3.0", (NAME_THEM,)),
        ("Creative Commons BY-SA 3.0", (NAME_THEM, SHARE_ALIKE)),
        ("CC-BY-SA-3.0", (NAME_THEM, SHARE_ALIKE)),
        ("CC-BY-NC-4.0", (NAME_THEM, NO_SELLING)),
        ("CC-BY-ND-4.0", (NAME_THEM, NO_CHANGES)),
        ("GPL-2.0+", (KEEP_NOTICE, GIVE_SOURCE)),
        ("GPLv3", (KEEP_NOTICE, GIVE_SOURCE)),
        ("MIT", (KEEP_NOTICE,)),
        ("GPL-2.0 or CC0-1.0", ()),
        ("MIT and CC-BY-4.0", (KEEP_NOTICE, NAME_THEM)),
        ("GPL-2.0/CC0", (KEEP_NOTICE, GIVE_SOURCE)),
    ],
)
def test_what_licences_ask(text: str, asks: tuple[str, ...]) -> None:
    assert is_known(text)
    assert licence_asks(text) == asks


@pytest.mark.parametrize("text", ["", "my own", "ask me first", "summit", "permitted"])
def test_unknown_licences_are_not_guessed(text: str) -> None:
    assert not is_known(text)
    assert licence_asks(text) == ()
