"""Compare palette reduction with imagequant: mean CIEDE2000, and processor time (both use one core)."""

import sys
import time
from pathlib import Path

import imagequant
import numpy as np
from PIL import Image

from scenekit.colour.depth import OPAQUE_ALPHA, Depth
from scenekit.colour.difference import byte_difference
from scenekit.colour.quantise import reduce_pictures

DEPTH = Depth(red_bits=8, green_bits=8, blue_bits=8)
LARGEST_SIDE_PX = 2048


def error_of(picture: np.ndarray, shown: np.ndarray) -> float:
    """Return the mean CIEDE2000 over opaque pixels."""
    opaque = picture[..., 3] >= OPAQUE_ALPHA
    pairs = np.hstack([picture[opaque][:, :3], shown[opaque][:, :3]])
    packed = pairs.astype(np.uint64) @ (256 ** np.arange(6, dtype=np.uint64))
    _, first, counts = np.unique(packed, return_index=True, return_counts=True)
    pairs = pairs[first]
    return float(byte_difference(pairs[:, :3], pairs[:, 3:]) @ counts / counts.sum())


def best_of(runs: int, work):
    """Return the result of work and its shortest processor time in seconds."""
    seconds = []
    for _ in range(runs):
        start = time.process_time()
        result = work()
        seconds.append(time.process_time() - start)
    return result, min(seconds)


def theirs(picture: np.ndarray, colours: int) -> np.ndarray:
    """Return the picture as imagequant shows it, transparency as its own entry."""
    height, width = picture.shape[:2]
    indices, palette = imagequant.quantize_raw_rgba_bytes(
        picture.tobytes(), width, height, dithering_level=0.0, max_colors=colours
    )
    table = np.zeros((256, 4), dtype=np.uint8)
    table[: len(palette) // 4] = np.array(palette, dtype=np.uint8).reshape(-1, 4)
    return table[np.frombuffer(indices, dtype=np.uint8)].reshape(height, width, 4)


def compare(name: str, picture: np.ndarray, entries: int) -> str:
    """Return one line about one picture and palette size."""
    ours, our_s = best_of(3, lambda: reduce_pictures([picture], entries=entries, depth=DEPTH))
    shown, their_s = best_of(3, lambda: theirs(picture, entries))
    mine = error_of(picture, ours.palette[ours.indices[0]])
    other = error_of(picture, shown)
    verdict = "kept" if mine <= other and our_s <= 1.5 * their_s else "MISSED"
    return f"{name}, {entries}: {mine:.3f} / {other:.3f}, {our_s:.2f} / {their_s:.2f}  {verdict}"


def main(paths: list[str]) -> None:
    """Print one line for each picture and palette size; alpha is made on or off first, for both."""
    print("picture, entries: mean CIEDE2000 ours / imagequant, processor seconds ours / imagequant")
    for path in paths:
        picture = np.array(Image.open(path).convert("RGBA"))[:LARGEST_SIDE_PX, :LARGEST_SIDE_PX]
        picture[..., 3] = np.where(picture[..., 3] >= OPAQUE_ALPHA, 255, 0)
        for entries in (256, 16):
            print(compare(Path(path).name, np.ascontiguousarray(picture), entries))


if __name__ == "__main__":
    main(sys.argv[1:])
