"""Where a part's own frame comes to lie on a sheet: mirrored, turned, moved."""

import math

from shapely import affinity
from shapely.geometry.base import BaseGeometry

#: Cosine and sine of quarter turns, exact.
_QUARTERS = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}


def turned(shape: BaseGeometry, angle: float, *, mirrored: bool = False) -> BaseGeometry:
    """Return the shape mirrored about its x axis if asked, then turned anticlockwise about the origin.

    Parameters
    ----------
    angle : float
        Degrees; quarter turns are exact.
    """
    turn = math.radians(angle)
    cos, sin = _QUARTERS.get(angle % 360) or (math.cos(turn), math.sin(turn))
    flip = -1.0 if mirrored else 1.0
    return affinity.affine_transform(shape, (cos, -sin * flip, sin, cos * flip, 0.0, 0.0))


def moved(shape: BaseGeometry, x: float, y: float) -> BaseGeometry:
    """Return the shape moved by (x, y)."""
    return affinity.translate(shape, x, y)


def ring_points(ring: BaseGeometry) -> tuple[tuple[float, float], ...]:
    """Return a ring's points, the first not repeated."""
    return tuple((float(x), float(y)) for x, y in ring.coords[:-1])
