"""Polygons parted into convex pieces."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from nesting.packing.convex import convex_pieces
from tests.strategies import holed_polygons, panel_polygons, star_polygons


@given(st.one_of(star_polygons(), panel_polygons(), holed_polygons()))
def test_pieces_are_convex_and_cover_the_polygon_once(shape: Polygon) -> None:
    """Their areas add up to the polygon's, and so does their union."""
    pieces = [Polygon(points) for points in convex_pieces(shape)]
    assert sum(piece.area for piece in pieces) == pytest.approx(shape.area, rel=1e-9)
    assert shapely.union_all(pieces).symmetric_difference(shape).area <= 1e-6 * shape.area
    assert all(piece.convex_hull.area == pytest.approx(piece.area, rel=1e-6) for piece in pieces)


def test_a_convex_polygon_is_one_piece() -> None:
    """Nothing is parted that need not be."""
    assert len(convex_pieces(shapely.box(0, 0, 30, 10))) == 1


def test_a_ring_leaves_its_hole_open() -> None:
    """No piece reaches into the hole."""
    ring = Polygon([(0, 0), (9, 0), (9, 9), (0, 9)], [[(3, 3), (6, 3), (6, 6), (3, 6)]])
    hole = shapely.box(3, 3, 6, 6)
    assert all(Polygon(points).intersection(hole).area < 1e-9 for points in convex_pieces(ring))


@given(star_polygons())
def test_pieces_run_anticlockwise(shape: Polygon) -> None:
    """Sums of pieces rely on the same sense of turning."""
    for points in convex_pieces(shape):
        x, y = points[:, 0], points[:, 1]
        assert np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)) > 0
