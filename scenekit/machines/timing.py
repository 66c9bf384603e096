"""Display timing: what one refresh of a display mode is made of, in exact fractions."""

from dataclasses import replace
from fractions import Fraction

from scenekit.records import record

MAX_TOTAL = 65535
"""Longest line in pixels and most lines of a signal that a timing may have."""

MAX_CLOCK_HZ = 100_000_000_000


@record(frozen=True, slots=True, kw_only=True)
class Timing:
    """The signal of one display mode: pixel clock, the parts of a line and the parts of a refresh.

    A picture row may take several signal lines (`lines_per_row`: 2 is double-scanned), and border lines
    may stand above and below the picture inside the active lines. Interlaced: the vertical counts are
    those of a frame of two fields, and one refresh is one field.
    source   definitions: common practice; values checked against tests/reference/dmt_timings.csv and
             vga_cea_timings.csv
    """

    clock_hz: Fraction
    h_active_px: int
    h_front_px: int
    h_sync_px: int
    h_back_px: int
    v_active_lines: int
    v_front_lines: int
    v_sync_lines: int
    v_back_lines: int
    h_positive: bool = False
    v_positive: bool = False
    interlaced: bool = False
    lines_per_row: int = 1
    border_top_lines: int = 0
    border_bottom_lines: int = 0
    name: str = ""

    def __post_init__(self) -> None:
        if not 0 < self.clock_hz <= MAX_CLOCK_HZ:
            raise ValueError(f"clock_hz must lie above 0 and not above {MAX_CLOCK_HZ}; got {self.clock_hz}")
        if not 0 < self.h_active_px <= self.h_total_px <= MAX_TOTAL:
            raise ValueError(f"a line must be longer than its active part; got {self.h_total_px} px")
        if not 0 < self.v_active_lines <= self.v_total_lines <= MAX_TOTAL:
            raise ValueError(f"a frame must have more lines than active ones; got {self.v_total_lines}")
        borders = (self.border_top_lines, self.border_bottom_lines)
        if min(borders) < 0 or sum(borders) >= self.v_active_lines or self.lines_per_row < 1:
            raise ValueError("border lines and lines a row must leave picture lines")

    @property
    def h_total_px(self) -> int:
        """Length of a line with its blanking, in pixel clocks."""
        return self.h_active_px + self.h_front_px + self.h_sync_px + self.h_back_px

    @property
    def v_total_lines(self) -> int:
        """Signal lines of a frame with its blanking."""
        return self.v_active_lines + self.v_front_lines + self.v_sync_lines + self.v_back_lines

    @property
    def fields(self) -> int:
        """Refreshes in a frame: 2 when interlaced, else 1."""
        return 2 if self.interlaced else 1

    @property
    def double_scan(self) -> bool:
        """Whether each picture row is sent as two signal lines."""
        return self.lines_per_row == 2

    @property
    def refresh_hz(self) -> Fraction:
        """Refreshes a second; of an interlaced signal, fields a second."""
        return self.clock_hz * self.fields / (self.h_total_px * self.v_total_lines)

    @property
    def period_ms(self) -> Fraction:
        """Time of one refresh, which is one tick."""
        return 1000 / self.refresh_hz

    @property
    def line_hz(self) -> Fraction:
        """Signal lines a second."""
        return self.clock_hz / self.h_total_px

    @property
    def line_us(self) -> Fraction:
        """Time of one signal line with its blanking."""
        return 1_000_000 / self.line_hz

    @property
    def line_blank_us(self) -> Fraction:
        """Time in each signal line when no pixel is sent."""
        return Fraction(self.h_total_px - self.h_active_px) * 1_000_000 / self.clock_hz

    @property
    def visible_ms(self) -> Fraction:
        """Time of the active lines in one refresh, borders included."""
        return self.line_us * self.v_active_lines / (1000 * self.fields)

    @property
    def blank_ms(self) -> Fraction:
        """Time of the vertical blanking in one refresh."""
        return self.period_ms - self.visible_ms

    @property
    def border_lines(self) -> int:
        """Active lines that show border instead of picture."""
        return self.border_top_lines + self.border_bottom_lines

    @property
    def picture_lines(self) -> int:
        """Signal lines that show the picture."""
        return self.v_active_lines - self.border_lines

    @property
    def picture_rows(self) -> Fraction:
        """Rows of the picture itself; whole in a sound mode."""
        return Fraction(self.picture_lines, self.lines_per_row)

    @property
    def picture_ms(self) -> Fraction:
        """Time in one refresh when picture lines are sent."""
        return self.line_us * self.picture_lines / (1000 * self.fields)

    @property
    def undrawn_ms(self) -> Fraction:
        """Time in one refresh when no picture line is sent: vertical blanking and border lines."""
        return self.period_ms - self.picture_ms

    def fault(self) -> str | None:
        """Return why no display could show this signal, or None.

        A formula gives such signals at small sizes: double the lines first.
        """
        parts = {
            "horizontal front porch": self.h_front_px,
            "horizontal sync": self.h_sync_px,
            "horizontal back porch": self.h_back_px,
            "vertical front porch": self.v_front_lines,
            "vertical sync": self.v_sync_lines,
            "vertical back porch": self.v_back_lines,
        }
        for part, size in parts.items():
            if size < 0 or (size == 0 and "sync" in part):
                return f"the {part} is {size}; it must be {1 if 'sync' in part else 0} or more"
        return None

    def showing(self, height_px: int, lines_per_row: int) -> "Timing":
        """Return this signal with a picture of so many rows centred in its active lines.

        raises   ValueError: the picture needs more lines than the signal has
        """
        spare = self.v_active_lines - height_px * lines_per_row
        if spare < 0 or height_px < 1 or lines_per_row < 1:
            raise ValueError(
                f"{height_px} rows of {lines_per_row} lines do not fit into {self.v_active_lines} lines"
            )
        top = spare // 2
        return replace(
            self, lines_per_row=lines_per_row, border_top_lines=top, border_bottom_lines=spare - top
        )
