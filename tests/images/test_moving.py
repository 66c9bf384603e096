"""Moving pictures keep every step with its time, as other readers see them."""

import io
import struct

import numpy as np
import pytest
from PIL import Image, ImageSequence

from scenekit.errors import ImageReadError
from scenekit.images import read_pictures
from scenekit.images.moving import moving_picture, step_times


def steps(count=6, clear=True):
    """Return steps of which the third equals the second, and the last the first."""
    random = np.random.default_rng(5)
    made = []
    for n in range(count):
        step = np.zeros((13, 17, 4), np.uint8)
        step[..., :3] = random.integers(0, 256, (1, 17, 3), dtype=np.uint8)
        step[..., 3] = 255
        step[n : n + 4, 3:9, :3] = (200, 20 * n, 5)
        if clear:
            step[:2, :5] = 0
        made.append(step)
    made[2], made[-1] = made[1].copy(), made[0].copy()
    return made


FINE = (17, 16, 500, 1, 40, 100)
TIMES = {"gif": (30, 20, 500, 20, 40, 100), "apng": FINE, "webp": FINE}


@pytest.mark.parametrize("clear", [True, False])
@pytest.mark.parametrize("kind", ["gif", "apng", "webp"])
def test_another_reader_sees_every_step_and_its_time(kind, clear, tmp_path):
    made = steps(clear=clear)
    data = moving_picture(kind, made, TIMES[kind])
    with Image.open(io.BytesIO(data)) as image:  # Pillow's own decoders
        shown = []
        assert image.n_frames == len(made)
        for frame, time in zip(ImageSequence.Iterator(image), TIMES[kind], strict=True):
            frame.load()
            assert frame.info["duration"] == time
            shown.append(np.array(frame.convert("RGBA")))
        assert image.info.get("loop", 0) == 0
    assert all(np.array_equal(a, b) for a, b in zip(shown, made, strict=True))
    path = tmp_path / f"a.{'png' if kind == 'apng' else kind}"
    path.write_bytes(data)
    ours = read_pictures(path)
    assert [picture.delay_ms for picture in ours] == list(TIMES[kind])
    assert all(np.array_equal(a.pixels, b) for a, b in zip(ours, made, strict=True))


def test_steps_of_more_colours_than_a_gif_holds_are_reduced():
    step = np.zeros((64, 64, 3), np.uint8)
    step[..., 0], step[..., 1] = np.mgrid[0:256:4, 0:256:4]
    data = moving_picture("gif", [step, step], (20, 30))
    with Image.open(io.BytesIO(data)) as image:
        assert image.n_frames == 2
        difference = np.abs(np.array(image.convert("RGB")).astype(int) - step)
    assert difference.mean() < 12


def test_every_row_of_chunks_is_whole():
    data = moving_picture("apng", steps(), TIMES["apng"])
    at, kinds = 8, []
    while at < len(data):
        (size,) = struct.unpack_from(">I", data, at)
        kinds.append(data[at + 4 : at + 8].decode())
        at += 12 + size
    assert at == len(data)
    assert kinds == ["IHDR", "acTL", "fcTL", "IDAT", *["fcTL", "fdAT"] * 5, "IEND"]


def test_times_do_not_drift():
    """60 steps of a tick at 59.94 Hz (SMPTE 170M: 60000/1001) last 1001 ms."""
    times = step_times([1] * 60, 1001 / 60)
    assert sum(times) == 1001
    assert set(times) == {16, 17}
    assert sum(step_times([3] * 20, 1001 / 60, 10)) == 1000


@pytest.mark.parametrize(
    ("kind", "count", "times"),
    [
        ("gif", 1, (15,)),
        ("gif", 1, (10,)),
        ("apng", 1, (0,)),
        ("apng", 1, (70_000,)),
        ("bmp", 1, (20,)),
        ("gif", 0, ()),
    ],
)
def test_what_cannot_be_is_refused(kind, count, times):
    with pytest.raises(ImageReadError, match="moving picture"):
        moving_picture(kind, steps()[:count], times)


def test_steps_of_different_sizes_are_refused():
    made = steps()
    with pytest.raises(ImageReadError, match="another size"):
        moving_picture("apng", [made[0], made[1][:5]], (20, 20))
