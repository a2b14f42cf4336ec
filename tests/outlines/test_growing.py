"""Growing by half a kerf, from outside and from inside."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from nesting.outlines import grown_inside, grown_outside, shrunk
from tests.strategies import holed_polygons, panel_polygons, rectangles, star_polygons

SHAPES = st.one_of(star_polygons(), panel_polygons(), holed_polygons())
BY = st.sampled_from([0.1, 0.5, 1.0, 1.59, 3.0, 20.0])

#: Far below the tolerance of 0.001 mm; float arithmetic on these figures errs by about 1e-12.
CLOSE = 1e-6


def _around(shape: Polygon, by: float) -> list[shapely.Point]:
    """Return points exactly ``by`` away from places on the edge, in many directions: the edge of the round growth."""
    places = shapely.get_coordinates(shape.segmentize(max(5.0, shape.length / 100)))
    turns = np.linspace(0, 2 * math.pi, 24, endpoint=False) + 0.1
    offsets = by * np.column_stack((np.cos(turns), np.sin(turns)))
    return list(shapely.points((places[:, None, :] + offsets[None, :, :]).reshape(-1, 2)))


@given(SHAPES, BY)
def test_grown_from_outside_holds_all_points_within_reach(shape: Polygon, by: float) -> None:
    """Every point within ``by`` of the shape is held, also beside sharp corners and inside holes."""
    grown = grown_outside(shape, by)
    assert grown.is_valid
    assert shapely.distance(_around(shape, by), grown).max() <= CLOSE


@given(SHAPES, BY)
def test_grown_from_outside_is_blunted_at_sharp_corners(shape: Polygon, by: float) -> None:
    """No corner runs off further than twice ``by``: the mitre's limit."""
    corners = shapely.points(shapely.get_coordinates(grown_outside(shape, by)))
    # The ends of a blunted mitre stand a little further out than its middle, at most by the factor sqrt(5) / 2.
    assert shapely.distance(corners, shape).max() <= by * math.sqrt(5) + CLOSE


@given(SHAPES, BY)
def test_grown_from_inside_never_reaches_too_far(shape: Polygon, by: float) -> None:
    """Every corner is at most ``by`` away, so its area is a lower bound; and it still holds the shape itself."""
    grown = grown_inside(shape, by)
    assert shapely.distance(shapely.points(shapely.get_coordinates(grown)), shape).max() <= by + 1e-9
    assert shape.difference(grown).area <= CLOSE


@given(SHAPES, BY)
def test_the_inside_growth_is_no_larger_than_the_outside_growth(shape: Polygon, by: float) -> None:
    """What is a lower bound stays below what is an upper one."""
    assert shape.area <= grown_inside(shape, by).area <= grown_outside(shape, by).area + CLOSE


@given(rectangles(), BY)
def test_a_rectangle_grows_exactly(shape: Polygon, by: float) -> None:
    """Straight edges and square corners: a rectangle larger by twice the half kerf each way."""
    _, _, length, width = shape.bounds
    assert grown_outside(shape, by).equals_exact(
        box(-by, -by, length + by, width + by).normalize(), 1e-9, normalize=True
    )


def test_a_rectangle_grown_from_inside_lacks_only_its_corners() -> None:
    """Area, edges and nearly a full circle: 300 x 200 by 2."""
    area = grown_inside(box(0, 0, 300, 200), 2).area
    assert 300 * 200 + 2 * 1000 + 0.99 * math.pi * 4 <= area <= 300 * 200 + 2 * 1000 + math.pi * 4


@given(SHAPES, SHAPES, st.floats(-700, 700), st.floats(-700, 700), BY)
def test_shapes_whose_growths_keep_apart_are_a_kerf_apart(
    one: Polygon, other: Polygon, x: float, y: float, half_kerf: float
) -> None:
    """What growing is for."""
    there = shapely.affinity.translate(other, x, y)
    if not grown_outside(one, half_kerf).intersects(grown_outside(there, half_kerf)):
        assert one.distance(there) >= 2 * half_kerf - CLOSE


@given(SHAPES)
def test_growing_or_shrinking_by_nothing_changes_nothing(shape: Polygon) -> None:
    """Laser cutters have next to no kerf."""
    assert [grow(shape, 0) for grow in (grown_outside, grown_inside, shrunk)] == [shape] * 3


def test_a_trimmed_sheet_is_smaller_by_twice_the_trim() -> None:
    """2440 x 1220 less 10 all round (common practice) leaves 2420 x 1200."""
    assert shrunk(box(0, 0, 2440, 1220), 10).bounds == (10, 10, 2430, 1210)
    assert shrunk(box(0, 0, 2440, 1220), 10).area == pytest.approx(2420 * 1200)


@given(SHAPES, BY)
def test_what_is_left_after_trimming_keeps_off_the_edge(shape: Polygon, by: float) -> None:
    """Every corner of the rest is at least the trim away from every edge, and inside."""
    rest = shrunk(shape, by)
    if not rest.is_empty:
        corners = shapely.points(shapely.get_coordinates(rest))
        assert shapely.distance(corners, shape.boundary).min() >= by - 1e-5
        assert rest.difference(shape).area <= CLOSE


def test_trimming_more_than_there_is_leaves_nothing() -> None:
    """A strip narrower than both trims."""
    assert shrunk(box(0, 0, 2440, 18), 10).is_empty
