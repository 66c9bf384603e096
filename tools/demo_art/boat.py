"""The lantern boat: a small lugger whose lantern swings, in two frames."""

from demo_art.canvas import Canvas

HULL = (
    "t...................................tt",
    "tTt...............................tTt.",
    ".tTTTTTTTTTTTTTTTTTTTTTTTTTTTTTTTTTt..",
    ".taaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaat..",
    "..tbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbt...",
    "..tbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbt....",
    "...taaaaaaaaaaaaaaaaaaaaaaaaaaaat.....",
    "....ttttttttttttttttttttttttttt.......",
)
LANTERN = (".kkk.", "k434k", "k444k", "k343k", ".kkk.")


def _frame(canvas: Canvas, left: int, swing: int) -> None:
    legend = {"t": "t0", "T": "t4", "a": "t2", "b": "r0"}
    canvas.line(left + 18, 2, left + 18, 24, "t0", 2)
    canvas.rect(left + 18, 2, 1, 21, "t3")
    for step in range(5):
        canvas.put(left + 17 - step, 2 + (step + swing) // 2 % 2, "r1")
    canvas.line(left + 19, 4, left + 34, 23, "t1")
    bulge = left + 4 - swing // 2
    canvas.polygon(((left + 17, 6), (bulge, 20), (left + 16, 21)), "t4")
    canvas.polygon(((left + 17, 9), (bulge + 7, 20), (left + 16, 21)), "m0")
    canvas.line(left + 17, 5, bulge - 1, 20, "t0")
    canvas.line(left + 19, 8, left + 27, 8, "t0")
    canvas.disc(left + 21 + swing, 6, 13, "l0", level=8)
    canvas.disc(left + 23 + swing, 8, 9, "l1", level=8)
    canvas.line(left + 27, 8, left + 27 + swing, 10, "t0")
    canvas.stamp(LANTERN, {"k": "t0", "3": "l3", "4": "l4"}, left + 25 + swing, 10)
    canvas.stamp(HULL, legend, left + 1, 23)
    for x in range(left + 6, left + 32, 5):
        canvas.put(x, 27, "l1" if x > left + 18 else "t3")


def draw_boat() -> Canvas:
    """Draw two cells of 40 x 32."""
    canvas = Canvas(80, 32)
    _frame(canvas, 0, 0)
    _frame(canvas, 40, 2)
    return canvas
