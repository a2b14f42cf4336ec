"""No-fit polygons: where one shape may not be moved because it would overlap another.

A point r is inside the no-fit polygon of a fixed shape A and a moving shape B iff A and B + r overlap; it is the
Minkowski sum of A and -B, built from sums of convex pieces (Bennell and Oliveira 2008, "The geometry of nesting
problems: a tutorial", from memory).
"""

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from .attitude import AS_DRAWN, Attitude, cosine_and_sine, whole_turns_off
from .shapes import Shape

Array = NDArray[np.float64]


def no_fit(fixed: list[Array], moving: list[Array]) -> BaseGeometry:
    """Return the no-fit polygon of two shapes given by their convex pieces."""
    sums = [(a[:, None, :] - b[None, :, :]).reshape(-1, 2) for a in fixed for b in moving]
    owner = np.repeat(np.arange(len(sums)), [len(points) for points in sums])
    clouds = shapely.multipoints(np.concatenate(sums), indices=owner)
    return shapely.union_all(shapely.convex_hull(clouds))


class NoFitStore:
    """No-fit polygons of shapes in given attitudes, each worked out once up to a common turn and exchange."""

    def __init__(self) -> None:
        self._known: dict[tuple[int, int, Attitude], tuple[Shape, Shape, BaseGeometry]] = {}

    def get(self, fixed: Shape, lying: Attitude, moving: Shape, moved: Attitude) -> BaseGeometry:
        """Return where ``moving``, in the attitude ``moved``, may not be moved if ``fixed`` lies in ``lying``."""
        return lying.of(self._from_fixed(fixed, moving, moved.seen_from(lying)))

    def _from_fixed(self, fixed: Shape, moving: Shape, attitude: Attitude) -> BaseGeometry:
        """Return the no-fit polygon with the fixed shape as drawn."""
        key = (id(fixed), id(moving), attitude)
        if key not in self._known:
            region = no_fit(fixed.pieces, [attitude_of_points(piece, attitude) for piece in moving.pieces])
            self._known[key] = (fixed, moving, region)
            # Seen from the other shape every move is reversed: a half turn more.
            back = AS_DRAWN.seen_from(attitude)
            half_turned = Attitude(whole_turns_off(back.angle + 180), back.mirrored)
            self._known[(id(moving), id(fixed), back)] = (moving, fixed, half_turned.of(region))
        return self._known[key][2]


def attitude_of_points(points: Array, attitude: Attitude) -> Array:
    """Return points, shape (n, 2), in an attitude."""
    cos, sin = cosine_and_sine(attitude.angle)
    flipped = points * (1.0, -1.0) if attitude.mirrored else points
    turned: Array = flipped @ np.array([[cos, sin], [-sin, cos]])
    return turned
