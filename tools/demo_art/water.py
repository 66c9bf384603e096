"""Harbour water in four colours that take turns along each ripple, so that rotating them moves it."""

from demo_art.canvas import Canvas, noise


def ripple_row(width: int, length: int, y: int) -> list[int]:
    """Give the places where one row changes colour; their number is a multiple of four."""
    count = width // length // 4 * 4
    drift = noise(y, 7, 1) * length // 64  # each row starts somewhere else
    places = []
    for number in range(count):
        swing = (noise(number, y // 2, 9) - 128) * length // 400
        places.append((number * width // count + drift + swing + y * length // 2) % width)
    return places


def paint_water(canvas: Canvas, top: int, rows: int, lengths: tuple[int, ...]) -> None:
    """Fill rows; `lengths` are the ripple lengths from the far to the near strip."""
    for row in range(rows):
        length = lengths[row * len(lengths) // rows]
        places = ripple_row(canvas.width, length, row)
        for number, start in enumerate(places):
            end = places[(number + 1) % len(places)]
            span = (end - start) % canvas.width
            step = number % 4 if row % 3 else (number + 1) % 4
            canvas.rect(start, top + row, span, 1, f"w{step}")
