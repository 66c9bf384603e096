"""Foreground silhouettes that pass faster than the camera: bollards, ropes, a coil, a pile."""

from demo_art.canvas import Canvas

BOLLARD = (
    "...kkkkkkkkkkk...",
    "..krrrrrrrrrrkk..",
    ".kraaaaaaaaaaakk.",
    "kraaaaaaaaaaaakkk",
    "kraaaaaaaaaaaakkk",
    ".kkaaaaaaaaaakkk.",
    "..kkkkkkkkkkkkk..",
    "...kraaaaaakkk...",
    "...kraaaaaakkk...",
    "...kraaaaaakkk...",
    "...kraaaaaakkk...",
    "...kraaaaaakkk...",
    "...kraaaaaakkk...",
    "..kraaaaaaaakkk..",
    "..kraaaaaaaakkk..",
    ".kraaaaaaaaaakkk.",
    "kraaaaaaaaaaaakkk",
    "kkkkkkkkkkkkkkkkk",
)
BOLLARD_LEGEND = {"k": "k", "a": "q0", "r": "q2"}


def rope(canvas: Canvas, start: tuple[int, int], end: tuple[int, int], sag: int, colours: tuple[str, str]) -> None:
    """Hang a two-pixel rope between two points; its strands alternate in light."""
    span = end[0] - start[0]
    for step in range(span + 1):
        straight = start[1] * (span - step) + end[1] * step
        y = (straight * span + 4 * sag * step * (span - step)) // (span * span)
        canvas.put(start[0] + step, y, colours[1] if step % 4 < 2 else colours[0])
        canvas.put(start[0] + step, y + 1, colours[0])


def _pair(canvas: Canvas, x: int, gap: int, sag: int) -> None:
    for at in (x, x + gap):
        canvas.stamp(BOLLARD, BOLLARD_LEGEND, at, 46)
    rope(canvas, (x + 13, 55), (x + gap + 3, 55), sag, ("t1", "t3"))
    for at in (x, x + gap):
        for row in (54, 56):
            canvas.rect(at + 3, row, 10, 1, "t1")
            for dot in range(at + 4, at + 12, 3):
                canvas.put(dot, row, "t3")


def _coil(canvas: Canvas, x: int) -> None:
    """Draw a coil of rope lying flat."""
    for turn, (inset, y) in enumerate(((0, 59), (1, 56), (2, 53))):
        width = 28 - 2 * inset
        canvas.rect(x + inset, y, width, 4, "t0")
        canvas.rect(x + inset, y + 1, width, 1, "t2")
        for at in range(x + inset + turn, x + inset + width - 2, 4):
            canvas.rect(at, y + 1, 2, 1, "t3")
            canvas.put(at + 2, y + 2, "t2")
    canvas.rect(x + 6, 52, 16, 1, "t2")
    canvas.rect(x + 8, 53, 12, 1, "k")
    rope(canvas, (x + 26, 60), (x + 54, 62), 1, ("t0", "t2"))


def _pile(canvas: Canvas, x: int, top: int) -> None:
    """Draw a tarred mooring pile with iron bands."""
    canvas.rect(x, top, 13, 64 - top, "k")
    canvas.rect(x + 1, top - 1, 11, 1, "k")
    canvas.rect(x + 1, top + 1, 2, 64 - top, "q1")
    canvas.rect(x + 1, top, 11, 1, "q2")
    canvas.rect(x + 5, top + 4, 1, 60 - top, "q0")
    canvas.rect(x + 9, top + 9, 1, 55 - top, "q0")
    for band in (top + 5, top + 22):
        canvas.rect(x, band, 13, 2, "q0")
        canvas.rect(x + 1, band, 3, 1, "q3")


def draw_front() -> Canvas:
    canvas = Canvas(480, 64, wrap=True)
    _pair(canvas, 24, 76, 6)
    _coil(canvas, 156)
    _pile(canvas, 262, 22)
    _pile(canvas, 278, 32)
    _pair(canvas, 364, 64, 5)
    return canvas
