"""Angles to try for an item that may be turned freely, or within a range."""

import math

import numpy as np
import shapely
from shapely.geometry import Polygon

from .attitude import whole_turns_off

#: Degrees between angles that are tried for no better reason.
STEP = 15.0

#: Edges of the hull that are tried along the container's, longest first, each in four ways.
EDGES = 4


def turns_within(polygon: Polygon, low: float, high: float, step: float = STEP) -> tuple[float, ...]:
    """Return angles from ``low`` to ``high`` degrees at which an item is worth trying.

    These are: both ends; steps between them, no turn at all if it is among them; and those that lay one of the longest
    edges of the hull along x or y, where the item's box is least (Freeman and Shapira 1975, from memory).

    Raises
    ------
    ValueError
        If the range is empty or not finite, or the step not positive.
    """
    if not (math.isfinite(low) and math.isfinite(high) and low <= high and step > 0):
        raise ValueError(f"there are no angles from {low:g} to {high:g} degrees in steps of {step:g}")
    if high - low >= 360:
        return every_turn(polygon, step)
    regular = np.arange(math.ceil(low / step), math.floor(high / step) + 1) * step
    flush = _flush(polygon)[:, None] + 90.0 * np.arange(math.floor(low / 90) - 1, math.ceil(high / 90) + 2)
    inside = [float(angle) for angle in (*regular, *flush.ravel()) if low <= angle <= high]
    return _different([low, *inside, high])


def every_turn(polygon: Polygon, step: float = STEP) -> tuple[float, ...]:
    """Return angles all the way round at which an item is worth trying: see ``turns_within``."""
    return turns_within(polygon, 0.0, math.nextafter(360.0, 0.0), step)


def _flush(polygon: Polygon) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    """Return the angles, from 0 to below 90 degrees, that lay long edges of the hull along x or y."""
    sides = np.diff(shapely.get_coordinates(polygon.convex_hull), axis=0)
    longest = sides[np.argsort(-np.hypot(sides[:, 0], sides[:, 1]), kind="stable")][:EDGES]
    return np.asarray(-np.degrees(np.arctan2(longest[:, 1], longest[:, 0])) % 90)


def _different(angles: list[float]) -> tuple[float, ...]:
    """Return the angles in order, as whole turns apart as can be told, each once."""
    return tuple(sorted({whole_turns_off(angle) for angle in angles}))
