"""Discs inside polygons, against shapely."""

import pytest
from hypothesis import given, settings
from plain_geometry import ring, stars
from shapely.geometry import Point, Polygon

from nesting.packing.discs import DISCS, inner_discs


@settings(max_examples=25, deadline=None)
@given(stars())
def test_each_disc_lies_within_the_polygon_and_reaches_its_edge_or_an_earlier_disc(polygon: Polygon) -> None:
    """As far as can be from the edge and from the discs before it, by shapely."""
    x, y, radius = inner_discs(polygon)
    for k in range(DISCS):
        centre = Point(x[k], y[k])
        if radius[k] == 0:
            continue
        to_edge = polygon.boundary.distance(centre)
        to_discs = [centre.distance(Point(x[j], y[j])) - radius[j] for j in range(k)]
        assert polygon.covers(centre)
        assert radius[k] == pytest.approx(min([to_edge, *to_discs]), rel=1e-9)


def test_the_first_disc_of_a_disc_is_itself_and_no_disc_lies_in_the_hole_of_a_ring() -> None:
    """To a step of the grid of centres."""
    x, y, radius = inner_discs(Point(7, 3).buffer(50, quad_segs=32))
    assert (x[0], y[0], radius[0]) == pytest.approx((7, 3, 50), abs=2)
    x, y, radius = inner_discs(ring(100, 40))
    assert all(not Point(x[k], y[k]).buffer(0.999 * radius[k]).intersects(Point(0, 0)) for k in range(DISCS))
