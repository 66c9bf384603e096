"""Pieces: what is shared, how frames are trimmed, how pieces are packed and cut into runs."""

import numpy as np
import pytest
from random_scenes import random_project
from small_scene import small_project

from scenekit.build import run_stages
from scenekit.errors import EncodingError
from scenekit.symmetry.flips import flip_picture
from scenekit.tables.image_files import indexed_file, raw_file
from scenekit.tables.pieces import EMPTY, LARGEST_SIDE_PX, pack, restored, runs_of

CLEAR = 0


def random_pictures(seed, count=30, side=24):
    made = np.random.default_rng(seed)
    return [
        made.integers(0, 4, (int(made.integers(1, side)), int(made.integers(1, side))), dtype=np.uint8)
        for _ in range(count)
    ]


@pytest.mark.parametrize("seed", range(5))
def test_packed_pieces_stand_where_they_say_and_never_overlap(seed):
    pictures = random_pictures(seed)
    places, packed = pack(pictures, CLEAR)
    taken = np.zeros(packed.shape, dtype=np.int64)
    for (x, y), piece in zip(places, pictures, strict=True):
        h, w = piece.shape
        assert np.array_equal(packed[y : y + h, x : x + w], piece)
        taken[y : y + h, x : x + w] += 1
    assert taken.max() == 1
    assert (packed[taken == 0] == CLEAR).all()
    assert not packed.flags.writeable


def test_nothing_to_pack_is_one_clear_pixel():
    places, packed = pack([], 7)
    assert places == ()
    assert packed.tolist() == [[7]]


def test_more_than_the_largest_picture_is_refused():
    tall = [np.ones((LARGEST_SIDE_PX // 2 + 1, LARGEST_SIDE_PX), dtype=np.uint8)] * 2
    with pytest.raises(EncodingError, match="at most 4096 px"):
        pack(tall, CLEAR)


@pytest.mark.parametrize("seed", range(5))
def test_runs_paint_the_picture_again(seed):
    for piece in random_pictures(seed):
        canvas = np.full(piece.shape, CLEAR, dtype=np.uint8)
        before = (-1, -1)
        for x, y, length, entry in runs_of(piece, CLEAR):
            assert entry != CLEAR
            assert length > 0
            assert (y, x) > before, "rows from the top, runs from the left"
            before = (y, x)
            canvas[y, x : x + length] = entry
            assert x == 0 or piece[y, x - 1] != entry, "runs are as long as can be"
            assert x + length == piece.shape[1] or piece[y, x + length] != entry
        assert np.array_equal(canvas, piece)


def test_runs_by_hand():
    piece = np.array([[1, 1, 0, 2], [0, 0, 0, 0], [3, 1, 1, 1]], dtype=np.uint8)
    assert runs_of(piece, 0) == [(0, 0, 2, 1), (3, 0, 1, 2), (0, 2, 1, 3), (1, 2, 3, 1)]


@pytest.mark.parametrize("seed", range(6))
def test_frames_and_planes_come_back_from_their_pieces(tmp_path, seed):
    """Decode what was encoded: each frame at its offset, each plane from its map, pixel by pixel."""
    project = random_project(tmp_path / "p", 7000 + seed)
    for target in ("small", "colour"):
        build = run_stages(project, target, last="pieces")
        pieces, clear = build.pieces, build.reduced.transparent
        for number, plane in enumerate(build.scene.planes):
            again = restored(pieces, number)
            whole = build.reduced.planes[build.scene.name, plane.name]
            assert np.array_equal(np.where(again == EMPTY, clear, again), whole)
        flips = {number: flip for (_, flip), number in pieces.turned.items()}
        for number, place in enumerate(pieces.frames):
            x, y, w, h = project.sheet(place.sheet).frame(place.name).box
            frame = build.reduced.sheets[place.sheet][y : y + h, x : x + w]
            canvas = np.full(frame.shape, clear, dtype=np.uint8)
            if place.cell != EMPTY:
                piece = flip_picture(pieces.pictures[place.cell // 4], place.cell % 4)
                flip = flips.get(number, 0)
                pivot_x = w - 1 - place.pivot[0] if flip & 1 else place.pivot[0]
                pivot_y = h - 1 - place.pivot[1] if flip & 2 else place.pivot[1]
                left, top = place.x + pivot_x, place.y + pivot_y
                assert left >= 0
                assert top >= 0
                canvas[top : top + piece.shape[0], left : left + piece.shape[1]] = piece
            assert np.array_equal(canvas, flip_picture(frame, flips.get(number, 0)))


def test_no_two_pieces_are_equal_up_to_the_flips_of_the_target(tmp_path):
    project = small_project(tmp_path / "p")
    build = run_stages(project, "board", last="pieces")
    pictures = build.pieces.pictures
    tiles = pictures[: build.pieces.tiles]
    for group in (tiles, pictures[build.pieces.tiles :]):
        for n, one in enumerate(group):
            for other in group[n + 1 :]:
                same = any(np.array_equal(flip_picture(one, flip), other) for flip in range(4))
                assert not same


def test_an_indexed_file_keeps_entries_and_palette_and_carries_no_text(tmp_path):
    from PIL import Image

    entries = np.arange(12, dtype=np.uint8).reshape(3, 4)
    palette = np.random.default_rng(1).integers(0, 256, (256, 3), dtype=np.uint8)
    for kind in ("bmp", "png"):
        data = indexed_file(entries, palette, kind, 0)
        assert data == indexed_file(entries, palette, kind, 0)
        path = tmp_path / f"a.{kind}"
        path.write_bytes(data)
        with Image.open(path) as image:
            assert image.mode == "P"
            assert np.array_equal(np.asarray(image), entries)
            shown = np.array(image.getpalette()).reshape(-1, 3)
            assert np.array_equal(shown[1:12], palette[1:12])
            assert image.info.get("transparency") == (0 if kind == "png" else None)
            others = {tuple(colour) for colour in palette[1:].tolist()}
            assert kind == "bmp" or tuple(shown[0].tolist()) not in others
            assert not getattr(image, "text", {})


def test_a_raw_file_is_every_piece_row_by_row(tmp_path):
    build = run_stages(small_project(tmp_path / "p"), "colour", last="pieces")
    data = raw_file(build.pieces)
    at = 0
    for piece in build.pieces.pictures:
        assert data[at : at + piece.size] == piece.tobytes()
        at += piece.size
    assert at == len(data)
