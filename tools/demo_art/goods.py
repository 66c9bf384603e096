"""Goods that lie about on quay and pier."""

from demo_art.canvas import Canvas

BARREL = (
    "..ookooo..",
    ".oTTtttdo.",
    "oqqqqqqqko",
    "oTTttttddo",
    "oTTttttddo",
    "oTTttttddo",
    "oqqqqqqqko",
    "oTTttttddo",
    "oTTttttddo",
    "oTTttttddo",
    "oqqqqqqqko",
    "oTTttttddo",
    ".oTtttddo.",
    "..oooooo..",
)
BARREL_LEGEND = {"o": "t0", "T": "t3", "t": "t2", "d": "t1", "q": "q3", "k": "q1"}

POTS = (
    "....ttttt.......ttttt...",
    "..tt.t.t.tt...tt.t.t.tt.",
    ".t.t.t.t.t.t.t.t.t.t.t.t",
    ".ttttttttttt.ttttttttttt",
    ".t.t.t.t.t.t.t.t.t.t.t.t",
    ".t.tdddd.t.t.t.t.dddd.tt",
    ".t.ddddd.t.t.t.t.dddddtt",
    ".ttttttttttt.ttttttttttt",
    ".ddddddddddd.ddddddddddd",
)


def draw_crate(canvas: Canvas, x: int, y: int, side: int) -> None:
    """Draw a nailed crate with a diagonal board."""
    canvas.rect(x, y, side, side, "t2")
    for row in range(y + 3, y + side - 2, 3):
        canvas.rect(x + 2, row, side - 4, 1, "t1")
    canvas.line(x + 2, y + side - 3, x + side - 4, y + 2, "t3", 2)
    canvas.frame(x, y, side, side, "t0")
    canvas.frame(x + 1, y + 1, side - 2, side - 2, "t3")
    canvas.rect(x + 1, y + side - 2, side - 2, 1, "t1")
    canvas.rect(x + side - 2, y + 2, 1, side - 3, "t1")
    canvas.rect(x + 1, y + 1, side - 2, 1, "t4")


def draw_barrel(canvas: Canvas, x: int, y: int) -> None:
    canvas.stamp(BARREL, BARREL_LEGEND, x, y)


def draw_net(canvas: Canvas, x: int, y: int) -> None:
    """Draw a heap of net with cork floats."""
    canvas.polygon(((x, y + 8), (x + 5, y + 2), (x + 11, y), (x + 19, y + 3), (x + 26, y + 8)), "g0")
    for step in range(0, 26, 3):
        canvas.line(x + step, y + 8, x + step - 4 if step > 12 else x + step + 4, y + 3, "c0")
    for dx, dy in ((4, 5), (9, 2), (14, 4), (19, 5), (23, 7)):
        canvas.rect(x + dx, y + dy, 2, 2, "t4")


def draw_pots(canvas: Canvas, x: int, y: int) -> None:
    canvas.stamp(POTS, {"t": "t3", "d": "t0"}, x, y)
