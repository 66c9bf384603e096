"""What one operation of a machine costs, and where the figure comes from."""

from scenekit.records import record

MAX_US = 1e9
PROVENANCES = ("measured: ", "estimated: ")


@record(frozen=True, slots=True, kw_only=True)
class Cost:
    """The price of one operation: per call, per row and per pixel of the clipped box.

    mode, source, destination   narrow the price to a display mode and memories; "" is any
    share_percent               a fixed share of every refresh, for "logic" and "sound"
    standard_errors_us          of the three coefficients when they were fitted, else empty
    provenance                  "measured: when, driver, program, residual" or "estimated: why"
    """

    operation: str
    per_call_us: float = 0.0
    per_row_us: float = 0.0
    per_pixel_us: float = 0.0
    share_percent: float = 0.0
    mode: str = ""
    source: str = ""
    destination: str = ""
    standard_errors_us: tuple[float, ...] = ()
    provenance: str

    @property
    def measured(self) -> bool:
        """Whether the figures come from a run rather than from a guess."""
        return self.provenance.startswith(PROVENANCES[0])

    @property
    def narrowness(self) -> tuple[int, bool, bool, bool]:
        """How narrowly the price is stated; mode counts before source before destination."""
        named = (bool(self.mode), bool(self.source), bool(self.destination))
        return (sum(named), *named)

    def applies(self, operation: str, mode: str, source: str, destination: str) -> bool:
        """Say whether the price holds for an operation in a mode between two memories."""
        return (
            self.operation == operation
            and self.mode in ("", mode)
            and self.source in ("", source)
            and self.destination in ("", destination)
        )

    def time_us(self, calls: int, rows: int, pixels: int, period_us: float = 0.0) -> float:
        """Return the time of so many calls over so many rows and pixels, and the share of a period."""
        work = calls * self.per_call_us + rows * self.per_row_us + pixels * self.per_pixel_us
        return work + self.share_percent / 100 * period_us
