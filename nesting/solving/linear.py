"""Linear programmes whose values only guide and prove nothing."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from .linear_programme import LinearProgramme, LinearSolver

Floats = NDArray[np.float64]


def maximize_linear(
    objective: Floats, rows: Sequence[Floats], upper: Floats, limits: Sequence[float] = ()
) -> Floats | None:
    """Return values from nought to ``upper`` at which an objective is largest and no row's sum above its limit.

    Floats in, floats out: what is concluded from them has to be checked by whoever does.

    Parameters
    ----------
    objective, upper : ndarray of shape (n,)
    rows : sequence of ndarray of shape (n,)
    limits : sequence of float
        Of the first rows; that of all others is nought.

    Returns
    -------
    ndarray of shape (n,) or None
        None if no optimum was found.
    """
    matrix = np.stack(rows) if len(rows) else np.zeros((0, len(upper)))
    row, column = np.nonzero(matrix)
    bounds = np.zeros(len(matrix))
    bounds[: len(limits)] = limits
    return LinearSolver().solve(
        LinearProgramme(
            cost=-np.asarray(objective, dtype=np.float64),
            low=np.zeros(len(upper)),
            high=np.asarray(upper, dtype=np.float64),
            row_low=np.full(len(matrix), -np.inf),
            row_high=bounds,
            start=np.searchsorted(row, np.arange(len(matrix) + 1)).astype(np.int32),
            index=column.astype(np.int32),
            value=matrix[row, column],
        )
    )
