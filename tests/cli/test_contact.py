"""scenekit contact: sheets of frames, animations that play."""

import pytest
from PIL import Image


def test_frames_and_steps(call, game, tmp_path):
    for more in ((), ("--animations",)):
        out = tmp_path / f"c{len(more)}.png"
        assert call("contact", game, *more, "--out", out).code == 0
        with Image.open(out) as image:
            assert image.width == 1000


@pytest.mark.parametrize("kind", ["gif", "apng", "webp"])
def test_an_animation_plays_with_its_own_times(call, game, tmp_path, kind):
    out = tmp_path / f"walk.{kind}"
    called = call("contact", game, "--play", "hero:walk", "--facing", "left", "--scale", 2, "--out", out)
    assert called.code == 0, called.err
    with Image.open(out) as image:
        assert image.n_frames == 4
        assert image.size[0] >= 24


@pytest.mark.parametrize(
    "arguments",
    [
        ("--play", "hero:walk", "--out", "x.png"),
        ("--out", "x.gif"),
        ("--play", "nobody:walk", "--out", "x.gif"),
        ("--play", "hero:fly", "--out", "x.gif"),
        ("--play", "hero:walk", "--facing", "up", "--out", "x.gif"),
        ("--out", "no/where.png"),
    ],
)
def test_what_cannot_be_is_one_line(call, game, tmp_path, monkeypatch, arguments):
    monkeypatch.chdir(tmp_path)
    called = call("contact", game, *arguments)
    assert called.code == 2
    assert len([x for x in called.err.splitlines() if "rror" in x]) == 1
