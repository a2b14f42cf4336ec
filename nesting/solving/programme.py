"""A linear or integer programme in arrays, as every solver takes it."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Indices = npt.NDArray[np.int32]


@dataclass(frozen=True)
class Columns:
    """Variables with their entries, column by column.

    Attributes
    ----------
    costs, lower, upper : (n,) arrays
        Objective coefficient and limits of each variable.
    starts : (n,) array
        Where the entries of each variable begin.
    rows, entries : (k,) arrays
        Row number and coefficient of every entry.
    """

    costs: Floats
    lower: Floats
    upper: Floats
    starts: Indices
    rows: Indices
    entries: Floats


@dataclass(frozen=True)
class Programme:
    """Minimise the costs of columns while every row lies within its limits; all variables are whole."""

    columns: Columns
    row_lower: Floats
    row_upper: Floats


def columns_from_dense(
    costs: npt.ArrayLike, matrix: npt.ArrayLike, lower: npt.ArrayLike, upper: npt.ArrayLike
) -> Columns:
    """Return columns from a matrix with one row for each variable and one column for each row of the programme."""
    dense = np.asarray(matrix, dtype=np.float64)
    variables, rows = np.nonzero(dense)
    counts = np.bincount(variables, minlength=len(dense))
    return Columns(
        costs=np.asarray(costs, dtype=np.float64),
        lower=np.asarray(lower, dtype=np.float64),
        upper=np.asarray(upper, dtype=np.float64),
        starts=np.concatenate([[0], np.cumsum(counts)[:-1]]).astype(np.int32),
        rows=rows.astype(np.int32),
        entries=dense[variables, rows],
    )
