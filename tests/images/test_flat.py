"""Reading single pictures: against files assembled here byte by byte after the published specifications."""

import struct
import zlib
from io import BytesIO
from itertools import product

import numpy as np
import pytest
from PIL import Image

from scenekit.errors import ImageReadError
from scenekit.images import read_pictures
from scenekit.images.flat import read_picture


def chunk(name, data):
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def png(width, height, depth, colour, rows, *, extra=b""):
    """Assemble a PNG (W3C PNG specification, third edition, clauses 5 and 11); rows are packed samples."""
    head = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0)
    data = zlib.compress(b"".join(b"\0" + row for row in rows))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + extra + chunk(b"IDAT", data) + chunk(b"IEND", b"")


def read(tmp_path, data, name="test.png", **options):
    path = tmp_path / name
    path.write_bytes(data)
    return read_picture(path, **options)


def pack(samples, depth):
    """Pack samples of 1, 2, 4, 8 or 16 bits, the first in the high bits."""
    bits = "".join(f"{sample:0{depth}b}" for sample in samples)
    bits += "0" * (-len(bits) % 8)
    return int(bits, 2).to_bytes(len(bits) // 8, "big")


@pytest.mark.parametrize("depth", [1, 2, 4, 8])
def test_grey_depths_follow_the_png_scaling_rule(tmp_path, depth):
    # source: W3C PNG specification, 13.12 sample depth rescaling: floor(input * 255 / max + 0.5)
    top = 2**depth - 1
    samples = list(range(0, top + 1, max(1, top // 15)))
    picture = read(tmp_path, png(len(samples), 1, depth, 0, [pack(samples, depth)]))
    expected = [int(sample * 255 / top + 0.5) for sample in samples]
    assert picture.pixels[0, :, 0].tolist() == expected
    assert (picture.pixels[0, :, 3] == 255).all()
    assert picture.mode == "grey"
    assert picture.file_palette is None


def test_sixteen_bit_samples_stay_within_one_of_the_png_scaling_rule(tmp_path):
    # source: W3C PNG specification, 13.12; dropping the low byte is the common practice it is compared with
    samples = [0, 1, 127, 128, 255, 256, 257, 32767, 32768, 40000, 65278, 65279, 65535]
    exact = np.array([int(sample * 255 / 65535 + 0.5) for sample in samples])
    grey = read(tmp_path, png(len(samples), 1, 16, 0, [pack(samples, 16)])).pixels
    trebled = [sample for sample in samples for _ in range(3)]
    rgb = read(tmp_path, png(len(samples), 1, 16, 2, [pack(trebled, 16)])).pixels
    assert np.array_equal(grey, rgb)
    assert np.abs(grey[0, :, 0].astype(int) - exact).max() <= 1


def test_eight_bits_written_as_sixteen_come_back_exactly(tmp_path):
    values = list(range(256))
    picture = read(tmp_path, png(256, 1, 16, 0, [pack([v * 257 for v in values], 16)]))
    assert picture.pixels[0, :, 1].tolist() == values
    assert "16 bits" in picture.mode


def test_grey_and_alpha(tmp_path):
    picture = read(tmp_path, png(3, 1, 8, 4, [bytes([10, 255, 20, 128, 30, 0])]))
    assert picture.pixels.tolist() == [[[10, 10, 10, 255], [20, 20, 20, 128], [0, 0, 0, 0]]]


def test_rgb_and_rgba(tmp_path):
    rgb = read(tmp_path, png(2, 1, 8, 2, [bytes([1, 2, 3, 4, 5, 6])]))
    assert rgb.pixels.tolist() == [[[1, 2, 3, 255], [4, 5, 6, 255]]]
    rgba = read(tmp_path, png(2, 1, 8, 6, [bytes([1, 2, 3, 1, 4, 5, 6, 0])]))
    assert rgba.pixels.tolist() == [[[1, 2, 3, 1], [0, 0, 0, 0]]]


@pytest.mark.parametrize(
    ("depth", "value", "samples"),
    [(1, 1, [0, 1]), (1, 0, [0, 1]), (2, 2, [0, 1, 2, 3]), (4, 9, [8, 9, 10]), (8, 200, [199, 200, 201])],
)
def test_grey_with_a_clear_value(tmp_path, depth, value, samples):
    # source: W3C PNG specification, 11.3.1.1 tRNS: pixels of the specified grey sample value are transparent
    extra = chunk(b"tRNS", struct.pack(">H", value))
    picture = read(tmp_path, png(len(samples), 1, depth, 0, [pack(samples, depth)], extra=extra))
    assert picture.pixels[0, :, 3].tolist() == [0 if s == value else 255 for s in samples]


def test_sixteen_bit_grey_with_a_clear_value_compares_all_bits(tmp_path):
    extra = chunk(b"tRNS", struct.pack(">H", 513))
    picture = read(tmp_path, png(3, 1, 16, 0, [pack([512, 513, 514], 16)], extra=extra))
    assert picture.pixels[0, :, 3].tolist() == [255, 0, 255]


def test_rgb_with_a_clear_colour(tmp_path):
    extra = chunk(b"tRNS", struct.pack(">HHH", 255, 0, 255))
    picture = read(tmp_path, png(2, 1, 8, 2, [bytes([255, 0, 255, 255, 0, 254])], extra=extra))
    assert picture.pixels.tolist() == [[[0, 0, 0, 0], [255, 0, 254, 255]]]


def test_sixteen_bit_rgb_with_a_clear_colour_says_what_it_compared(tmp_path):
    extra = chunk(b"tRNS", struct.pack(">HHH", 0x1234, 0x5678, 0x9ABC))
    row = pack([0x1234, 0x5678, 0x9ABC, 0x2234, 0x5678, 0x9ABC], 16)
    picture = read(tmp_path, png(2, 1, 16, 2, [row], extra=extra))
    assert picture.pixels[0, :, 3].tolist() == [0, 255]
    assert [finding.code for finding in picture.findings] == ["wide-key"]


@pytest.mark.parametrize("depth", [1, 2, 4, 8])
def test_indexed_keeps_the_order_of_the_file_and_its_alphas(tmp_path, depth):
    colours = ((9, 9, 9), (1, 2, 3))
    extra = chunk(b"PLTE", bytes(sum(colours, ()))) + chunk(b"tRNS", bytes([0]))
    picture = read(tmp_path, png(3, 1, depth, 3, [pack([1, 0, 1], depth)], extra=extra))
    assert picture.file_palette == colours
    assert picture.pixels.tolist() == [[[1, 2, 3, 255], [0, 0, 0, 0], [1, 2, 3, 255]]]
    assert picture.mode == "indexed, 2 entries"


def test_indexed_pixels_beyond_the_palette_are_reported(tmp_path):
    extra = chunk(b"PLTE", bytes([1, 2, 3]))
    picture = read(tmp_path, png(2, 1, 8, 3, [bytes([0, 7])], extra=extra))
    assert [finding.code for finding in picture.findings] == ["entry-missing"]
    assert picture.pixels[0, 1].tolist() == [0, 0, 0, 255]


def test_key_colours_clear_only_opaque_pixels_of_exactly_that_colour(tmp_path):
    row = bytes([255, 0, 255, 255, 255, 0, 255, 254, 0, 255, 0, 255, 254, 0, 255, 255])
    data = png(4, 1, 8, 6, [row])
    one = read(tmp_path, data, key=(255, 0, 255))
    assert one.pixels[0, :, 3].tolist() == [0, 254, 255, 255]
    two = read(tmp_path, data, key=((255, 0, 255), (0, 255, 0)))
    assert two.pixels[0, :, 3].tolist() == [0, 254, 0, 255]
    assert two.pixels[0, 0].tolist() == [0, 0, 0, 0]


@pytest.mark.parametrize("key", [(256, 0, 0), (0, 0), ((0, 0, 0), (1, 1)), ((-1, 0, 0),)])
def test_bad_key_colours(tmp_path, key):
    with pytest.raises(ImageReadError, match="three numbers"):
        read(tmp_path, png(1, 1, 8, 0, [b"\0"]), key=key)


def test_pixels_are_read_only(tmp_path):
    picture = read(tmp_path, png(1, 1, 8, 0, [b"\0"]))
    with pytest.raises(ValueError, match="read-only"):
        picture.pixels[0, 0, 0] = 1


def test_text_is_dropped(tmp_path):
    text = chunk(b"tEXt", b"Author\0some stranger") + chunk(b"zTXt", b"Note\0\0" + zlib.compress(b"secret"))
    picture = read(tmp_path, png(1, 1, 8, 0, [b"\x07"], extra=text))
    assert "stranger" not in repr(picture)
    assert "secret" not in repr(picture)


@pytest.mark.parametrize("kind", ["PNG", "GIF", "BMP", "WEBP", "TIFF"])
def test_every_format_gives_the_same_picture(tmp_path, kind):
    draw = np.random.default_rng(3)
    colours = draw.integers(0, 256, (8, 3), dtype=np.uint8)
    image = Image.fromarray(colours[draw.integers(0, 8, (9, 13))])
    data = BytesIO()
    indexed = image.quantize(8) if kind == "GIF" else image
    indexed.save(data, kind, **({"lossless": True} if kind == "WEBP" else {}))
    picture = read(tmp_path, data.getvalue(), f"test.{kind.lower()}")
    assert np.array_equal(picture.pixels[..., :3], np.asarray(indexed.convert("RGB")))
    assert (picture.pixels[..., 3] == 255).all()


def gif(width, height, frames, *, palette=((0, 0, 0), (255, 0, 0), (0, 255, 0), (0, 0, 255))):
    """Assemble a GIF (GIF89a specification, clauses 17 to 27); a frame is (x, y, rows, clear entry)."""
    data = b"GIF89a" + struct.pack("<HHBBB", width, height, 0x80 | 1, 0, 0)
    data += bytes(sum(palette, ()))
    for x, y, rows, see_through in frames:
        if see_through is not None:
            data += b"!\xf9\x04" + bytes([1]) + struct.pack("<H", 5) + bytes([see_through, 0])
        data += b"," + struct.pack("<HHHHB", x, y, len(rows[0]), len(rows), 0) + b"\x02"
        codes = []
        for entry in [entry for row in rows for entry in row]:
            codes += [4, entry]  # a clear code before each entry keeps the codes 3 bits wide
        bits = "".join(f"{code:03b}"[::-1] for code in [*codes, 5])
        bits += "0" * (-len(bits) % 8)
        packed = bytes(int(bits[i : i + 8][::-1], 2) for i in range(0, len(bits), 8))
        data += bytes([len(packed)]) + packed + b"\0"
    return data + b";"


def test_gif_with_a_clear_entry(tmp_path):
    picture = read(tmp_path, gif(2, 2, [(0, 0, [[0, 1], [2, 3]], 2)]), "test.gif")
    assert picture.pixels.tolist() == [
        [[0, 0, 0, 255], [255, 0, 0, 255]],
        [[0, 0, 0, 0], [0, 0, 255, 255]],
    ]
    assert picture.file_palette == ((0, 0, 0), (255, 0, 0), (0, 255, 0), (0, 0, 255))


def test_gif_of_several_frames_gives_the_first_and_says_so(tmp_path):
    data = gif(2, 1, [(0, 0, [[1, 1]], None), (0, 0, [[2, 2]], None)])
    picture = read(tmp_path, data, "test.gif")
    assert picture.pixels[0, :, 0].tolist() == [255, 255]
    assert [finding.code for finding in picture.findings] == ["first-frame"]


GOOD = png(40, 40, 8, 2, [bytes(range(120))] * 40)


@pytest.mark.parametrize("share", [0.1, 0.3, 0.5, 0.8])
def test_truncated_png(tmp_path, share):
    with pytest.raises(ImageReadError, match=r"test\.png: .*damaged or truncated"):
        read(tmp_path, GOOD[: int(len(GOOD) * share)])


@pytest.mark.parametrize("kind", ["GIF", "BMP", "WEBP", "TIFF"])
@pytest.mark.parametrize("share", [0.2, 0.5, 0.9])
def test_truncated_others(tmp_path, kind, share):
    draw = np.random.default_rng(4)
    data = BytesIO()
    Image.fromarray(draw.integers(0, 256, (40, 40, 3), dtype=np.uint8)).save(data, kind)
    whole = data.getvalue()
    with pytest.raises(ImageReadError, match="damaged or truncated"):
        read(tmp_path, whole[: int(len(whole) * share)], f"test.{kind.lower()}")


@pytest.mark.parametrize(
    ("width", "height"), [(65536, 65536), (100_000, 700), (2**31 - 1, 2**31 - 1), (2**31 - 1, 1)]
)
def test_gigantic_headers_are_refused_before_decoding(tmp_path, width, height):
    with pytest.raises(ImageReadError, match="pixels"):
        read(tmp_path, png(width, height, 8, 0, [b""]))


def test_pixel_limit_is_the_callers(tmp_path):
    with pytest.raises(ImageReadError, match="40 x 40 px is 1600 pixels; at most 1599"):
        read(tmp_path, GOOD, max_pixels=1599)
    assert read(tmp_path, GOOD, max_pixels=1600).pixels.shape == (40, 40, 4)


def test_a_large_picture_raises_no_warning_of_the_decoder(tmp_path, monkeypatch):
    monkeypatch.setattr(Image, "MAX_IMAGE_PIXELS", 1000)
    assert read(tmp_path, GOOD).pixels.shape == (40, 40, 4)


def test_a_text_chunk_that_inflates_without_end(tmp_path):
    bomb = chunk(b"zTXt", b"Note\0\0" + zlib.compress(b"\0" * 100_000_000, 9))
    with pytest.raises(ImageReadError, match="damaged"):
        read(tmp_path, png(1, 1, 8, 0, [b"\x07"], extra=bomb))


@pytest.mark.parametrize(
    ("name", "data", "message"),
    [
        ("test.png", b"", "empty file"),
        ("test.png", b"just words\n", "not a picture"),
        ("test.png", b"\xff\xd8\xff\xe0\0\x10JFIF", "not a picture"),
        ("test.png", gif(1, 1, [(0, 0, [[0]], None)]), r"named \.png but holds gif; rename it to \.gif"),
        ("test.gif", GOOD, r"named \.gif but holds png"),
        ("test.png", b"\x89PNG\r\n\x1a\n", "damaged"),
        ("test.png", GOOD[:40] + b"\xff" + GOOD[41:], "damaged"),
        ("test.bmp", b"BM" + b"\xff" * 60, "damaged|pixels"),
        ("test.tif", b"II*\0\xff\xff\xff\xff", "damaged"),
        ("test.png", png(1, 1, 7, 0, [b"\0"]), "damaged"),
    ],
)
def test_bad_files_give_one_line(tmp_path, name, data, message):
    with pytest.raises(ImageReadError, match=message) as caught:
        read(tmp_path, data, name)
    assert "\n" not in str(caught.value)
    assert name in str(caught.value)


def test_folders_and_missing_files(tmp_path):
    with pytest.raises(ImageReadError, match="is a folder"):
        read_picture(tmp_path)
    with pytest.raises(ImageReadError, match="no such picture file"):
        read_picture(tmp_path / "nothing.png")
    with pytest.raises(ImageReadError, match="no such file or folder"):
        read_pictures(tmp_path / "nothing")


def test_colours_of_print_are_refused(tmp_path):
    data = BytesIO()
    Image.new("CMYK", (2, 2)).save(data, "TIFF")
    with pytest.raises(ImageReadError, match="samples of kind CMYK"):
        read(tmp_path, data.getvalue(), "test.tif")


def test_names_with_line_ends_stay_on_one_line(tmp_path):
    path = tmp_path / "two\nlines.png"
    path.write_bytes(b"nothing")
    with pytest.raises(ImageReadError) as caught:
        read_picture(path)
    assert "\n" not in str(caught.value)


def test_random_damage_never_leaves_the_error_class(tmp_path):
    draw = np.random.default_rng(9)
    bases = [GOOD, gif(4, 4, [(0, 0, [[0, 1, 2, 3]] * 4, 1)])]
    for base, turn in product(bases, range(60)):
        data = bytearray(base)
        for place in draw.integers(8, len(data), 3):
            data[place] = draw.integers(0, 256)
        name = "test.png" if base is GOOD else "test.gif"
        try:
            picture = read(tmp_path, bytes(data), name, max_pixels=100_000)
        except ImageReadError:
            continue
        assert picture.pixels.dtype == np.uint8, turn


def test_a_picture_of_more_than_sixteen_million_pixels_is_refused(tmp_path):
    Image.new("1", (4097, 4096)).save(tmp_path / "large.png")
    with pytest.raises(
        ImageReadError, match="4097 x 4096 px is 16781312 pixels; at most 16777216 are allowed"
    ):
        read_picture(tmp_path / "large.png")
