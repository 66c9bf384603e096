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


def rope(
    canvas: Canvas, start: tuple[int, int], end: tuple[int, int], sag: int, colours: tuple[str, str]
) -> None:
    """Hang a rope between two points: strands of two tones over a dark lower edge."""
    span = end[0] - start[0]
    for step in range(span + 1):
        straight = start[1] * (span - step) + end[1] * step
        y = (straight * span + 4 * sag * step * (span - step)) // (span * span)
        canvas.put(start[0] + step, y, colours[1] if step % 4 < 2 else colours[0])
        canvas.put(start[0] + step, y + 1, colours[0])
        canvas.put(start[0] + step, y + 2, "k")


def _pair(canvas: Canvas, x: int, gap: int, sag: int) -> None:
    for at in (x, x + gap):
        canvas.stamp(BOLLARD, BOLLARD_LEGEND, at, 46)
    rope(canvas, (x + 13, 55), (x + gap + 3, 55), sag, ("t1", "t3"))
    for at in (x, x + gap):
        for row in (54, 56):
            canvas.rect(at + 3, row, 10, 1, "t1")
            for dot in range(at + 4, at + 12, 3):
                canvas.put(dot, row, "t3")


COIL = (
    ".......ttTTttTTttTTtt.......",
    "....tTTtt.........ttTTtt....",
    "...tTt....ttTTtt....ttTt....",
    "...kttt..tTkkkktt..ttttk....",
    "....kkttTTttTTttTTttttkk....",
    "..tTttkkkkkkkkkkkkkkkttTTt..",
    ".kttTTttttTTttttTTttttTTttk.",
    "..kkkkttttTTttttTTttttkkkk..",
    ".tTTttkkkkkkkkkkkkkkkkttTTt.",
    "kttTTttttTTttttTTttttTTttttk",
    "kkttttTTttttTTttttTTttttTTkk",
    "..kkkkkkkkkkkkkkkkkkkkkkkk..",
)


def _coil(canvas: Canvas, x: int) -> None:
    """Draw a coil of rope lying flat, its end running away."""
    canvas.stamp(COIL, {"k": "k", "t": "t1", "T": "t3"}, x, 52)
    rope(canvas, (x + 25, 61), (x + 58, 62), 1, ("t1", "t3"))


def _pile(canvas: Canvas, x: int, top: int) -> None:
    """Draw a tarred mooring pile with iron bands."""
    canvas.rect(x, top, 13, 64 - top, "q0")
    canvas.rect(x + 10, top, 3, 64 - top, "k")
    canvas.rect(x + 1, top - 1, 11, 1, "q2")
    canvas.rect(x + 2, top - 2, 9, 1, "q2")
    canvas.rect(x + 1, top + 1, 1, 64 - top, "q2")
    for dx, start, end in ((3, 5, 20), (5, 2, 40), (8, 9, 30), (7, 24, 44)):
        canvas.rect(x + dx, top + start, 1, min(end, 64 - top) - start, "k")
    for band in (top + 4, top + 17):
        canvas.rect(x - 1, band, 15, 3, "q1")
        canvas.rect(x - 1, band, 10, 1, "q3")
        canvas.rect(x - 1, band + 2, 15, 1, "k")


def draw_front() -> Canvas:
    canvas = Canvas(480, 64, wrap=True)
    _pair(canvas, 24, 76, 6)
    _coil(canvas, 156)
    _pile(canvas, 262, 33)
    _pile(canvas, 278, 40)
    _pair(canvas, 364, 64, 5)
    return canvas
