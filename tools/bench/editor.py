"""Measures the window: frame times with the demo playing in every station, start to first frame, idle load.

Run it on a quiet machine: python3 tools/bench/editor.py [--real]
Without --real it paints on SDL's dummy driver; with it on the screen that DISPLAY names.
"""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
FRAMES = 240
PAN_STEPS = 200


def figures(times_ms: list[float]) -> str:
    """Return median and 99th percentile."""
    ordered = sorted(times_ms)
    return f"median {ordered[len(ordered) // 2]:6.2f}  p99 {ordered[int(len(ordered) * 0.99)]:6.2f}"


def measure(window, count: int, step) -> list[float]:
    """Return how long each of so many frames took, in ms, with something done before each."""
    import pygame

    times = []
    for number in range(count):
        step(number)
        events = pygame.event.get()
        begun = time.perf_counter()
        window.frame(events, 1 / 60)
        times.append((time.perf_counter() - begun) * 1000)
    return times


def stations(window) -> None:
    """Play the demo in every station."""
    from scenekit.editor.session import STATIONS

    session = window.desk.session
    everything: list[float] = []
    for station in STATIONS:
        session.station = station
        measure(window, 5, lambda _: None)
        session.playing.plays = True
        times = measure(window, FRAMES, lambda _: None)
        session.playing.plays = False
        everything += times
        print(f"playing, {station:<8} {figures(times)}")
    print(f"playing, all      {figures(everything)}")


def large_sheet(window) -> None:
    """Zoom and pan over a sheet of 8192 x 8192 pixels."""
    import numpy as np

    from scenekit.editor import canvas

    desk = window.desk
    desk.session.station = "sheets"
    name = desk.session.sheet.name
    product = desk.product
    large = np.full((8192, 8192, 4), 255, dtype=np.uint8)
    large[..., :3] = 90
    large[::7, ::5, 0] = 200
    product.art.sheets[name] = large
    measure(window, 5, lambda _: None)
    view = desk.local[f"view sheet {name}"]

    def pan(number: int) -> None:
        view.zoom = canvas.ZOOMS[number // 20 % 6]
        view.x, view.y = -number * 37.0 * view.zoom, -number * 29.0 * view.zoom

    print(f"pan and zoom 8192 {figures(measure(window, PAN_STEPS, pan))}")


def many_frames(window) -> None:
    """Scroll through a list of 500 frames."""

    import pygame

    from scenekit.editor.history import Edit
    from scenekit.model.frame_edits import put_frames
    from scenekit.model.sprites import Frame

    session = window.desk.session
    sheet = session.document.sheets[0]
    more = [Frame(name=f"many-{n:03d}", box=(n % 20, n // 20, 8, 8), pivot=(3, 7)) for n in range(500)]
    document = put_frames(session.document, sheet.name, [*sheet.frames, *more])
    session.apply(Edit(document=document, label="many frames"))
    session.station, session.chosen.sheet = "frames", sheet.name
    measure(window, 5, lambda _: None)
    session.products.wait()
    pygame.event.post(pygame.event.Event(pygame.MOUSEMOTION, pos=(260, 500), rel=(0, 0), buttons=(0, 0, 0)))
    measure(window, 5, lambda _: None)

    def scroll(number: int) -> None:
        way = -1 if number % 100 < 50 else 1
        pygame.event.post(pygame.event.Event(pygame.MOUSEWHEEL, x=0, y=way))

    print(f"scrolling 500     {figures(measure(window, PAN_STEPS, scroll))}")
    session.undo()
    session.wish()
    session.products.wait()


def start_time() -> None:
    """Time fresh processes to their first frame, from before the interpreter starts.

    The first one compiles the modules, as an installation does, and is not counted.
    """
    code = (
        "import time\n"
        "from pathlib import Path\n"
        "from scenekit.editor.environment import check_environment\n"
        "from scenekit.editor.window import Window\n"
        "from scenekit.editor.session import open_session\n"
        "from scenekit.editor.settings import Settings\n"
        "check_environment()\n"
        f"session = open_session(Path({str(ROOT / 'demo_assets')!r}))\n"
        f"w = Window(session, (1280, 800), Settings(toured=True), Path({os.devnull!r}))\n"
        "w.frame(w.backend.events(), 1 / 60)\n"
        "print(time.monotonic())\n"
    )
    times = []
    with tempfile.TemporaryDirectory() as folder:
        environment = {**os.environ, "PYTHONPYCACHEPREFIX": folder, "PYTHONPATH": str(ROOT)}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        for _ in range(8):
            begun = time.monotonic()
            run = subprocess.run(
                [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=environment
            )
            times.append(round((float(run.stdout.split()[-1]) - begun) * 1000))
    print(f"start to first frame: {sorted(times[1:])[3]} ms of {sorted(times[1:])} (first run {times[0]})")


def idle(window) -> None:
    """Say how much of a core the loop takes while nobody does anything."""
    window.last_event_s = -10
    begun, used = time.perf_counter(), time.process_time()
    last = begun
    while time.perf_counter() - begun < 5:
        events = window._wait(last)
        now = time.perf_counter()
        window.frame(events, now - last)
        last = now
    print(f"idle: {(time.process_time() - used) / (time.perf_counter() - begun) * 100:.1f} % of a core")


def main() -> None:
    """Measure and print everything."""
    if "--real" not in sys.argv:
        os.environ["SDL_VIDEODRIVER"] = "dummy"
    import gc

    from scenekit.editor.session import open_session
    from scenekit.editor.settings import Settings
    from scenekit.editor.window import Window

    print(f"load before: {os.getloadavg()[0]:.2f}")
    start_time()
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(ROOT / "demo_assets", Path(folder) / "demo")
        session = open_session(Path(folder) / "demo")
        window = Window(session, (1280, 800), Settings(toured=True), Path(folder) / "window.json")
        measure(window, 3, lambda _: None)
        session.products.wait()
        gc.collect()
        gc.freeze()
        stations(window)
        idle(window)
        many_frames(window)
        large_sheet(window)
        window.backend.close()
    print(f"load after: {os.getloadavg()[0]:.2f}")


if __name__ == "__main__":
    main()
