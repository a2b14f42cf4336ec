"""Shapes and pairs of shapes, prepared once and used in all problems that are posed with them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from .arrays import Tables
from .attitude import AS_DRAWN, Attitude
from .pairs import PairStore
from .prepared_shape import Look, PreparedShape

Array = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Square units, as a share of a container's, below which a notch beside an outline is a rounding artefact.
LEAST_NOTCH = 1e-9

#: Grids in a workshop, where nobody says: 19 MiB if all are used throughout.
MOST_GRIDS = 1536

#: Megabytes of half-planes beyond which all pairs are forgotten before the next problem: they are soon made again.
MOST_MEGABYTES = 10


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
        The first so many pairs of shapes have their losses read off a grid: faster, for up to 13 KiB each.
    """

    def __init__(self, gaps: Gaps = Gaps(), coarseness: float = 0.0, most_grids: int = MOST_GRIDS) -> None:
        self.gaps, self.coarseness, self._most_grids = gaps, coarseness, most_grids
        self._shapes: dict[tuple[bytes, float], PreparedShape] = {}
        self._looks: dict[tuple[int, Attitude], Look] = {}
        self._options: dict[tuple[int, tuple[Attitude, ...]], tuple[Look, ...]] = {}
        self._pairs = PairStore(most_grids)

    def options(self, polygon: Polygon, attitudes: Sequence[Attitude]) -> tuple[Look, ...]:
        """Return the looks of a part that differ by more than a move."""
        shape = self._shape(polygon, self.gaps.parts / 2)
        key = (shape.number, tuple(attitudes))
        if key not in self._options:
            self._options[key] = _different([self._look(shape, attitude) for attitude in attitudes])
        return self._options[key]

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
        if self._pairs.megabytes > MOST_MEGABYTES:
            self._pairs = PairStore(self._most_grids)
        numbers: dict[Look, int] = {}
        for look in (option.look for options in items for option in options):
            numbers.setdefault(look, len(numbers))
        parts, movable = {*numbers, *(look for look, is_part in fixed if is_part)}, len(numbers)
        for look, _ in fixed:
            numbers.setdefault(look, len(numbers))
        looks, pairs = list(numbers), self._pairs
        pair, meeting = self._meetings(looks, movable, parts)
        option, option_look, option_x, allowed_x = _of_options(items, numbers)
        return Tables(
            box=np.array([look.box for look in looks]),
            edge_box=np.array([look.edge_box for look in looks]),
            discs=np.array([look.discs for look in looks], np.float32),
            pair=pair,
            meeting=meeting,
            groups=pairs.groups.rows,
            group_box=pairs.group_box.rows,
            regions=pairs.regions.rows,
            region_box=pairs.region_box.rows,
            planes=pairs.planes.rows,
            plane=pairs.plane.rows,
            pair_box=pairs.pair_box.rows,
            grids=pairs.grids,
            option=option,
            option_look=option_look,
            option_x=option_x,
            allowed_x=allowed_x,
        )

    def _meetings(self, looks: list[Look], movable: int, parts: set[Look]) -> tuple[Integers, Array]:
        """Return for all looks of which one may be moved how they meet: see ``Tables``."""
        count = len(looks)
        pair, meeting = np.full((count, count), -1, np.int64), np.zeros((count, count, 5))
        box = np.array([look.box for look in looks])
        diameter = np.hypot(box[:, 2] - box[:, 0], box[:, 3] - box[:, 1])
        meeting[:, :, 4] = np.maximum.outer(diameter, diameter)
        for i in range(movable):
            for j in range(i, count):
                pair[i, j], meeting[i, j, :4] = self._pairs.meet(looks[i], looks[j], looks[j] in parts)
                pair[j, i], meeting[j, i, :4] = pair[i, j], -meeting[i, j, :4]
        return pair, meeting

    def _shape(self, polygon: Polygon, margin: float) -> PreparedShape:
        key = (polygon.wkb, margin)
        if key not in self._shapes:
            self._shapes[key] = PreparedShape(polygon, margin, self.coarseness, len(self._shapes))
        return self._shapes[key]

    def _look(self, shape: PreparedShape, attitude: Attitude) -> Look:
        key = (shape.number, attitude)
        if key not in self._looks:
            self._looks[key] = Look.of(shape, attitude)
        return self._looks[key]


def _different(looks: Sequence[Look]) -> tuple[Look, ...]:
    """Return the looks of one shape that differ by more than a move."""
    different: list[Look] = []
    for look in looks:
        if not any(look.same_but_moved(other) for other in different):
            different.append(look)
    return tuple(different)


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
