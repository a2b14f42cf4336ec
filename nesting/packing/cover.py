"""A polygon covered by few large convex pieces that may overlap.

Overlapping pieces are wanted: with thin slivers of a plain partition the depth of an overlap would be weak. A ring's
pieces leave its hole open, so holes need nothing further.
"""

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from .convex import convex_pieces

Array = NDArray[np.float64]

#: How far a piece may reach over the edge, as a share of the polygon's size: rounding, and no more.
ROUNDING = 1e-10

#: Rings with more corners that point inwards than this are taken for curves.
MOST_EXTENDED = 12


def convex_cover(polygon: Polygon) -> list[Array]:
    """Return convex polygons, anticlockwise arrays of points, that together are the polygon, each as large as it gets.

    The pieces of a partition are grown by corners of the polygon and by ends of its lengthened sides, nearest first, as
    long as they stay inside; pieces that the others cover are dropped.
    """
    west, south, east, north = polygon.bounds
    size = max(east - west, north - south)
    room = polygon.buffer(ROUNDING * size, join_style="mitre")
    shapely.prepare(room)
    corners = np.vstack([shapely.get_coordinates(polygon), *_extensions(polygon)])
    grown = [_grown(piece, corners, room) for piece in convex_pieces(polygon)]
    return [_points(piece) for piece in _needed(grown, polygon.area)]


def _extensions(polygon: Polygon) -> list[Array]:
    """Return where sides, lengthened into the polygon beyond a corner that points inwards, meet its edge again."""
    rings = [shapely.get_coordinates(ring)[:-1] for ring in shapely.get_rings(shapely.orient_polygons(polygon))]
    found = []
    for ring in rings:
        before, after = ring - np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0) - ring
        inwards = np.flatnonzero(before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0] < 0)
        if len(inwards) > MOST_EXTENDED:  # a hollow curve: its corners are near enough
            continue
        for k in inwards:
            found += [_first_hit(polygon, ring[k], direction) for direction in (before[k], -after[k])]
    return [hit for hit in found if len(hit)]


def _first_hit(polygon: Polygon, corner: Array, direction: Array) -> Array:
    """Return the end of the part of a ray that lies in the polygon from the corner on, shape (1 or 0, 2)."""
    west, south, east, north = polygon.bounds
    far = corner + direction * (2 * max(east - west, north - south) / max(np.hypot(*direction), 1e-300))
    inside = shapely.get_parts(polygon.intersection(shapely.LineString([corner, far])))
    from_corner = [part for part in inside if part.distance(shapely.Point(corner)) <= ROUNDING * abs(east - west)]
    ends = shapely.get_coordinates(from_corner)
    return ends[np.argsort(np.hypot(*(ends - corner).T))[-1:]] if len(ends) else np.empty((0, 2))


def _grown(piece: Array, corners: Array, room: Polygon) -> Polygon:
    """Add corners to a convex piece, nearest first, while its hull stays in the room."""
    hull = Polygon(piece)
    nearest = corners[np.argsort(shapely.distance(hull, shapely.points(corners)), kind="stable")]
    for corner in nearest[_may_be_added(hull, nearest, room)]:
        wider = shapely.convex_hull(shapely.multipoints(np.vstack([shapely.get_coordinates(hull), corner])))
        if wider.area > hull.area and room.covers(wider):
            hull = wider
    return hull


def _may_be_added(hull: Polygon, corners: Array, room: Polygon) -> NDArray[np.bool_]:
    """Whether each corner, by itself, makes a convex piece larger within the room: if not, nor any larger piece."""
    own = shapely.get_coordinates(hull)
    points = np.concatenate([np.broadcast_to(own, (len(corners), *own.shape)), corners[:, None]], axis=1)
    owners = np.repeat(np.arange(len(corners)), len(own) + 1)
    wider = shapely.convex_hull(shapely.multipoints(points.reshape(-1, 2), indices=owners))
    added: NDArray[np.bool_] = (shapely.area(wider) > hull.area) & shapely.covers(room, wider)
    return added


def _needed(pieces: list[Polygon], area: float) -> list[Polygon]:
    """Drop pieces, smallest first, that the others cover."""
    kept = sorted(pieces, key=lambda piece: piece.area)
    for piece in tuple(kept):
        others = [other for other in kept if other is not piece]
        if others and piece.difference(shapely.union_all(others)).area <= 1e-12 * area:
            kept = others
    return kept[::-1]


def _points(piece: Polygon) -> Array:
    return np.ascontiguousarray(shapely.get_coordinates(shapely.orient_polygons(piece).exterior)[:-1])
