"""The score panel: five lamp slots, an oil gauge, room for digits."""

from demo_art.canvas import Canvas
from demo_art.font import write

SLOT = (
    ".....k.....",
    "....kqk....",
    "..kkqqqkk..",
    ".kqqqqqqqk.",
    ".kkkkkkkkk.",
    "..kgggggk..",
    "..kgggggk..",
    "..kgggggk..",
    "...kgggk...",
    "...kkkkk...",
    "....kqk....",
    "....kkk....",
)
OIL = (
    ".....k....",
    "....kak...",
    "....kak...",
    "...kaabk..",
    "..kaabbk..",
    "..kabbbbk.",
    ".kaabbbbk.",
    ".kabbbbck.",
    ".kabbbcck.",
    "..kbccck..",
    "...kkkk...",
)
SLOT_Y = 4
SLOT_XS = (12, 28, 44, 60, 76)
GAUGE = (132, 6, 64, 8)
DIGITS = (260, 6)


def _slot(canvas: Canvas, x: int, y: int, *, lit: bool) -> None:
    canvas.stamp(SLOT, {"k": "q0", "q": "q3", "g": "l3" if lit else "b2"}, x, y)
    if lit:
        canvas.rect(x + 4, y + 6, 3, 2, "l4")
        canvas.rect(x + 4, y + 8, 3, 1, "l2")


def draw_slot() -> Canvas:
    """Draw two cells of 11 x 12, unlit and lit, that fit the slots of the panel."""
    canvas = Canvas(22, 12)
    _slot(canvas, 0, 0, lit=False)
    _slot(canvas, 11, 0, lit=True)
    return canvas


def draw_panel() -> Canvas:
    canvas = Canvas(320, 20)
    canvas.rect(0, 0, 320, 20, "q1")
    canvas.rect(0, 0, 320, 1, "t4")
    canvas.rect(0, 1, 320, 1, "t2")
    canvas.rect(0, 18, 320, 1, "t1")
    canvas.rect(0, 19, 320, 1, "t0")
    for x in (0, 100, 212, 318):
        canvas.rect(x, 2, 2, 16, "t2")
        canvas.rect(x, 2, 1, 16, "t3")
    for x in SLOT_XS:
        _slot(canvas, x, SLOT_Y, lit=False)
    canvas.stamp(OIL, {"k": "t0", "a": "l3", "b": "l2", "c": "l1"}, 114, 4)
    x, y, width, height = GAUGE
    canvas.frame(x - 1, y - 1, width + 2, height + 2, "q4")
    canvas.rect(x, y, width, height, "q0")
    write(canvas, "LAMPS", 222, 6, "t4")
    canvas.rect(256, 4, 56, 12, "q0")
    return canvas
