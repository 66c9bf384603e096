"""OpenRaster files assembled after the specification: stack order, offsets, opacity, groups and bad input."""

import zipfile
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from scenekit.errors import ImageReadError
from scenekit.images import read_pictures


def png(width, height, colour):
    data = BytesIO()
    Image.new("RGBA", (width, height), colour).save(data, "PNG")
    return data.getvalue()


def stack(body, width=4, height=2):
    return f'<?xml version="1.0"?><image version="0.0.3" w="{width}" h="{height}">{body}</image>'.encode()


LAYERS = {
    "data/red.png": png(4, 2, (200, 0, 0, 255)),
    "data/dot.png": png(1, 1, (0, 0, 250, 255)),
    "data/glass.png": png(2, 2, (100, 200, 40, 128)),
}


def ora(tmp_path, xml, files=None, *, mime=b"image/openraster", name="quay.ora"):
    path = tmp_path / name
    with zipfile.ZipFile(path, "w") as file:
        if mime is not None:
            file.writestr("mimetype", mime, zipfile.ZIP_STORED)
        if xml is not None:
            file.writestr("stack.xml", xml, zipfile.ZIP_DEFLATED)
        for entry, data in (LAYERS if files is None else files).items():
            file.writestr(entry, data, zipfile.ZIP_DEFLATED)
    return path


def read(tmp_path, body, **options):
    return read_pictures(ora(tmp_path, stack(body)), **options)


def test_planes_from_back_to_front_with_offsets(tmp_path):
    body = """<stack>
      <layer name="lamp" src="data/dot.png" x="3" y="1"/>
      <layer name="wall" src="data/red.png"/>
    </stack>"""
    wall, lamp = read(tmp_path, body)
    assert (wall.name, lamp.name) == ("wall", "lamp")
    assert lamp.pixels.shape == wall.pixels.shape == (2, 4, 4)
    assert (wall.pixels == (200, 0, 0, 255)).all()
    assert lamp.pixels[1, 3].tolist() == [0, 0, 250, 255]
    assert lamp.pixels[..., 3].sum() == 255


def test_opacity_and_hidden_layers(tmp_path):
    body = """<stack>
      <layer name="a" src="data/red.png" opacity="0.5"/>
      <layer name="b" src="data/dot.png" visibility="hidden"/>
      <layer name="c" src="data/red.png" opacity="0"/>
    </stack>"""
    c, a = read(tmp_path, body)
    assert (c.name, a.name) == ("c", "a")
    assert a.pixels[0, 0].tolist() == [200, 0, 0, 128]
    assert not c.pixels.any()
    assert [finding.code for finding in c.findings] == ["hidden-layers"]


def over(front, back):
    """Porter and Duff's over with straight alpha, in floats; source: Compositing digital images, 1984."""
    fa, ba = front[3] / 255, back[3] / 255
    alpha = fa + ba * (1 - fa)
    if not alpha:
        return [0.0, 0, 0, 0]
    return [(f * fa + b * ba * (1 - fa)) / alpha for f, b in zip(front[:3], back[:3], strict=True)] + [
        255 * alpha
    ]


def test_a_group_becomes_one_picture_composed_by_over(tmp_path):
    body = """<stack>
      <stack name="window" opacity="0.8" x="1">
        <layer src="data/glass.png" x="1" opacity="0.6"/>
        <layer src="data/dot.png" x="1" y="1"/>
        <layer src="data/red.png" visibility="hidden"/>
      </stack>
      <layer name="wall" src="data/red.png"/>
    </stack>"""
    window = read(tmp_path, body)[1]
    assert (window.name, window.mode) == ("window", "group of layers")
    glass = (100, 200, 40, 128 * 0.6)
    mixed = over(glass, (0, 0, 250, 255))
    for spot, expected in (((0, 2), glass), ((1, 2), mixed), ((1, 3), glass)):
        faded = [*expected[:3], expected[3] * 0.8]
        assert np.abs(window.pixels[spot] - faded).max() <= 1.2
    assert not window.pixels[0, 1].any()


def test_random_stacks_agree_with_float_over(tmp_path):
    draw = np.random.default_rng(6)
    files, body, expected = {}, "", np.zeros((3, 5, 4))
    pictures = [draw.integers(0, 256, (3, 5, 4), dtype=np.uint8) for _ in range(5)]
    for number, picture in enumerate(pictures):
        data = BytesIO()
        Image.fromarray(picture).save(data, "PNG")
        files[f"{number}.png"] = data.getvalue()
        body = f'<layer src="{number}.png"/>{body}'
        for spot in np.ndindex(3, 5):
            expected[spot] = over(picture[spot], expected[spot])
    path = ora(tmp_path, stack(f"<stack><stack>{body}</stack></stack>", 5, 3), files)
    (group,) = read_pictures(path)
    seen = expected[..., 3] > 40
    assert np.abs(group.pixels - expected)[seen].max() <= 3


def test_nested_groups_and_offsets_add_up(tmp_path):
    inner = '<stack x="1"><layer src="data/dot.png"/></stack>'
    body = f'<stack><stack name="outer" y="1">{inner}</stack></stack>'
    (outer,) = read(tmp_path, body)
    assert np.argwhere(outer.pixels[..., 3]).tolist() == [[1, 1]]


