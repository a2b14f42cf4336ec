"""Mirrored, turned, moved."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LinearRing, Point, Polygon

from nesting.outlines import moved, ring_points, turned
from tests.strategies import holed_polygons, star_polygons

QUARTERS = st.sampled_from([0, 90, 180, 270])
FIGURES = st.floats(-5000, 5000)


@given(FIGURES, FIGURES)
def test_quarter_turns_are_exact(x: float, y: float) -> None:
    """Not one bit is lost: cosines of quarter turns are whole numbers."""
    found = [turned(Point(x, y), angle).coords[0] for angle in (0, 90, 180, 270)]
    assert found == [(x, y), (-y, x), (-x, -y), (y, -x)]


@given(FIGURES, FIGURES)
def test_mirroring_comes_before_turning(x: float, y: float) -> None:
    """About the x axis first, then anticlockwise."""
    found = [turned(Point(x, y), angle, mirrored=True).coords[0] for angle in (0, 90, 180, 270)]
    assert found == [(x, -y), (y, x), (-x, y), (-y, -x)]


@given(holed_polygons(), QUARTERS, st.booleans(), FIGURES, FIGURES)
def test_placing_keeps_the_shape(shape: Polygon, angle: int, mirrored: bool, x: float, y: float) -> None:
    """Area, edge and holes stay; the box turns with it."""
    placed = moved(turned(shape, angle, mirrored=mirrored), x, y)
    assert placed.area == pytest.approx(shape.area, rel=1e-9)
    assert placed.length == pytest.approx(shape.length, rel=1e-9)
    assert len(placed.interiors) == len(shape.interiors)
    west, south, east, north = placed.bounds
    low_x, low_y, high_x, high_y = shape.bounds
    sides = (high_x - low_x, high_y - low_y)
    assert (east - west, north - south) == pytest.approx(sides if angle % 180 == 0 else sides[::-1], abs=1e-9)


@given(star_polygons(), QUARTERS, QUARTERS, st.booleans())
def test_turns_add_up(shape: Polygon, one: int, other: int, mirrored: bool) -> None:
    """Two turns are one turn by their sum; angles beyond a full turn begin anew."""
    twice = turned(turned(shape, one, mirrored=mirrored), other)
    assert twice.equals_exact(turned(shape, one + other, mirrored=mirrored), 0)


@given(star_polygons(), QUARTERS)
def test_mirroring_twice_is_not_mirroring(shape: Polygon, angle: int) -> None:
    """A mirrored shape turned is its own way back."""
    assert turned(turned(shape, angle, mirrored=True), angle, mirrored=True).equals_exact(shape, 0)


@given(star_polygons(), st.integers(-900, 900), st.integers(-900, 900))
def test_moving_there_and_back(shape: Polygon, x: int, y: int) -> None:
    """By (x, y) and back again."""
    assert moved(moved(shape, x, y), -x, -y).equals_exact(shape, 1e-9)
    assert moved(shape, x, y).bounds == pytest.approx(
        [bound + step for bound, step in zip(shape.bounds, (x, y, x, y), strict=True)]
    )


def test_a_rings_points_do_not_repeat_the_first() -> None:
    """As outlines are given."""
    assert ring_points(LinearRing([(0, 0), (10, 0), (10, 5)])) == ((0, 0), (10, 0), (10, 5))
