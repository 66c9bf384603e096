"""A gull in four beats of its wings."""

from demo_art.canvas import Canvas

LEGEND = {"w": "m1", "g": "m0", "d": "q4", "k": "q1", "y": "l2"}

UP = (
    "......k.................",
    "......dg................",
    "......dgg.......k.......",
    ".......dgg.....gd.......",
    ".......dgww...ggd.......",
    "........dgww.gwd........",
    "........dgwwwwgd........",
    "...k....dgwwwww.ww......",
    "....dggwwwwwwwwwwkw.....",
    ".....ddgwwwwwwwwwwwyy...",
    ".......ddggwwwwwgg......",
    "..........dddddd........",
)
HIGH = (
    "........................",
    "........................",
    "........................",
    "..kd..............dk....",
    "...dgg..........ggd.....",
    "....dgggw....wgggd......",
    "......dgwwwwwwwwd.......",
    "...k....dgwwwwwwww......",
    "....dggwwwwwwwwwwkw.....",
    ".....ddgwwwwwwwwwwwyy...",
    ".......ddggwwwwwgg......",
    "..........dddddd........",
)
LEVEL = (
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    ".....k........wwww......",
    "k.dddggggwwwwwwwwkw.....",
    ".dggggggwwwwwwwwwwwyy...",
    ".....dddgggggwwwggggdd..",
    "........dddddddddd....k.",
)
DOWN = (
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "...k............ww......",
    "....dggwwwwwwwwwwkw.....",
    ".....ddgggwwwwwwwwwyy...",
    ".......dggggwwwggg......",
    ".......dggdddddggd......",
    "......dggd.....dgd......",
    "......dgd.......dgd.....",
    ".....dgd.........dk.....",
    ".....kd.................",
)


def draw_gull() -> Canvas:
    canvas = Canvas(96, 16)
    for number, rows in enumerate((UP, HIGH, LEVEL, DOWN)):
        canvas.stamp(rows, LEGEND, number * 24, 1)
    return canvas
