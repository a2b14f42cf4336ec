"""Shapes are only ever simplified outwards."""

import math

import pytest
import shapely
from hypothesis import given
from shapely.geometry import Point, Polygon

from nesting.packing.growing import grown
from nesting.packing.shapes import prepared
from tests.strategies import panel_polygons, star_polygons


@given(panel_polygons())
def test_a_prepared_shape_holds_the_outline_within_the_same_box(panel: Polygon) -> None:
    """Nothing of the outline is lost, and a shape that fits a sheet's box still does."""
    fine = panel.segmentize(5.0)
    whole = shapely.union_all([Polygon(points) for points in prepared(fine, 1.5).pieces])
    assert whole.buffer(1e-5).covers(fine)
    assert whole.bounds == pytest.approx(fine.bounds, abs=1e-5)


def test_a_curve_becomes_a_few_chords_outside_it() -> None:
    """A circle of 500 points loses most of them and grows by less than twice the coarseness."""
    disc = Polygon([(300 * math.cos(k / 250 * math.pi), 300 * math.sin(k / 250 * math.pi)) for k in range(500)])
    whole = shapely.union_all([Polygon(points) for points in prepared(disc, 1.5).pieces])
    assert whole.covers(disc.buffer(-1e-5))
    assert len(whole.exterior.coords) < 80
    assert disc.buffer(2 * 1.5 + 0.1).covers(whole)


@given(star_polygons())
def test_a_grown_shape_holds_all_points_within_the_gap(shape: Polygon) -> None:
    """Also at very sharp corners, which are blunted."""
    assert grown(shape, 3.0).buffer(1e-6).covers(shape.buffer(3.0, quad_segs=32))


def test_a_grown_rectangle_is_a_rectangle() -> None:
    """Straight edges are exact, so that parts that fit exactly fit."""
    assert grown(shapely.box(0, 0, 100, 50), 1.5).equals(shapely.box(-1.5, -1.5, 101.5, 51.5))
    assert grown(Point(0, 0).buffer(1), 0) is not None
