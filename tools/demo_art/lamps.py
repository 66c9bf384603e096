"""The lamp post that both scenes share and the sprite of its light."""

from demo_art.canvas import Canvas

HEAD_ROW = 7  # middle of the lantern, in rows of the plane
POST_XS = (40, 168, 296, 424, 552)

LANTERN = (
    ".....k.....",
    "....kek....",
    "...kedqk...",
    "..keddqqk..",
    ".kkkkkkkkk.",
    ".keggdggqk.",
    ".kegGdgghk.",
    ".keGgdgghk.",
    "..kggdggk..",
    "..kggdggk..",
    "..kkkkkkk..",
    "...kedqk...",
    "....kqk....",
)
LEGEND = {"k": "q0", "e": "q4", "d": "q2", "q": "q1", "g": "b2", "G": "b3", "h": "b1"}


def draw_post(canvas: Canvas, x: int, foot: int) -> None:
    """Draw an unlit lamp whose post stands at column x with its base ending on row `foot`."""
    canvas.stamp(LANTERN, LEGEND, x - 5, HEAD_ROW - 7)
    for row in range(HEAD_ROW + 6, foot - 8):
        canvas.put(x - 1, row, "q4")
        canvas.put(x, row, "q2")
        canvas.put(x + 1, row, "q0")
    canvas.rect(x - 5, HEAD_ROW + 9, 11, 1, "q3")
    canvas.rect(x - 5, HEAD_ROW + 10, 11, 1, "q0")
    canvas.rect(x - 2, HEAD_ROW + 13, 5, 1, "q3")
    canvas.rect(x - 2, foot - 9, 5, 1, "q4")
    for row in range(foot - 8, foot - 2):
        canvas.rect(x - 2, row, 5, 1, "q2")
        canvas.put(x - 2, row, "q4")
        canvas.put(x + 2, row, "q0")
    canvas.rect(x - 3, foot - 2, 7, 1, "q4")
    canvas.rect(x - 4, foot - 1, 9, 2, "q1")


def _halo(canvas: Canvas, left: int, across: int, colour: str, level: int) -> None:
    canvas.disc(left + 12 - across // 2, 12 - across // 2, across, colour, level=level)


FLAME = ("...3...", "...3...", "..343..", "..343..", "..242..", "...2...")
BURNING = ("..343..", ".34443.", "3444443", "3444443", ".34443.", ".24442.", "..343..")


def draw_lamp() -> Canvas:
    """Draw four cells of 24 x 24: unlit, kindling, lit, bright; cell pixel (12, 12) is the lamp head."""
    canvas = Canvas(96, 24)
    legend = {str(step): f"l{step}" for step in range(5)}
    canvas.stamp(("ggdgg", "gGdgg", "Ggdgg"), LEGEND, 10, 11)
    _halo(canvas, 24, 11, "l0", 8)
    _halo(canvas, 24, 7, "l1", 8)
    canvas.stamp(FLAME, legend, 33, 9)
    _halo(canvas, 48, 19, "l0", 8)
    _halo(canvas, 48, 15, "l1", 8)
    _halo(canvas, 48, 11, "l2", 12)
    canvas.stamp(BURNING, legend, 57, 9)
    _halo(canvas, 72, 23, "l0", 8)
    _halo(canvas, 72, 19, "l1", 8)
    _halo(canvas, 72, 17, "l1", 12)
    _halo(canvas, 72, 13, "l2", 14)
    _halo(canvas, 72, 9, "l3", 16)
    canvas.stamp(BURNING, legend, 81, 9)
    return canvas
