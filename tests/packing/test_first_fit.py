"""The first packing routine: what it places is feasible, and exact fits are found."""

from collections.abc import Sequence

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from nesting.effort import Budget, Effort
from nesting.packing import Container, Item, Placement, Placer, Preference, is_feasible
from nesting.packing.verifying import laid
from tests.strategies import panel_polygons, rectangles, star_polygons


def fill(container: Container, items: Sequence[Item], gap: float = 0.0) -> tuple[Placement, ...]:
    """Fill one container with a fresh placer."""
    return Placer(gap, Effort(Budget())).fill(container, items)


shapes = st.one_of(star_polygons(), panel_polygons(), rectangles(most=900))


@given(st.lists(shapes, min_size=1, max_size=6), st.sampled_from([0.0, 2.0, 6.0]), st.integers(0, 3))
def test_every_layout_is_feasible(polygons: list[Polygon], gap: float, notch: int) -> None:
    """On a sheet with a fault and a notch in its outline, whatever the parts."""
    outline = [(0, 0), (2000, 0), (2000, 900), (1500, 900), (1400 - 100 * notch, 1000), (0, 1000)]
    container = Container(Polygon(outline), (Point(500, 300).buffer(60),))
    items = [Item(polygon, (0, 90, 180, 270)) for polygon in polygons]
    placements = fill(container, items, gap)
    assert is_feasible(container, items, placements, gap)
    assert len({placement.item for placement in placements}) == len(placements)


@given(shapes)
def test_what_fits_alone_is_placed(polygon: Polygon) -> None:
    """A part whose box is no larger than the empty sheet always finds a place."""
    container = Container(shapely.box(0, 0, 7000, 1000))
    assert len(fill(container, [Item(polygon)], gap=3.0)) == 1


def test_parts_that_fill_a_sheet_exactly_find_their_places() -> None:
    """Four quarters of a sheet with saw cuts of 3 between them: 2 x 1218.5 + 3 = 2440."""
    container = Container(shapely.box(0, 0, 2440, 1220))
    quarter = shapely.box(0, 0, 1218.5, 608.5)
    assert len(fill(container, [Item(quarter)] * 5, gap=3.0)) == 4


def test_two_equal_right_triangles_make_a_rectangle_by_a_half_turn() -> None:
    """No mirroring is needed (from memory: a fact of plane geometry)."""
    triangle = Polygon([(0, 0), (60, 0), (0, 40)])
    container = Container(shapely.box(0, 0, 60, 40))
    assert len(fill(container, [Item(triangle, (0, 180))] * 2)) == 2


def test_a_part_may_lie_in_the_hole_of_another() -> None:
    """A frame's opening is not lost."""
    frame = Polygon([(0, 0), (100, 0), (100, 100), (0, 100)], [[(20, 20), (80, 20), (80, 80), (20, 80)]])
    container = Container(shapely.box(0, 0, 100, 100))
    assert len(fill(container, [Item(frame), Item(shapely.box(0, 0, 50, 50))], gap=3.0)) == 2


def test_parts_lie_low_or_to_the_left_as_preferred() -> None:
    """The preference decides between standing on the first part and lying beside it."""
    container = Container(shapely.box(0, 0, 100, 100))
    items = [Item(shapely.box(0, 0, 40, 40))] * 2
    low = Placer(0, Effort(Budget())).fill(container, items, Preference(x=0.01, y=1))[1]
    left = Placer(0, Effort(Budget())).fill(container, items, Preference(x=1, y=0.01))[1]
    assert (low.x, low.y) == pytest.approx((40, 0), abs=1e-5)
    assert (left.x, left.y) == pytest.approx((0, 40), abs=1e-5)


def test_work_is_counted_per_angle_tried() -> None:
    """Two items at two angles are eight units."""
    effort = Effort(Budget())
    Placer(0, effort).fill(Container(shapely.box(0, 0, 100, 100)), [Item(shapely.box(0, 0, 9, 5), (0, 90))] * 2)
    assert effort.spent == 8


@pytest.mark.parametrize(("x", "y", "fine"), [(50, 0, True), (49.9, 0, False), (102, 0, True), (103.1, 0, False)])
def test_feasibility_is_judged_by_gap_and_edge(x: float, y: float, fine: bool) -> None:
    """A gap of 2 between two parts 48 wide on a sheet 150 wide."""
    container = Container(shapely.box(0, 0, 150, 50))
    items = [Item(shapely.box(0, 0, 48, 48))] * 2
    assert is_feasible(container, items, [Placement(0, 0, 0, 0), Placement(1, 0, x, y)], gap=2.0) is fine


def test_feasibility_sees_faults_and_overlap_without_a_gap() -> None:
    """Touching is allowed where no gap is asked for; overlapping and lying on a fault are not."""
    container = Container(shapely.box(0, 0, 150, 50), (shapely.box(100, 0, 110, 50),))
    items = [Item(shapely.box(0, 0, 50, 50))] * 2
    assert is_feasible(container, items, [Placement(0, 0, 0, 0), Placement(1, 0, 50, 0)], gap=0.0)
    assert not is_feasible(container, items, [Placement(0, 0, 0, 0), Placement(1, 0, 49, 0)], gap=0.0)
    assert not is_feasible(container, items, [Placement(0, 0, 60, 0)], gap=0.0)
    assert laid(items, Placement(0, 0, 5, 0)).bounds == (5, 0, 55, 50)
