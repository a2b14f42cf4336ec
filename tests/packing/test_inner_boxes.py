"""Boxes inside an outline: what overlaps them overlaps the outline."""

from itertools import combinations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import MultiPolygon, Polygon, box

from nesting.packing.inner_boxes import Grid, inner_boxes
from nesting.solving import Box
from tests.strategies import holed_polygons, rectangles, star_polygons

GRID = Grid(10)


def as_polygons(shape: Polygon | MultiPolygon, grid: Grid, most: int) -> list[Polygon]:
    """Return the boxes in millimetres."""
    return [
        box(b.x / grid.scale, b.y / grid.scale, b.right / grid.scale, b.top / grid.scale)
        for b in inner_boxes(shape, grid, most)
    ]


@given(st.one_of(star_polygons(), holed_polygons(), rectangles()), st.integers(1, 12))
def test_boxes_lie_in_the_shape_and_do_not_overlap(shape: Polygon, most: int) -> None:
    """And are no more than asked for."""
    boxes = as_polygons(shape, GRID, most)
    assert len(boxes) <= most
    assert all(shape.covers(one) for one in boxes)
    assert not any(one.intersection(other).area > 1e-9 for one, other in combinations(boxes, 2))


@given(st.integers(1, 500), st.integers(1, 500))
def test_a_rectangle_is_one_box_a_hair_smaller(width: int, height: int) -> None:
    """Equal neighbours are one; a figure that is whole on the grid loses a step at each end to rounding."""
    (one,) = inner_boxes(box(0, 0, width, height), GRID, 6)
    assert (one.x, one.y, one.right, one.top) == (1, 1, 10 * width - 1, 10 * height - 1)


def test_more_boxes_hold_more_of_a_curve() -> None:
    """Of a half circle of radius 100, with 48 of them over 95 %."""
    half = shapely.Point(0, 0).buffer(100, quad_segs=64).intersection(box(-100, 0, 100, 100))
    shares = [sum(one.area for one in as_polygons(half, GRID, most)) / half.area for most in (1, 3, 6, 12, 48)]
    assert shares == sorted(shares)
    assert shares[-1] > 0.95


def test_both_arms_of_a_fork_have_boxes() -> None:
    """Columns across them have two free stretches each."""
    fork = box(0, 0, 100, 100).difference(box(20, 40, 100, 60))
    covered = shapely.union_all(as_polygons(fork, GRID, 6)).area
    assert covered == pytest.approx(fork.area, rel=0.02)


def test_steps_may_be_longer_than_a_millimetre() -> None:
    """On a grid of ten millimetres a rectangle loses one step at each side."""
    assert inner_boxes(box(0, 0, 100, 50), Grid(0.1), 3) == (Box(1, 1, 8, 3),)


def test_what_is_smaller_than_a_step_has_no_box() -> None:
    """So nothing is claimed of it."""
    assert inner_boxes(box(0, 0, 0.05, 50), GRID, 6) == ()
