"""Animated files: assembled here block by block, so that every delay and every equal neighbour is known."""

import struct
import zlib
from fractions import Fraction
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from scenekit.errors import ImageReadError
from scenekit.images import read_pictures
from scenekit.images.flat import read_picture

PALETTE = ((0, 0, 0), (255, 0, 0), (0, 255, 0), (0, 0, 255))
N, K, R, G, B = (0, 0, 0, 0), *((*colour, 255) for colour in PALETTE)


def packed(rows):
    """Pack entries of 2 bits as GIF asks, a clear code before each so that codes stay 3 bits wide."""
    codes = []
    for entry in [entry for row in rows for entry in row]:
        codes += [4, entry]
    bits = "".join(f"{code:03b}"[::-1] for code in [*codes, 5])
    bits += "0" * (-len(bits) % 8)
    data = bytes(int(bits[i : i + 8][::-1], 2) for i in range(0, len(bits), 8))
    return b"\x02" + bytes([len(data)]) + data + b"\0"


def gif_frame(rows, *, x=0, y=0, delay=5, dispose=0, clear=None, palette=None):
    control = bytes([dispose << 2 | (clear is not None)]) + struct.pack("<H", delay) + bytes([clear or 0, 0])
    flags = 0x81 if palette else 0
    own = bytes(sum(palette, ())) if palette else b""
    box = struct.pack("<HHHHB", x, y, len(rows[0]), len(rows), flags)
    return b"!\xf9\x04" + control + b"," + box + own + packed(rows)


def gif(width, height, frames, shared=PALETTE):
    """Assemble a GIF after the GIF89a specification, clauses 17 to 27."""
    data = b"GIF89a" + struct.pack("<HHBBB", width, height, 0x81 if shared else 0, 0, 0)
    loop = b"!\xff\x0bNETSCAPE2.0\x03\x01\0\0\0"
    return data + bytes(sum(shared or (), ())) + loop + b"".join(frames) + b";"


def chunk(name, data):
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def apng(width, height, steps, *, default=None):
    """Assemble an animated PNG after the W3C PNG specification, third edition, 11.3.6.

    A step is (pixels, x, y, delay top, delay bottom, dispose, blend).
    """

    def raw(pixels):
        return zlib.compress(b"".join(b"\0" + row.tobytes() for row in np.array(pixels, np.uint8)))

    data = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0))
    data += chunk(b"acTL", struct.pack(">II", len(steps), 0))
    number = 0
    if default is not None:
        data += chunk(b"IDAT", raw(default))
    for index, (pixels, x, y, top, bottom, dispose, blend) in enumerate(steps):
        h, w = np.array(pixels).shape[:2]
        control = struct.pack(">IIIIIHHBB", number, w, h, x, y, top, bottom, dispose, blend)
        data += chunk(b"fcTL", control)
        number += 1
        if index == 0 and default is None:
            data += chunk(b"IDAT", raw(pixels))
        else:
            data += chunk(b"fdAT", struct.pack(">I", number) + raw(pixels))
            number += 1
    return data + chunk(b"IEND", b"")


def read(tmp_path, data, name="walk.gif", **options):
    path = tmp_path / name
    path.write_bytes(data)
    return read_pictures(path, **options)


def as_rows(picture):
    return [[tuple(pixel) for pixel in row] for row in picture.pixels.tolist()]


def test_gif_keeps_equal_neighbours_and_exact_delays(tmp_path):
    frames = [gif_frame([[1, 2]], delay=d) for d in (3, 3, 7, 0, 65535)]
    pictures = read(tmp_path, gif(2, 1, frames))
    assert [picture.delay_ms for picture in pictures] == [30, 30, 70, 0, 655350]
    assert [picture.name for picture in pictures] == [f"walk-0{i}" for i in range(5)]
    assert all(as_rows(picture) == [[R, G]] for picture in pictures)
    assert pictures[0].file_palette == PALETTE
    assert [finding.code for finding in pictures[0].findings] == ["no-delay"]


