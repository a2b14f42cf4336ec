"""Looks at items and containers before anything is laid: what can't be worked with is refused by number and reason."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from .container import Container
from .first_fit import Item

#: Share of a container's size below which an item is too thin to be told from rounding.
THINNEST = 1e-6


def accepted(items: Sequence[Item], containers: Sequence[Container]) -> tuple[Item, ...]:
    """Return the items with outlines that can be worked with; see ``accepted_within``.

    Raises
    ------
    ValueError
        Also if there is no container, or one is nothing that could be filled.
    """
    if not containers:
        raise ValueError("there is no container")
    outlines = [container.outline for container in containers]
    for number in _doubtful(outlines):
        _sound(outlines[number], f"container {number}", 0.0)
    bounds = shapely.bounds(outlines)
    return accepted_within(items, float((bounds[:, 2:] - bounds[:, :2]).max()))


def accepted_within(items: Sequence[Item], size: float) -> tuple[Item, ...]:
    """Return the items with outlines that can be worked with, beside a container of that size.

    Duplicate and straight corners, and the sense of going round, matter nowhere. An outline that touches itself is
    taken for what it encloses, if that is one polygon.

    Raises
    ------
    ValueError
        If an outline has no area, crosses itself, is not finite or is thinner than rounding; it says which item.
    """
    polygons = [item.polygon for item in items]
    odd = {*_doubtful(polygons), *_thin(polygons, THINNEST * size)}
    if not odd:
        return tuple(items)
    return tuple(
        replace(item, polygon=_sound(item.polygon, f"item {number}", THINNEST * size)) if number in odd else item
        for number, item in enumerate(items)
    )


def _doubtful(polygons: Sequence[Polygon]) -> list[int]:
    shapes = np.array(polygons, dtype=object)
    with np.errstate(invalid="ignore"):  # what is not finite has no area either
        fine = shapely.is_valid(shapes) & (shapely.area(shapes) > 0) & ~shapely.is_empty(shapes)
    return [int(number) for number in np.flatnonzero(~fine)]


def _thin(polygons: Sequence[Polygon], thinnest: float) -> list[int]:
    """Return which polygons are thinner than that, as their area and the way round them tell."""
    shapes = np.array(polygons, dtype=object)
    with np.errstate(invalid="ignore"):
        thin = 2 * shapely.area(shapes) <= thinnest * shapely.length(shapes)
    return [int(number) for number in np.flatnonzero(thin)]


def _sound(polygon: Polygon, name: str, thinnest: float) -> Polygon:
    """Return a polygon, made valid if there is one way to do so."""
    points = shapely.get_coordinates(polygon)
    if not np.isfinite(points).all():
        raise ValueError(f"{name}: a corner of its outline is not a finite number")
    if len(np.unique(points, axis=0)) < 3:
        raise ValueError(f"{name}: its outline has less than three corners")
    if not polygon.is_valid and shapely.convex_hull(polygon).area > 0:
        reason = shapely.is_valid_reason(polygon)
        parts = shapely.get_parts(shapely.make_valid(polygon))
        if len(parts) != 1 or not isinstance(parts[0], Polygon):
            raise ValueError(f"{name}: its outline crosses or touches itself ({reason})")
        polygon = parts[0]
    if polygon.area <= 0:
        raise ValueError(f"{name}: its outline encloses no area")
    if 2 * polygon.area <= thinnest * polygon.length:
        west, south, east, north = polygon.bounds
        size = f"{east - west:g} x {north - south:g}"
        raise ValueError(f"{name}, {size}, is thinner than {thinnest:g}, which is rounding beside its container")
    return polygon
