"""Arcs of outlines turned into chords within a stated sag."""

import math
from collections.abc import Iterator

from nesting.model import Ring

#: Greatest distance between an arc and its chords, in millimetres, wherever a plan holds polygons.
SAG = 0.05


def flatten(ring: Ring, sag: float = SAG) -> list[tuple[float, float]]:
    """Return the ring's points, each arc replaced by chords no further than ``sag`` from it.

    Parameters
    ----------
    ring : sequence of (x, y) or (x, y, bulge)
        Closed; bulge is the tangent of a quarter of the arc's angle, positive anticlockwise.
    sag : float
        Millimetres, above zero.
    """
    following = ring[1:] + ring[:1]
    return [point for vertex, after in zip(ring, following, strict=True) for point in _segment(vertex, after, sag)]


def _segment(start: tuple[float, ...], end: tuple[float, ...], sag: float) -> Iterator[tuple[float, float]]:
    """Yield the start of a segment and, if it is an arc, the points within it."""
    yield start[0], start[1]
    bulge = start[2] if len(start) == 3 else 0.0
    chord = math.hypot(end[0] - start[0], end[1] - start[1])
    if abs(bulge) * chord / 2 <= sag:  # the arc's own height: its chord is near enough
        return
    angle = 4 * math.atan(bulge)
    radius = chord / (2 * abs(math.sin(angle / 2)))
    # A chord of angle a has its middle radius * (1 - cos(a / 2)) from the arc.
    step = 2 * math.acos(max(0.0, 1 - sag / radius))
    count = max(1, math.ceil(abs(angle) / step))
    to_centre = chord / (2 * math.tan(angle / 2))
    along = ((end[0] - start[0]) / chord, (end[1] - start[1]) / chord)
    centre_x = (start[0] + end[0]) / 2 - along[1] * to_centre
    centre_y = (start[1] + end[1]) / 2 + along[0] * to_centre
    first = math.atan2(start[1] - centre_y, start[0] - centre_x)
    for index in range(1, count):
        turned = first + angle * index / count
        yield centre_x + radius * math.cos(turned), centre_y + radius * math.sin(turned)
