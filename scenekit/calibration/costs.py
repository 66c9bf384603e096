"""Turns what a benchmark reported into costs with their errors, and costs into a machine profile."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scenekit.calibration.benchmark import Benchmark, Log
from scenekit.calibration.drift import drift_percent
from scenekit.calibration.fit import Fit, fit
from scenekit.calibration.measures import LOOP, PIECE, PLANE, Measure
from scenekit.errors import MachineError
from scenekit.machines.abilities import OPERATIONS
from scenekit.machines.cost import Cost

PARTS = ("call", "row", "pixel")
SPREAD = "spread"
"""What a pixel takes more where many pieces fill the whole page than where one is drawn in one place again
and again, in memory that is near: games do the first, so that prices of pixels hold it."""

SPREADING = ("run", "blit", "blit-keyed", "blit-flipped")
ALWAYS_OFF = 0.03
"""Share of a time by which runs of the same thing differ anyway; keeps long runs from ruling the fit."""

SECOND_FROM = 5
"""Runs of a measure from which the second shortest counts, since a clock that is set jumps in either way."""

GOOD, FAIR = 6.0, 15.0
LONG_PERCENT = 95.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Calibration:
    """What a benchmark's log says about a machine.

    rows              the measures that were timed
    times_us          for each of them, of one turn
    fitted_us         the same as the costs give it
    residual_percent  typical distance between the two
    drift_percent     how much the machine itself varied between rounds
    unknown           operations that the log says nothing about
    """

    rows: tuple[Measure, ...]
    times_us: tuple[float, ...]
    fitted_us: tuple[float, ...]
    costs: tuple[Cost, ...]
    fit: Fit
    residual_percent: float
    drift_percent: float
    unknown: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def spread_percent(self) -> float:
        """Return how far off a whole time may be: what costs leave out, and the machine's own varying."""
        return float(np.hypot(self.residual_percent, self.drift_percent))

    @property
    def verdict(self) -> str:
        """Return in words how far the costs can be trusted."""
        shares = [abs(t / f - 1) * 100 for t, f in zip(self.times_us, self.fitted_us, strict=True) if f > 0]
        worst = max(shares)
        words = (
            "good" if self.residual_percent <= GOOD else "fair" if self.residual_percent <= FAIR else "poor"
        )
        typical = f"{self.residual_percent:.1f} %"
        text = f"{words}: measures differ from the fit by {typical}, the worst by {worst:.0f} %"
        if self.drift_percent >= 1:
            text += f"; the machine's own speed varies by {self.drift_percent:.1f} %"
        if words == "poor":
            text += "; run it again while the machine does nothing else"
        return text


def calibrate(bench: Benchmark, log: Log, provenance: str) -> Calibration:
    """Fit the costs of every operation to a log.

    provenance  where and when it was measured; the residual is added to it
    raises      MachineError: too few records
    """
    rows = tuple(bench.measures[number] for number in log.runs)
    times, errors = _timed_us(log)
    columns = _columns(rows)
    matrix = np.array([[_amount(row, column) for column in columns] for row in rows])
    target = np.array(times)
    sizes = np.hypot(ALWAYS_OFF * np.maximum(target, 1e-9), np.array(errors))
    names = [f"{operation} {part}" for operation, part in columns]
    if len(rows) < len(columns) + 2:
        raise MachineError(
            f"log: {len(rows)} of {len(bench.measures)} measures were timed; "
            f"at least {len(columns) + 2} are needed for {len(columns)} costs"
        )
    done = fit(names, matrix, target, 1 / sizes, drop_outliers=True)
    fitted = matrix @ done.values
    kept = [n for n in range(len(rows)) if n not in done.outliers]
    shares = [abs(target[n] / fitted[n] - 1) for n in kept if fitted[n] > 0]
    residual = float(np.sqrt(np.mean(np.square(shares)))) * 100
    drift = drift_percent(log.runs)
    source = f"{provenance}, residual {residual:.1f} %"
    costs, unknown = _costs(columns, done, source)
    notes = list(log.notes)
    if done.outliers:
        words = "; ".join(
            f"{rows[n].words} took {target[n]:.4g} us, not {fitted[n]:.4g}" for n in done.outliers
        )
        notes.append(f"{len(done.outliers)} measures do not fit the others and are left out: {words}")
    if unknown:
        notes.append(f"not to be told apart from others in this log: {', '.join(unknown)}")
    return Calibration(
        rows=rows,
        times_us=tuple(times),
        fitted_us=tuple(float(value) for value in fitted),
        costs=costs,
        fit=done,
        residual_percent=residual,
        drift_percent=drift,
        unknown=unknown,
        notes=tuple(notes),
    )


