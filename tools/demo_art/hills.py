"""Far hills with a village at their foot, paler the farther they are."""

from demo_art.canvas import Canvas, noise, ridge

FAR_RIDGE = (
    *((8, 38), (34, 29), (48, 31), (70, 21), (86, 26), (112, 37), (150, 28), (172, 32)),
    *((214, 40), (244, 32), (262, 24), (280, 28), (318, 40), (350, 33)),
)
MIDDLE_RIDGE = ((0, 44), (44, 50), (76, 43), (96, 38), (160, 50), (200, 44), (226, 37), (290, 50), (340, 40))
NEAR_RIDGE = ((20, 58), (84, 54), (140, 61), (200, 55), (276, 62), (330, 52))

HOUSE = ("...a...", "..aaa..", ".aaaaa.", "aaaaaaa", ".aawaa.", ".aaaaa.")
CHAPEL = (
    "....a....",
    "....a....",
    "...aaa...",
    "...aaa...",
    "...awa...",
    "...aaaaaa",
    "...aaaaaa",
    "...aawawa",
)


def _slope(canvas: Canvas, heights: list[int], colour: str) -> None:
    for x, top in enumerate(heights):
        canvas.rect(x, top, 1, canvas.height - top, colour)


def _mist(canvas: Canvas, heights: list[int], colour: str, depth: int) -> None:
    """Let the foot of a ridge fade into the paler colour behind it."""
    for x, top in enumerate(heights):
        for y in range(top + depth, canvas.height):
            canvas.dot(x, y, colour, min((y - top - depth) // 2, 8))


def _trees(canvas: Canvas, heights: list[int], colour: str) -> None:
    for x, top in enumerate(heights):
        tall = noise(x // 3, 1, 21) % 5 - 2
        canvas.rect(x, top - max(tall, 0), 1, max(tall, 0), colour)


def _village(canvas: Canvas, heights: list[int]) -> None:
    for number, x in enumerate((28, 37, 49, 60, 122, 131, 192, 201, 213, 300, 309, 345, 354)):
        lit = "l3" if number % 3 else "l2"
        canvas.stamp(HOUSE, {"a": "h2", "w": lit}, x, heights[x] - 3)
    canvas.stamp(CHAPEL, {"a": "h2", "w": "l2"}, 70, heights[70] - 6)
    for number in range(26):
        x = noise(number, 5, 41) * 384 // 256
        canvas.put(x, heights[x] + 3 + noise(number, 6, 41) % 14, "l2" if number % 2 else "l1")


def draw_hills() -> Canvas:
    canvas = Canvas(384, 80, wrap=True)
    layers = [ridge(points, 384) for points in (FAR_RIDGE, MIDDLE_RIDGE, NEAR_RIDGE)]
    _slope(canvas, layers[0], "h0")
    _slope(canvas, layers[1], "h1")
    _mist(canvas, layers[1], "h0", 14)
    _trees(canvas, layers[2], "h2")
    _slope(canvas, layers[2], "h2")
    _mist(canvas, layers[2], "h1", 16)
    _village(canvas, layers[2])
    return canvas
