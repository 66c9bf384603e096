"""Every colour of the demo under a short name; a picture holds indices into this list."""

SKY = ("#262a57", "#33366d", "#463f80", "#624c8a", "#875c8c", "#b07084", "#d68c78", "#f0b277")
NIGHT = ("#0f1230", "#13183b", "#191f48", "#212753", "#2d305e", "#3d3a67", "#51466d", "#675471")
WATER = ("#2f3a68", "#3d4779", "#52568b", "#7a709c")
WATER_NIGHT = ("#1d2650", "#28315f", "#383e70", "#585880")
FAR = ("#7c6290", "#5b5080", "#423f6c")
FAR_NIGHT = ("#3b3861", "#2b2c52", "#1f2244")

KEY_COLOUR = "#ff00ff"

_NAMED = {
    # buildings across the basin: dark to light, then the rim that catches the west
    "b0": "#1c1d38",
    "b1": "#272a4b",
    "b2": "#343861",
    "b3": "#474c78",
    "rim": "#8c6a85",
    # stone and iron, cool
    "q0": "#171829",
    "q1": "#252840",
    "q2": "#373b57",
    "q3": "#4f5470",
    "q4": "#72778f",
    "q5": "#a4a9bd",
    # wood and rope, warm
    "t0": "#241a26",
    "t1": "#3d2a32",
    "t2": "#5f4040",
    "t3": "#8a6150",
    "t4": "#bd9069",
    # ink
    "k": "#0c0c18",
    # lamp light
    "l0": "#7d3b2c",
    "l1": "#c46a2c",
    "l2": "#f09d3c",
    "l3": "#ffce66",
    "l4": "#fff3c4",
    # moon, stars, feathers
    "m0": "#c3c9e0",
    "m1": "#f2efe0",
    # the lamplighter
    "f0": "#8f5a50",
    "f1": "#d39a76",
    "c0": "#16263a",
    "c1": "#264a5c",
    "c2": "#4a7c84",
    "r0": "#862f3c",
    "r1": "#c8524a",
    "g0": "#284a45",
}


def _all_colours() -> dict[str, str]:
    colours: dict[str, str] = {}
    for letter, ramp in (("s", SKY), ("n", NIGHT), ("w", WATER), ("h", FAR)):
        colours.update({f"{letter}{step}": value for step, value in enumerate(ramp)})
    colours.update(_NAMED)
    colours["key"] = KEY_COLOUR
    return colours


COLOURS = _all_colours()
NAMES = ("", *COLOURS)  # index 0 is transparent
INDEX = {name: number for number, name in enumerate(NAMES)}


def rgb(text: str) -> tuple[int, int, int]:
    """Turn `#rrggbb` into three numbers."""
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16)
