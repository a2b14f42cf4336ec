"""Shapes prepared for placing: simplified outwards, parted into convex pieces, each only once."""

from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LinearRing, Polygon
from shapely.geometry.base import BaseGeometry

from .attitude import Attitude
from .container import Container
from .convex import convex_pieces
from .growing import grown

#: Millimetres by which shapes may be cut short without harm: a thousandth of the tolerance of the whole program.
HAIR = 1e-6

#: Square millimetres below which a notch beside an outline is a rounding artefact.
LEAST_NOTCH = 1e-6

#: Share of a hole's width by which its edge may be drawn in: parts that lie in it are rarely as large as it is.
HOLE_COARSENESS = 0.03

#: Shapes with no more corners than this are used as they are.
FEW_CORNERS = 16


@dataclass(frozen=True, eq=False)
class Shape:
    """A polygon as it would lie, and its convex pieces; compared by identity."""

    polygon: Polygon
    pieces: list[NDArray[np.float64]] = field(repr=False)


def prepared(polygon: Polygon, coarseness: float) -> Shape:
    """Return a shape that holds the polygon but for a hair, with the same bounding box and not much larger.

    Curves are replaced by fewer, longer chords outside them, within about ``coarseness`` millimetres.

    The hair keeps exact fits: without it the one place where a peg fits its hole would be lost to rounding.
    """
    drawn_in = simplified_outwards(polygon, coarseness).buffer(-HAIR, join_style="mitre")
    return Shape(polygon, convex_pieces(drawn_in if isinstance(drawn_in, Polygon) and drawn_in.area else polygon))


def simplified_outwards(polygon: Polygon, coarseness: float) -> Polygon:
    """Simplify so that nothing of the polygon is lost and its bounding box stays."""
    if coarseness <= 0 or len(shapely.get_coordinates(polygon)) <= FEW_CORNERS:
        return polygon
    polygon = Polygon(polygon.exterior, [_hole_drawn_in(Polygon(hole)) for hole in polygon.interiors])
    wider = grown(polygon, coarseness)
    core = polygon.buffer(-HAIR, join_style="mitre")  # the common edges of the box differ by rounding
    # Simplifying a closed ring may stray further than asked where the ring begins: make sure, or ask for less.
    for share in (0.9, 0.5, 0.2):
        clipped = wider.simplify(share * coarseness).intersection(shapely.box(*polygon.bounds))
        if isinstance(clipped, Polygon) and clipped.covers(core):
            return clipped
    return polygon


def _hole_drawn_in(hole: Polygon) -> LinearRing:
    """Return a smaller hole with fewer corners within the hole."""
    west, south, east, north = hole.bounds
    margin = HOLE_COARSENESS * min(east - west, north - south)
    smaller = hole.buffer(-margin, join_style="mitre").simplify(0.9 * margin)
    return smaller.exterior if isinstance(smaller, Polygon) and hole.covers(smaller) and smaller.area else hole.exterior


class ShapeStore:
    """Shapes prepared once for each polygon object, bare and grown by half the gap."""

    def __init__(self, gap: float, coarseness: float) -> None:
        self._gap = gap
        self._coarseness = coarseness
        self._bare: dict[int, tuple[Polygon, Shape]] = {}
        self._wide: dict[int, tuple[Polygon, Shape]] = {}
        self._lying: dict[tuple[int, Attitude], tuple[Polygon, BaseGeometry]] = {}
        self._around: dict[tuple[int, frozenset[str]], tuple[Container, tuple[Shape, ...]]] = {}

    def bare(self, polygon: Polygon) -> Shape:
        """Return the polygon as a shape."""
        if id(polygon) not in self._bare:
            self._bare[id(polygon)] = (polygon, prepared(polygon, self._coarseness))
        return self._bare[id(polygon)][1]

    def with_gap(self, polygon: Polygon) -> Shape:
        """Return the polygon grown by half the gap as a shape: two such keep the gap if they don't overlap."""
        if id(polygon) not in self._wide:
            self._wide[id(polygon)] = (polygon, prepared(grown(polygon, self._gap / 2), self._coarseness))
        return self._wide[id(polygon)][1]

    def lying(self, polygon: Polygon, attitude: Attitude) -> BaseGeometry:
        """Return the polygon itself in an attitude."""
        key = (id(polygon), attitude)
        if key not in self._lying:
            self._lying[key] = (polygon, attitude.of(polygon))
        return self._lying[key][1]

    def around(self, container: Container, avoids: frozenset[str]) -> tuple[Shape, ...]:
        """Return what is in the way before anything is placed: notches of the outline, and obstacles."""
        key = (id(container), avoids)
        if key not in self._around:
            notches = shapely.get_parts(shapely.box(*container.outline.bounds).difference(container.outline))
            blocks = [part for part in notches if isinstance(part, Polygon) and part.area > LEAST_NOTCH]
            shapes = tuple(prepared(shape, self._coarseness) for shape in (*blocks, *container.in_the_way_of(avoids)))
            self._around[key] = (container, shapes)
        return self._around[key][1]
