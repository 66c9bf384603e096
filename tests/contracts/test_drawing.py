"""What the window asks of its drawing library: run on whichever of pygame and pygame-ce is installed."""

import numpy as np
import pytest

RED, GREEN, GROUND = (200, 30, 20), (20, 160, 40), (249, 247, 242)


@pytest.fixture
def backend(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("SDL_VIDEODRIVER", "dummy")
    from scenekit.editor.backend import Backend
    from scenekit.editor.theme import LIGHT

    made = Backend((320, 200), "contract", LIGHT)
    yield made
    made.close()


def shown(backend) -> np.ndarray:
    import pygame

    return pygame.surfarray.array3d(backend.surface).swapaxes(0, 1)


def draw(backend, act) -> np.ndarray:
    """Draw frames until nothing changes any more, as a loop does, and return the screen."""
    for _ in range(3):
        with backend.frame(1 / 60):
            act()
    return shown(backend)


def event(kind: str, **data: object):
    import pygame

    return pygame.event.Event(getattr(pygame, kind), **data)


def test_the_library_is_one_of_those_that_were_tried():
    import pygame

    first = tuple(pygame.version.vernum)[:2]
    assert first in ((2, 6), (2, 5))
    assert (first == (2, 5)) == bool(getattr(pygame, "IS_CE", False))


def test_boxes_cover_exactly_their_pixels(backend):
    screen = draw(backend, lambda: backend.fill((10, 20, 30, 5), RED))
    assert (screen[20:25, 10:40] == RED).all()
    assert (screen[19, 10:40] == GROUND).all()
    assert (screen[20:25, 40] == GROUND).all()


def test_a_veil_mixes(backend):
    screen = draw(
        backend,
        lambda: (backend.fill((0, 0, 50, 50), (0, 0, 0)), backend.fill((0, 0, 50, 50), (200, 200, 200), 128)),
    )
    assert abs(int(screen[10, 10, 0]) - 100) <= 2


def test_words_are_as_wide_as_measured(backend):
    wide, high = backend.text_size("Harbour", "body")
    screen = draw(backend, lambda: backend.draw_text((20, 40), "Harbour", "body", (0, 0, 0)))
    ink = np.argwhere((screen != GROUND).any(axis=2))
    assert len(ink) > 50
    assert ink[:, 1].min() >= 19
    assert ink[:, 1].max() <= 20 + wide + 1
    assert 40 <= ink[:, 0].min() <= ink[:, 0].max() <= 40 + high


def test_pictures_are_crisp_at_whole_zooms(backend):
    pixels = np.arange(4 * 6 * 3, dtype=np.uint8).reshape(4, 6, 3) * 3
    number = backend.add_picture(pixels)
    screen = draw(backend, lambda: backend.image(number, (30, 30, 24, 16)))
    assert np.array_equal(screen[30:46, 30:54], pixels.repeat(4, axis=0).repeat(4, axis=1))
    with_holes = np.zeros((2, 2, 4), dtype=np.uint8)
    with_holes[0, 0] = (*RED, 255)
    other = backend.add_picture(with_holes)
    screen = draw(backend, lambda: backend.image(other, (100, 100, 2, 2)))
    assert tuple(screen[100, 100]) == RED
    assert tuple(screen[101, 101]) == GROUND


def test_palette_pictures_change_without_a_whole_frame(backend):
    indices = np.array([[0, 1], [1, 0]], dtype=np.uint8)
    number = backend.add_picture(np.zeros((2, 2, 3), dtype=np.uint8))
    backend.set_indexed(number, indices, np.array([RED, GREEN], dtype=np.uint8))
    screen = draw(backend, lambda: backend.image(number, (0, 0, 2, 2)))
    assert tuple(screen[0, 0]) == RED
    assert tuple(screen[0, 1]) == GREEN
    backend.set_indexed(number, indices, np.array([GREEN, RED], dtype=np.uint8))
    backend.refresh()
    assert tuple(shown(backend)[0, 0]) == GREEN
    assert backend.painted


def test_nothing_new_paints_nothing(backend):
    draw(backend, lambda: backend.fill((10, 20, 30, 5), RED))
    with backend.frame(1 / 60):
        backend.fill((10, 20, 30, 5), RED)
    assert backend.painted == []


def test_clipped_drawing_stays_inside(backend):
    def act() -> None:
        with backend.clipped((10, 10, 5, 5)):
            backend.fill((0, 0, 100, 100), RED)

    screen = draw(backend, act)
    assert int((screen == RED).all(axis=2).sum()) == 25


def test_presses_keys_and_text_arrive(backend):
    felt, texts = [], []

    def act() -> None:
        felt.append(backend.press("here", (10, 10, 40, 20)))
        texts.append(backend.edit_text("field", (10, 60, 200, 24), texts[-1][0] if texts else ""))

    draw(backend, act)
    for kind, data in (
        ("MOUSEMOTION", {"pos": (20, 15), "rel": (0, 0), "buttons": (0, 0, 0)}),
        ("MOUSEBUTTONDOWN", {"pos": (20, 15), "button": 1}),
        ("MOUSEBUTTONUP", {"pos": (20, 15), "button": 1}),
    ):
        backend.feed([event(kind, **data)])
        draw(backend, act)
    assert any(press.clicked for press in felt)
    for kind in ("MOUSEBUTTONDOWN", "MOUSEBUTTONUP"):
        backend.feed(
            [
                event("MOUSEMOTION", pos=(50, 70), rel=(0, 0), buttons=(0, 0, 0)),
                event(kind, pos=(50, 70), button=1),
            ]
        )
        draw(backend, act)
    backend.feed([event("TEXTINPUT", text="quay")])
    draw(backend, act)
    assert texts[-1][0] == "quay"
    import pygame

    backend.feed([event("KEYDOWN", key=pygame.K_PAGEDOWN, mod=pygame.KMOD_LCTRL, unicode="")])
    assert backend.pressed == {"ctrl+page down"}
    backend.feed([event("DROPFILE", file="art.png"), event("QUIT")])
    assert backend.dropped == ["art.png"]
    assert backend.wants_to_close
