"""The report's page: whole, without a network, safe against names, still where that is asked for."""

import base64
import os
import re
import shutil
import subprocess
from html.parser import HTMLParser

import numpy as np
import pytest
from PIL import Image

from scenekit.report.page import Section, chips, figure, page, paragraph, png, table

HOSTILE = '"><script>alert(1)</script><img src=x onerror=alert(1)>\u202e\x07'
NOWHERE = (255, 0, 255)
"""A colour that is nowhere on the page."""
BROWSERS = ("chromium", "chromium-browser", "google-chrome")


class Tags(HTMLParser):
    """Collects tags and their attributes, and sees that every one is closed."""

    VOID = ("img", "meta", "input")

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


def parsed(html):
    tags = Tags()
    tags.feed(html)
    assert tags.open == []
    return tags.tags


def harmless(html):
    """Assert that a page asks for nothing, runs nothing, and that all its pictures are in it."""
    for tag, attributes in parsed(html):
        assert tag not in ("script", "iframe", "object", "embed", "link", "form", "base", "svg")
        assert not any(name.startswith("on") for name in attributes)
        for name in ("src", "href", "srcset", "action"):
            value = attributes.get(name)
            assert value is None or value.startswith(("data:image/png;base64,", "#"))
    style = re.search("<style>(.*?)</style>", html, re.S).group(1)
    assert "url(" not in style
    assert "@import" not in style
    assert "http" not in re.sub('src="data:[^"]*"', "", html).replace("http-equiv", "")


@pytest.fixture
def written(call, game, tmp_path):
    hostile = "<script>alert('x')</script> & \"quoted\" </style>"
    assert call("credits", game, "--of", "hero", "--author", hostile).code == 0
    out = tmp_path / "game.html"
    called = call("report", game, "--out", out, "--prove", "0,30")
    assert called.code == 0, called.err
    return out


def test_the_page_holds_all_it_shows(written):
    html = written.read_text(encoding="utf-8")
    harmless(html)
    titles = re.findall(r'<h2 id="s\d+">([^<]*)</h2>', html)
    wanted = "Scene first|Frames|Animations|Planes|Colours|Time|Memory|Advice|Proof|Flashes|Credits"
    assert titles == wanted.split("|")
    assert "Passed in" in html
    assert "can cause seizures" in html
    assert "&lt;script&gt;alert(" in html
    assert html.count('class="pixels moving"') == html.count('class="pixels resting"') > 0
    pictures = [a for tag, a in parsed(html) if tag == "img"]
    assert all(a["alt"] and a["width"] and a["height"] for a in pictures)
    assert not any("loading" in a for a in pictures), (
        "a lazy picture can be missing when the page is shot or printed"
    )


def test_hostile_words_are_only_words():
    parts = (
        paragraph(HOSTILE, "note"),
        table((HOSTILE, "b"), [(HOSTILE, 1)]),
        figure(png(np.zeros((2, 2, 3), np.uint8)), HOSTILE, (2, 2)),
        chips([("ff0000", HOSTILE)]),
    )
    html = page(HOSTILE, HOSTILE, [Section(title=HOSTILE, parts=parts)])
    harmless(html)
    assert "\u202e" not in html
    assert "\x07" not in html
    with pytest.raises(ValueError, match="invalid literal"):
        chips([('red"', "x")])


def test_no_folder_for_the_page_is_one_line(call, game, tmp_path):
    called = call("report", game, "--out", tmp_path / "no" / "x.html")
    assert called.code == 2
    assert "no such folder" in called.err


def browser():
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    if found is None:
        text = "no browser; to install one: apt-get install chromium"
        if os.environ.get("CI") == "true":
            pytest.fail(text)
        pytest.skip(text)
    return found


def shot(page_file, out, *more):
    """Return what a real browser draws of a page, without a network, and what it has to say."""
    command = [
        browser(),
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--hide-scrollbars",
        "--enable-logging=stderr",
    ]
    command += ["--host-resolver-rules=MAP * ~NOTFOUND", f"--user-data-dir={out.parent / 'user'}", *more]
    command += ["--window-size=1000,1600", f"--screenshot={out}", page_file.as_uri()]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
    assert out.exists(), done.stderr
    return np.array(Image.open(out).convert("RGB")), done.stderr


def test_a_real_browser_shows_it(written, tmp_path):
    picture, said = shot(written, tmp_path / "shot.png")
    assert "CONSOLE" not in said, "nothing is refused by the page's own policy, nothing is missing"
    assert picture.shape == (1600, 1000, 3)
    assert len(np.unique(picture.reshape(-1, 3), axis=0)) > 40


def test_with_reduced_motion_a_real_browser_shows_no_moving_picture(written, tmp_path):
    html = written.read_text(encoding="utf-8")
    one = base64.b64encode(png(np.full((1, 1, 3), NOWHERE, np.uint8))).decode("ascii")
    marked = tmp_path / "marked.html"
    changed = re.sub(r'(class="pixels moving"[^>]*base64,)[^"]*', rf"\g<1>{one}", html)
    marked.write_text(changed, encoding="utf-8")
    usual, _ = shot(marked, tmp_path / "usual.png")
    assert (usual == NOWHERE).all(axis=2).any(), "the colour that stands for moving pictures is seen"
    still, _ = shot(written, tmp_path / "still.png", "--force-prefers-reduced-motion")
    again, _ = shot(marked, tmp_path / "again.png", "--force-prefers-reduced-motion")
    assert not (still == NOWHERE).all(axis=2).any()
    assert np.array_equal(still, again), "what moving pictures hold makes no difference"
    assert not re.search("animation|transition|@keyframes", re.search("<style>(.*?)</style>", html, re.S)[1])
