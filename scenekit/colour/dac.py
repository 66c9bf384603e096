"""Weighted resistor ladders into a video load: levels, linearity, and the colours they show."""

from dataclasses import dataclass
from math import floor, log10

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.depth import nearest_levels
from scenekit.errors import MachineError

Volts = NDArray[np.float64]

VIDEO_LOAD_OHM = 75.0
"""Termination of an analogue video input."""

VIDEO_WHITE_V = 0.7
"""Full scale of an analogue video signal into its termination (VESA, from memory)."""

_TWO_DIGITS = (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91)

PREFERRED = {
    "E12": tuple(value * 10 for value in _TWO_DIGITS[::2]),
    "E24": tuple(value * 10 for value in _TWO_DIGITS),
    "E96": tuple(floor(100 * 10 ** (step / 96) + 0.5) for step in range(96)),
}
"""Preferred resistor values of one decade, in three digits; IEC 60063 (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """One channel of a resistor DAC: each bit drives its resistor to the supply or to ground.

    resistors_ohm      highest bit first, 1 to 8 of them
    supply_v           voltage of a bit that is on
    load_ohm           what the common end drives
    tolerance_percent  how far a part may be from its value
    off_bits_open      a bit that is off drives nothing, instead of ground
    raises             MachineError: values that no circuit has
    """

    resistors_ohm: tuple[float, ...]
    supply_v: float = 3.3
    load_ohm: float = VIDEO_LOAD_OHM
    tolerance_percent: float = 0.0
    off_bits_open: bool = False

    def __post_init__(self) -> None:
        if not 1 <= len(self.resistors_ohm) <= 8:
            raise MachineError(f"resistor ladder: {len(self.resistors_ohm)} resistors; allowed 1 to 8")
        for name, value in (
            *((f"resistor {at}", ohm) for at, ohm in enumerate(self.resistors_ohm)),
            ("load", self.load_ohm),
            ("supply", self.supply_v),
        ):
            if not 0 < value < 1e9:
                raise MachineError(f"resistor ladder: {name} is {value!r}; allowed above 0")
        if not 0 <= self.tolerance_percent < 100:
            raise MachineError(
                f"resistor ladder: tolerance {self.tolerance_percent!r} %; allowed 0 to below 100"
            )

    @property
    def bits(self) -> int:
        """Return the number of resistors."""
        return len(self.resistors_ohm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Linearity:
    """How even the steps of a ladder are; the unit is the mean step (LSB).

    worst_offset  greatest distance of a level from the straight line between the ends (INL)
    worst_step    greatest distance of a step from the mean step (DNL)
    rising        every code is brighter than the one before
    rising_always the same for every draw of parts within the tolerance
    """

    full_scale_v: float
    worst_offset: float
    worst_step: float
    rising: bool
    rising_always: bool


def volts(ladder: Ladder) -> Volts:
    """Return the voltage across the load for every code.

    source  Kirchhoff's current law; values in tests/reference/dac_levels.csv
    """
    on, off = _conductances(ladder, 0.0, 0.0)
    return _volts(ladder, on, off)


def spread(ladder: Ladder) -> tuple[Volts, Volts]:
    """Return the lowest and the highest voltage of every code within the tolerance of the parts.

    A level rises with the conductance of bits that are on and falls with that of bits that are off, so
    the ends of the spread are reached where each part is at an end of its own.
    """
    part = ladder.tolerance_percent / 100
    lowest = _volts(ladder, *_conductances(ladder, part, -part))
    highest = _volts(ladder, *_conductances(ladder, -part, part))
    return lowest, highest


def linearity(ladder: Ladder) -> Linearity:
    """Return how even the steps are.

    source  values in tests/reference/dac_design.csv
    """
    levels = volts(ladder)
    count = len(levels)
    step = levels[-1] / (count - 1)
    rises = np.diff(levels)
    return Linearity(
        full_scale_v=float(levels[-1]),
        worst_offset=float(np.abs(levels / step - np.arange(count)).max()),
        worst_step=float(np.abs(rises / step - 1).max()),
        rising=bool((rises > 0).all()),
        rising_always=bool((_least_gain(ladder) > 0).all()),
    )


def rising_tolerance_percent(bits: int) -> float:
    """Return the tolerance below which a ladder of exact ratios 1, 2, 4 ... rises for every draw of parts.

    source  the highest bit must outweigh all others: 1 / (2 ** bits - 1)
    """
    return 100.0 / ((1 << bits) - 1)


def ideal_resistors(
    bits: int, supply_v: float, load_ohm: float = VIDEO_LOAD_OHM, white_v: float = VIDEO_WHITE_V
) -> tuple[float, ...]:
    """Return the resistors, highest bit first, that reach white with all bits on.

    raises  MachineError: white is not below the supply, or bits outside 1 to 8
    source  values in tests/reference/dac_design.csv
    """
    if not 1 <= bits <= 8:
        raise MachineError(f"resistor ladder: {bits} bits; allowed 1 to 8")
    if not 0 < white_v < supply_v:
        raise MachineError(
            f"resistor ladder: white of {white_v!r} V; allowed above 0 and below {supply_v!r} V"
        )
    together = load_ohm * (supply_v - white_v) / white_v
    highest = together * (2 - 2.0 ** (1 - bits))
    return tuple(highest * 2**bit for bit in range(bits))


def preferred_resistor(ohm: float, series: str = "E24") -> float:
    """Return the nearest value that is sold; a tie takes the lower.

    series  E12, E24 or E96
    raises  MachineError: another series, or a value that is not above 0
    """
    if series not in PREFERRED:
        raise MachineError(f"resistor series {series!r}; allowed {', '.join(PREFERRED)}")
    if not 0 < ohm < 1e9:
        raise MachineError(f"resistor of {ohm!r} ohm; allowed above 0")
    decade = floor(log10(ohm)) - 2
    near: list[float] = []
    for power in (decade - 1, decade, decade + 1):
        near += [float(value) * 10.0**power for value in PREFERRED[series]]
    apart = [round(abs(value - ohm), 9) for value in near]
    return round(near[apart.index(min(apart))], 9)


def shown_levels(ladder: Ladder, white_v: float = VIDEO_WHITE_V) -> NDArray[np.uint8]:
    """Return every code as the 8-bit sRGB value that a display shows: white and above is 255."""
    return _as_bytes(volts(ladder), white_v)


def shown_picture(
    rgb: NDArray[np.uint8], ladders: tuple[Ladder, Ladder, Ladder], white_v: float = VIDEO_WHITE_V
) -> NDArray[np.uint8]:
    """Return colours as they look behind three ladders.

    rgb      (..., 3) uint8 sRGB; each channel takes the nearest code of its bits
    ladders  red, green, blue
    white_v  voltage that the display shows as white
    """
    out = np.empty_like(rgb)
    for channel, ladder in enumerate(ladders):
        out[..., channel] = shown_levels(ladder, white_v)[nearest_levels(ladder.bits)[rgb[..., channel]]]
    return out


def shown_spread(
    ladder: Ladder, white_v: float = VIDEO_WHITE_V
) -> tuple[NDArray[np.uint8], NDArray[np.uint8]]:
    """Return the darkest and the brightest 8-bit sRGB value of every code within the tolerance."""
    lowest, highest = spread(ladder)
    return _as_bytes(lowest, white_v), _as_bytes(highest, white_v)


def _as_bytes(levels: Volts, white_v: float) -> NDArray[np.uint8]:
    """A display is as bright as the 8-bit value in the same proportion; rounded first, so ties stay ties."""
    part = np.round(np.clip(levels / white_v, 0, 1) * 255, 9)
    return np.floor(part + 0.5).astype(np.uint8)


def _bits_on(ladder: Ladder) -> NDArray[np.bool_]:
    """Return (codes, bits): which bits are on, highest first."""
    codes = np.arange(1 << ladder.bits)[:, None]
    return np.asarray((codes >> np.arange(ladder.bits)[::-1]) & 1 == 1)


def _conductances(ladder: Ladder, on_part: float, off_part: float) -> tuple[Volts, Volts]:
    """Return the conductance on and off for every code, with resistors changed by a part of their value."""
    ohms = np.array(ladder.resistors_ohm)
    on = _bits_on(ladder)
    return (on / (ohms * (1 + on_part))).sum(axis=1), (~on / (ohms * (1 + off_part))).sum(axis=1)


def _volts(ladder: Ladder, on: Volts, off: Volts) -> Volts:
    total = on + 1 / ladder.load_ohm + (0 if ladder.off_bits_open else off)
    return np.asarray(ladder.supply_v * on / total)


def _least_gain(ladder: Ladder) -> Volts:
    """Return, for each step, bits that turn on at their weakest less bits that turn off at their strongest.

    The level rises where what is on grows; this holds for open bits and for grounded ones.
    """
    part = ladder.tolerance_percent / 100
    conductance = 1 / np.array(ladder.resistors_ohm)
    change = np.diff(_bits_on(ladder).astype(np.int64), axis=0)
    gains = np.where(change > 0, conductance / (1 + part), 0) - np.where(
        change < 0, conductance / (1 - part), 0
    )
    return np.asarray(gains.sum(axis=1))
