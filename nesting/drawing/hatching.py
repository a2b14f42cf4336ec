"""Hatching as plain lines, so that every kind of drawing can show it."""

import math

import shapely
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from .canvas import Points


def hatched(shape: BaseGeometry, spacing: float, angle: float) -> list[Points]:
    """Return parallel lines across a shape, ``spacing`` apart and turned by ``angle`` degrees."""
    if shape.is_empty:
        return []
    along = (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    across = (-along[1], along[0])
    corners = shapely.get_coordinates(shape)
    reach = [float(x * across[0] + y * across[1]) for x, y in corners]
    run = [float(x * along[0] + y * along[1]) for x, y in corners]
    first, last = math.ceil(min(reach) / spacing), math.floor(max(reach) / spacing)
    rulers = [_ruler(along, across, min(run), max(run), step * spacing) for step in range(first, last + 1)]
    shapely.prepare(shape)
    return [points for part in shapely.intersection(shape, rulers) for points in line_points(part)]


def line_points(shape: BaseGeometry) -> list[Points]:
    """Return the points of each line within a shape, areas and single points left out."""
    parts = getattr(shape, "geoms", [shape])
    return [
        [(float(x), float(y)) for x, y in part.coords]
        for part in parts
        if isinstance(part, LineString) and not part.is_empty
    ]


def _ruler(
    along: tuple[float, float], across: tuple[float, float], start: float, end: float, reach: float
) -> LineString:
    return LineString(
        [(along[0] * run + across[0] * reach, along[1] * run + across[1] * reach) for run in (start - 1, end + 1)]
    )
