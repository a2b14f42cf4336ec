"""From an outline as it was given to a sound polygon: closed, simple, anticlockwise, its holes kept."""

import math

import shapely
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from nesting.model import TOLERANCE, Outline, Ring

from .arcs import SAG, flatten
from .fault import OutlineError

#: Square millimetres below which an outline is a slip of the pen rather than a part.
LEAST_AREA = 1.0

#: Millimetres within which points on a straight line are dropped.
STRAIGHT = 1e-6


def polygon(outline: Outline, sag: float = SAG) -> Polygon:
    """Return the outline as a valid shapely polygon, anticlockwise, holes clockwise.

    Repeated points and points on straight lines are dropped, clockwise rings turned round.

    Raises
    ------
    OutlineError
        If the outline crosses or touches itself, has no area, or a hole lies outside it: those can't be mended
        without guessing.
    """
    outer, *holes = (_cleaned(ring, sag) for ring in outline.rings)
    shape = Polygon(outer, holes)
    if shape.convex_hull.area < LEAST_AREA:
        raise _no_area(shape.convex_hull.area)
    if not shape.is_valid:
        raise _fault(shape)
    if shape.area < LEAST_AREA:
        raise _no_area(shape.area)
    return orient(shape.simplify(STRAIGHT))


def _no_area(area: float) -> OutlineError:
    return OutlineError(
        "no-area",
        f"the outline encloses {area:.3g} mm2, which is no part",
        "Check the units and that the points run round the part.",
    )


def _cleaned(ring: Ring, sag: float) -> list[tuple[float, float]]:
    """Flatten a ring and drop repeated points."""
    points = _without_repeats(flatten(ring, sag))
    if len(points) < 3:
        raise OutlineError(
            "no-area",
            "the outline has fewer than three corners",
            "Give at least three points that are not in one line.",
        )
    return points


def _without_repeats(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    kept: list[tuple[float, float]] = []
    for point in points:
        if not kept or math.dist(point, kept[-1]) > TOLERANCE:
            kept.append(point)
    while len(kept) > 1 and math.dist(kept[0], kept[-1]) <= TOLERANCE:
        kept.pop()
    return kept


def _fault(shape: Polygon) -> OutlineError:
    """Say in plain words what makes a polygon invalid, and where."""
    explained = shapely.is_valid_reason(shape)
    kind, _, place = explained.partition("[")
    at = " near ({}, {})".format(*place.rstrip("]").split()) if place else ""
    if "Hole" in kind or "Nested" in kind:
        return OutlineError(
            "hole-outside",
            f"a hole lies outside the outline or within another{at}",
            "Keep every hole inside the outline and apart from the others.",
        )
    return OutlineError(
        "self-crossing",
        f"the outline crosses or touches itself{at}",
        "List the points in order round the part; split a part that touches itself in two.",
    )
