"""The hand-pumped rail trolley with the lamplighter: ride both ways, brake, turn, light."""

from demo_art.canvas import Canvas
from demo_art.lamplighter import (
    FEET_ROW,
    FRONT_BODY,
    FRONT_HEAD,
    FRONT_LEGS,
    HEAD,
    LEGEND,
    UPRIGHT,
    WALK_LEGS,
    arm,
    stamp_body,
)

CELL_WIDTH, CELL_HEIGHT, GROUND = 64, 56, 54
MIDDLE = 32
POSE_OF_FRAME = (0, 1, 2, 3, 2, 1)
HANDLE_DROP = (-6, -3, 2, 5)
REACH = 11


def _wheel(canvas: Canvas, x: int, turn: int) -> None:
    """Draw a spoked wheel of 11 pixels; four states make one spoke step."""
    canvas.disc(x, 44, 11, "q0")
    canvas.ring(x, 44, 11, "q3")
    for dx, dy in ((2, 1), (1, 2), (1, 3), (3, 1), (4, 0), (5, 0)):
        canvas.put(x + dx, 44 + dy, "q4")
    spokes = (((5, 1), (0, 0)), ((7, 2), (0, 0)), ((8, 3), (0, 0)))[turn % 3][0]
    cx, cy = x + 5, 49
    dx, dy = spokes[0] - 5, spokes[1] - 5
    for sx, sy in ((dx, dy), (-dx, -dy), (-dy, dx), (dy, -dx)):
        canvas.line(cx, cy, cx + sx, cy + sy, "q2")
    canvas.rect(cx - 1, cy - 1, 3, 3, "q4")
    canvas.put(cx, cy, "q1")


def _chassis(canvas: Canvas, turn: int) -> None:
    canvas.rect(24, 44, 17, 3, "q0")
    canvas.rect(24, 44, 17, 1, "q2")
    for x in (13, 41):
        _wheel(canvas, x, turn)
    canvas.rect(5, 40, 54, 4, "t2")
    canvas.rect(5, 40, 54, 1, "t4")
    canvas.rect(5, 43, 54, 1, "t0")
    for x in range(11, 58, 8):
        canvas.rect(x, 41, 1, 2, "t1")
    for x in (3, 59):
        canvas.rect(x, 41, 2, 3, "q3")
        canvas.put(x, 41, "q4")


def _stand(canvas: Canvas) -> None:
    """Draw the frame that carries the beam, a chest and the oil can below it."""
    canvas.rect(27, 34, 11, 6, "r0")
    canvas.rect(27, 34, 11, 1, "r1")
    canvas.rect(27, 36, 11, 1, "t0")
    canvas.rect(32, 36, 2, 2, "l2")
    for foot, side in ((25, 1), (39, -1)):
        canvas.line(foot, FEET_ROW, MIDDLE - side, 26, "q3", 2)
        canvas.line(foot, FEET_ROW, MIDDLE - side, 26, "q4")


def _beam(canvas: Canvas, drop: int) -> None:
    """Draw the rocking beam; the left handle lies `drop` rows below the pivot."""
    left, right = (MIDDLE - REACH, 27 + drop), (MIDDLE + REACH, 27 - drop)
    canvas.line(*left, *right, "q5")
    canvas.line(left[0], left[1] + 1, right[0], right[1] + 1, "q2")
    canvas.rect(MIDDLE - 1, 26, 3, 3, "q4")
    canvas.put(MIDDLE, 27, "q0")
    for x, y in (left, right):
        canvas.rect(x - 1, y - 1, 3, 3, "t3")
        canvas.put(x, y, "t4")


def _lantern(canvas: Canvas) -> None:
    """Hang the small lantern on the near leg of the stand."""
    canvas.rect(31, 29, 3, 1, "q1")
    canvas.rect(31, 30, 3, 3, "l3")
    canvas.put(32, 31, "l4")
    canvas.rect(31, 33, 3, 1, "q1")


