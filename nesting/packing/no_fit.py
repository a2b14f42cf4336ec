"""No-fit polygons: where one shape may not be moved because it would overlap another.

A point r is inside the no-fit polygon of a fixed shape A and a moving shape B iff A and B + r overlap; it is the
Minkowski sum of A and -B, built from sums of convex pieces (Bennell and Oliveira 2008, "The geometry of nesting
problems: a tutorial", from memory).
"""

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from .shapes import Shape, quarter_turned

Array = NDArray[np.float64]


def no_fit(fixed: list[Array], moving: list[Array]) -> BaseGeometry:
    """Return the no-fit polygon of two shapes given by their convex pieces."""
    sums = [(a[:, None, :] - b[None, :, :]).reshape(-1, 2) for a in fixed for b in moving]
    owner = np.repeat(np.arange(len(sums)), [len(points) for points in sums])
    clouds = shapely.multipoints(np.concatenate(sums), indices=owner)
    return shapely.union_all(shapely.convex_hull(clouds))


class NoFitStore:
    """No-fit polygons of shapes at given angles, each worked out once up to a common turn and exchange."""

    def __init__(self) -> None:
        self._known: dict[tuple[int, int, int], tuple[Shape, Shape, BaseGeometry]] = {}

    def get(self, fixed: Shape, fixed_angle: int, moving: Shape, moving_angle: int) -> BaseGeometry:
        """Return where ``moving`` may not be moved, both turned about the origin by quarter turns."""
        relative = (moving_angle - fixed_angle) % 360
        return quarter_turned(self._unturned(fixed, moving, relative), fixed_angle)

    def _unturned(self, fixed: Shape, moving: Shape, angle: int) -> BaseGeometry:
        """Return the no-fit polygon with the fixed shape unturned."""
        key = (id(fixed), id(moving), angle)
        if key not in self._known:
            turned = [_turned_points(piece, angle) for piece in moving.pieces]
            region = no_fit(fixed.pieces, turned)
            self._known[key] = (fixed, moving, region)
            # Seen from the other shape everything is reversed: turn by half a circle, and back by the angle.
            back = (360 - angle) % 360
            exchanged = quarter_turned(region, (180 + back) % 360)
            self._known[(id(moving), id(fixed), back)] = (moving, fixed, exchanged)
        return self._known[key][2]


def _turned_points(points: Array, angle: int) -> Array:
    cos, sin = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[angle]
    turned: Array = points @ np.array([[cos, sin], [-sin, cos]], dtype=float)
    return turned
