"""The one place that starts GLOP, for linear programmes whose values only guide and prove nothing."""

from collections.abc import Sequence
from itertools import chain, repeat

import numpy as np
from numpy.typing import NDArray
from ortools.linear_solver import pywraplp

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
        None if GLOP did not end with an optimum.
    """
    solver = pywraplp.Solver.CreateSolver("GLOP")
    variables = [solver.NumVar(0.0, float(most), "") for most in upper]
    for row, limit in zip(rows, chain(limits, repeat(0.0)), strict=False):
        constraint = solver.Constraint(-solver.infinity(), limit)
        for k in np.flatnonzero(row):
            constraint.SetCoefficient(variables[k], float(row[k]))
    for variable, coefficient in zip(variables, objective, strict=True):
        solver.Objective().SetCoefficient(variable, float(coefficient))
    solver.Objective().SetMaximization()
    if solver.Solve() != pywraplp.Solver.OPTIMAL:
        return None
    return np.array([variable.solution_value() for variable in variables])