def _pole(canvas: Canvas, foot: tuple[int, int], tip: tuple[int, int], hook: int) -> None:
    """Draw the lighting pole: brass tip with the wick, hook to the side `hook`."""
    canvas.line(*foot, *tip, "t4")
    canvas.line(foot[0] + 1, foot[1], tip[0] + 1, tip[1], "t2")
    canvas.rect(tip[0], tip[1] - 1, 2, 3, "l2")
    canvas.put(tip[0], tip[1] - 1, "l3")
    for dx, dy in ((1, 3), (2, 3), (3, 2), (3, 1)):
        canvas.put(tip[0] + dx * hook, tip[1] + dy, "q5")


def _trolley(drop: int, turn: int) -> Canvas:
    canvas = Canvas(CELL_WIDTH, CELL_HEIGHT)
    _chassis(canvas, turn)
    _stand(canvas)
    _beam(canvas, drop)
    _lantern(canvas)
    return canvas


TAIL = (
    (0, 0, 1, 1, 2),
    (0, -1, -1, 0, 1),
    (0, -1, -2, -2, -1),
    (0, 0, -1, -2, -2),
    (0, 1, 0, -1, -1),
    (0, 1, 1, 0, 0),
)


def _scarf(canvas: Canvas, x: int, y: int, frame: int, side: int) -> None:
    """Let the end of the scarf fly behind the neck."""
    for step, lift in enumerate(TAIL[frame % 6]):
        canvas.rect(x - side * (step + 1), y + lift, 1, 2, "r1" if step % 2 else "r0")


def _ride_right(pose: int, frame: int, turn: int) -> Canvas:
    """Face right: the pole lies over the near shoulder, in front of the coat."""
    drop = HANDLE_DROP[pose]
    canvas = _trolley(drop, turn)
    hand = (MIDDLE - REACH - 1, 26 + drop)
    shoulder = (11 + pose, 24 + pose)
    arm(canvas, (shoulder[0] + 2, shoulder[1]), hand, 1, "c0")
    top = stamp_body(canvas, 6, pose, mirror=False)
    _scarf(canvas, 9 + pose, top - 1, frame, 1)
    canvas.outline("k")
    _pole(canvas, (14 + pose, 37), (3 + 2 * pose, 5 + pose), -1)
    arm(canvas, shoulder, hand, 1, "c2")
    return canvas


SATCHEL = ("ppppppp", "pPPPPPp", "pPyyPPp", "pPPPPPp", "ppppppp")


