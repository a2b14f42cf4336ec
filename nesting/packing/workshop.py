"""Shapes and pairs of shapes, prepared once and used in all problems that are posed with them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from .arrays import Tables
from .attitude import AS_DRAWN, Attitude
from .kernels import GRID, fill_grid
from .pair_kernels import pair_arrays
from .prepared_shape import Look, PreparedShape

Array = NDArray[np.float64]
Integers = NDArray[np.int64]
PairKey = tuple[int, int, bool]
PairArrays = tuple[Array, Integers, Array, Integers, Array]

#: Square units, as a share of a container's, below which a notch beside an outline is a rounding artefact.
LEAST_NOTCH = 1e-9


@dataclass(frozen=True, kw_only=True)
class Gaps:
    """Least distances, in the unit of the outlines: between two parts, from a part to a fault, and to the edge."""

    parts: float = 0.0
    faults: float = 0.0
    edge: float = 0.0


@dataclass(frozen=True)
class Option:
    """One way in which an item may lie; an empty list of moves along x allows any."""

    look: Look
    moves: tuple[float, ...] = ()


class Workshop:
    """Owns all prepared shapes and pairs. Not shared between threads.

    Parameters
    ----------
    gaps : Gaps
    coarseness : float
        By how much curves may be taken for larger than they are: more is faster and less dense. In the unit of the
        outlines.
    most_grids : int
        Problems with no more pairs of looks than this have the losses of each pair read off a grid, which is several
        times faster; a grid takes some milliseconds, once, and 16 KiB.
    """

    def __init__(self, gaps: Gaps = Gaps(), coarseness: float = 0.0, most_grids: int = 0) -> None:
        self.gaps, self.coarseness, self._most_grids = gaps, coarseness, most_grids
        self._shapes: dict[tuple[bytes, float], PreparedShape] = {}
        self._looks: dict[tuple[int, Attitude], Look] = {}
        self._pairs: dict[PairKey, PairArrays] = {}
        self._grids: dict[PairKey, NDArray[np.float32]] = {}

    def options(self, polygon: Polygon, attitudes: Sequence[Attitude]) -> tuple[Look, ...]:
        """Return the looks of a part that differ by more than a move."""
        shape = self._shape(polygon, self.gaps.parts / 2)
        different: list[Look] = []
        for look in (self._look(shape, attitude) for attitude in attitudes):
            if not any(look.same_but_moved(other) for other in different):
                different.append(look)
        return tuple(different)

    def look(self, polygon: Polygon, attitude: Attitude) -> Look:
        """Return a part in an attitude."""
        return self._look(self._shape(polygon, self.gaps.parts / 2), attitude)

    def fault(self, polygon: Polygon) -> Look:
        """Return a fault as it lies, with its gap around it."""
        return self._look(self._shape(polygon, self.gaps.faults), AS_DRAWN)

    def notches(self, outline: Polygon) -> tuple[Look, ...]:
        """Return what of the outline's bounding box is not within the outline, with the gap to the edge."""
        outside = shapely.get_parts(shapely.box(*outline.bounds).difference(outline))
        least = LEAST_NOTCH * outline.area
        return tuple(
            self._look(self._shape(part, self.gaps.edge), AS_DRAWN)
            for part in outside
            if isinstance(part, Polygon) and part.area > least
        )

    def tables(self, items: Sequence[Sequence[Option]], fixed: Sequence[tuple[Look, bool]]) -> Tables:
        """Return the arrays for a problem with these items, each with its options, and these looks that lie fast.

        A fixed look is either a part (True), which keeps the gap between parts, or a fault or notch.
        """
        numbers: dict[Look, int] = {}
        parts: set[Look] = set()
        for look in (option.look for options in items for option in options):
            numbers.setdefault(look, len(numbers))
            parts.add(look)
        movable = len(numbers)
        for look, is_part in fixed:
            numbers.setdefault(look, len(numbers))
            if is_part:
                parts.add(look)
        looks = list(numbers)
        pair, arrays = self._pairs_of(looks, movable, parts)
        keys = [(looks[i].number, looks[j].number, looks[j] in parts) for i, j in np.argwhere(pair >= 0)]
        bare = _bare_tables(looks, pair, arrays, _of_options(items, numbers))
        if len(arrays) > self._most_grids:
            return bare
        return bare._replace(grid_of=np.arange(len(arrays)), grids=np.array(self._grids_of(bare, keys)))

    def _grids_of(self, tables: Tables, keys: list[PairKey]) -> list[NDArray[np.float32]]:
        """Return the grids of all pairs, made when first asked for."""
        for (i, j), key in zip(np.argwhere(tables.pair >= 0), keys, strict=True):
            if key not in self._grids:
                self._grids[key] = np.empty((GRID, GRID), np.float32)
                fill_grid(tables, i, j, self._grids[key])
        return [self._grids[key] for key in keys]

    def _pairs_of(self, looks: list[Look], movable: int, parts: set[Look]) -> tuple[Integers, list[PairArrays]]:
        """Return the number of each pair of looks of which one may be moved, and their arrays."""
        pair = np.full((len(looks), len(looks)), -1, np.int64)
        arrays: list[PairArrays] = []
        for i in range(movable):
            for j in range(i, len(looks)):
                pair[i, j] = len(arrays)
                arrays.append(self._pair(looks[i], looks[j], looks[j] in parts))
        return pair, arrays

    def _pair(self, one: Look, other: Look, both_parts: bool) -> PairArrays:
        key = (one.number, other.number, both_parts)
        if key not in self._pairs:
            a, b = (one.wide if both_parts else one.bare), other.wide
            self._pairs[key] = pair_arrays(a.corners, a.start, b.corners, b.start)
        return self._pairs[key]

    def _shape(self, polygon: Polygon, margin: float) -> PreparedShape:
        key = (polygon.wkb, margin)
        if key not in self._shapes:
            self._shapes[key] = PreparedShape(polygon, margin, self.coarseness)
        return self._shapes[key]

    def _look(self, shape: PreparedShape, attitude: Attitude) -> Look:
        key = (id(shape), attitude)
        if key not in self._looks:
            self._looks[key] = Look.of(len(self._looks), shape, attitude)
        return self._looks[key]


