"""Proofs that a set of outlines does not fit in a container.

Each outline is replaced by some boxes inside it, tied to one another. If even these have no places without overlap,
the outlines have none. If they have, nothing is said: boxes are smaller than what they stand for.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from nesting.solving import Body, Box, Status, Way, arrange

from .attitude import Attitude
from .container import Container
from .first_fit import Item
from .inner_boxes import Grid, inner_boxes
from .verifying import TOLERANCE

#: Numbers of boxes for each outline, tried one after another: few are soon refuted, many refute more.
BOXES = (3, 6, 12)

#: Steps of the grid over the longer side of the container.
STEPS = 100_000

#: How far outlines may be out of place in a layout that passes for feasible, and a tenth more for rounding.
SLACK = 1.1 * TOLERANCE

#: Segments for a quarter of a circle where outlines are grown.
SEGMENTS = 8

#: Growing an outline first fills hollows as deep as a hundredth of the distance (GEOS, to be fast; from memory), so
#: grow by this much less where nothing may be gained, and draw in by this much more.
HOLLOWS = 1.02


@dataclass(frozen=True)
class Wanted:
    """A polygon that has to lie in the container in one of some attitudes; ``avoids`` as in ``Item``."""

    polygon: Polygon
    attitudes: tuple[Attitude, ...]
    avoids: frozenset[str] = frozenset()

    @classmethod
    def of(cls, item: Item) -> "Wanted":
        """Return what an item asks for."""
        return cls(item.polygon, tuple(item.attitude(angle) for angle in item.angles), item.avoids)


def is_impossible(
    container: Container, wanted: Sequence[Wanted], gap: float, *, effort: float = 0.2, boxes: Sequence[int] = BOXES
) -> bool:
    """Whether it is proven that not all polygons can lie in the container, ``gap`` apart.

    True is a proof: no layout that ``is_feasible`` accepts has them all in the attitudes given, and so none has a
    larger set. False says nothing.

    Parameters
    ----------
    container : Container
    wanted : sequence of Wanted
        Some ten at most: with more, time is rarely enough for a proof.
    gap : float
        Least distance between two polygons; edge and obstacles may be touched.
    effort : float
        Deterministic time for each number of boxes, as in ``nesting.solving.minimize``: for models such as these
        some three to ten wall-clock seconds a unit.
    boxes : sequence of int
        How many boxes may stand for each polygon, tried in turn.
    """
    if not wanted:
        return False
    setting = _Setting(container, gap)
    return any(setting.refutes(wanted, count, effort) for count in boxes)


class _Setting:
    """The container in steps of a grid, and the gap to be kept."""

    def __init__(self, container: Container, gap: float) -> None:
        west, south, east, north = container.outline.bounds
        self._gap = gap
        self._grid = Grid(STEPS / max(east - west, north - south))
        self._room = self._grid.around(west - SLACK, south - SLACK, east + SLACK, north + SLACK)
        self._walls = _Walls(container, gap, self._grid)

    def refutes(self, wanted: Sequence[Wanted], count: int, effort: float) -> bool:
        """Whether so many boxes in each polygon have no places without overlap."""
        polygons = {id(one.polygon): one.polygon for one in wanted}
        boxed = {key: _Boxed.of(polygon, self._gap, self._grid, count) for key, polygon in polygons.items()}
        bodies = [
            Body(shape.ways(one.attitudes), self._walls.of(one.avoids))
            for one in wanted
            if (shape := boxed[id(one.polygon)]) is not None
        ]
        return arrange(self._room, bodies, effort=effort).status is Status.IMPOSSIBLE


@dataclass(frozen=True)
class _Boxed:
    """A polygon as boxes: the reach of its own, and what keeps others off."""

    reach: Box
    boxes: tuple[Box, ...]

    @classmethod
    def of(cls, polygon: Polygon, gap: float, grid: Grid, count: int) -> "_Boxed | None":
        """Return a polygon as boxes, or None if it is too small for any.

        Two polygons that pass for ``gap`` apart still are so when both are drawn in by the tolerance, and therefore
        do not overlap when both are then grown by half the gap. Arcs of the grown ones are inscribed.
        """
        core = polygon.buffer(-SLACK, join_style="mitre")
        reach = None if core.is_empty else grid.inside(*core.bounds)
        if reach is None:
            return None
        grown = core.buffer(max(0.0, (gap - SLACK) / 2 / HOLLOWS), quad_segs=SEGMENTS)
        return cls(reach, inner_boxes(grown, grid, count))

    def ways(self, attitudes: Sequence[Attitude]) -> tuple[Way, ...]:
        """Return how it may lie: moved so that its reach starts at the origin, each way once."""
        return tuple(dict.fromkeys(self._way(attitude) for attitude in attitudes))

    def _way(self, attitude: Attitude) -> Way:
        reach = _turned(self.reach, attitude)
        boxes = sorted(_moved(_turned(box, attitude), -reach.x, -reach.y) for box in self.boxes)
        return Way(Box(0, 0, reach.width, reach.height), tuple(boxes))


class _Walls:
    """Boxes inside what nothing may overlap: obstacles, and what the outline leaves of its own bounds."""

    def __init__(self, container: Container, gap: float, grid: Grid) -> None:
        self._container, self._grid = container, grid
        # A polygon inscribed in a circle of this radius holds the circle of half the gap.
        self._drawn_in = HOLLOWS * gap / 2 / math.cos(math.pi / (4 * SEGMENTS))
        self._known: dict[frozenset[str], tuple[Box, ...]] = {}

    def of(self, avoids: frozenset[str]) -> tuple[Box, ...]:
        """Return boxes that don't overlap, inside what is in the way of items that avoid these marks.

        Items are grown by half the gap but may touch these, so these are drawn in by as much.
        """
        if avoids not in self._known:
            together = shapely.union_all([*self._outside(), *self._container.in_the_way_of(avoids)])
            solid = together.buffer(-self._drawn_in, quad_segs=SEGMENTS) if self._drawn_in else together
            boxes = [box for part in _polygons(solid) for box in inner_boxes(part, self._grid, BOXES[-1])]
            self._known[avoids] = tuple(sorted(boxes))
        return self._known[avoids]

    def _outside(self) -> Iterator[BaseGeometry]:
        """Yield what is beyond the outline, as far as items and half a gap can reach."""
        outline = self._container.outline.buffer(SLACK, join_style="mitre")
        far = shapely.box(*outline.bounds).buffer(2 * self._drawn_in, join_style="mitre")
        yield from (part for part in _polygons(far.difference(outline)))


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    return [part for part in shapely.get_parts(shape) if isinstance(part, Polygon) and not part.is_empty]


def _turned(box: Box, attitude: Attitude) -> Box:
    """Return a box mirrored about the x axis, if so said, then turned about the origin by quarter turns."""
    if attitude.mirrored:
        box = Box(box.x, -box.top, box.width, box.height)
    for _ in range(round(attitude.angle / 90)):
        box = Box(-box.top, box.x, box.height, box.width)
    return box


def _moved(box: Box, x: int, y: int) -> Box:
    return Box(box.x + x, box.y + y, box.width, box.height)
