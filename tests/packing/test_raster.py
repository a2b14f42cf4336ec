"""Filling on a grid is rough, but never wrong."""

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Point, Polygon

from nesting.effort import Budget, Effort
from nesting.packing import Container, Gaps, Item, Placement, is_feasible
from nesting.packing.raster import fill_roughly

STAR = Polygon([(0, 0), (30, 10), (60, 0), (50, 30), (60, 60), (30, 50), (0, 60), (10, 30)])


def rough(container: Container, items: list[Item], gaps: Gaps) -> tuple[Placement, ...]:
    """Fill, largest first."""
    order = sorted(range(len(items)), key=lambda k: -items[k].polygon.area)
    return fill_roughly(container, items, gaps, order, Effort(Budget()))


@given(
    st.lists(st.tuples(st.floats(0.2, 1.5), st.floats(0, 360)), min_size=1, max_size=12),
    st.floats(0, 9),
    st.floats(0, 9),
    st.floats(0, 9),
)
@settings(max_examples=30)
def test_what_is_laid_keeps_its_gaps(
    sizes: list[tuple[float, float]], parts: float, faults: float, edge: float
) -> None:
    """Between parts, to faults, and to the edge of any outline."""
    outline = Polygon([(0, 0), (400, 0), (400, 150), (200, 250), (0, 250)])
    fault = Point(150, 100).buffer(20)
    items = [Item(affinity.scale(STAR, size, size), (angle,)) for size, angle in sizes]
    placements = rough(Container(outline, (fault,)), items, Gaps(parts=parts, faults=faults, edge=edge))
    kept = Container(outline.buffer(-edge, join_style="mitre"), (fault.buffer(faults),))
    assert is_feasible(kept, items, placements, parts)


def test_rectangles_of_the_room_s_height_fill_it_but_for_a_cell_each() -> None:
    """Nothing is lost along the edge."""
    items = [Item(shapely.box(0, 0, 45, 100))] * 5
    assert len(rough(Container(shapely.box(0, 0, 200, 100)), items, Gaps())) == 4


def test_one_after_another_they_lie_as_far_left_as_there_is_room() -> None:
    """The first at the edge."""
    (first, *_) = rough(Container(shapely.box(0, 0, 200, 100)), [Item(shapely.box(0, 0, 50, 50))] * 3, Gaps())
    assert (first.x, first.y) == (0, 0)


def test_it_ends_when_asked_to() -> None:
    """Nothing more is laid then."""
    effort = Effort(Budget())
    effort.stop()
    room, items = Container(shapely.box(0, 0, 200, 100)), [Item(shapely.box(0, 0, 50, 50))] * 3
    assert fill_roughly(room, items, Gaps(), range(3), effort) == ()
