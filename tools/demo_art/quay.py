"""The quay of scene one: water, kerb, paving, rails, lamp posts and goods."""

from demo_art.canvas import Canvas, noise
from demo_art.goods import draw_barrel, draw_crate, draw_net, draw_pots
from demo_art.lamps import POST_XS, draw_post
from demo_art.water import paint_water

WIDTH, HEIGHT = 640, 96
WATER_TOP, KERB, PAVING, TRACK, FLAGS, EDGE = 20, 44, 47, 59, 71, 81
FAR_RAIL, NEAR_RAIL = 61, 66
POST_FOOT = 51


def _setts(canvas: Canvas, row: int, length: int, tall: int, shift: int) -> None:
    """Lay one course of stones: lit upper edge, shaded right edge, every stone its own tone."""
    for x in range(0, WIDTH, length):
        at = x + shift
        tone = noise(x, row, 13)
        face, edge = ("q2", "q4") if tone > 226 else ("q2", "q2") if tone < 110 else ("q2", "q3")
        canvas.rect(at, row, length - 1, tall, face)
        if tall > 1:
            canvas.rect(at + 1, row, length - 3, 1, edge)
            for corner in (at, at + length - 2):
                canvas.put(corner, row, "q1")
                canvas.put(corner, row + tall - 1, "q1")


