"""Placing shapes at odd angles."""

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from nesting.effort import Budget, Effort
from nesting.packing import Container, Item, Placement, Placer, is_feasible
from nesting.packing.verifying import laid
from tests.strategies import panel_polygons, rectangles, star_polygons

shapes = st.one_of(star_polygons(), panel_polygons(), rectangles(most=900))
odd = st.lists(st.floats(0, 359.9, allow_nan=False), min_size=1, max_size=3).map(tuple)


@settings(max_examples=40)
@given(st.lists(st.tuples(shapes, odd, st.booleans()), min_size=1, max_size=5), st.sampled_from([0.0, 3.0]))
def test_every_layout_at_odd_angles_is_feasible(
    asked: list[tuple[Polygon, tuple[float, ...], bool]], gap: float
) -> None:
    """On a sheet with a fault and a bevelled corner, whatever the parts, their angles and hands."""
    container = Container(
        Polygon([(0, 0), (2500, 0), (2500, 800), (2300, 1000), (0, 1000)]), (Point(900, 300).buffer(60),)
    )
    items = [Item(polygon, angles, mirrored) for polygon, angles, mirrored in asked]
    placements = Placer(gap, Effort(Budget())).fill(container, items)
    assert is_feasible(container, items, placements, gap)
    assert all(placement.angle in items[placement.item].angles for placement in placements)


@given(shapes, st.floats(0, 359.9, allow_nan=False))
def test_what_fits_alone_at_an_odd_angle_is_placed(polygon: Polygon, angle: float) -> None:
    """A part whose box as it is turned is exactly that of the empty sheet finds its place."""
    west, south, east, north = laid([Item(polygon, (angle,))], Placement(0, angle, 0, 0)).bounds
    container = Container(shapely.box(0, 0, east - west, north - south))
    assert len(Placer(3.0, Effort(Budget())).fill(container, [Item(polygon, (angle,))])) == 1


def test_a_strip_too_long_for_a_sheet_fits_three_degrees_off() -> None:
    """2422 x 20 on 2420: 2422 x cos 3 + 20 x sin 3 = 2419.7 (computed)."""
    container = Container(shapely.box(0, 0, 2420, 1200))
    strip = shapely.box(0, 0, 2422, 20)
    assert Placer(3.0, Effort(Budget())).fill(container, [Item(strip)]) == ()
    (placement,) = Placer(3.0, Effort(Budget())).fill(container, [Item(strip, (0, 3))])
    assert placement.angle == 3


def test_leaning_strips_lie_a_gap_apart_and_no_more() -> None:
    """Five strips 20 wide, 3 degrees off: 3 between each two, so each 23 / cos 3 above the last (computed)."""
    container = Container(shapely.box(0, 0, 2420, 126.8 + 20 + 4 * 23.04))
    items = [Item(shapely.box(0, 0, 2422, 20), (3,))] * 5
    placements = Placer(3.0, Effort(Budget())).fill(container, items)
    assert len(placements) == 5
    assert is_feasible(container, items, placements, 3.0)
