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
    canvas.line(left + 18, 3, left + 18, 24, "t0", 2)
    canvas.rect(left + 18, 3, 1, 20, "t3")
    canvas.line(left + 19, 4, left + 34, 23, "t1")
    canvas.polygon(((left + 17, 6), (left + 4, 20), (left + 16, 21)), "t4")
    canvas.polygon(((left + 17, 8), (left + 11, 20), (left + 16, 21)), "m0")
    canvas.line(left + 17, 5, left + 3, 20, "t0")
    canvas.line(left + 19, 8, left + 26, 8, "t0")
    canvas.disc(left + 21 + swing, 6, 11, "l1", level=6)
    canvas.stamp(LANTERN, {"k": "t0", "3": "l3", "4": "l4"}, left + 24 + swing, 10)
    canvas.put(left + 26, 9, "t0")
    canvas.stamp(HULL, legend, left + 1, 23)
    for x in range(left + 6, left + 32, 5):
        canvas.put(x, 27, "l1" if x > left + 18 else "t3")


def draw_boat() -> Canvas:
    canvas = Canvas(80, 32)
    _frame(canvas, 0, 0)
    _frame(canvas, 40, 1)
    return canvas
