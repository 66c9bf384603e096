"""What a machine is: display modes, memories, abilities and prices."""

from collections.abc import Mapping
from types import MappingProxyType

from scenekit.machines.abilities import OPERATIONS, Abilities
from scenekit.machines.cost import Cost
from scenekit.machines.memory import Memory
from scenekit.machines.timing import Timing
from scenekit.records import record
from scenekit.registry import choose


@record(frozen=True, slots=True, kw_only=True)
class DisplayMode:
    """One display mode of a machine.

    timing    the signal, with the picture placed in it
    colour    "indexed": the screen holds palette entries; "direct": it holds colours
    depth     bits of red, green and blue that the display tells apart, such as "5-6-5"
    entries   palette entries; 0 in direct modes
    palette   the fixed colours as "rrggbb" when entries cannot be written, else empty
    bits_per_pixel  bits a pixel takes in a page
    """

    name: str
    width_px: int
    height_px: int
    timing: Timing
    colour: str
    depth: str
    entries: int
    palette: tuple[str, ...] = ()
    bits_per_pixel: int

    @property
    def indexed(self) -> bool:
        """Whether the screen holds palette entries."""
        return self.colour == "indexed"

    @property
    def page_bytes(self) -> int:
        """Bytes of one frame buffer."""
        return -(-self.width_px * self.bits_per_pixel // 8) * self.height_px

    @property
    def depth_bits(self) -> tuple[int, int, int]:
        """Bits of red, green and blue."""
        red, green, blue = (int(bits) for bits in self.depth.split("-"))
        return red, green, blue


@record(frozen=True, slots=True, kw_only=True)
class Storage:
    """Where files come from.

    bytes_per_s  reading speed; per_file_ms  time to find and open one file
    """

    bytes_per_s: float
    per_file_ms: float
    provenance: str


@record(frozen=True, slots=True, kw_only=True)
class Machine:
    """One machine as a target draws, remembers and pays on it.

    residual_percent  how far measured times typically are from what the fitted prices give, the machine's own
                      varying from time to time included; 0 is not known
    """

    name: str
    summary: str
    modes: Mapping[str, DisplayMode]
    memories: tuple[Memory, ...]
    abilities: Abilities
    prices: tuple[Cost, ...]
    storage: Storage | None = None
    residual_percent: float = 0.0

    def mode(self, name: str) -> DisplayMode:
        """Return a display mode.

        raises   UnknownNameError: with the nearest known name
        """
        return choose(f"machine {self.name}: display mode", name, dict(self.modes))

    def recolours(self, mode: str) -> bool:
        """Say whether writing a palette entry changes what a display mode already shows."""
        chosen = self.mode(mode)
        return self.abilities.recolours and chosen.indexed and not chosen.palette

    @property
    def costs(self) -> Mapping[str, Cost]:
        """The price of each operation for any mode and memory; an unknown operation is missing."""
        return self.costs_in("")

    def costs_in(self, mode: str, source: str = "", destination: str = "") -> Mapping[str, Cost]:
        """Return the known price of each operation in a mode, between two memories ("" is any)."""
        found = {name: self.cost(name, mode, source, destination) for name in OPERATIONS}
        return MappingProxyType({name: price for name, price in found.items() if price is not None})

    def cost(self, operation: str, mode: str = "", source: str = "", destination: str = "") -> Cost | None:
        """Return the most narrowly stated price that applies, or None while it is unknown."""
        fitting = [price for price in self.prices if price.applies(operation, mode, source, destination)]
        return max(fitting, key=lambda price: price.narrowness, default=None)

    def memory_for(self, kind: str) -> Memory | None:
        """Return the first memory that may hold a kind, or None."""
        return next((memory for memory in self.memories if kind in memory.holds), None)
