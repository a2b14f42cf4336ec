"""The depth of overlap: compiled and as plain Python, against shapely."""

from collections.abc import Callable

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_geometry import overlap_area, ring, stars
from shapely import affinity
from shapely.geometry import Polygon

from nesting.compiling import interpreted
from nesting.packing import Gaps, Workshop
from nesting.packing import kernels as compiled
from nesting.packing.arrays import Around, Tables
from nesting.packing.attitude import AS_DRAWN
from nesting.packing.discs import DISCS
from nesting.packing.workshop import Option

#: What the kernels work in.
ROOM = Around.of(2, 1, DISCS)

moves = st.tuples(st.floats(-1.5, 1.5), st.floats(-1.5, 1.5))


def tables_of(one: Polygon, other: Polygon, workshop: Workshop | None = None) -> tuple[Tables, int, int]:
    """Return the tables of two parts as drawn, and the numbers of their looks."""
    workshop = workshop or Workshop()
    looks = [workshop.look(polygon, AS_DRAWN) for polygon in (one, other)]
    tables = workshop.tables([[Option(look)] for look in looks], [])
    return tables, int(tables.option_look[0]), int(tables.option_look[1])


@settings(max_examples=60, deadline=None)
@given(stars(), stars(), moves)
def test_depth_is_zero_just_where_shapely_finds_no_overlap(
    one: Polygon, other: Polygon, move: tuple[float, float]
) -> None:
    """Up to a sliver that is thinner than rounding."""
    tables, a, b = tables_of(one, other)
    rx, ry = (share * one.length / 4 for share in move)
    depth = compiled.depth_of(tables, a, b, rx, ry, compiled.NONE)
    shared = overlap_area(one, affinity.translate(other, rx, ry))
    size = max(one.length, other.length)
    assert (depth > 1e-7 * size) <= (shared > 0)
    assert (shared > 1e-7 * size**2) <= (depth > 0)


@settings(max_examples=60, deadline=None)
@given(stars(), stars(), moves)
def test_depth_is_the_same_seen_from_either_part(one: Polygon, other: Polygon, move: tuple[float, float]) -> None:
    """Exchanged and moved the other way."""
    tables, a, b = tables_of(one, other)
    rx, ry = (share * one.length / 4 for share in move)
    assert compiled.depth_of(tables, a, b, rx, ry, compiled.NONE) == compiled.depth_of(
        tables, b, a, -rx, -ry, compiled.NONE
    )


@settings(max_examples=40, deadline=None)
@given(stars(), moves)
def test_two_convex_parts_are_apart_when_moved_by_the_depth(polygon: Polygon, move: tuple[float, float]) -> None:
    """In one direction or another; tried every degree, where it may take a little more."""
    hull = polygon.convex_hull
    tables, a, b = tables_of(hull, hull)
    rx, ry = (share * hull.length / 8 for share in move)
    depth = compiled.depth_of(tables, a, b, rx, ry, compiled.NONE)
    if depth <= 1e-6 * hull.length:
        return
    turns = np.radians(np.arange(360))
    reached = [
        overlap_area(hull, affinity.translate(hull, rx + far * np.cos(t), ry + far * np.sin(t)))
        for far in (depth / np.cos(np.radians(0.5)) * (1 + 1e-9),)
        for t in turns
    ]
    assert min(reached) <= 1e-6 * hull.area + 1e-2 * depth * hull.length / 100


@pytest.mark.parametrize("form", [compiled.depth_of, interpreted(compiled.depth_of)], ids=["compiled", "python"])
def test_depth_of_two_squares_is_what_they_share_across(form: Callable[..., float]) -> None:
    """Two squares of 10 that overlap by 3 by 10 are 3 deep; touching they are not at all."""
    square = shapely.box(0, 0, 10, 10)
    tables, a, b = tables_of(square, square)
    assert form(tables, a, b, 7.0, 0.0, 1e300) == pytest.approx(3)
    assert form(tables, a, b, 10.0, 4.0, 1e300) == 0
    assert form(tables, a, b, 0.0, 0.0, 1e300) == pytest.approx(10)


def test_a_square_that_just_fits_a_ring_lies_there_without_depth() -> None:
    """An exact fit is not lost; one step aside it overlaps by that step."""
    tables, a, b = tables_of(ring(100, 40), shapely.box(-20, -20, 20, 20))
    assert compiled.depth_of(tables, a, b, 0.0, 0.0, compiled.NONE) <= 1e-6
    assert compiled.depth_of(tables, a, b, 0.5, 0.0, compiled.NONE) == pytest.approx(0.5, abs=1e-6)


def test_the_gap_between_parts_counts_as_part_of_them() -> None:
    """With a gap of 4, squares of 10 that are 3 apart lack 1."""
    square = shapely.box(0, 0, 10, 10)
    tables, a, b = tables_of(square, square, Workshop(Gaps(parts=4)))
    assert compiled.depth_of(tables, a, b, 13.0, 0.0, compiled.NONE) == pytest.approx(1)
    assert compiled.depth_of(tables, a, b, 14.0, 0.0, compiled.NONE) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("form", [compiled.loss_of, interpreted(compiled.loss_of)], ids=["compiled", "python"])
def test_the_loss_is_zero_just_where_the_depth_is_and_grows_inwards(form: Callable[..., float]) -> None:
    """The search can follow it out of an overlap."""
    square = shapely.box(0, 0, 10, 10)
    tables, a, b = tables_of(square, square)
    losses = [form(tables, ROOM, a, b, x, 0.0) for x in (10.5, 10.0, 9.99, 9.0, 6.0, 3.0)]
    assert losses[:2] == [0, 0]
    assert losses[1:] == sorted(losses[1:])
    assert losses[2] > 0


def test_a_grid_tells_about_the_loss() -> None:
    """Off by little, against the greatest loss of the pair."""
    one, other = ring(100, 40), shapely.box(-15, -15, 15, 15)
    tables, a, b = tables_of(one, other, Workshop(most_grids=10))
    chance = np.random.default_rng(0)
    places = chance.uniform(-60, 60, (200, 2))
    exact = np.array([compiled.loss_of(tables, ROOM, a, b, x, y) for x, y in places])
    rough = np.array([compiled.rough_loss(tables, ROOM, a, b, x, y) for x, y in places])
    assert np.abs(rough - exact).mean() <= 0.02 * exact.max()
    assert np.abs(rough - exact).max() <= 0.25 * exact.max()
