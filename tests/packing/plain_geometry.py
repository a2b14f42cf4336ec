"""What the kernels must find, worked out plainly with shapely."""

import numpy as np
import shapely
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Polygon


def overlap_area(one: Polygon, other: Polygon) -> float:
    """Return the area that two polygons share."""
    return float(one.intersection(other).area)


@st.composite
def stars(draw: st.DrawFn) -> Polygon:
    """Draw a polygon that is seen whole from one point, convex or not, some millimetres to metres large."""
    corners = draw(st.integers(3, 9))
    radii = draw(st.lists(st.floats(0.2, 1.0), min_size=corners, max_size=corners))
    size = draw(st.sampled_from((5.0, 100.0, 2000.0)))
    angles = np.arange(corners) * 2 * np.pi / corners
    points = size * np.column_stack([np.cos(angles), np.sin(angles)]) * np.array(radii)[:, None]
    return Polygon(np.round(points, 6))


def ring(outer: float, inner: float) -> Polygon:
    """Return a square with a square hole, both about the origin."""
    square = shapely.box(-0.5, -0.5, 0.5, 0.5)
    return affinity.scale(square, outer, outer).difference(affinity.scale(square, inner, inner))
