"""Every colour of the demo under a short name; a picture holds indices into this list."""

SKY = ("#262a55", "#34376c", "#474482", "#60528c", "#7f628f", "#a3738c", "#c88a86", "#e8a983")
NIGHT = ("#0c0f26", "#10142f", "#151a38", "#1b2141", "#22294a", "#2b3353", "#363e5c", "#444a66")
WATER = ("#35456f", "#3f5280", "#4d6190", "#6674a0")
FAR = ("#75648f", "#595480", "#43456f")
FAR_NIGHT = ("#2a3050", "#222746", "#1a1f3a")

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