def _cobbles(canvas: Canvas) -> None:
    """Lay courses of setts that grow towards the viewer."""
    canvas.rect(0, PAVING, WIDTH, TRACK - PAVING, "q1")
    for number, (row, length, tall) in enumerate(((47, 5, 1), (49, 8, 2), (52, 8, 3), (56, 10, 3))):
        _setts(canvas, row, length, tall, number * length // 2)


def _ballast(canvas: Canvas, top: int, rows: int) -> None:
    canvas.rect(0, top, WIDTH, rows, "q1")
    for y in range(top, top + rows):
        for x in range(WIDTH):
            grain = noise(x, y, 17)
            if grain > 214:
                canvas.put(x, y, "q3" if grain > 246 else "q2")
            elif grain < 30:
                canvas.put(x, y, "q0")


def _track(canvas: Canvas) -> None:
    """Lay sleepers and two rails; the wheels stand on the row above NEAR_RAIL."""
    for x in range(0, canvas.width, 10):
        canvas.polygon(((x + 1, TRACK), (x + 5, TRACK), (x + 4, TRACK + 10), (x - 1, TRACK + 10)), "t1")
        canvas.line(x + 1, TRACK, x - 1, TRACK + 10, "t2")
        canvas.rect(x - 1, TRACK + 11, 6, 1, "q0")
    canvas.rect(0, FAR_RAIL, canvas.width, 1, "q4")
    canvas.rect(0, FAR_RAIL + 1, canvas.width, 1, "q0")
    canvas.rect(0, NEAR_RAIL, canvas.width, 1, "q5")
    canvas.rect(0, NEAR_RAIL + 1, canvas.width, 1, "q3")
    canvas.rect(0, NEAR_RAIL + 2, canvas.width, 1, "q0")


def _flags(canvas: Canvas) -> None:
    """Lay the broad flagstones in front of the rails."""
    canvas.rect(0, FLAGS, WIDTH, EDGE - FLAGS, "q1")
    for number, (row, length, tall) in enumerate(((71, 10, 4), (76, 16, 5))):
        _setts(canvas, row, length, tall, number * 7)


PUDDLE = (
    "......aaaaaaaa........",
    "..aaaabbbbccbbaaaaa...",
    "aabbbccccbbbbbbbbbbaaa",
    "..aaaaabbbbbbbbaaa....",
    ".......aaaaaaaa.......",
)


def _puddles(canvas: Canvas) -> None:
    """Leave a little rain on the stones; it holds the last light of the sky."""
    legend = {"a": "q1", "b": "b3", "c": "rim"}
    for number, (x, row) in enumerate(((58, 73), (214, 74), (344, 72), (452, 75), (590, 73))):
        canvas.stamp(PUDDLE, legend, x, row, mirror=number % 2 > 0)
    for number, x in enumerate((150, 268, 400, 560)):
        canvas.stamp(PUDDLE[1:4], legend, x, 53, mirror=number % 2 == 0)


def _wall(canvas: Canvas) -> None:
    """Draw the coping and the wall below it, darker downwards."""
    canvas.rect(0, EDGE, WIDTH, 1, "q4")
    canvas.rect(0, EDGE + 1, WIDTH, 3, "q3")
    canvas.rect(0, EDGE + 4, WIDTH, 1, "q0")
    for x in range(0, WIDTH, 32):
        canvas.rect(x, EDGE, 1, 4, "q1")
    canvas.rect(0, EDGE + 5, WIDTH, HEIGHT - EDGE - 5, "q1")
    for number, row in enumerate((86, 91)):
        for x in range(0, WIDTH, 20):
            at = x + number * 10
            canvas.rect(at, row, 1, 5, "q0")
            if noise(at, row, 31) > 150:
                canvas.rect(at + 2, row + 1, 16, 1, "q2")
        canvas.rect(0, row + 4, WIDTH, 1, "q0")
    canvas.dither(0, 92, WIDTH, 2, "q0", 8)
    canvas.rect(0, 94, WIDTH, 2, "q0")


def _kerb(canvas: Canvas) -> None:
    canvas.rect(0, KERB - 1, WIDTH, 1, "q0")
    canvas.rect(0, KERB, WIDTH, 1, "q4")
    canvas.rect(0, KERB + 1, WIDTH, 2, "q3")
    for x in range(0, WIDTH, 40):
        canvas.rect(x, KERB, 1, 3, "q1")


def _moored(canvas: Canvas, x: int) -> None:
    """Draw a fishing smack lying behind the kerb."""
    canvas.polygon(((x, 33), (x + 58, 33), (x + 54, KERB - 2), (x + 6, KERB - 2)), "t1")
    canvas.rect(x - 2, 32, 62, 1, "t4")
    canvas.rect(x - 1, 33, 60, 2, "t2")
    canvas.rect(x + 3, 38, 53, 1, "t0")
    canvas.rect(x + 12, 23, 18, 9, "t2")
    canvas.rect(x + 11, 22, 20, 1, "t3")
    canvas.rect(x + 12, 23, 2, 9, "t3")
    for port in (16, 23):
        canvas.rect(x + port, 25, 4, 4, "l2")
        canvas.rect(x + port, 25, 3, 3, "l3")
    canvas.rect(x + 38, 0, 2, 32, "t0")
    canvas.rect(x + 38, 0, 1, 32, "t3")
    canvas.line(x + 39, 1, x + 58, 31, "q1")
    canvas.line(x + 38, 1, x + 2, 31, "q1")
    canvas.line(x + 38, 26, x + 12, 19, "t0", 2)
    canvas.polygon(((x + 36, 24), (x + 14, 17), (x + 14, 19), (x + 36, 27)), "m0")


def _bollard(canvas: Canvas, x: int) -> None:
    canvas.rect(x + 1, 43, 4, 6, "q1")
    canvas.rect(x + 1, 43, 1, 6, "q4")
    canvas.rect(x, 41, 6, 2, "q1")
    canvas.rect(x, 41, 5, 1, "q4")
    canvas.rect(x, 48, 6, 1, "q0")


def _goods(canvas: Canvas) -> None:
    draw_crate(canvas, 78, 42, 16)
    draw_crate(canvas, 96, 44, 14)
    draw_crate(canvas, 86, 29, 13)
    draw_barrel(canvas, 116, 43)
    draw_barrel(canvas, 216, 43)
    draw_barrel(canvas, 229, 43)
    draw_barrel(canvas, 223, 30)
    draw_net(canvas, 330, 49)
    draw_pots(canvas, 362, 46)
    draw_crate(canvas, 470, 43, 15)
    draw_barrel(canvas, 488, 43)
    draw_crate(canvas, 600, 41, 17)
    draw_barrel(canvas, 586, 43)


def draw_quay() -> Canvas:
    canvas = Canvas(WIDTH, HEIGHT, wrap=True)
    paint_water(canvas, WATER_TOP, KERB - WATER_TOP, (4, 5, 8, 10, 16))
    _moored(canvas, 510)
    _moored(canvas, 186 + 64)
    _kerb(canvas)
    _cobbles(canvas)
    _ballast(canvas, TRACK, FLAGS - TRACK)
    _track(canvas)
    _flags(canvas)
    _puddles(canvas)
    _wall(canvas)
    for x in (20, 140, 320, 400, 530):
        _bollard(canvas, x)
    for x in POST_XS:
        draw_post(canvas, x, POST_FOOT)
    _goods(canvas)
    return canvas
