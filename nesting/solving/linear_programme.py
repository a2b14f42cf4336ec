"""The one place that starts HiGHS: linear programmes solved again and again."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import highspy
import numpy as np
from numpy.typing import NDArray

from .silent import SilentHighs, end_simplex_when

#: How far a row or bound may be missed.
TOLERANCE = 1e-9

#: Rows from which on a programme may take longer than anybody waits who asked for an end.
MANY_ROWS = 2000


@dataclass(frozen=True, kw_only=True)
class LinearProgramme:
    """Minimise cost @ x where low <= x <= high and row_low <= rows @ x <= row_high.

    Rows are sparse: those of row k are ``index[start[k]:start[k + 1]]`` with the same stretch of ``value``.
    """

    cost: NDArray[np.float64]
    low: NDArray[np.float64]
    high: NDArray[np.float64]
    row_low: NDArray[np.float64]
    row_high: NDArray[np.float64]
    start: NDArray[np.int32]
    index: NDArray[np.int32]
    value: NDArray[np.float64]


class LinearSolver:
    """Solves one linear programme after another on one thread; the same programmes give the same answers.

    Parameters
    ----------
    stop : callable
        Asked while a programme of many rows is solved, which then ends soon after it says True.
    """

    def __init__(self, stop: Callable[[], bool] = lambda: False) -> None:
        self._stop, self._highs = stop, _silent()

    @cached_property
    def _asking(self) -> highspy.Highs:
        """For programmes of many rows, which few ever meet."""
        highs = _silent()
        end_simplex_when(highs, self._stop)
        return highs

    def solve(self, programme: LinearProgramme) -> NDArray[np.float64] | None:
        """Return the optimal values, or None if HiGHS did not find them, for whatever reason: that proves nothing."""
        if self._stop():
            return None
        highs = self._highs if len(programme.row_low) < MANY_ROWS else self._asking
        highs.passModel(_model(programme))
        highs.run()
        if highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        return np.array(highs.getSolution().col_value)


def _silent() -> highspy.Highs:
    highs = SilentHighs()  # type: ignore[no-untyped-call]
    for option, value in (
        ("output_flag", False),
        ("threads", 1),
        ("primal_feasibility_tolerance", TOLERANCE),
        ("solver", "simplex"),
    ):
        highs.setOptionValue(option, value)
    return highs


def _model(programme: LinearProgramme) -> highspy.HighsLp:
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(programme.cost), len(programme.row_low)
    model.col_cost_, model.col_lower_, model.col_upper_ = programme.cost, programme.low, programme.high
    model.row_lower_, model.row_upper_ = programme.row_low, programme.row_high
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.num_col_, model.a_matrix_.num_row_ = model.num_col_, model.num_row_
    model.a_matrix_.start_, model.a_matrix_.index_ = programme.start, programme.index
    model.a_matrix_.value_ = programme.value
    return model
