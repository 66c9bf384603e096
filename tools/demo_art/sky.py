"""The two skies: dusk over the quay and later dusk over the pier."""

from demo_art.canvas import Canvas, noise

BANDS = (0, 18, 34, 48, 60, 70, 79, 88)
PIER_BANDS = (0, 26, 48, 67, 83, 96, 106, 114)

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


def gradient(canvas: Canvas, ramp: str, starts: tuple[int, ...]) -> None:
    """Fill the bands from the top; four rows round each border are mixed by pattern."""
    for step, top in enumerate(starts):
        canvas.rect(0, top, canvas.width, canvas.height - top, f"{ramp}{step}")
    for step, top in enumerate(starts[1:], 1):
        for row, above in ((-2, False), (-1, False), (0, True), (1, True)):
            level = 8 if row in (-1, 0) else 4
            canvas.dither(0, top + row, canvas.width, 1, f"{ramp}{step - above}", level)


def cloud(canvas: Canvas, x: int, y: int, width: int, colours: tuple[str, str], seed: int) -> None:
    """Draw a flat evening cloud: dark strokes above, a lit lower edge, tapering ends."""
    body, lit = colours
    strokes = ((-4, 5, 30), (-3, 7, 52), (-2, 8, 74), (-1, 9, 92), (0, 10, 100), (1, 8, 78), (2, 6, 46))
    for row, _, share in strokes:
        length = width * share // 100
        start = x + (width - length) * (96 + noise(row + 9, seed, 3) // 4) // 256
        canvas.rect(start, y + row, length, 1, lit if row > 0 else body)
        if row == 0:
            canvas.rect(start + length // 3, y, length // 2, 1, lit)
        for end in (start - 4, start + length + 2):
            canvas.rect(end, y + row, 2, 1, lit if row > 0 else body)


def stars(canvas: Canvas, count: int, depth: int, seed: int, colour: str) -> None:
    """Scatter single stars, closer together towards the top."""
    for number in range(count):
        x = (noise(number, 1, seed) * 256 + noise(number, 2, seed)) % canvas.width
        height = noise(number, 3, seed) * noise(number, 4, seed) * depth // (255 * 255)
        canvas.put(x, height + 1, colour)


def twinkle(canvas: Canvas, x: int, y: int) -> None:
    for dx, dy in ((-1, 0), (1, 0), (0, -1), (0, 1)):
        canvas.put(x + dx, y + dy, "q4")
    canvas.put(x, y, "m1")


def moon(canvas: Canvas, x: int, y: int, halo: tuple[str, str]) -> None:
    canvas.disc(x - 11, y - 11, 36, halo[0])
    canvas.ring(x - 12, y - 12, 38, halo[0])
    canvas.disc(x - 6, y - 6, 26, halo[1], level=8)
    canvas.disc(x - 4, y - 4, 22, halo[1])
    canvas.stamp(MOON, {"m": "m0", "M": "m1"}, x, y)


def draw_sky() -> Canvas:
    canvas = Canvas(320, 120, wrap=True)
    gradient(canvas, "s", BANDS)
    stars(canvas, 40, 64, 11, "m0")
    stars(canvas, 26, 60, 12, "q4")
    twinkle(canvas, 52, 28)
    twinkle(canvas, 172, 36)
    moon(canvas, 252, 25, ("s2", "s3"))
    cloud(canvas, 14, 48, 84, ("s2", "s4"), 1)
    cloud(canvas, 116, 58, 130, ("s3", "s5"), 2)
    cloud(canvas, 196, 50, 56, ("s2", "s4"), 6)
    cloud(canvas, 258, 70, 104, ("s4", "s6"), 3)
    cloud(canvas, 66, 76, 92, ("s4", "s7"), 4)
    cloud(canvas, 176, 86, 74, ("s5", "s7"), 5)
    return canvas


def draw_pier_sky() -> Canvas:
    canvas = Canvas(320, 140, wrap=True)
    gradient(canvas, "n", PIER_BANDS)
    stars(canvas, 70, 84, 29, "m0")
    stars(canvas, 60, 96, 31, "q4")
    for x, y in ((40, 32), (132, 44), (290, 58)):
        twinkle(canvas, x, y)
    moon(canvas, 84, 32, ("n2", "n3"))
    cloud(canvas, 196, 74, 100, ("n3", "n5"), 1)
    cloud(canvas, 20, 88, 120, ("n4", "n6"), 2)
    cloud(canvas, 230, 102, 90, ("n5", "n7"), 4)
    return canvas
