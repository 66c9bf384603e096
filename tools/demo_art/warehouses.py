"""Warehouses, cranes and masts on the far side of the basin."""

from demo_art.canvas import Canvas, noise

WIDTH, HEIGHT, BASE = 512, 120, 112


def _window(canvas: Canvas, x: int, y: int, seed: int) -> None:
    """Draw one window of 3 x 4, dark or lit."""
    chance = noise(x, y, seed)
    if chance < 176:
        canvas.rect(x, y, 3, 4, "b0")
        canvas.put(x, y + 3, "b2")
        return
    light, low = ("l3", "l2") if chance > 224 else ("l2", "l1")
    canvas.rect(x, y, 3, 4, light)
    canvas.rect(x, y + 3, 3, 1, low)
    canvas.put(x + 1, y + 1, low)


def _windows(
    canvas: Canvas, x: int, y: int, columns: int, rows: int, step: tuple[int, int], seed: int
) -> None:
    for row in range(rows):
        for column in range(columns):
            _window(canvas, x + column * step[0], y + row * step[1], seed)


def _bricks(canvas: Canvas, x: int, y: int, width: int, height: int, colour: str) -> None:
    """Sprinkle short brick marks over a wall."""
    for row in range(y + 1, y + height - 1, 2):
        for column in range(x + 1, x + width - 3):
            if noise(column // 2, row, 77) > 238:
                canvas.rect(column, row, 2, 1, colour)


def _door(canvas: Canvas, x: int) -> None:
    canvas.rect(x, BASE - 9, 7, 9, "b0")
    canvas.rect(x + 1, BASE - 10, 5, 1, "b0")
    canvas.rect(x + 3, BASE - 8, 1, 8, "b1")


def _gabled(canvas: Canvas, x: int, width: int, height: int, wall: str, columns: int) -> None:
    """Draw a house with its gable to the water, hoist beam and rows of windows."""
    top = BASE - height
    rise = width * 2 // 5
    mid = x + width // 2
    light = {"b1": "b2", "b2": "b3"}[wall]
    canvas.rect(x, top, width, height, wall)
    canvas.polygon(((x - 1, top), (mid, top - rise), (x + width, top)), wall)
    _bricks(canvas, x, top, width, height, light)
    canvas.rect(x, top, 1, height, light)
    canvas.rect(x + width - 1, top, 1, height, "b0")
    canvas.line(x - 2, top + 1, mid, top - rise, "rim")
    canvas.line(mid, top - rise, x + width + 1, top + 1, "b0", 2)
    canvas.rect(mid - 2, top - rise + 5, 4, 2, "b0")
    canvas.rect(mid - 1, top - rise + 7, 1, 9, "b0")
    canvas.rect(mid - 2, top - rise + 9, 4, 4, "b0")
    step = (width - 6) // columns
    left = x + (width - (columns - 1) * step - 3) // 2
    _windows(canvas, left, top + 3, columns, (height - 14) // 9, (step, 9), x)
    _door(canvas, mid - 3)


def _flat(canvas: Canvas, x: int, width: int, height: int, wall: str) -> None:
    """Draw a flat-roofed store with a cornice."""
    top = BASE - height
    light = {"b1": "b2", "b2": "b3"}[wall]
    canvas.rect(x, top, width, height, wall)
    _bricks(canvas, x, top, width, height, light)
    canvas.rect(x - 1, top - 1, width + 2, 1, "rim")
    canvas.rect(x - 1, top, width + 2, 2, "b0")
    canvas.rect(x, top + 2, 1, height - 2, light)
    _windows(canvas, x + 4, top + 6, (width - 4) // 7, (height - 16) // 9, (7, 9), x)
    for door in range(x + 6, x + width - 10, 18):
        _door(canvas, door)


def _saw_shed(canvas: Canvas, x: int, teeth: int, height: int) -> None:
    """Draw a long shed with a saw-tooth roof of glass."""
    top = BASE - height
    canvas.rect(x, top, teeth * 14, height, "b1")
    for tooth in range(teeth):
        left = x + tooth * 14
        canvas.polygon(((left, top), (left + 13, top - 8), (left + 13, top)), "b1")
        canvas.line(left, top, left + 13, top - 8, "rim")
        canvas.rect(left + 13, top - 8, 1, 8, "b0")
        canvas.rect(left + 4, top + 5, 6, 5, "l2" if tooth in (1, 4) else "b0")
        canvas.rect(left + 6, top + 5, 1, 5, "b1")
    canvas.rect(x, BASE - 8, teeth * 14, 1, "b2")
    for door in range(x + 8, x + teeth * 14 - 8, 28):
        _door(canvas, door)


def _chimney(canvas: Canvas, x: int, height: int) -> None:
    top = BASE - height
    canvas.polygon(((x, BASE), (x + 1, top), (x + 5, top), (x + 6, BASE)), "b1")
    canvas.line(x, BASE, x + 1, top, "b3")
    canvas.rect(x, top - 2, 7, 2, "b0")
    canvas.rect(x, top + 6, 6, 1, "b0")


PLUME = ((0, -3, 3, 16), (2, -6, 4, 16), (5, -9, 5, 16), (9, -12, 6, 16), (15, -13, 5, 8), (21, -14, 4, 8))


def _smoke(canvas: Canvas, x: int, y: int) -> None:
    """Let a thin plume drift from a chimney; its end thins out into a pattern."""
    for dx, dy, across, level in PLUME:
        canvas.disc(x + dx, y + dy, across, "b3", level=level)


def _crane(canvas: Canvas, x: int, top: int, reach: int) -> None:
    """Draw a lattice crane on a portal; a positive reach points right."""
    side = 1 if reach > 0 else -1
    for leg in (0, 12):
        canvas.rect(x + leg, BASE - 18, 2, 18, "b0")
    canvas.rect(x - 2, BASE - 20, 18, 3, "b0")
    canvas.line(x + 1, BASE - 4, x + 12, BASE - 16, "b0")
    canvas.rect(x + 1, BASE - 32, 12, 12, "b1")
    canvas.rect(x, BASE - 34, 14, 2, "b0")
    canvas.rect(x + (8 if side > 0 else 3), BASE - 30, 3, 4, "l2")
    foot, tip = (x + 7 + 4 * side, BASE - 24), (x + 7 + reach, top)
    canvas.line(*foot, *tip, "b0", 2)
    upper = (x + 7, BASE - 46)
    canvas.line(x + 7, BASE - 34, *upper, "b0", 2)
    canvas.line(*upper, *tip, "b0")
    for part in range(1, 8):
        px = foot[0] + (tip[0] - foot[0]) * part // 8
        py = foot[1] + (tip[1] - foot[1]) * part // 8
        ux = upper[0] + (tip[0] - upper[0]) * part // 8
        uy = upper[1] + (tip[1] - upper[1]) * part // 8
        canvas.line(px, py, ux, uy, "b1")
    canvas.rect(tip[0], tip[1], 1, 26, "b0")
    canvas.rect(tip[0] - 1, tip[1] + 26, 3, 2, "b0")


def _ship(canvas: Canvas, x: int) -> None:
    """Draw a two-masted trader at the far quay: hull, masts, furled sails, rigging."""
    canvas.polygon(((x, 106), (x + 74, 106), (x + 68, 118), (x + 8, 118)), "b0")
    canvas.line(x - 3, 104, x + 76, 104, "rim")
    canvas.rect(x - 2, 105, 78, 2, "b1")
    canvas.line(x + 76, 104, x + 96, 92, "b0", 2)
    canvas.rect(x + 4, 98, 16, 6, "b1")
    canvas.rect(x + 4, 97, 17, 1, "b0")
    for port in (7, 12):
        canvas.rect(x + port, 100, 2, 2, "l3")
    for mast, top in ((28, 36), (54, 44)):
        canvas.rect(x + mast, top, 2, 104 - top, "b0")
        for yard, half in ((14, 9), (30, 13)):
            canvas.rect(x + mast - half, top + yard, 2 * half + 2, 1, "b0")
            canvas.rect(x + mast - half + 2, top + yard + 1, 2 * half - 2, 2, "b3")
        for foot in (-14, -9, 10, 15):
            canvas.line(x + mast + 1, top + 6, x + mast + foot, 103, "b1")
        canvas.rect(x + mast - 5, top + 1, 5, 1, "r0")
        canvas.rect(x + mast - 4, top + 2, 4, 1, "r0")
    canvas.line(x + 55, 46, x + 95, 93, "b1")
    canvas.line(x + 29, 38, x + 1, 102, "b1")


def _water_tower(canvas: Canvas, x: int) -> None:
    for leg in (0, 7, 14):
        canvas.line(x + leg, BASE, x + 2 + leg * 5 // 7, 76, "b0")
    canvas.line(x, 100, x + 14, 86, "b0")
    canvas.line(x + 14, 100, x, 86, "b0")
    canvas.rect(x, 62, 16, 14, "b1")
    canvas.rect(x, 62, 3, 14, "b2")
    canvas.rect(x, 66, 16, 1, "b0")
    canvas.rect(x, 72, 16, 1, "b0")
    canvas.polygon(((x - 1, 61), (x + 7, 55), (x + 8, 55), (x + 16, 61)), "b0")
    canvas.line(x - 1, 61, x + 7, 55, "rim")


def _far_quay(canvas: Canvas) -> None:
    """Draw the quay wall under everything, with fenders and a few lanterns."""
    canvas.rect(0, BASE, WIDTH, 1, "rim")
    canvas.rect(0, BASE + 1, WIDTH, 7, "b0")
    for x in range(0, WIDTH, 16):
        canvas.rect(x, BASE + 2, 2, 5, "b1")
        canvas.rect(x + 6, BASE + 3, 6, 1, "b1")
    for x in (30, 96, 200, 238, 436, 500):
        canvas.rect(x, BASE - 8, 1, 8, "b0")
        canvas.put(x, BASE - 9, "l4")
        canvas.put(x, BASE - 8, "l2")


def draw_warehouses() -> Canvas:
    canvas = Canvas(WIDTH, HEIGHT, wrap=True)
    for x, width, height in ((70, 40, 40), (300, 44, 44), (356, 30, 30), (470, 40, 46)):
        _gabled(canvas, x, width, height, "b2", width // 9)
    _flat(canvas, 150, 64, 36, "b2")
    _chimney(canvas, 196, 78)
    _chimney(canvas, 210, 68)
    _smoke(canvas, 198, BASE - 80)
    _saw_shed(canvas, 104, 6, 24)
    _gabled(canvas, 6, 42, 42, "b1", 4)
    _gabled(canvas, 48, 34, 32, "b1", 3)
    _crane(canvas, 222, 30, 42)
    _gabled(canvas, 262, 36, 38, "b1", 4)
    _gabled(canvas, 298, 30, 28, "b1", 3)
    _water_tower(canvas, 446)
    _flat(canvas, 464, 40, 26, "b1")
    _crane(canvas, 424, 44, -30)
    _far_quay(canvas)
    _ship(canvas, 336)
    return canvas
