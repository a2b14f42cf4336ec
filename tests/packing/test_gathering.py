"""What lies in a container is gathered at one end of it."""

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Polygon

from nesting.effort import Budget, Effort
from nesting.packing import Container, Gaps, Item, Placement, Workshop, gather_across, gather_along, is_feasible
from nesting.packing.verifying import laid

SHEET = Container(shapely.box(50, 50, 450, 250), (shapely.box(50, 205, 100, 250),))
WEDGE = Polygon([(0, 0), (90, 0), (90, 40), (0, 10)])


def reach(items: list[Item], places: tuple[Placement, ...], axis: int) -> float:
    """Return how far they reach along an axis."""
    return max(laid(items, place).bounds[axis + 2] for place in places)


def test_scattered_squares_are_gathered_along_and_across() -> None:
    """Six of 50, in two columns or in two rows, a millimetre apart, beside the fault."""
    items = [Item(shapely.box(0, 0, 50, 50), (0.0, 90.0, 180.0, 270.0))] * 6
    places = tuple(Placement(k, 0.0, 110.0 + 60 * (k % 3), 60.0 + 90 * (k // 3)) for k in range(6))
    along = gather_along(Workshop(Gaps(parts=1)), SHEET, items, places, Effort(Budget(work=1500)))
    across = gather_across(Workshop(Gaps(parts=1)), SHEET, items, places, Effort(Budget(work=1500)))
    assert reach(items, along, 0) < 50 + 51 + 50 + 1
    assert reach(items, across, 1) < 50 + 50 + 1


def test_what_lies_at_an_angle_that_looks_like_another_stays_where_it_is() -> None:
    """A square turned by half a turn; nothing can be gathered."""
    items = [Item(shapely.box(0, 0, 50, 50), (0.0, 180.0))]
    (place,) = gather_along(Workshop(), SHEET, items, (Placement(0, 180.0, 150.0, 100.0),), Effort(Budget(work=100)))
    assert laid(items, place).bounds[2] <= 150


def test_items_with_lines_stay_where_they_are() -> None:
    """Their lines must lie on the container's."""
    items = [Item(shapely.box(0, 0, 50, 50), lines=(25.0,))]
    places = (Placement(0, 0.0, 300.0, 100.0),)
    assert gather_along(Workshop(), SHEET, items, places, Effort(Budget(work=100))) == places


@given(st.integers(1, 6), st.integers(0, 3), st.sampled_from([gather_along, gather_across]))
@settings(max_examples=10)
def test_gathering_is_feasible_and_reaches_no_further(count: int, seed: int, gather: type) -> None:
    """Whatever lies there, with gaps and a fault."""
    items = [Item(affinity.scale(WEDGE, 1 - 0.1 * k, 1), (0.0, 180.0), mirrored=k % 2 == 1) for k in range(count)]
    places = tuple(Placement(k, 0.0, 130.0 + 120 * (k % 2), 105.0 + 45 * (k // 2)) for k in range(count))
    assert is_feasible(SHEET, items, places, 2)
    found = gather(Workshop(Gaps(parts=2)), SHEET, items, places, Effort(Budget(work=150)), seed)
    axis = 0 if gather is gather_along else 1
    assert is_feasible(SHEET, items, found, 2)
    assert reach(items, found, axis) <= reach(items, places, axis) + 1e-9
