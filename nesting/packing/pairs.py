"""Pairs of shapes, each worked out once, in arrays that grow."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from .attitude import AS_DRAWN, Attitude, cosine_and_sine
from .kernels import GRID
from .pair_kernels import pair_arrays
from .prepared_shape import Look, PreparedShape

Array = NDArray[np.float64]

#: A pair of shapes as they meet: numbers of both, how the second lies seen from the first, and whether both are parts.
Meeting = tuple[int, int, Attitude, bool]


#: Blocks of half-planes for which there is room without copying: 24 MB, of which the machine hands out what is used.
ROOM = 250_000


class Rows:
    """An array that grows by rows; what was handed out of it stays valid."""

    def __init__(self, shape: tuple[int, ...], kind: type = np.float64, room: int = 64) -> None:
        self._rows: NDArray[Any] = np.empty((room, *shape), kind)
        self.count = 0

    def add(self, rows: NDArray[Any]) -> None:
        """Put rows behind the others."""
        end = self.count + len(rows)
        if end > len(self._rows):
            longer = np.empty((max(end, 3 * len(self._rows) // 2), *self._rows.shape[1:]), self._rows.dtype)
            longer[: self.count] = self.rows
            self._rows = longer
        self._rows[self.count : end] = rows
        self.count = end

    @property
    def rows(self) -> NDArray[Any]:
        """All rows so far, not copied."""
        return self._rows[: self.count]

    def __getstate__(self) -> tuple[NDArray[Any], int]:
        """Return the rows that there are, and for how many there was room."""
        return self.rows, len(self._rows)

    def __setstate__(self, state: tuple[NDArray[Any], int]) -> None:
        rows, room = state
        self._rows, self.count = np.empty((room, *rows.shape[1:]), rows.dtype), 0
        self.add(rows)


class PairStore:
    """The half-planes and grids of all pairs that were ever asked for.

    Parameters
    ----------
    most_grids : int
        So many pairs have the losses read off a grid, which is several times faster. What a grid takes of memory
        grows with use, up to 13 KiB.
    """

    def __init__(self, most_grids: int) -> None:
        self._numbers: dict[Meeting, int] = {}
        self._met: dict[tuple[Look, Look, bool], tuple[int, Array]] = {}
        self.groups, self.regions, self.planes = (Rows((), np.int64) for _ in range(3))
        for starts in (self.groups, self.regions, self.planes):
            starts.add(np.zeros(1, np.int64))
        self.group_box, self.region_box, self.pair_box = Rows((4,)), Rows((4,)), Rows((6,))
        self.plane = Rows((3, 4), room=ROOM)
        self.grids = _grids(most_grids)

    def __getstate__(self) -> dict[str, Any]:
        """Return all but what stands on the grids: it is the same when it is worked out again."""
        return {**vars(self), "grids": len(self.grids)}

    def __setstate__(self, state: dict[str, Any]) -> None:
        vars(self).update(state)
        self.grids = _grids(state["grids"])

    @property
    def megabytes(self) -> float:
        """What the half-planes take: nearly all there is, but for the grids."""
        return self.plane.rows.nbytes / 1e6

    def meet(self, one: Look, other: Look, both_parts: bool) -> tuple[int, Array]:
        """Return the number of the pair that two looks are, and the matrix of moves from one to the other into it."""
        key = one, other, both_parts
        if key not in self._met:
            self._met[key] = self._first_met(one, other, both_parts)
        return self._met[key]

    def _first_met(self, one: Look, other: Look, both_parts: bool) -> tuple[int, Array]:
        if both_parts and _is_second(one, other):
            number, matrix = self._of(other, one, both_parts)
            return number, -matrix
        return self._of(one, other, both_parts)

    def _of(self, one: Look, other: Look, both_parts: bool) -> tuple[int, Array]:
        seen = other.attitude.seen_from(one.attitude)
        key = (one.shape.number, other.shape.number, seen, both_parts)
        if key not in self._numbers:
            self._numbers[key] = len(self._numbers)
            self._add(one.shape, other.shape, seen, both_parts)
        return self._numbers[key], into_frame(one.attitude)

    def _add(self, one: PreparedShape, other: PreparedShape, seen: Attitude, both_parts: bool) -> None:
        a, b = one.pieces(AS_DRAWN, with_margin=both_parts), other.pieces(seen, with_margin=True)
        group_box, group_start, region_box, region_start, plane = pair_arrays(a.corners, a.start, b.corners, b.start)
        self.regions.add(self.region_box.count + group_start[1:])
        self.planes.add(self.plane.count + region_start[1:] // 4)
        self.group_box.add(group_box)
        self.region_box.add(region_box)
        self.plane.add(plane.reshape(-1, 4, 3).transpose(0, 2, 1))
        self.groups.add(np.array([self.group_box.count]))
        low, high = group_box[:, :2].min(axis=0), group_box[:, 2:].max(axis=0)
        self.pair_box.add(np.array([[*low, *high, *((GRID - 1) / (high - low))]]))


def _grids(count: int) -> NDArray[np.float32]:
    return np.zeros((count, GRID, GRID, 2), np.float32)  # of zeros the machine hands out no memory yet


def _is_second(one: Look, other: Look) -> bool:
    """Whether two looks meet in the frame of the other: which of the two must not depend on how they are named."""
    if one.shape.number != other.shape.number:
        return one.shape.number > other.shape.number
    return _rank(other.attitude.seen_from(one.attitude)) > _rank(one.attitude.seen_from(other.attitude))


def _rank(attitude: Attitude) -> tuple[float, bool]:
    return attitude.angle, attitude.mirrored


def into_frame(attitude: Attitude) -> Array:
    """Return the matrix, row by row, that undoes an attitude."""
    (cos, sin), flip = cosine_and_sine(attitude.angle), -1.0 if attitude.mirrored else 1.0
    return np.array([cos, sin, -sin * flip, cos * flip])
