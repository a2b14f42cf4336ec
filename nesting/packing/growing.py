"""Polygons with a margin around them."""

from shapely.geometry import Polygon


def grown(polygon: Polygon, by: float) -> Polygon:
    """Return a polygon that holds all points within ``by``; straight edges are exact, corners mitred."""
    return polygon if by == 0 else polygon.buffer(by, join_style="mitre", mitre_limit=2.0)
