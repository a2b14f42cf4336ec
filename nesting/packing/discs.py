"""Discs inside a polygon: a rough picture of it from which a smooth measure of overlap is made.

Discs as a proxy for overlap: Gardeyn, Vanden Berghe and Wauters 2025, "An open-source heuristic to reboot 2D nesting
research".
"""

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

Array = NDArray[np.float64]

#: Discs in each polygon.
DISCS = 24

#: Points along each side of the grid of possible centres.
GRID = 60


def inner_discs(polygon: Polygon) -> Array:
    """Return discs as rows x, y, radius, shape (3, DISCS): each as far as can be from the edge and earlier discs.

    Where no room is left for a further disc its radius is 0 and it lies on the first one's centre.
    """
    centres = _grid(polygon)
    depth = shapely.distance(polygon.boundary, shapely.points(centres))
    discs = np.zeros((3, DISCS))
    room = depth.copy()
    for k in range(DISCS):
        at = int(np.argmax(room))
        if room[at] <= 0:
            discs[:, k] = (*discs[:2, 0], 0.0)
            continue
        discs[:, k] = (*centres[at], room[at])
        room = np.minimum(room, np.hypot(*(centres - centres[at]).T) - room[at])
    return discs


def _grid(polygon: Polygon) -> Array:
    """Return points of a grid that lie in the polygon; its representative point at least."""
    west, south, east, north = polygon.bounds
    steps = (np.arange(GRID) + 0.5) / GRID
    x, y = np.meshgrid(west + (east - west) * steps, south + (north - south) * steps)
    points = np.column_stack([x.ravel(), y.ravel()])
    inside = points[shapely.contains_xy(polygon, points)]
    return np.vstack([inside, shapely.get_coordinates(polygon.representative_point())])