def test_gif_disposal(tmp_path):
    # source: GIF89a specification, clause 23; "background" is clear by common practice
    frames = [
        gif_frame([[1, 1, 1]], dispose=1),
        gif_frame([[2]], x=0, dispose=2),
        gif_frame([[3]], x=1, dispose=3),
        gif_frame([[0]], x=2, dispose=0),
        gif_frame([[3, 1]], x=0, clear=1),
    ]
    rows = [as_rows(picture)[0] for picture in read(tmp_path, gif(3, 1, frames))]
    assert rows == [[R, R, R], [G, R, R], [N, B, R], [N, R, K], [B, R, K]]


def test_gif_with_palettes_of_its_pictures(tmp_path):
    other = ((9, 9, 9), (8, 8, 8), (7, 7, 7), (6, 6, 6))
    pictures = read(tmp_path, gif(1, 1, [gif_frame([[1]]), gif_frame([[1]], palette=other)]))
    assert [as_rows(picture) for picture in pictures] == [[[R]], [[(8, 8, 8, 255)]]]
    assert pictures[0].file_palette is None


def test_gif_of_greys_is_read_by_its_palette(tmp_path):
    greys = ((0, 0, 0), (1, 1, 1), (2, 2, 2), (3, 3, 3))
    pictures = read(tmp_path, gif(1, 1, [gif_frame([[3]]), gif_frame([[2]])], shared=greys))
    assert [picture.pixels[0, 0, 0] for picture in pictures] == [3, 2]


def test_gif_parts_beyond_the_screen_widen_it(tmp_path):
    pictures = read(tmp_path, gif(1, 1, [gif_frame([[1]]), gif_frame([[2, 2]], x=1, y=1)]))
    assert as_rows(pictures[1]) == [[R, N, N], [N, G, G]]


def test_gif_agrees_with_pillow_on_what_pillow_writes(tmp_path):
    # source: Pillow's own reader, an outside implementation, on frames that differ
    draw = np.random.default_rng(2)
    frames = [
        Image.fromarray(draw.integers(0, 256, (8, 9, 3), dtype=np.uint8)).quantize(16) for _ in range(6)
    ]
    data = BytesIO()
    frames[0].save(data, "GIF", save_all=True, append_images=frames[1:], duration=[50, 60, 70, 80, 90, 100])
    pictures = read(tmp_path, data.getvalue())
    with Image.open(data) as image:
        for number, picture in enumerate(pictures):
            image.seek(number)
            assert np.array_equal(np.array(image.convert("RGBA")), picture.pixels)
    assert [picture.delay_ms for picture in pictures] == [50, 60, 70, 80, 90, 100]


def test_the_first_picture_of_a_gif_is_clear_where_it_draws_nothing(tmp_path):
    path = tmp_path / "walk.gif"
    path.write_bytes(gif(3, 1, [gif_frame([[1]], x=1), gif_frame([[2]])]))
    assert as_rows(read_picture(path)) == [[N, R, N]]


def test_apng_keeps_equal_neighbours_and_exact_delays(tmp_path):
    picture = [[R, G]]
    times = [(1, 30), (1, 30), (1, 3), (7, 0), (5, 1000)]
    data = apng(2, 1, [(picture, 0, 0, top, bottom, 0, 0) for top, bottom in times])
    pictures = read(tmp_path, data, "walk.png")
    assert [p.delay_ms for p in pictures] == [Fraction(100, 3), Fraction(100, 3), Fraction(1000, 3), 70, 5]
    assert all(as_rows(p) == [[R, G]] for p in pictures)


def test_apng_blends_and_disposes(tmp_path):
    steps = [
        ([[R, R, R]], 0, 0, 1, 10, 0, 0),
        ([[G]], 0, 0, 1, 10, 1, 0),
        ([[N]], 1, 0, 1, 10, 2, 1),
        ([[B]], 2, 0, 1, 10, 0, 1),
    ]
    pictures = read(tmp_path, apng(3, 1, steps), "walk.png")
    assert [as_rows(p)[0] for p in pictures] == [[R, R, R], [G, R, R], [N, R, R], [N, R, B]]


def test_apng_leaves_out_a_default_picture(tmp_path):
    steps = [([[R]], 0, 0, 1, 10, 0, 0), ([[G]], 0, 0, 1, 10, 0, 0)]
    path = tmp_path / "walk.png"
    path.write_bytes(apng(1, 1, steps, default=[[B]]))
    assert [as_rows(p) for p in read_pictures(path)] == [[[R]], [[G]]]
    assert as_rows(read_picture(path)) == [[B]]