def _bare_tables(
    looks: list[Look],
    pair: Integers,
    arrays: list[PairArrays],
    options: tuple[Integers, Integers, Integers, Array],
) -> Tables:
    """Return the tables without any grids."""
    box = np.array([look.box for look in looks])
    edge = np.array([look.edge_box for look in looks])
    diameter = np.hypot(box[:, 2] - box[:, 0], box[:, 3] - box[:, 1])
    groups, group_box, regions, region_box, planes, plane = _joined(arrays)
    option, option_look, option_x, allowed_x = options
    return Tables(
        box=box,
        edge_box=edge,
        discs=np.array([look.discs for look in looks], np.float32),
        diameter=diameter,
        pair=pair,
        groups=groups,
        group_box=group_box,
        regions=regions,
        region_box=region_box,
        planes=planes,
        plane=plane,
        pair_box=_pair_boxes(arrays),
        grid_of=np.full(len(arrays), -1, np.int64),
        grids=np.empty((0, GRID, GRID), np.float32),
        option=option,
        option_look=option_look,
        option_x=option_x,
        allowed_x=allowed_x,
    )


def _joined(arrays: list[PairArrays]) -> tuple[Integers, Array, Integers, Array, Integers, Array]:
    """Join the arrays of all pairs into one each, and shift what points from one into the next."""
    group_boxes, group_starts, region_boxes, region_starts, planes = (
        list(column) for column in zip(*arrays, strict=True)
    )
    groups = np.cumsum([0, *map(len, group_boxes)])
    regions = np.cumsum([0, *map(len, region_boxes)])
    plane = np.cumsum([0, *map(len, planes)])
    starts = [start[:-1] + shift for start, shift in zip(group_starts, regions[:-1], strict=True)]
    ends = [start[:-1] + shift for start, shift in zip(region_starts, plane[:-1], strict=True)]
    return (
        groups,
        np.concatenate(group_boxes),
        np.append(np.concatenate(starts), regions[-1]),
        np.concatenate(region_boxes),
        np.append(np.concatenate(ends), plane[-1]),
        np.ascontiguousarray(np.concatenate(planes).T),
    )


def _pair_boxes(arrays: list[PairArrays]) -> Array:
    """Return the box around all groups of each pair."""
    return np.array([[*boxes[:, :2].min(axis=0), *boxes[:, 2:].max(axis=0)] for boxes, *_ in arrays])


def _of_options(
    items: Sequence[Sequence[Option]], numbers: dict[Look, int]
) -> tuple[Integers, Integers, Integers, Array]:
    """Return where the options of each item begin, their looks, where their moves begin, and the moves."""
    options = [option for options in items for option in options]
    return (
        np.cumsum([0, *map(len, items)]),
        np.array([numbers[option.look] for option in options], np.int64),
        np.cumsum([0, *(len(option.moves) for option in options)]),
        np.array([move for option in options for move in option.moves], np.float64),
    )
