"""How colours look to people with colour blindness, and which of them must still differ."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.difference import byte_difference
from scenekit.colour.space import bytes_to_linear, linear_to_bytes
from scenekit.errors import UnknownNameError
from scenekit.findings import Finding

Bytes = NDArray[np.uint8]

_MATRICES = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
"""Linear sRGB at full severity; Machado, Oliveira, Fernandes 2009, as stored in colour-science 0.4.7."""

KINDS = tuple(_MATRICES)

_SEEN_AS = {
    "": "people with full colour vision",
    "protan": "people who lack red cones",
    "deutan": "people who lack green cones",
    "tritan": "people who lack blue cones",
}

LEAST_DIFFERENCE = 10.0
"""Least CIEDE2000 between entries that must differ: ten times what is just visible (own choice)."""


def as_seen(rgb: Bytes, kind: str) -> Bytes:
    """Return colours as somebody with one kind of colour blindness sees them.

    rgb     (..., 3) uint8 sRGB
    kind    "protan", "deutan" or "tritan"
    raises  UnknownNameError: another kind
    source  Machado, Oliveira, Fernandes 2009
    """
    if kind not in _MATRICES:
        raise UnknownNameError("colour blindness", kind, KINDS)
    return linear_to_bytes(np.clip(bytes_to_linear(rgb) @ np.array(_MATRICES[kind]).T, 0, 1))


def must_differ(
    palette: Bytes,
    groups: Sequence[Sequence[int]],
    *,
    where: str = "palette",
    least: float = LEAST_DIFFERENCE,
) -> tuple[Finding, ...]:
    """Return a warning for each pair of a group that is too alike to anybody.

    palette  (N, 3) uint8 sRGB
    groups   entries that must all differ from each other
    least    CIEDE2000 that they must have
    raises   UnknownNameError: an entry that the palette does not have
    """
    known = [str(entry) for entry in range(len(palette))]
    pairs = sorted({tuple(sorted((a, b))) for group in groups for a in group for b in group if a != b})
    for entry in sorted({entry for group in groups for entry in group}):
        if not 0 <= entry < len(palette):
            raise UnknownNameError("entries that must differ", str(entry), known)
    views = {"": palette, **{kind: as_seen(palette, kind) for kind in KINDS}}
    findings = []
    for one, two in pairs:
        apart = {kind: round(float(byte_difference(view[one], view[two])), 3) for kind, view in views.items()}
        alike = [f"{apart[kind]:.1f} to {_SEEN_AS[kind]}" for kind in views if apart[kind] < least]
        if alike:
            text = (
                f"entries {one} and {two} must differ and are close: {', '.join(alike)} (CIEDE2000); "
                f"allowed {least:g} or more; make one of them lighter or darker"
            )
            findings.append(Finding(level="warning", code="colours-alike", where=where, text=text))
    return tuple(findings)