def test_webp(tmp_path):
    draw = np.random.default_rng(3)
    frames = [Image.fromarray(draw.integers(0, 256, (6, 5, 3), dtype=np.uint8)) for _ in range(4)]
    data = BytesIO()
    frames[0].save(
        data, "WEBP", save_all=True, append_images=frames[1:], duration=[33, 34, 33, 1001], lossless=True
    )
    pictures = read(tmp_path, data.getvalue(), "walk.webp")
    assert [picture.delay_ms for picture in pictures] == [33, 34, 33, 1001]
    for picture, frame in zip(pictures, frames, strict=True):
        assert np.array_equal(picture.pixels[..., :3], np.asarray(frame))


def test_key_colour_counts_in_every_step(tmp_path):
    pictures = read(tmp_path, gif(2, 1, [gif_frame([[1, 2]]), gif_frame([[2, 1]])]), key=(255, 0, 0))
    assert [as_rows(picture) for picture in pictures] == [[[N, G]], [[G, N]]]


def test_stills_are_no_animation(tmp_path):
    path = tmp_path / "still.gif"
    path.write_bytes(gif(1, 1, [gif_frame([[1]])]))
    assert len(read_pictures(path)) == 1
    with pytest.raises(ImageReadError, match="holds one picture"):
        read_pictures(path, kind="animated")


def test_pixel_limit_counts_all_steps(tmp_path):
    data = gif(10, 10, [gif_frame([[1]])] * 5)
    assert len(read(tmp_path, data, max_pixels=500)) == 5
    with pytest.raises(ImageReadError, match="5 pictures of 10 x 10 px are 500 pixels; allowed: 1 to 499"):
        read(tmp_path, data, max_pixels=499)


@pytest.mark.parametrize("share", [0.3, 0.6, 0.8])
def test_truncated(tmp_path, share):
    frames = [gif_frame([[1, 2, 3]] * 5), gif_frame([[2, 1, 0]] * 5)]
    for name, data in (
        ("walk.gif", gif(3, 5, frames)),
        ("walk.png", apng(2, 1, [([[R, G]], 0, 0, 1, 10, 0, 0), ([[G, R]], 0, 0, 1, 10, 0, 0)])),
    ):
        path = tmp_path / name
        path.write_bytes(data[: int(len(data) * share)])
        with pytest.raises(ImageReadError, match=r"damaged|one picture"):
            read_pictures(path, kind="animated")


def test_too_many_pictures(tmp_path):
    with pytest.raises(ImageReadError, match="4097 pictures; at most 4096"):
        read(tmp_path, gif(1, 1, [gif_frame([[1]])] * 4097))


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (gif(1, 1, [gif_frame([[1]])] * 2, shared=None), "without a palette"),
        (gif(1, 1, [gif_frame([[1]]), b"x"]), "damaged"),
        (gif(1, 1, []), "no picture"),
        (gif(1, 1, [gif_frame([[1]])] * 2).replace(packed([[1]]), b"\x0d\x01\xff\0"), "damaged"),
    ],
)
def test_bad_gifs(tmp_path, data, message):
    path = tmp_path / "walk.gif"
    path.write_bytes(data)
    with pytest.raises(ImageReadError, match=message) as caught:
        read_pictures(path, kind="animated")
    assert "\n" not in str(caught.value)


def test_random_damage_never_leaves_the_error_class(tmp_path):
    draw = np.random.default_rng(10)
    bases = {
        "walk.gif": gif(3, 2, [gif_frame([[1, 2, 3]] * 2, clear=2), gif_frame([[2]], x=1, dispose=3)]),
        "walk.png": apng(2, 1, [([[R, G]], 0, 0, 1, 10, 0, 0), ([[G]], 1, 0, 1, 10, 2, 1)]),
    }
    for name, base in bases.items():
        for _ in range(150):
            data = bytearray(base)
            for place in draw.integers(6, len(data), 2):
                data[place] = draw.integers(0, 256)
            try:
                read(tmp_path, bytes(data), name, max_pixels=100_000)
            except ImageReadError:
                continue
