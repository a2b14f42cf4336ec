"""Boxes inside an outline, in whole steps of a grid: what overlaps them overlaps the outline."""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon

from nesting.solving import Box

#: Millimetres by which boxes are drawn in further than their figures say, for rounding of 64-bit geometry.
HAIR = 1e-6


@dataclass(frozen=True)
class Grid:
    """Whole steps for lengths: ``scale`` steps to a millimetre."""

    scale: float

    def up(self, length: float) -> int:
        """Return a length in steps, rounded up."""
        return math.ceil(length * self.scale)

    def down(self, length: float) -> int:
        """Return a length in steps, rounded down."""
        return math.floor(length * self.scale)

    def within(self, low: float, high: float) -> tuple[int, int] | None:
        """Return start and length of the longest stretch of whole steps within another, less a hair; or None."""
        start = self.up(low + HAIR)
        length = self.down(high - HAIR) - start
        return (start, length) if length > 0 else None

    def inside(self, west: float, south: float, east: float, north: float) -> Box | None:
        """Return the largest box of whole steps within these bounds, less a hair; None if there is none."""
        along, across = self.within(west, east), self.within(south, north)
        return Box(along[0], across[0], along[1], across[1]) if along and across else None

    def around(self, west: float, south: float, east: float, north: float) -> Box:
        """Return the least box of whole steps that holds these bounds."""
        left, low = self.down(west - HAIR), self.down(south - HAIR)
        return Box(left, low, self.up(east + HAIR) - left, self.up(north + HAIR) - low)


def inner_boxes(shape: Polygon | MultiPolygon, grid: Grid, most: int) -> tuple[Box, ...]:
    """Return boxes within a shape that do not overlap: the free stretches of columns, or of rows if those hold more.

    Parameters
    ----------
    shape : Polygon or MultiPolygon
    grid : Grid
    most : int
        Number of columns, and most boxes: if there are more, the largest are taken.
    """
    upright = _columns(shape, grid, most)
    lying = [Box(box.y, box.x, box.height, box.width) for box in _columns(_exchanged(shape), grid, most)]
    boxes = max(upright, lying, key=_area_of)
    return tuple(sorted(sorted(boxes, key=lambda box: -box.width * box.height)[:most]))


def _area_of(boxes: list[Box]) -> int:
    return sum(box.width * box.height for box in boxes)


def _exchanged(shape: Polygon | MultiPolygon) -> Polygon | MultiPolygon:
    """Return the shape with x and y exchanged."""
    return shapely.transform(shape, lambda points: points[:, ::-1])


def _columns(shape: Polygon | MultiPolygon, grid: Grid, count: int) -> list[Box]:
    """Return the free stretches of so many columns of about equal width; equal neighbours are one box."""
    whole = grid.inside(*shape.bounds)
    if whole is None:
        return []
    edges = sorted({whole.x + whole.width * k // count for k in range(count + 1)})
    boxes: list[Box] = []
    for left, right in pairwise(edges):
        for low, high in _free(shape, left / grid.scale, right / grid.scale):
            stretch = grid.within(low, high)
            if stretch is not None:
                _add(boxes, Box(left, stretch[0], right - left, stretch[1]))
    return boxes


def _add(boxes: list[Box], box: Box) -> None:
    """Add a box, or lengthen the one that it goes on from."""
    for index, other in enumerate(boxes):
        if (other.right, other.y, other.height) == (box.x, box.y, box.height):
            boxes[index] = Box(other.x, other.y, other.width + box.width, other.height)
            return
    boxes.append(box)


def _free(shape: Polygon | MultiPolygon, left: float, right: float) -> list[tuple[float, float]]:
    """Return the stretches of y in which the whole column from ``left`` to ``right`` lies in the shape."""
    _, south, _, north = shape.bounds
    blocked = shapely.get_parts(shapely.box(left, south - 1, right, north + 1).difference(shape))
    stretches = _blocked_stretches(blocked)
    free, reached = [], -math.inf
    for low, high in stretches:
        if low > reached and math.isfinite(reached):
            free.append((reached, low))
        reached = max(reached, high)
    return free


def _blocked_stretches(parts: NDArray[np.object_]) -> list[tuple[float, float]]:
    """Return the stretches of y that some parts take up, rising."""
    bounds = shapely.bounds(parts)
    return sorted((float(low), float(high)) for _, low, _, high in bounds)
