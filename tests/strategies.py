"""Hypothesis strategies for shapes, parts and members; add new ones here so that all rooms can use them.

Figures are whole tenths of a millimetre, as a tape would give them, so that failures are easy to read.
"""

import math
from itertools import accumulate

from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from nesting.joints import Reach
from nesting.model import Outline, Panel


def tenths(least: float, most: float) -> st.SearchStrategy[float]:
    """Return figures in whole tenths of a millimetre, from ``least`` to ``most``."""
    return st.integers(round(least * 10), round(most * 10)).map(lambda figure: figure / 10)


@st.composite
def rectangles(draw: st.DrawFn, least: float = 10, most: float = 3000) -> Polygon:
    """Return a rectangle with a corner at the origin."""
    return box(0, 0, draw(tenths(least, most)), draw(tenths(least, most)))


@st.composite
def star_polygons(draw: st.DrawFn, least: float = 20, most: float = 300) -> Polygon:
    """Return a simple polygon about the origin, convex or spiky; every corner can be seen from the origin."""
    count = draw(st.integers(3, 12))
    jitter = st.floats(-0.2, 0.2, allow_nan=False)
    corners = []
    for index in range(count):
        angle = 2 * math.pi * (index + draw(jitter)) / count
        radius = draw(tenths(least, most))
        corners.append((radius * math.cos(angle), radius * math.sin(angle)))
    return Polygon(corners)


@st.composite
def holed_polygons(draw: st.DrawFn) -> Polygon:
    """Return a star-shaped polygon with a square hole about the origin, well inside it."""
    outer = draw(star_polygons(least=100))
    # The distance to the outer ring keeps the hole inside whatever the corners are.
    half = 0.6 * outer.exterior.distance(Polygon([(-1e-6, 0), (1e-6, 0), (0, 1e-6)]))
    return (
        Polygon(outer.exterior, [[(-half, -half), (half, -half), (half, half), (-half, half)]]) if half > 1 else outer
    )


@st.composite
def panel_corners(draw: st.DrawFn) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """Return the lower and the upper edge of a long panel, both with the same rising stations from 0."""
    steps = draw(st.lists(tenths(50, 600), min_size=1, max_size=7))
    stations = [round(station, 1) for station in accumulate(steps, initial=0.0)]
    lower = [(station, draw(tenths(-100, 100))) for station in stations]
    upper = [(station, round(offset + draw(tenths(40, 400)), 1)) for station, offset in lower]
    return lower, upper


def panel_polygons() -> st.SearchStrategy[Polygon]:
    """Return x-monotone polygons such as panels of a hull: one upper and one lower edge, square ends."""
    return panel_corners().map(lambda edges: Polygon(edges[0] + edges[1][::-1]))


@st.composite
def panels(draw: st.DrawFn, name: str = "bilge") -> Panel:
    """Return a panel of a job, in one piece, with an x-monotone outline."""
    pairs = draw(st.integers(1, 3))
    handed = draw(st.booleans())
    return Panel(
        name=name,
        material="gaboon",
        thickness=draw(st.sampled_from([3, 4, 5, 6, 9, 12])),
        outline=Outline.model_validate(draw(panel_polygons())),
        quantity=2 * pairs if handed else pairs,
        handed=handed,
        grain=draw(st.sampled_from(["along", "across", "any"])),
    )


@st.composite
def reaches(draw: st.DrawFn, longest: int = 120) -> Reach:
    """Return a member in whole units with an even lap or strap: every window begins and ends on a whole station."""
    start = draw(st.integers(-5, 5))
    length = draw(st.integers(10, longest))
    zones = []
    for _ in range(draw(st.integers(0, 3))):
        begin = draw(st.integers(start - 5, start + length))
        zones.append((begin, begin + draw(st.integers(1, max(1, length // 3)))))
    band, butted = 2 * draw(st.integers(0, 4)), draw(st.booleans())
    return Reach(
        start=start,
        end=start + length,
        lap=0 if butted else band,
        strap=band if butted else 0,
        usable=draw(st.integers(max(4, length // 6), length + 5)),
        least_piece=draw(st.integers(1, max(1, length // 4))),
        zones=tuple(zones),
    )
