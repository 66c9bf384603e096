"""The lamplighter himself: pixel maps of head, coat and legs, and the arms between shoulder and hand."""

from demo_art.canvas import Canvas

LEGEND = {
    "k": "k",
    "h": "q1",
    "H": "q3",
    "j": "t0",
    "S": "f0",
    "s": "f1",
    "M": "q5",
    "N": "q4",
    "r": "r0",
    "R": "r1",
    "d": "c0",
    "c": "c1",
    "C": "c2",
    "t": "t1",
    "T": "t2",
    "b": "q0",
    "B": "q2",
    "y": "l2",
    "p": "t3",
    "P": "t4",
}

HEAD = (
    "..hhhhh..",
    ".hhHHHHh.",
    "hhhhhhyhh",
    ".kkkkkkkk",
    ".jjSskss.",
    ".jSssssss",
    ".jSNMMMs.",
    "..NMMMMM.",
    "..NNMMM..",
)
FRONT_HEAD = (
    "..hhhhh..",
    ".hhHHHhh.",
    "hhhhyhhhh",
    ".kkkkkkk.",
    ".jskskSj.",
    ".jssssSj.",
    "..MMMMN..",
    "..MMMMN..",
    "...MMN...",
)

UPRIGHT = (
    "...rRRRr......",
    "..ccCCCcr.....",
    ".dcccCCCc.....",
    ".dccccCCCc....",
    ".dccccCCCc....",
    ".dccccCCCc....",
    ".dccccCCCc....",
    ".dbbbbbbyb....",
    ".dccccCCc.....",
    ".dccccCCCc....",
    "ddccccCCCc....",
    "ddcccccCCCc...",
    "ddcccccCCCc...",
)
LEANING = (
    "....rRRRr.....",
    "...ccCCCcr....",
    "..dcccCCCc....",
    ".dccccCCCCc...",
    ".dccccCCCCc...",
    ".dccccCCCc....",
    ".dccccCCc.....",
    ".dbbbbbyb.....",
    ".dccccCCc.....",
    "ddccccCCc.....",
    "ddcccccCCc....",
    "dddccccCCc....",
)
BENT = (
    ".....rRRRr....",
    "...dccCCCCr...",
    "..dccccCCCc...",
    ".dccccccCCc...",
    ".dccccccCc....",
    "ddccccccc.....",
    "ddbbbbbyb.....",
    "ddcccccCc.....",
    "ddccccCCc.....",
    "dddccccCCc....",
    "dddccccCCc....",
)
LOW = (
    "......rRRRr...",
    "...ddccCCCCr..",
    "..dccccCCCCc..",
    ".dccccccCCc...",
    ".dcccccccc....",
    "ddcccccc......",
    "ddbbbbbyb.....",
    "ddcccccCCc....",
    "ddcccccCCc....",
    "dddcccCCCc....",
)
LEGS = (
    "..ttt..TTT....",
    "..tt...TTT....",
    "..tt....TT....",
    "..tt....TT....",
    "..bb....bBb...",
    "..bbbb..bbbbb.",
)
BENT_LEGS = (
    ".tttt..TTTT...",
    ".ttt....TTT...",
    "..tt....TTT...",
    "..tt....TT....",
    "..bb....bBb...",
    "..bbbb..bbbbb.",
)
FRONT_BODY = (
    "....rRRr......",
    "..ccrRRrcc....",
    ".dccCrrCccd...",
    ".dccCCCCccd...",
    ".dccCyCCccd...",
    ".dccCCCCccd...",
    ".dccCyCCccd...",
    ".dbbbyybbbd...",
    "..ccCCCCcc....",
    ".dccCCCCccd...",
    ".dccCCCCccd...",
    ".dccCCCCccd...",
    ".dccCCCCccd...",
)
FRONT_LEGS = (
    "..ttt.TTT.....",
    "..ttt.TTT.....",
    "..ttt.TTT.....",
    "..ttt.TTT.....",
    "..bBb.bBb.....",
    ".bbbb.bbbb....",
)
WALK_LEGS = (
    "..tttTTTT.....",
    "..ttt.TTTT....",
    "..tt....TT....",
    "..tt....TT....",
    ".bbb....bBb...",
    ".bbbb...bbbbb.",
)
FEET_ROW = 39  # the soles stand on this row of the cell

# torso, legs and where the head sits beside the torso's first column
POSES = ((UPRIGHT, LEGS, 2), (LEANING, LEGS, 3), (BENT, BENT_LEGS, 5), (LOW, BENT_LEGS, 7))


def stamp_body(canvas: Canvas, x: int, pose: int, *, mirror: bool) -> int:
    """Draw coat, legs and head with the map's first column at x; give the row of the shoulders."""
    torso, legs, lean = POSES[pose]
    top = FEET_ROW + 1 - len(legs) - len(torso)
    canvas.stamp(legs, LEGEND, x, FEET_ROW + 1 - len(legs), mirror=mirror)
    canvas.stamp(torso, LEGEND, x, top, mirror=mirror)
    head_x = x + 14 - 9 - lean if mirror else x + lean
    canvas.stamp(HEAD, LEGEND, head_x, top - 8, mirror=mirror)
    return top + 2


def arm(canvas: Canvas, shoulder: tuple[int, int], hand: tuple[int, int], droop: int, sleeve: str) -> None:
    """Draw a sleeve over the elbow to the hand; `droop` lowers the elbow."""
    elbow = ((shoulder[0] + hand[0]) // 2, (shoulder[1] + hand[1]) // 2 + droop)
    for start, end in ((shoulder, elbow), (elbow, hand)):
        for dx, dy in ((0, 0), (1, 0), (0, 1), (1, 1)):
            canvas.line(start[0] + dx, start[1] + dy, end[0] + dx, end[1] + dy, sleeve)
    canvas.rect(hand[0], hand[1], 2, 2, "f1")
