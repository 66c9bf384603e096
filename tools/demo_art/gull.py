"""A gull in four beats of its wings."""

from demo_art.canvas import Canvas

LEGEND = {"w": "m1", "g": "m0", "d": "q4", "k": "q1", "y": "l2"}

UP = (
    "........k...............",
    "........kd......k.......",
    ".........dg....kd.......",
    ".........dgg..kdg.......",
    "..........dgg.dgg.......",
    "..........dggwggw.......",
    "...........dgwgww.......",
    "...........ggwwwwww.....",
    "..kg.....wwwwwwwwkwy....",
    "...kggwwwwwwwwwwwwwyy...",
    ".....ddgggwwwwwww.......",
    ".........ddddd..........",
)
HIGH = (
    "........................",
    "........................",
    "........................",
    "...kk..............kk...",
    "....kdgg........ggdk....",
    "......ddggg..gggd.......",
    "........dgggwwgg........",
    "..........gwwwwwww......",
    "..kg.....wwwwwwwwkwy....",
    "...kggwwwwwwwwwwwwwyy...",
    ".....ddgggwwwwwww.......",
    ".........ddddd..........",
)
LEVEL = (
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "......................k.",
    "..................gddk..",
    "..............ggwww.....",
    "..kg.....wwwwwwwwkwy....",
    "...kggwwwwwwwwwwwwwyy...",
    "....dggggggwwwwww.......",
    ".kddgggggg..............",
    "kkdd....................",
)
DOWN = (
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "........................",
    "...............www......",
    "..kg.....wwwwwwwwkwy....",
    "...kggwwwwwwwwwwwwwyy...",
    ".....ddgggwwwwwwgd......",
    ".........dggggw.dgd.....",
    "........dgggg....dk.....",
    ".......dggd.............",
    "......ddd...............",
    ".....kk.................",
)


def draw_gull() -> Canvas:
    """Draw four cells of 24 x 16: wings up, high, level, down."""
    canvas = Canvas(96, 16)
    for number, rows in enumerate((UP, HIGH, LEVEL, DOWN)):
        canvas.stamp(rows, LEGEND, number * 24, 0)
    return canvas