def _ride_left(pose: int, frame: int, turn: int) -> Canvas:
    """Face left: the pole is behind him; the satchel and its strap are on this side."""
    drop = HANDLE_DROP[pose]
    canvas = _trolley(-drop, turn)
    hand = (MIDDLE + REACH, 26 + drop)
    shoulder = (51 - pose, 24 + pose)
    arm(canvas, (shoulder[0] - 2, shoulder[1]), hand, 1, "c0")
    top = stamp_body(canvas, 44, pose, mirror=True)
    canvas.line(49 - pose, top - 1, 55, top + 7, "t3")
    canvas.stamp(SATCHEL, LEGEND, 52, 30 + pose // 2)
    _scarf(canvas, 54 - pose, top - 1, frame + 2, -1)
    canvas.outline("k")
    arm(canvas, shoulder, hand, 1, "c2")
    behind = Canvas(CELL_WIDTH, CELL_HEIGHT)
    _pole(behind, (49 - pose, 37), (60 - 2 * pose, 5 + pose), 1)
    behind.paste(canvas, 0, 0)
    return behind


def _stand_up(canvas: Canvas, x: int, maps: tuple[tuple[str, ...], ...], head_x: int, mirror: bool) -> None:
    head, torso, legs = maps
    canvas.stamp(legs, LEGEND, x, FEET_ROW - 5, mirror=mirror)
    canvas.stamp(torso, LEGEND, x, FEET_ROW - 18, mirror=mirror)
    canvas.stamp(head, LEGEND, head_x, FEET_ROW - 26, mirror=mirror)


def _turn(step: int) -> Canvas:
    """Walk round the stand with the pole upright, from the left end to the right end."""
    canvas = _trolley(0, 0)
    x, maps, head_x, mirror = (
        (8, (HEAD, UPRIGHT, WALK_LEGS), 11, False),
        (18, (FRONT_HEAD, FRONT_BODY, FRONT_LEGS), 20, False),
        (32, (FRONT_HEAD, FRONT_BODY, FRONT_LEGS), 34, True),
        (43, (HEAD, UPRIGHT, WALK_LEGS), 45, True),
    )[step]
    _stand_up(canvas, x, maps, head_x, mirror)
    if step > 0:
        canvas.stamp(SATCHEL, LEGEND, x + (0, 8, 10, 8)[step], 30)
    canvas.outline("k")
    hand = x + (12, 0, 1, 1)[step]
    _pole(canvas, (hand, 38), (hand, 4), (1, -1, -1, -1)[step])
    shoulder = x + (6, 1, 4, 7)[step]
    arm(canvas, (shoulder, 24), (hand, 27), 2, "c2")
    return canvas


def _brake(step: int, left: bool) -> Canvas:
    """Lean back and hold the beam still; sparks fly at the wheels."""
    canvas = (_ride_left if left else _ride_right)(1 - step, 4, 0)
    for number, x in enumerate((12, 40)):
        at = x + 11 if left else x - 1
        side = 1 if left else -1
        canvas.put(at, 54, "l4")
        canvas.put(at + side * (1 + step), 53 - number, "l3")
        canvas.put(at + side * (3 - step), 52 + number, "l2")
    return canvas


LIGHT_POLES = (((15, 38), (42, 14)), ((18, 36), (42, 7)), ((22, 33), (38, 3)), ((24, 31), (36, 2)))


def _light(step: int) -> Canvas:
    """Raise the pole in both hands until its tip meets the lamp."""
    canvas = _trolley(0, 0)
    foot, tip = LIGHT_POLES[step]
    hands = [
        (foot[0] + (tip[0] - foot[0]) * part // 10, foot[1] + (tip[1] - foot[1]) * part // 10)
        for part in ((1, 3), (1, 3), (1, 3), (1, 4))[step]
    ]
    arm(canvas, (15, 23), hands[1], 1, "c1")
    stamp_body(canvas, 8, 0, mirror=False)
    arm(canvas, (13, 24), hands[0], 1, "c2")
    canvas.outline("k")
    _pole(canvas, foot, tip, 1)
    for x, y in hands:
        canvas.rect(x, y, 2, 2, "f1")
    if step == 3:
        for dx, dy, colour in (
            (0, -2, "l3"),
            (0, -1, "l4"),
            (1, -1, "l4"),
            (-1, 0, "l2"),
            (2, 0, "l2"),
            (0, 0, "l4"),
        ):
            canvas.put(tip[0] + dx, tip[1] + dy, colour)
    return canvas


def draw_trolley() -> Canvas:
    sheet = Canvas(CELL_WIDTH * 6, CELL_HEIGHT * 4)
    rows = (
        [_ride_right(pose, frame, frame) for frame, pose in enumerate(POSE_OF_FRAME)],
        [_ride_left(pose, frame, -frame) for frame, pose in enumerate(POSE_OF_FRAME)],
        [_brake(0, False), _brake(1, False), *(_turn(step) for step in range(4))],
        [*(_light(step) for step in range(4)), _brake(0, True), _brake(1, True)],
    )
    for row, cells in enumerate(rows):
        for column, cell in enumerate(cells):
            sheet.paste(cell, column * CELL_WIDTH, row * CELL_HEIGHT)
    return sheet