def _timed_us(log: Log) -> tuple[list[float], list[float]]:
    """Return what one turn of each measure took, and how far off its clock may be."""
    times, errors = [], []
    for runs in log.runs.values():
        ordered = sorted((took + 0.5 * (log.grain_ms > 0)) / turns for turns, took in runs)
        best = ordered[1 if len(ordered) >= SECOND_FROM else 0]
        turns = max(turns for turns, _ in runs)
        times.append(best * 1000)
        errors.append(0.3 * max(1, log.grain_ms) / turns * 1000)
    return times, errors


def _columns(rows: Sequence[Measure]) -> list[tuple[str, str]]:
    used = {key for row in rows for key, _ in row.work}
    ordered = [(o, part) for o in OPERATIONS for part in PARTS if (o, part) in used]
    spread = {row.kind for row in rows} >= {PIECE, PLANE}
    return [(LOOP, "call"), *ordered, *([(SPREAD, "pixel")] if spread else [])]


def _amount(row: Measure, column: tuple[str, str]) -> float:
    if column[0] == LOOP:
        return 1.0
    work = dict(row.work)
    if column[0] == SPREAD:
        return sum(work.get((o, "pixel"), 0.0) for o in SPREADING) if row.kind == PLANE else 0.0
    return work.get(column, 0.0)


def _costs(
    columns: Sequence[tuple[str, str]], done: Fit, source: str
) -> tuple[tuple[Cost, ...], tuple[str, ...]]:
    costs, unknown = [], []
    more, more_error = _spread(columns, done)
    for operation in dict.fromkeys(name for name, _ in columns if name not in (LOOP, SPREAD)):
        figures, errors = [], []
        for part in PARTS:
            known = (operation, part) in columns
            number = columns.index((operation, part)) if known else -1
            figures.append(float(done.values[number]) if known else 0.0)
            errors.append(float(done.standard_errors[number]) if known else 0.0)
        if not np.isfinite(errors).all():
            unknown.append(operation)
            continue
        if operation in SPREADING:
            figures[2], errors[2] = figures[2] + more, float(np.hypot(errors[2], more_error))
        if not any(figures):
            figures[0] = max(errors[0] / 10, 1e-6)
        costs.append(
            Cost(
                operation=operation,
                per_call_us=_rounded(figures[0]),
                per_row_us=_rounded(figures[1]),
                per_pixel_us=_rounded(figures[2]),
                standard_errors_us=(_rounded(errors[0]), _rounded(errors[1]), _rounded(errors[2])),
                provenance=source,
            )
        )
    return tuple(costs), tuple(unknown)


def _spread(columns: Sequence[tuple[str, str]], done: Fit) -> tuple[float, float]:
    """Return what a pixel takes more where pieces fill the page, and its standard error; 0 where not told."""
    number = next((n for n, (name, _) in enumerate(columns) if name == SPREAD), -1)
    if number < 0 or not np.isfinite(done.standard_errors[number]):
        return 0.0, 0.0
    return float(done.values[number]), float(done.standard_errors[number])


def _rounded(value: float) -> float:
    """Return a figure with five digits, so that a profile reads well and is the same everywhere."""
    return float(f"{value:.5g}")
