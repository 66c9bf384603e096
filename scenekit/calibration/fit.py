"""Fits costs to measured times: weighted least squares, bounded below by nothing or by zero."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from scenekit.errors import MachineError

Floats = NDArray[np.float64]
OUTLIER = 4.0
"""Studentised residual from which a row is called an outlier."""

MOST_OUTLIERS = 0.1
"""Largest share of rows that may be left out."""

ALONE = 0.7
"""Leverage from which a row says by itself, more than all others, what some cost is; such a row stays."""

DEPENDENT = 1e-12
REFINEMENTS = 8


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fit:
    """Coefficients fitted to rows.

    values, standard_errors  (P,) one for each column; the error of a column that no row tells apart
                             from others is infinite
    residuals                (N,) measured less fitted, in units of the target
    studentised              (N,) weighted residuals, each over its own standard deviation
    outliers                 rows that were left out of the fit, in order
    scatter                  standard deviation of a residual of weight 1
    freedom                  rows less coefficients
    """

    names: tuple[str, ...]
    values: Floats
    standard_errors: Floats
    residuals: Floats
    studentised: Floats
    outliers: tuple[int, ...]
    scatter: float
    freedom: int

    def value(self, name: str) -> float:
        """Return the coefficient of a column by name."""
        return float(self.values[self.names.index(name)])

    def error(self, name: str) -> float:
        """Return the standard error of a column by name."""
        return float(self.standard_errors[self.names.index(name)])


def fit(
    names: Sequence[str],
    rows: ArrayLike,
    target: ArrayLike,
    weights: ArrayLike | None = None,
    *,
    bounded: bool = True,
    drop_outliers: bool = False,
) -> Fit:
    """Fit target = rows x coefficients with the least weighted sum of squares.

    rows           (N, P)
    target         (N,)
    weights        (N,) one over the standard deviation of each target, up to a factor; default all 1
    bounded        whether coefficients must not be negative; without it, a plain QR solution
    drop_outliers  leave out rows that fit far worse than the others, the worst first, then fit again
    raises         MachineError: fewer rows than columns, or figures that are not finite
    """
    matrix = np.atleast_2d(np.asarray(rows, dtype=np.float64))
    wanted = np.asarray(target, dtype=np.float64)
    weight = np.ones(len(wanted)) if weights is None else np.asarray(weights, dtype=np.float64)
    _check(names, matrix, wanted, weight)
    kept = np.ones(len(wanted), dtype=bool)
    while True:
        values, scatter, errors, inverse = _solve(matrix[kept], wanted[kept], weight[kept], bounded)
        residuals = wanted - _product(matrix, values)
        leverage = _leverage(matrix, weight, inverse)
        studentised = _studentised(weight, leverage, residuals, scatter, matrix.shape[1], kept)
        left_out = int((~kept).sum())
        worst = int(np.argmax(np.where(kept & (leverage < ALONE), np.abs(studentised), -1.0)))
        room = left_out + 1 <= MOST_OUTLIERS * len(wanted) and kept.sum() - 1 > matrix.shape[1]
        if not drop_outliers or not room or leverage[worst] >= ALONE or abs(studentised[worst]) <= OUTLIER:
            break
        kept[worst] = False
    return Fit(
        names=tuple(names),
        values=_kept(values),
        standard_errors=_kept(errors),
        residuals=_kept(residuals),
        studentised=_kept(studentised),
        outliers=tuple(int(row) for row in np.flatnonzero(~kept)),
        scatter=scatter,
        freedom=int(kept.sum()) - matrix.shape[1],
    )


def _kept(array: Floats) -> Floats:
    """Return a read-only copy."""
    copy = np.array(array, dtype=np.float64)
    copy.flags.writeable = False
    return copy


def _check(names: Sequence[str], matrix: Floats, wanted: Floats, weight: Floats) -> None:
    if matrix.ndim != 2 or matrix.shape != (len(wanted), len(names)) or len(weight) != len(wanted):
        raise MachineError(
            f"fit: {matrix.shape[0]} rows of {matrix.shape[-1]} for {len(names)} costs and "
            f"{len(wanted)} times; the numbers must agree"
        )
    if len(wanted) < len(names):
        raise MachineError(f"fit: {len(wanted)} times for {len(names)} costs; at least as many are needed")
    if not (np.isfinite(matrix).all() and np.isfinite(wanted).all() and np.isfinite(weight).all()):
        raise MachineError("fit: a figure is not finite")
    if (weight <= 0).any():
        raise MachineError("fit: a weight is not above 0")


def _solve(
    matrix: Floats, target: Floats, weight: Floats, bounded: bool
) -> tuple[Floats, float, Floats, Floats]:
    """Return coefficients, scatter, standard errors and the scaled normal matrix's inverse."""
    weighted, goal = matrix * weight[:, None], target * weight
    size = np.linalg.norm(weighted, axis=0)
    scale = np.exp2(np.round(np.log2(np.where(size > 0, size, 1.0))))
    scaled = weighted / scale
    upper, independent = _triangle(scaled)
    values = _plain(scaled, goal) if not bounded else _not_negative(scaled, goal)
    inverse = _inverse(upper, independent)
    left = goal - _product(scaled, values)
    freedom = len(goal) - matrix.shape[1]
    scatter = float(np.sqrt(np.sum(left**2) / freedom)) if freedom > 0 else 0.0
    errors = np.where(independent, scatter * np.sqrt(np.maximum(np.diag(inverse), 0)), np.inf) / scale
    return values / scale, scatter, errors, inverse / np.outer(scale, scale)


