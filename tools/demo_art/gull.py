"""A gull in four beats of its wings."""

from demo_art.canvas import Canvas

LEGEND = {"w": "m1", "g": "m0", "d": "q4", "k": "q1", "y": "l2"}

UP = (
    ".......kk...............",
    ".......kdg......kk......",
    "........dgg....kdg......",
    "........dggg..dgg.......",
    ".........dggwdgg........",
    ".........dggwggw........",
    "..........dgwwww........",
    "...........gwwwwwww.....",
    "..kdgg...wwwwwwwwkww....",
    "...ddggwwwwwwwwwwwwyyy..",
    ".....ddggwwwwwwwww......",
    "........ddggggggg.......",
)
HIGH = (
    "........................",
    "........................",
    "...kk...........kk......",
    "...kddgg......ggdk......",
    ".....ddgggg.gggd........",
    ".......dggggggd.........",
    ".........dgwww..........",
    "..........gwwwwwwww.....",
    "..kdgg...wwwwwwwwkww....",
    "...ddggwwwwwwwwwwwwyyy..",
    ".....ddggwwwwwwwww......",
    "........ddggggggg.......",
)
LEVEL = (
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "...............www......",
    "..............wwwww.....",
    "..kdgg..wwwwwwwwwkww....",
    "...ddggwwwwwwwwwwwwyyy..",
    "kkddggggggggwwwwww......",
    "..kkddddgggggggggg......",
    ".......ddddddddd........",
)
DOWN = (
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "...............www......",
    "..............wwwww.....",
    "..kdgg..wwwwwwwwwkww....",
    "...ddggwwwwwwwwwwwwyyy..",
    ".....ddggggggwwwww......",
    "........dgggggggdd......",
    ".........dggggdddgg.....",
    ".........ddggd..ddk.....",
    "..........ddgd..........",
    "...........kkk..........",
)


def draw_gull() -> Canvas:
    """Draw four cells of 24 x 16: wings up, high, level, down."""
    canvas = Canvas(96, 16)
    for number, rows in enumerate((UP, HIGH, LEVEL, DOWN)):
        canvas.stamp(rows, LEGEND, number * 24, 0)
    return canvas
