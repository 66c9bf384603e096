"""A window on a screen that is not there, for panels; and a real one under Xvfb."""

import os
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

DEMO = Path(__file__).parents[2] / "demo_assets"


@dataclass
class Hand:
    """Presses and types in a window, one frame at a time."""

    window: object
    frames: int = 0
    extra: list[object] = field(default_factory=list)

    def frame(self, count: int = 1, passed_s: float = 1 / 60) -> None:
        import pygame

        for _ in range(count):
            self.window.frame(pygame.event.get(), passed_s)

    def post(self, kind: int, **data: object) -> None:
        import pygame

        pygame.event.post(pygame.event.Event(kind, **data))

    def spot(self, name: str, share: tuple[float, float] = (0.5, 0.5)) -> tuple[float, float]:
        """Return a place in a part, where it stands when all that was being made is there."""
        self.window.desk.session.products.wait()
        self.frame(4)
        x, y, w, h = self.window.desk.ui.marks[name]
        return x + w * share[0], y + h * share[1]

    def click(self, name: str, share: tuple[float, float] = (0.5, 0.5)) -> None:
        self.drag_points(self.spot(name, share), self.spot(name, share))

    def drag_points(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        import pygame

        self.post(pygame.MOUSEMOTION, pos=start, rel=(0, 0), buttons=(0, 0, 0))
        self.frame(2)
        self.post(pygame.MOUSEBUTTONDOWN, pos=start, button=1)
        self.frame(2)
        if start != end:
            for part in range(1, 5):
                spot = tuple(a + (b - a) * part / 4 for a, b in zip(start, end, strict=True))
                self.post(pygame.MOUSEMOTION, pos=spot, rel=(0, 0), buttons=(1, 0, 0))
                self.frame(2)
        self.post(pygame.MOUSEBUTTONUP, pos=end, button=1)
        self.frame(3)

    def key(self, key: int, mod: int = 0) -> None:
        import pygame

        self.post(pygame.KEYDOWN, key=key, mod=mod, unicode="")
        self.frame(2)
        self.post(pygame.KEYUP, key=key, mod=0)
        self.frame(2)

    def type(self, name: str, text: str) -> None:
        """Type into a field and confirm."""
        import pygame

        self.click(name)
        self.key(pygame.K_a, pygame.KMOD_CTRL)
        self.post(pygame.TEXTINPUT, text=text)
        self.frame(2)
        self.key(pygame.K_RETURN)
        self.frame(2)


def open_hand(folder: Path, settings_folder: Path, size: tuple[int, int] = (1280, 800)) -> Hand:
    from scenekit.editor.session import open_session
    from scenekit.editor.settings import Settings
    from scenekit.editor.window import Window

    session = open_session(folder)
    window = Window(session, size, Settings(toured=True), settings_folder / "window.json")
    hand = Hand(window)
    hand.frame(3)
    if session.target is not None:
        session.products.wait()
    hand.frame(3)
    return hand


@pytest.fixture
def opener() -> Callable[..., Hand]:
    """Return what opens a window on a project of one's own."""
    return open_hand


@pytest.fixture
def copied_demo(tmp_path: Path) -> Path:
    folder = tmp_path / "demo"
    shutil.copytree(DEMO, folder, ignore=shutil.ignore_patterns("out"))
    return folder


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Hand]:
    """Return a window on a copy of the demo, on SDL's dummy driver, opened once."""
    folder = tmp_path_factory.mktemp("window")
    shutil.copytree(DEMO, folder / "demo", ignore=shutil.ignore_patterns("out"))
    before = os.environ.get("SDL_VIDEODRIVER")
    os.environ["SDL_VIDEODRIVER"] = "dummy"
    made = open_hand(folder / "demo", folder)
    yield made
    made.window.backend.close()
    if before is None:
        del os.environ["SDL_VIDEODRIVER"]
    else:
        os.environ["SDL_VIDEODRIVER"] = before


@pytest.fixture
def hand(opened: Hand) -> Iterator[Hand]:
    """Return the window as it was when it was opened."""
    import pygame

    from scenekit.editor.history import History
    from scenekit.editor.playing import Playing
    from scenekit.editor.session import Chosen, disk_state

    window, desk, session = opened.window, opened.window.desk, opened.window.desk.session
    folder = session.document.folder
    first = session.history.steps[0].document
    yield opened
    for path in ("project.toml", "scenes/quay.toml", "scenes/pier.toml"):
        shutil.copy(DEMO / path, folder / path)
    session.history = History(first, session.clock)
    session.saved, session.disk = first, disk_state(first)
    session.chosen, session.playing, session.notice = Chosen(), Playing(), None
    session.station, session.target_name, session.scene_name = "planes", "", ""
    session.flash_seen.clear()
    desk.ask, desk.closing, desk.closed = None, False, False
    desk.local.clear()
    desk.ui.typed.clear()
    desk.settings.theme = "light"
    window.backend.surface = pygame.display.set_mode((1280, 800))
    window.backend.painter.surface = window.backend.surface
    window.backend.painter.forget()
    pygame.event.clear()
    opened.post(pygame.MOUSEMOTION, pos=(2, 797), rel=(0, 0), buttons=(0, 0, 0))
    opened.frame(4)
    session.products.wait()
    opened.frame(2)


def needed(*programs: str) -> None:
    """Skip, or fail where CI=true, when a program is missing."""
    missing = [program for program in programs if shutil.which(program) is None]
    if missing:
        text = f"{', '.join(missing)} missing; to install: apt-get install xvfb xdotool"
        if os.environ.get("CI") == "true":
            pytest.fail(text)
        pytest.skip(text)


@pytest.fixture
def screen() -> Iterator[str]:
    """Return the name of a screen of our own, 1280 x 800."""
    needed("Xvfb", "xdotool")
    reading, writing = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1280x800x24", "-nolisten", "tcp"],
        pass_fds=(writing,),
        stderr=subprocess.DEVNULL,
    )
    os.close(writing)
    with os.fdopen(reading) as pipe:
        number = pipe.readline().strip()
    assert number, "Xvfb did not start"
    time.sleep(0.2)
    yield f":{number}"
    server.terminate()
    server.wait()
