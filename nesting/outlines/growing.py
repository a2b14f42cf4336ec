"""Outlines grown by half a kerf, from outside for layouts and from inside for bounds."""

from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry


def grown_outside(shape: BaseGeometry, by: float) -> BaseGeometry:
    """Return a shape that holds every point within ``by`` of ``shape``, with straight edges exact.

    Two shapes grown by half a kerf that don't overlap are a kerf apart. Corners are mitred, very sharp ones
    blunted, never closer than ``by``.
    """
    return shape if by == 0 else shape.buffer(by, join_style="mitre", mitre_limit=2.0)


def grown_inside(shape: BaseGeometry, by: float) -> BaseGeometry:
    """Return a shape within which every point is at most ``by`` from ``shape``: its area is a lower bound."""
    return shape if by == 0 else shape.buffer(by, quad_segs=16)


def shrunk(shape: Polygon, by: float) -> BaseGeometry:
    """Return what is left of a sheet when ``by`` is trimmed off every edge; may be empty."""
    return shape if by == 0 else shape.buffer(-by, join_style="mitre", mitre_limit=2.0)