def _triangle(scaled: Floats) -> tuple[Floats, NDArray[np.bool_]]:
    """Return R of a QR factoring, and which columns are no sum of earlier ones."""
    upper = np.asarray(np.linalg.qr(scaled, mode="r"), dtype=np.float64)
    return upper, np.abs(np.diag(upper)) > DEPENDENT


def _inverse(upper: Floats, independent: NDArray[np.bool_]) -> Floats:
    """Return the inverse of the normal matrix over the independent columns, 0 elsewhere."""
    size = len(independent)
    inverse = np.zeros((size, size))
    if independent.any():
        part = np.linalg.pinv(upper[:, independent], rcond=1e-15)
        inverse[np.ix_(independent, independent)] = part @ part.T
    return inverse


def _plain(scaled: Floats, goal: Floats) -> Floats:
    """Return the QR solution, improved by residuals that are reckoned in higher precision."""
    unitary, upper = np.linalg.qr(scaled)
    if (np.abs(np.diag(upper)) <= DEPENDENT).any():
        return np.asarray(np.linalg.lstsq(scaled, goal, rcond=None)[0], dtype=np.float64)
    values = np.zeros(scaled.shape[1])
    gap = np.zeros(len(goal))
    wide, aim = scaled.astype(np.longdouble), goal.astype(np.longdouble)
    for _ in range(REFINEMENTS):
        first = np.asarray(aim - gap - wide @ values, dtype=np.float64)
        second = np.asarray(-(wide.T @ gap.astype(np.longdouble)), dtype=np.float64)
        lower = np.linalg.solve(upper.T, second)
        along = unitary.T @ first
        values = values + np.linalg.solve(upper, along - lower)
        gap = gap + first - unitary @ (along - lower)
    return values


def _not_negative(scaled: Floats, goal: Floats) -> Floats:
    from scipy.optimize import nnls

    return np.asarray(nnls(scaled, goal)[0], dtype=np.float64)


def _product(matrix: Floats, values: Floats) -> Floats:
    """Return matrix x values, summed in higher precision where the machine has it."""
    return np.asarray(matrix.astype(np.longdouble) @ values.astype(np.longdouble), dtype=np.float64)


def _leverage(matrix: Floats, weight: Floats, inverse: Floats) -> Floats:
    """Return how much each row rules the fit at its own place, 0 to 1."""
    weighted = matrix * weight[:, None]
    return np.asarray(np.maximum(np.einsum("ij,jk,ik->i", weighted, inverse, weighted), 0.0))


def _studentised(
    weight: Floats,
    leverage: Floats,
    residuals: Floats,
    scatter: float,
    columns: int,
    kept: NDArray[np.bool_],
) -> Floats:
    """Return weighted residuals over their standard deviations, each without the row itself."""
    leverage = np.where(kept, np.minimum(leverage, 1.0 - 1e-9), -leverage)
    if scatter <= 0:
        return np.zeros(len(residuals))
    inner = residuals * weight / (scatter * np.sqrt(1 - leverage))
    freedom = int(kept.sum()) - columns
    spread = np.maximum(freedom - inner**2, 1e-9) / max(freedom - 1, 1)
    outer = inner / np.sqrt(spread)
    return np.asarray(np.where(kept & (freedom > 1), outer, inner), dtype=np.float64)
