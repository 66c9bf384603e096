"""Reports which frames of sheets repeat others: equal, mirrored, turned, in other colours, or nearly."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from scenekit.model.arrays import Pixels
from scenekit.sprites.sharing import Rgba, Sharing, find_sharing
from scenekit.sprites.trim import Box, trim
from scenekit.symmetry.flips import ALL_FLIPS, ALL_TURNS, NONE, TURN_NAMES, H

UP_TO = {"same": frozenset({NONE}), "h": frozenset({NONE, H}), "flips": ALL_FLIPS, "turns": ALL_TURNS}
"""How far two pictures may differ and still be one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeats:
    """What frames share; indices of `sharing` count `names`.

    names   of frames, each box of a sheet once
    """

    names: tuple[str, ...]
    sharing: Sharing

    @property
    def flips_save_px(self) -> int:
        """Pixels that mirroring saves beyond leaving out what is equal."""
        levels = self.sharing.levels
        return levels[0].pixels - levels[2].pixels

    def as_dict(self) -> dict[str, Any]:
        """Return plain JSON data."""
        found, names = self.sharing, self.names
        return {
            "frames": len(names),
            "drawn": found.given,
            "kept": [
                {"up_to": level.name, "distinct": level.distinct, "pixels": level.pixels}
                for level in found.levels
            ],
            "flips_save_px": self.flips_save_px,
            "equal": [
                {"frame": names[e.index], "as": names[e.first], "turned": TURN_NAMES[e.code]}
                for e in found.equal
            ],
            "recolours": [
                {
                    "frame": names[r.index],
                    "as": names[r.first],
                    "turned": TURN_NAMES[r.code],
                    "colours": [[_hex(old), _hex(new)] for old, new in r.colours],
                }
                for r in found.recolours
            ],
            "near": [
                {
                    "frame": names[n.index],
                    "as": names[n.first],
                    "turned": TURN_NAMES[n.code],
                    "pixels_different": n.pixels_different,
                    "of_pixels": n.of_pixels,
                    "largest": n.largest,
                    "rms": n.rms_milli / 1000,
                }
                for n in found.near
            ],
        }


def find_repeats(
    sheets: Iterable[tuple[str, Pixels, Sequence[tuple[str, Box]]]],
    *,
    up_to: str = "flips",
    near_rms: int = 12,
    trimmed: bool = False,
) -> Repeats:
    """Report what the frames of sheets share.

    sheets    (name or "", (H, W, 4) uint8, (frame name, box) of each frame); boxes lie on their sheet
    up_to     a key of UP_TO
    trimmed   compare what is drawn, wherever it lies in its box, as an export does
    """
    names: list[str] = []
    parts: list[Pixels] = []
    for sheet, pixels, frames in sheets:
        seen: set[Box] = set()
        for name, box in frames:
            if box in seen:
                continue
            seen.add(box)
            drawn = trim(pixels, box) if trimmed else None
            x, y, w, h = drawn.box if drawn else box
            names.append(f"{sheet}/{name}" if sheet else name)
            parts.append(pixels[y : y + h, x : x + w])
    return Repeats(names=tuple(names), sharing=find_sharing(parts, UP_TO[up_to], near_rms=near_rms))


def _hex(colour: Rgba) -> str:
    return bytes(colour[:3]).hex() if colour[3] == 255 else bytes(colour).hex()
