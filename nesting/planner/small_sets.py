"""Whether few panels are proven not to lie on a sheet together: the bounds ask, who know nothing of packing."""

from collections.abc import Sequence

from shapely.geometry import Polygon

from nesting.packing import Attitude, Container, Wanted, is_impossible

#: Deterministic solver time for each number of boxes that stand for an outline: where nothing is proven, a second
#: or two in all.
EFFORT = 0.05

#: How many boxes stand for an outline: one is all of a rectangle, and more for others.
BOXES = (1, 3, 6, 12)


def refuted(room: Polygon, outlines: Sequence[tuple[Polygon, tuple[int, ...]]], gap: float) -> bool:
    """Return whether it is proven that a room can't hold all of some outlines a gap apart.

    Nothing of the search has a part in that: boxes inside the outlines are refuted by a solver.
    """
    wanted = [Wanted(outline, tuple(Attitude(angle) for angle in angles)) for outline, angles in outlines]
    return is_impossible(Container(room), wanted, gap, effort=EFFORT, boxes=BOXES)
