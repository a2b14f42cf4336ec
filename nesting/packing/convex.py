"""A polygon parted into convex pieces (after Hertel and Mehlhorn 1983, from memory)."""

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

Array = NDArray[np.float64]

#: Square millimetres below which a triangle is a rounding artefact.
LEAST_TRIANGLE = 1e-9


def convex_pieces(shape: Polygon) -> list[Array]:
    """Return convex polygons, each an anticlockwise array of points, that together are the polygon.

    Triangles are merged across a common side as long as the result is convex: at most four times as many pieces
    as the least possible.
    """
    pieces = [_anticlockwise(triangle) for triangle in _triangles(shape)]
    merged = True
    while merged:
        merged = _merge_once(pieces)
    return [np.array(piece) for piece in pieces]


def _triangles(shape: Polygon) -> list[list[tuple[float, float]]]:
    parts = shapely.constrained_delaunay_triangles(shape).geoms
    return [
        [(float(x), float(y)) for x, y in part.exterior.coords[:-1]] for part in parts if part.area > LEAST_TRIANGLE
    ]


def _anticlockwise(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    (ax, ay), (bx, by), (cx, cy) = points
    return points if (bx - ax) * (cy - ay) > (by - ay) * (cx - ax) else points[::-1]


def _merge_once(pieces: list[list[tuple[float, float]]]) -> bool:
    """Merge the first two pieces that make a convex one; whether there were any."""
    sides = {
        side: index for index, piece in enumerate(pieces) for side in zip(piece, piece[1:] + piece[:1], strict=True)
    }
    for (start, end), index in sides.items():
        other = sides.get((end, start))
        if other is None or other == index:
            continue
        joined = _joined(pieces[index], pieces[other], start, end)
        if _is_convex(joined):
            for gone in sorted((index, other), reverse=True):
                del pieces[gone]
            pieces.append(joined)
            return True
    return False


def _joined(
    one: list[tuple[float, float]],
    other: list[tuple[float, float]],
    start: tuple[float, float],
    end: tuple[float, float],
) -> list[tuple[float, float]]:
    """Join two pieces over the side that runs from ``start`` to ``end`` in the first."""
    at, there = one.index(end), other.index(start)
    first = one[at:] + one[:at]
    second = other[there:] + other[:there]
    return first + second[1:-1]


def _is_convex(points: list[tuple[float, float]]) -> bool:
    corners = np.array(points)
    sides = np.roll(corners, -1, axis=0) - corners
    following = np.roll(sides, -1, axis=0)
    turns = sides[:, 0] * following[:, 1] - sides[:, 1] * following[:, 0]
    return bool(np.all(turns >= -1e-9 * np.linalg.norm(sides, axis=1) * np.linalg.norm(following, axis=1)))
