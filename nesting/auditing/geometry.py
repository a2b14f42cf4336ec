"""The plane geometry of the audit: sound polygons, arcs, sameness, and the way back from sheet to panel."""

import cmath
import math
from collections.abc import Iterator, Sequence

import shapely
from shapely import affinity
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from nesting.model import LONGEST, TOLERANCE, Outline, PanelPiece, StrapPiece

#: Sag at which the audit itself flattens arcs, in millimetres.
FINE = 0.001

#: Chords of one arc at most; only an absurd arc would need more.
MOST_CHORDS = 100_000


def polygon(ring: Sequence[tuple[float, ...]], holes: Sequence[Sequence[tuple[float, ...]]] = ()) -> Polygon | None:
    """Return a valid polygon with an area; None if the rings don't make one."""
    rings = [ring, *holes]
    if any(len(points) < 3 for points in rings):
        return None
    if not all(abs(figure) <= LONGEST for points in rings for point in points for figure in point):
        return None
    shape = Polygon(ring, holes)
    return shape if shape.is_valid and shape.area > 0 else None


def has_arcs(outline: Outline) -> bool:
    """Whether any segment of the outline is an arc."""
    return any(len(vertex) == 3 and vertex[2] != 0 for ring in outline.rings for vertex in ring)


def flattened(outline: Outline) -> Polygon | None:
    """Return an outline with its arcs flattened very finely; None if it is not sound."""
    outer, *holes = (list(_chords(ring)) for ring in outline.rings)
    return polygon(outer, holes)


def _chords(ring: Sequence[tuple[float, ...]]) -> Iterator[tuple[float, float]]:
    for start, end in zip(ring, (*ring[1:], ring[0]), strict=True):
        yield start[0], start[1]
        if len(start) == 3:
            yield from _arc(complex(*start[:2]), complex(*end[:2]), start[2])


def _arc(start: complex, end: complex, bulge: float) -> Iterator[tuple[float, float]]:
    """Yield points within the arc; bulge is the tangent of a quarter of its angle."""
    if abs(bulge) < 1e-12 or start == end:
        return
    centre = (start + end) / 2 + 1j * (end - start) * (1 - bulge * bulge) / (4 * bulge)
    angle = 4 * math.atan(bulge)
    # A chord over the angle a is r (1 - cos(a/2)), nearly r a^2 / 8, from its arc.
    chords = math.ceil(abs(angle) / math.sqrt(8 * FINE / max(FINE, abs(start - centre))))
    count = min(chords, MOST_CHORDS)
    for index in range(1, count):
        point = centre + (start - centre) * cmath.exp(1j * angle * index / count)
        yield point.real, point.imag


def same_shape(one: BaseGeometry, other: BaseGeometry, tolerance: float = TOLERANCE) -> bool:
    """Whether two shapes are the same: no corner further than ``tolerance`` from the other's edge, and no more
    area in only one of them than a strip that wide along the edge.
    """
    if one.is_empty or other.is_empty:
        return bool(one.is_empty and other.is_empty)
    near = _corners_near(one, other, tolerance) and _corners_near(other, one, tolerance)
    return near and bool(one.symmetric_difference(other).area <= tolerance * one.length)


def _corners_near(one: BaseGeometry, other: BaseGeometry, tolerance: float) -> bool:
    edge = other.boundary
    shapely.prepare(edge)
    return bool(shapely.dwithin(edge, shapely.points(shapely.get_coordinates(one)), tolerance).all())


def laid_shape(piece: PanelPiece | StrapPiece) -> Polygon | None:
    """Return a piece as it lies on its sheet or blank; None if its polygon is not sound."""
    return polygon(piece.outline, piece.holes if isinstance(piece, PanelPiece) else ())


def turn(angle: float) -> float:
    """Return the same angle in degrees between -180 and 180."""
    return (angle + 180) % 360 - 180


def own_shape(piece: PanelPiece | StrapPiece) -> Polygon | None:
    """Return a piece in its panel's own frame; None if its polygon is not sound or lies absurdly far from there.

    The plan puts a point p at turn(mirror(p)) + (x, y); so it is moved back, turned back, and mirrored.
    """
    shape = laid_shape(piece)
    if shape is None or max(abs(piece.x), abs(piece.y)) > 10 * LONGEST:
        return None
    angle = math.radians(piece.angle)
    cos, sin, flip = math.cos(angle), math.sin(angle), -1.0 if piece.mirrored else 1.0
    there = affinity.translate(shape, -piece.x, -piece.y)
    return affinity.affine_transform(there, (cos, sin, -flip * sin, flip * cos, 0.0, 0.0))


def between(panel: Polygon, low: float, high: float) -> list[Polygon]:
    """Return the parts of a panel between two stations, the largest first."""
    west, south, east, north = panel.bounds
    stretch = shapely.box(max(low, west - 1), south - 1, min(high, east + 1), north + 1)
    parts = [part for part in shapely.get_parts(panel.intersection(stretch)) if part.area > TOLERANCE * TOLERANCE]
    return sorted(parts, key=lambda part: -float(part.area))


def width_at(panel: Polygon, station: float) -> float:
    """Return the length of the line across a panel, square to its x axis, at a station."""
    _, south, _, north = panel.bounds
    across = LineString([(station, south - 1), (station, north + 1)])
    return float(panel.intersection(across).length)


def drawn_in(shape: Polygon, by: float) -> BaseGeometry:
    """Return a shape with its edge moved inwards, corners kept sharp."""
    return shape.buffer(-by, join_style="mitre") if by else shape


def reaches_into(shape: Polygon, other: BaseGeometry) -> bool:
    """Whether a shape lies on another by more than the tolerance; to touch it is no harm."""
    return bool(drawn_in(shape, TOLERANCE).intersects(other))


def lies_inside(shape: Polygon, room: BaseGeometry) -> bool:
    """Whether a shape lies inside another, within the tolerance."""
    return bool(room.buffer(TOLERANCE, join_style="mitre").covers(shape))
