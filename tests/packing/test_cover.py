import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from plain_geometry import ring, stars
from shapely.geometry import Point, Polygon

from nesting.packing.cover import convex_cover


@settings(max_examples=40, deadline=None)
@given(stars())
def test_the_pieces_together_are_the_polygon(polygon: Polygon) -> None:
    """Nothing is lost and nothing added, to a billionth of the area."""
    together = shapely.union_all([Polygon(piece) for piece in convex_cover(polygon)])
    assert together.symmetric_difference(polygon).area <= 1e-9 * polygon.area


@settings(max_examples=40, deadline=None)
@given(stars())
def test_every_piece_is_convex_and_runs_anticlockwise(polygon: Polygon) -> None:
    """Half-planes are made from its sides as they run."""
    for piece in convex_cover(polygon):
        sides = np.roll(piece, -1, axis=0) - piece
        following = np.roll(sides, -1, axis=0)
        turns = sides[:, 0] * following[:, 1] - sides[:, 1] * following[:, 0]
        assert turns.min() >= -1e-9 * np.abs(sides).max() ** 2


def test_the_hole_of_a_ring_stays_open() -> None:
    """Parts may lie in it."""
    pieces = [Polygon(piece) for piece in convex_cover(ring(100, 40))]
    assert sum(piece.intersection(shapely.box(-20, -20, 20, 20)).area for piece in pieces) == pytest.approx(0, abs=1e-4)


def test_pieces_reach_over_one_another() -> None:
    """An L is two bars that share the corner, so that nothing can slip in at a shallow depth there."""
    bars = convex_cover(Polygon([(0, 0), (30, 0), (30, 10), (10, 10), (10, 30), (0, 30)]))
    assert sorted(round(Polygon(bar).area) for bar in bars) == [300, 300]


def test_a_disc_is_one_piece() -> None:
    """A convex outline with many corners is not taken apart."""
    assert len(convex_cover(Point(3, 4).buffer(50, quad_segs=32))) == 1


@settings(max_examples=20, deadline=None)
@given(stars())
def test_no_piece_could_be_larger_by_a_corner(polygon: Polygon) -> None:
    """Each has taken in all corners of the polygon that it can without reaching over the edge."""
    room = polygon.buffer(1e-10 * max(np.ptp(shapely.get_coordinates(polygon), axis=0)), join_style="mitre")
    for piece in convex_cover(polygon):
        for corner in shapely.get_coordinates(polygon):
            wider = shapely.MultiPoint([*piece, corner]).convex_hull
            assert wider.area <= Polygon(piece).area * (1 + 1e-9) or not room.covers(wider)
