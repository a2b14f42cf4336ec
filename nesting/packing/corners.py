"""The leftmost corner of an outline, and how its edges leave it."""

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Edge:
    """An edge that leaves a corner: its direction in radians, from -pi/2 to pi/2, and its length."""

    angle: float
    length: float

    def strays(self, other: "Edge") -> float:
        """Return by how much the other edge, from the same corner, leaves this one to the left, as far as both run."""
        turn = min(max(other.angle - self.angle, -math.pi / 2), math.pi / 2)
        return math.sin(turn) * min(self.length, other.length)


@dataclass(frozen=True)
class Corner:
    """The leftmost corner of an outline, the lowest of these if there are several, with its lower and upper edge."""

    x: float
    y: float
    lower: Edge
    upper: Edge


def leftmost_corner(polygon: Polygon, sliver: float) -> Corner:
    """Return the leftmost corner of a polygon; what differs by no more than ``sliver`` counts as equal."""
    ring = shapely.get_coordinates(shapely.orient_polygons(polygon).exterior)[:-1]
    leftmost = np.flatnonzero(ring[:, 0] <= ring[:, 0].min() + sliver)
    at = int(leftmost[np.argmin(ring[leftmost, 1])])
    onwards = np.roll(ring, -at, axis=0)
    moves = onwards - onwards[0]
    return Corner(float(ring[at, 0]), float(ring[at, 1]), _edge(moves[1:], sliver), _edge(moves[:0:-1], sliver))


def _edge(moves: Array, sliver: float) -> Edge:
    """Return the edge from the origin along these corners, as far as they lie straight on."""
    end, length = moves[0], math.hypot(*moves[0])
    for ahead in moves[1:]:
        along, across = end @ ahead / length, abs(end[0] * ahead[1] - end[1] * ahead[0]) / length
        if across > sliver or along <= length:
            break
        end, length = ahead, math.hypot(*ahead)
    return Edge(math.atan2(end[1], end[0]), length)
