"""The two skies: dusk over the quay and later dusk over the pier."""

from demo_art.canvas import Canvas, noise

BANDS = (0, 22, 40, 56, 70, 82, 93, 103)
PIER_BANDS = (0, 30, 54, 74, 90, 102, 112, 120)

MOON = (
    ".....mmmm.....",
    "...mMMMMMMm...",
    "..mMMMMMmMMm..",
    ".mMMMmMMMMMMm.",
    ".mMMmmmMMMMMm.",
    "mMMMmmMMMmMMMm",
    "mMMMMMMMmmmMMm",
    "mMMMMMMMMmMMMm",
    "mMMmMMMMMMMMMm",
    ".mMMMMMMMMMMm.",
    ".mmMMMmmMMMmm.",
    "..mmMMMmMMmm..",
    "...mmmmmmmm...",
    ".....mmmm.....",
)


def gradient(canvas: Canvas, ramp: str, starts: tuple[int, ...], soft: int) -> None:
    """Fill the bands from the top; `soft` rows on each side of a border are mixed by pattern."""
    for step, top in enumerate(starts):
        canvas.rect(0, top, canvas.width, canvas.height - top, f"{ramp}{step}")
    for step, top in enumerate(starts[1:], 1):
        for row in range(top - soft, top + soft):
            below = row < top
            level = (row - top + soft) * 16 // (2 * soft)
            colour = f"{ramp}{step}" if below else f"{ramp}{step - 1}"
            canvas.dither(0, row, canvas.width, 1, colour, level if below else 16 - level)


def cloud(canvas: Canvas, x: int, y: int, width: int, colours: tuple[str, str]) -> None:
    """Draw a long flat cloud: a few overlapping strokes, lit from below."""
    upper, lower = colours
    for stroke in range(4):
        start = x + noise(x, stroke, 3) * width // 600
        length = width - noise(y, stroke, 5) * width // 400 - stroke * 3
        canvas.rect(start, y + stroke - 1, max(length, 6), 1, lower if stroke == 3 else upper)
    canvas.rect(x + width // 5, y - 2, width // 3, 1, upper)


def stars(canvas: Canvas, count: int, depth: int, seed: int, colour: str) -> None:
    for number in range(count):
        x = (noise(number, 1, seed) * 256 + noise(number, 2, seed)) % canvas.width
        height = noise(number, 3, seed) * noise(number, 4, seed) * depth // (255 * 255)
        canvas.put(x, height + 1, colour)


def twinkle(canvas: Canvas, x: int, y: int) -> None:
    for dx, dy in ((-1, 0), (1, 0), (0, -1), (0, 1)):
        canvas.put(x + dx, y + dy, "b3")
    canvas.put(x, y, "m1")


def moon(canvas: Canvas, x: int, y: int, halo: str) -> None:
    canvas.disc(x - 9, y - 9, 32, halo, level=4)
    canvas.disc(x - 5, y - 5, 24, halo, level=8)
    canvas.stamp(MOON, {"m": "m0", "M": "m1"}, x, y)


def draw_sky() -> Canvas:
    canvas = Canvas(320, 120, wrap=True)
    gradient(canvas, "s", BANDS, 4)
    cloud(canvas, 20, 50, 70, ("s2", "s4"))
    cloud(canvas, 150, 66, 96, ("s3", "s5"))
    cloud(canvas, 262, 80, 84, ("s4", "s6"))
    cloud(canvas, 60, 88, 60, ("s4", "s7"))
    stars(canvas, 34, 54, 11, "m0")
    twinkle(canvas, 52, 16)
    twinkle(canvas, 188, 30)
    moon(canvas, 244, 16, "s2")
    return canvas


def draw_pier_sky() -> Canvas:
    canvas = Canvas(320, 140, wrap=True)
    gradient(canvas, "n", PIER_BANDS, 5)
    cloud(canvas, 196, 92, 110, ("n3", "n6"))
    cloud(canvas, 30, 104, 80, ("n4", "n7"))
    stars(canvas, 80, 100, 29, "m0")
    stars(canvas, 60, 90, 31, "q4")
    for x, y in ((40, 22), (132, 44), (290, 60)):
        twinkle(canvas, x, y)
    moon(canvas, 84, 20, "n3")
    return canvas
