"""Type, spacing and colours of the window, all in one place."""

from dataclasses import dataclass

from scenekit.report.paper import BLUE, OPERATION_COLOURS, VERMILLION

Colour = tuple[int, int, int]

GAP, PAD, EDGE = 8, 12, 18
"""Spaces between things that belong together, inside a part, and around it, in unscaled px."""

ROW, LINE = 28, 20
"""Heights of a row with something to press, and of a line of text."""

RAIL_WIDTH = 152
HEAD_HEIGHT = 46
TAPE_HEIGHT = 70

SIZES = {"small": 12.0, "body": 14.0, "head": 16.0, "station": 17.0, "title": 21.0, "big": 26.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """Colours by what they are for.

    ground   behind a station; rail behind the column of stations; sheet behind fields and lists
    well     behind pictures; ink and quiet for words; rule for lines; accent for what is chosen
    good, alarm  for what fits and what does not, always with a word or shape beside them
    """

    name: str
    ground: Colour
    rail: Colour
    sheet: Colour
    well: Colour
    ink: Colour
    quiet: Colour
    rule: Colour
    accent: Colour
    on_accent: Colour
    good: Colour
    alarm: Colour
    hover: Colour
    shade: Colour


LIGHT = Theme(
    name="light",
    ground=(249, 247, 242),
    rail=(233, 229, 219),
    sheet=(255, 255, 255),
    well=(224, 221, 215),
    ink=(32, 36, 44),
    quiet=(92, 96, 104),
    rule=(214, 209, 198),
    accent=BLUE,
    on_accent=(255, 255, 255),
    good=(0, 112, 84),
    alarm=(166, 62, 0),
    hover=(224, 219, 207),
    shade=(243, 240, 232),
)
DARK = Theme(
    name="dark",
    ground=(31, 33, 37),
    rail=(23, 25, 28),
    sheet=(42, 45, 50),
    well=(18, 19, 22),
    ink=(234, 231, 224),
    quiet=(164, 166, 170),
    rule=(64, 67, 73),
    accent=(86, 180, 233),
    on_accent=(18, 22, 28),
    good=(64, 190, 150),
    alarm=(242, 146, 74),
    hover=(54, 58, 64),
    shade=(36, 39, 43),
)
THEMES = {"light": LIGHT, "dark": DARK}

__all__ = [
    "DARK",
    "LIGHT",
    "OPERATION_COLOURS",
    "SIZES",
    "THEMES",
    "VERMILLION",
    "Colour",
    "Theme",
    "contrast",
]


def contrast(one: Colour, two: Colour) -> float:
    """Return the contrast ratio of two colours, 1 to 21.

    source   WCAG 2.2, definition of contrast ratio and relative luminance
    """
    lighter, darker = sorted((_luminance(one), _luminance(two)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: Colour) -> float:
    red, green, blue = (
        value / 255 / 12.92 if value / 255 <= 0.04045 else ((value / 255 + 0.055) / 1.055) ** 2.4
        for value in colour
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
