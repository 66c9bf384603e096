"""The pier of scene two: sea with boats, wooden deck, foreground piles."""

from demo_art.canvas import Canvas, noise, ridge
from demo_art.front import rope
from demo_art.goods import draw_barrel, draw_crate, draw_pots
from demo_art.lamps import POST_XS, draw_post
from demo_art.quay import FAR_RAIL, NEAR_RAIL
from demo_art.water import paint_water

HORIZON = 22
DECK, DECK_END = 55, 73
POST_FOOT = 58

SAIL = (
    "......m......",
    "......mp.....",
    ".....sme.....",
    ".....smee....",
    "....ssmee....",
    "....ssmeee...",
    "...sssmeee...",
    "...sssmeeee..",
    "..ssssmeeee..",
    "......m......",
    ".hhhhhhhhhhh.",
    "..hhhhhhhhh..",
)
COAST = (
    *((0, 20), (24, 18), (44, 15), (58, 14), (74, 14), (90, 18), (112, 20), (134, 21), (150, 22)),
    *((400, 22), (424, 19), (446, 20), (470, 16), (486, 18), (500, 18)),
)
FARTHER = ((110, 22), (150, 18), (186, 15), (222, 19), (260, 22), (360, 22), (410, 15), (450, 13), (500, 20))
TOWER = (
    "..d..",
    ".ddd.",
    "ddddd",
    ".lLl.",
    ".lLl.",
    "ddddd",
    ".wwg.",
    ".wwg.",
    ".rrr.",
    ".rrr.",
    ".wwg.",
    ".wwg.",
    "wwwgg",
    "wwwgg",
)


def _coast(canvas: Canvas) -> None:
    """Draw the headlands on the horizon with a light tower and houses."""
    for colour, points in (("b2", FARTHER), ("b1", COAST)):
        for x, top in enumerate(ridge(points, canvas.width)):
            canvas.rect(x, top, 1, max(HORIZON - top, 0), colour)
    legend = {"d": "b0", "l": "l3", "L": "l4", "w": "m0", "g": "q4", "r": "r0"}
    canvas.stamp(TOWER, legend, 64, 1)
    for x, y in ((40, 14), (48, 12), (80, 14), (474, 13), (482, 15)):
        canvas.rect(x, y, 6, 4, "b0")
        canvas.rect(x + 1, y - 1, 4, 1, "b0")
        canvas.put(x + 2, y + 2, "l2")
    for x in (12, 96, 104, 436, 462, 498):
        canvas.put(x, 20, "l2")


def _lugger(canvas: Canvas, x: int, y: int) -> None:
    """Draw a nearer boat at anchor with a riding light."""
    canvas.rect(x + 15, y, 1, 22, "b0")
    canvas.line(x + 15, y + 2, x + 32, y + 21, "b0")
    canvas.line(x + 14, y + 3, x + 2, y + 15, "b0", 2)
    canvas.polygon(((x, y + 20), (x + 36, y + 20), (x + 32, y + 27), (x + 4, y + 27)), "b0")
    canvas.rect(x, y + 20, 37, 1, "rim")
    canvas.rect(x + 4, y + 17, 9, 4, "b1")
    canvas.rect(x + 6, y + 18, 2, 2, "l3")
    canvas.put(x + 15, y + 1, "l4")
    canvas.put(x + 15, y + 2, "l2")
    for number in range(5):
        canvas.rect(x + 6 + number * 5 % 7, y + 28 + number, 22 - number * 4, 1, "b0" if number < 2 else "b1")


def draw_pier_sea() -> Canvas:
    canvas = Canvas(512, 100, wrap=True)
    paint_water(canvas, HORIZON, 100 - HORIZON, (4, 4, 8, 8, 16, 16, 16, 32))
    _coast(canvas)
    for x, y in ((204, 12), (236, 11), (352, 12)):
        canvas.stamp(SAIL, {"m": "b0", "s": "b3", "e": "rim", "p": "l3", "h": "b0"}, x, y)
    _lugger(canvas, 284, 10)
    _lugger(canvas, 454, 20)
    return canvas