def test_what_leaves_the_canvas_is_cut_off_and_reported(tmp_path):
    (layer,) = read(tmp_path, '<stack><layer src="data/red.png" x="-1" y="1"/></stack>')
    assert layer.pixels[..., 3].tolist() == [[0, 0, 0, 0], [255, 255, 255, 0]]
    assert [finding.code for finding in layer.findings] == ["layer-cut-off"]
    assert "5 drawn pixels" in layer.findings[0].text


def test_other_ways_to_blend_are_reported(tmp_path):
    (layer,) = read(tmp_path, '<stack><layer src="data/red.png" composite-op="svg:multiply"/></stack>')
    assert [finding.code for finding in layer.findings] == ["layer-blending"]


def test_known_by_content_whatever_the_name(tmp_path):
    path = ora(tmp_path, stack('<stack><layer name="a" src="data/red.png"/></stack>'), name="quay.zip")
    assert [picture.name for picture in read_pictures(path)] == ["a"]


def test_key_colour(tmp_path):
    (layer,) = read(tmp_path, '<stack><layer src="data/red.png"/></stack>', key=(200, 0, 0))
    assert not layer.pixels.any()


BOMB = b"""<?xml version="1.0"?><!DOCTYPE image [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;">
<!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]><image w="4" h="2"><stack name="&c;"/></image>"""
OUTSIDE = b"""<?xml version="1.0"?><!DOCTYPE image [<!ENTITY a SYSTEM "file:///etc/passwd">]>
<image w="4" h="2"><stack><layer name="&a;" src="data/red.png"/></stack></image>"""

BAD = [
    (None, "no entry 'stack.xml'"),
    (b"", "damaged"),
    (b"<image", "damaged"),
    (b"\xff\xfe\x00", "damaged"),
    (BOMB, "document type"),
    (OUTSIDE, "document type"),
    (b"<html/>", "begins with 'html'"),
    (b'<image w="4" h="2"/>', "no stack"),
    (b'<image w="4"><stack/></image>', "h is missing"),
    (b'<image w="4" h="two"><stack/></image>', "h is 'two'"),
    (b'<image w="0" h="2"><stack/></image>', "0 x 2 px"),
    (b'<image w="1000000" h="1000000"><stack/></image>', "at most"),
    (stack("<stack/>"), "no layer is visible"),
    (stack('<stack><layer src="data/red.png" visibility="hidden"/></stack>'), "no layer is visible"),
    (stack("<stack><layer/></stack>"), "no src"),
    (stack('<stack><layer src="data/none.png"/></stack>'), "no entry 'data/none.png'"),
    (stack('<stack><layer src="../../etc/passwd"/></stack>'), "no entry"),
    (stack('<stack><layer src="stack.xml"/></stack>'), "not a picture"),
    (stack('<stack><layer src="data/red.png" x="1e9"/></stack>'), "x is '1e9'"),
    (stack('<stack><layer src="data/red.png" opacity="2"/></stack>'), "opacity is '2'"),
    (stack('<stack><layer src="data/red.png" opacity="nan"/></stack>'), "opacity is 'nan'"),
    (stack("<stack>" * 40 + "</stack>" * 40), "levels"),
    (stack("<stack>" + '<layer src="data/dot.png"/>' * 5000 + "</stack>"), "4096 entries"),
    (b"<image w='4' h='2'>" + b" " * (1 << 20) + b"<stack/></image>", "at most 1048576"),
]


@pytest.mark.parametrize(("xml", "message"), BAD, ids=[str(i) for i in range(len(BAD))])
def test_bad_stacks_give_one_line(tmp_path, xml, message):
    with pytest.raises(ImageReadError, match=message) as caught:
        read_pictures(ora(tmp_path, xml), kind="layered")
    assert "\n" not in str(caught.value)


def test_other_archives(tmp_path):
    for mime in (None, b"text/plain"):
        with pytest.raises(ImageReadError, match="not an OpenRaster file"):
            read_pictures(ora(tmp_path, stack("<stack/>"), mime=mime), kind="layered")


def test_truncated_layers_and_wrong_formats(tmp_path):
    data = BytesIO()
    Image.new("RGB", (4, 2)).save(data, "GIF")
    for layer, message in (
        (LAYERS["data/red.png"][:-30], "damaged"),
        (data.getvalue(), "holds gif"),
        (b"", "empty"),
    ):
        path = ora(tmp_path, stack('<stack><layer src="a.png"/></stack>'), {"a.png": layer})
        with pytest.raises(ImageReadError, match=message):
            read_pictures(path)


def test_effort_is_bounded(tmp_path):
    layers = '<layer src="data/red.png"/>' * 200
    with pytest.raises(ImageReadError, match="too many layers"):
        read(tmp_path, f"<stack><stack>{layers}</stack></stack>", max_pixels=100)
    deep = "<stack>" * 20 + '<layer src="data/dot.png"/>' + "</stack>" * 20
    with pytest.raises(ImageReadError, match="groups 5 deep"):
        read(tmp_path, deep, max_pixels=9)
