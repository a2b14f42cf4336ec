"""Discs inside a polygon: a rough picture of it from which a smooth measure of overlap is made.

Discs as a proxy for overlap: Gardeyn, Vanden Berghe and Wauters 2025, "An open-source heuristic to reboot 2D nesting
research".
"""

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from nesting.compiling import kernel

Array = NDArray[np.float64]

#: Discs in each polygon.
DISCS = 24

#: Points along each side of the grid of possible centres.
GRID = 60


def inner_discs(polygon: Polygon) -> Array:
    """Return discs as rows x, y, radius, shape (3, DISCS): each as far as can be from the edge and earlier discs.

    Where no room is left for a further disc its radius is 0 and it lies on the first one's centre.
    """
    return _greedy(_grid(polygon), *_sides(polygon), np.zeros((3, DISCS)))


def _sides(polygon: Polygon) -> tuple[Array, Array]:
    """Return where the sides of all rings begin and end."""
    rings = [shapely.get_coordinates(ring) for ring in shapely.get_rings(polygon)]
    return np.concatenate([ring[:-1] for ring in rings]), np.concatenate([ring[1:] for ring in rings])


@kernel
def _greedy(centres: Array, begin: Array, end: Array, discs: Array) -> Array:
    """Write the largest disc that is left around one of the centres, time and again; return the discs."""
    room = np.empty(len(centres))
    for k in range(len(centres)):
        room[k] = _to_edge(centres[k, 0], centres[k, 1], begin, end)
    for disc in range(discs.shape[1]):
        at = int(np.argmax(room))
        if room[at] <= 0:
            discs[0, disc], discs[1, disc] = discs[0, 0], discs[1, 0]
            continue
        x, y, radius = centres[at, 0], centres[at, 1], room[at]
        discs[0, disc], discs[1, disc], discs[2, disc] = x, y, radius
        for k in range(len(centres)):
            apart = np.sqrt((centres[k, 0] - x) ** 2 + (centres[k, 1] - y) ** 2)
            room[k] = min(room[k], apart - radius)
    return discs


@kernel
def _to_edge(x: float, y: float, begin: Array, end: Array) -> float:
    """Return the distance from a point to the nearest side."""
    least = 1e300
    for k in range(len(begin)):
        along_x, along_y = end[k, 0] - begin[k, 0], end[k, 1] - begin[k, 1]
        from_x, from_y = x - begin[k, 0], y - begin[k, 1]
        square = along_x * along_x + along_y * along_y
        share = 0.0
        if square > 0:
            share = min(1.0, max(0.0, (from_x * along_x + from_y * along_y) / square))
        off_x, off_y = from_x - share * along_x, from_y - share * along_y
        least = min(least, off_x * off_x + off_y * off_y)
    return float(np.sqrt(least))


def _grid(polygon: Polygon) -> Array:
    """Return points of a grid that lie in the polygon; its representative point at least."""
    west, south, east, north = polygon.bounds
    steps = (np.arange(GRID) + 0.5) / GRID
    x, y = np.meshgrid(west + (east - west) * steps, south + (north - south) * steps)
    points = np.column_stack([x.ravel(), y.ravel()])
    inside = points[shapely.contains_xy(polygon, points)]
    return np.vstack([inside, shapely.get_coordinates(polygon.representative_point())])