def _railing(canvas: Canvas) -> None:
    for x in range(0, 640, 32):
        canvas.rect(x, 41, 3, 15, "t1")
        canvas.rect(x, 41, 1, 15, "t3")
        canvas.rect(x, 40, 3, 1, "t4")
        for row, sag in ((44, 3), (49, 2)):
            rope(canvas, (x + 2, row), (x + 32, row), sag, ("t1", "t3"))


def _planks(canvas: Canvas) -> None:
    """Lay planks across the pier; each leans with the view and has its own tone."""
    for x in range(0, 640, 10):
        tone = noise(x, 2, 51)
        colour = "t3" if tone > 222 else "t2"
        for row in range(DECK, DECK_END):
            at = x - (row - DECK) // 3
            canvas.rect(at, row, 10, 1, colour)
            canvas.put(at, row, "t1")
        if tone % 3 == 0:
            canvas.line(x + 3, DECK + 3, x, DECK_END - 3, "t1" if colour == "t2" else "t2")
        canvas.put(x + 5 - 14 // 3, DECK + 14, "t0")
    canvas.rect(0, DECK, 640, 1, "t3")


def _beam(canvas: Canvas) -> None:
    """Draw the edge beam, its bolts and the heads of the piles."""
    canvas.rect(0, DECK_END, 640, 1, "t4")
    canvas.rect(0, DECK_END + 1, 640, 3, "t1")
    canvas.rect(0, DECK_END + 4, 640, 1, "k")
    for x in range(0, 640, 64):
        canvas.rect(x + 30, DECK_END, 1, 4, "t0")
        for bolt in (10, 26, 34, 50):
            canvas.rect(x + bolt, DECK_END + 2, 2, 1, "q3")
        canvas.rect(x + 4, DECK_END + 5, 12, 2, "t0")
        canvas.rect(x + 4, DECK_END + 5, 3, 2, "t1")


def _rails(canvas: Canvas) -> None:
    for row, top in ((FAR_RAIL, "q4"), (NEAR_RAIL, "q5")):
        canvas.rect(0, row, 640, 1, top)
        canvas.rect(0, row + 1, 640, 1, "t0")
    for x in range(0, 640, 20):
        canvas.rect(x + 3, NEAR_RAIL + 1, 3, 1, "q2")


def draw_pier_deck() -> Canvas:
    canvas = Canvas(640, 80, wrap=True)
    _railing(canvas)
    _planks(canvas)
    _rails(canvas)
    _beam(canvas)
    for x in POST_XS:
        draw_post(canvas, x, POST_FOOT)
    draw_crate(canvas, 100, 43, 15)
    draw_barrel(canvas, 118, 45)
    draw_pots(canvas, 230, 49)
    draw_barrel(canvas, 356, 45)
    draw_barrel(canvas, 368, 45)
    draw_crate(canvas, 480, 42, 16)
    draw_pots(canvas, 590, 49)
    return canvas


PERCHED = (
    "...www....",
    "..wkwwyy..",
    "..wwww....",
    "..gwwww...",
    ".ggggwww..",
    "dggggwww..",
    "dddgggw...",
    "..d.y.y...",
)


def _pile(canvas: Canvas, x: int, top: int) -> None:
    canvas.rect(x, top, 15, 48 - top, "k")
    canvas.rect(x + 1, top - 2, 13, 2, "t0")
    canvas.rect(x + 2, top - 2, 9, 1, "t2")
    canvas.rect(x + 1, top + 1, 2, 48 - top, "t1")
    canvas.rect(x + 6, top + 3, 1, 30, "t0")
    canvas.rect(x + 11, top + 7, 1, 30, "t0")
    for band in range(3):
        canvas.rect(x, top + 6 + band * 2, 15, 1, "t2")
        canvas.rect(x, top + 7 + band * 2, 15, 1, "t0")


def draw_pier_front() -> Canvas:
    canvas = Canvas(400, 48, wrap=True)
    for start, end in (((40, 35), (128, 38)), ((128, 38), (220, 35))):
        rope(canvas, start, end, 7, ("t3", "t4"))
    for x, top in ((32, 28), (120, 31), (212, 28), (330, 25)):
        _pile(canvas, x, top)
    canvas.stamp(PERCHED, {"w": "m1", "g": "m0", "d": "q3", "k": "q1", "y": "l2"}, 332, 16)
    return canvas
