"""Moves all items at once by linear programmes until they are apart, or lie as tight as they can.

Each two convex pieces that are near are kept on either side of one line, the one that parts them best as they lie;
then the best small moves of all items are those of a linear programme. (Li and Milenkovic 1995, "Compaction and
separation algorithms for non-convex polygons and their applications", from memory.)
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.solving import LinearProgramme, LinearSolver

from .arrays import Around, Layout, Tables
from .kernels import measure_all, near_regions

Array = NDArray[np.float64]

#: Longest move of an item in one programme, in hundredths of the container's height as are all lengths here.
STRIDE = 3.0

#: Pieces further apart than this can't meet in one programme.
REACH = 9.0

#: Depth of overlap that is taken for none.
FREE = 1e-7

#: A programme that shortens by less is the last one.
LEAST_GAIN = 2e-4

#: What a unit of overlap costs against a unit of length.
OVERLAP_COST = 20.0

#: Rounds at most, and rounds in which overlap may be left.
ROUNDS, HOPELESS = 8, 4


@dataclass(frozen=True)
class Pull:
    """What a push aims at beside being apart: the least length, or each item towards the lower left by its share."""

    length: bool = False
    across: float = 0.0
    up: float = 0.0


APART = Pull()
SHORT = Pull(length=True)


class Pusher:
    """Pushes the items of layouts of one problem, until told to stop; counts the rows of its programmes as work."""

    def __init__(
        self, tables: Tables, around: Around, fixed_x: NDArray[np.bool_], unit: float, stop: Callable[[], bool]
    ) -> None:
        self._tables, self._around, self._fixed_x, self.unit = tables, around, fixed_x, unit
        self._solver = LinearSolver(stop)
        self._pairs, self._rows = np.empty((4096, 2), np.int64), np.empty((4096, 3))
        self.rows = 0

    def push(self, layout: Layout, pull: Pull = APART) -> bool:
        """Move the items of a layout; whether they are apart in the end. ``room[0, 2]`` becomes the length if short.

        Where it fails the layout is left changed.
        """
        for step in range(ROUNDS):
            before = layout.room[0, 2]
            left = self._once(layout, pull)
            measure_all(self._tables, layout, self._around)
            if left is None or (left > FREE and step + 1 >= HOPELESS):
                return False
            if left <= FREE and (
                pull == APART or (pull.length and before - layout.room[0, 2] < LEAST_GAIN * self.unit)
            ):
                break
        return self.is_free(layout)

    def is_free(self, layout: Layout) -> bool:
        """Whether no two items overlap deeper than what is taken for none."""
        return bool(layout.depth[: layout.movable].max() <= FREE * self.unit)

    def _once(self, layout: Layout, pull: Pull) -> float | None:
        """Solve one programme and move; return the overlap it had to leave, as a share of the unit, or None."""
        count = self._near(layout)
        pairs, rows = self._pairs[:count], self._rows[:count]
        programme = self._programme(layout, pairs, rows, pull)
        self.rows += len(programme.row_low)
        values = self._solver.solve(programme)
        if values is None:
            return None
        n, unit = layout.movable, self.unit
        layout.x[:n] += unit * values[:n]
        layout.y[:n] += unit * values[n : 2 * n]
        self._back_inside(layout, pull)
        return float(values[2 * n + 1 :].sum())

    def _near(self, layout: Layout) -> int:
        """Write the rows, with more room for them if need be; return how many."""
        count = near_regions(self._tables, layout, REACH * self.unit, self._pairs, self._rows)
        if count > len(self._rows):
            self._pairs, self._rows = np.empty((2 * count, 2), np.int64), np.empty((2 * count, 3))
            return near_regions(self._tables, layout, REACH * self.unit, self._pairs, self._rows)
        return count

    def _programme(self, layout: Layout, pairs: NDArray[np.int64], rows: Array, pull: Pull) -> LinearProgramme:
        """Variables: moves along x, moves along y, length, overlap of each pair that overlaps; in units of ``unit``."""
        n, unit = layout.movable, self.unit
        first, second = pairs[:, 0], pairs[:, 1]
        apart = rows[:, 0] * (layout.x[second] - layout.x[first]) + rows[:, 1] * (layout.y[second] - layout.y[first])
        need = (rows[:, 2] - apart) / unit
        overlapping = layout.depth[first, second] > FREE * unit / 10
        names, number = np.unique(first[overlapping] * len(layout.x) + second[overlapping], return_inverse=True)
        low, high = self._limits(layout, pull, len(names))
        cost = np.repeat([pull.across, pull.up, float(pull.length), OVERLAP_COST], [n, n, 1, len(names)])
        slack = np.zeros(len(rows), np.int64)
        slack[overlapping] = number + 2 * n + 1
        start, index, value = _entries(n, pairs, rows, slack)
        row_low = np.where(overlapping, need, np.minimum(need, 0.0))
        if pull.length:
            ends = (layout.x[:n] + self._tables.edge_box[layout.look[:n], 2] - layout.room[0, 0]) / unit
            index = np.concatenate([index, np.column_stack([np.full(n, 2 * n), np.arange(n)]).ravel()])
            value = np.concatenate([value, np.tile([1.0, -1.0], n)])
            start = np.concatenate([start, start[-1] + 2 * np.arange(1, n + 1)])
            row_low = np.concatenate([row_low, ends])
        return LinearProgramme(
            cost=cost,
            low=low,
            high=high,
            row_low=row_low,
            row_high=np.full(len(row_low), np.inf),
            start=start.astype(np.int32),
            index=index.astype(np.int32),
            value=value,
        )

    def _limits(self, layout: Layout, pull: Pull, overlaps: int) -> tuple[Array, Array]:
        """Return the least and greatest values of all variables."""
        n = layout.movable
        low_x, high_x, low_y, high_y = self._inside(layout)
        lows, highs = [], []
        for at, low, high in ((layout.x[:n], low_x, high_x), (layout.y[:n], low_y, high_y)):
            lows.append(np.minimum(np.maximum((low - at) / self.unit, -STRIDE), 0.0))
            highs.append(np.maximum(np.minimum((high - at) / self.unit, STRIDE), 0.0))
        if pull.length:
            highs[0] = np.full(n, STRIDE)
        lows[0] = np.where(self._fixed_x, 0.0, lows[0])
        highs[0] = np.where(self._fixed_x, 0.0, highs[0])
        ends = np.array([0.0]), np.array([np.inf if pull.length else 0.0])
        return (
            np.concatenate([*lows, ends[0], np.zeros(overlaps)]),
            np.concatenate([*highs, ends[1], np.full(overlaps, np.inf)]),
        )

    def _inside(self, layout: Layout) -> tuple[Array, Array, Array, Array]:
        """Return between which x and y each movable item is within its container."""
        n = layout.movable
        box, room = self._tables.edge_box[layout.look[:n]], layout.room[np.maximum(layout.container[:n], 0)]
        return room[:, 0] - box[:, 0], room[:, 2] - box[:, 2], room[:, 1] - box[:, 1], room[:, 3] - box[:, 3]

    def _back_inside(self, layout: Layout, pull: Pull) -> None:
        """Take back what rounding put over the edge; set the length if it was free."""
        n = layout.movable
        if pull.length:
            layout.room[0, 2] = float((layout.x[:n] + self._tables.edge_box[layout.look[:n], 2]).max())
        low_x, high_x, low_y, high_y = self._inside(layout)
        layout.x[:n] = np.where(self._fixed_x, layout.x[:n], np.maximum(np.minimum(layout.x[:n], high_x), low_x))
        layout.y[:n] = np.maximum(np.minimum(layout.y[:n], high_y), low_y)


def _entries(
    n: int, pairs: NDArray[np.int64], rows: Array, slack: NDArray[np.int64]
) -> tuple[NDArray[np.int64], NDArray[np.int64], Array]:
    """Return starts, indices and values of the rows that keep pieces apart."""
    columns = np.column_stack([pairs[:, 1], pairs[:, 1] + n, pairs[:, 0], pairs[:, 0] + n, slack])
    values = np.column_stack([rows[:, :2], -rows[:, :2], np.ones(len(rows))])
    there = np.ones(columns.shape, bool)
    there[:, :2] = (pairs[:, 1] < n)[:, None]  # what lies fast has no moves
    there[:, 4] = slack > 0
    start = np.concatenate([[0], np.cumsum(there.sum(axis=1))])
    return start, columns[there], values[there]
