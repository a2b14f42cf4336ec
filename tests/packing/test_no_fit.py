"""No-fit polygons against overlap found by shapely."""

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Point, Polygon

from nesting.packing.attitude import Attitude
from nesting.packing.no_fit import NoFitStore
from nesting.packing.shapes import prepared
from tests.strategies import star_polygons

attitudes = st.builds(Attitude, st.sampled_from([0, 90, 180, 270, 3, 2.735, 177.3, 359.999]), st.booleans())
step = st.floats(-500, 500, allow_nan=False)


@given(star_polygons(), star_polygons(), attitudes, attitudes, step, step)
def test_a_move_is_forbidden_iff_the_shapes_overlap(
    one: Polygon, other: Polygon, angle: Attitude, turn: Attitude, x: float, y: float
) -> None:
    """A point is inside the no-fit polygon iff moving the shape there makes the two overlap."""
    region = NoFitStore().get(prepared(one, 1.5), angle, prepared(other, 1.5), turn)
    lying = angle.of(one)
    moved = affinity.translate(turn.of(other), x, y)
    assume(abs(region.boundary.distance(Point(x, y))) > 1e-4)
    assert region.contains(Point(x, y)) == (lying.intersection(moved).area > 0)


@given(star_polygons(), star_polygons(), attitudes, attitudes)
def test_what_is_remembered_equals_what_is_worked_out(
    one: Polygon, other: Polygon, angle: Attitude, turn: Attitude
) -> None:
    """Asked the other way round, the answer is the same turned by half a circle, remembered or not."""
    a, b = prepared(one, 1.5), prepared(other, 1.5)
    store = NoFitStore()
    store.get(a, angle, b, turn)
    assert store.get(b, turn, a, angle).equals_exact(NoFitStore().get(b, turn, a, angle), 1e-5) or store.get(
        b, turn, a, angle
    ).symmetric_difference(NoFitStore().get(b, turn, a, angle)).area == pytest.approx(0, abs=0.1)


def test_a_peg_may_lie_exactly_in_its_hole() -> None:
    """An exact fit is kept: the no-fit polygon of a frame leaves the one place where the peg fits."""
    frame = Polygon([(0, 0), (9, 0), (9, 9), (0, 9)], [[(3, 3), (6, 3), (6, 6), (3, 6)]])
    region = NoFitStore().get(prepared(frame, 1.5), Attitude(), prepared(shapely.box(0, 0, 3, 3), 1.5), Attitude())
    assert not region.contains(Point(3, 3))
    assert region.contains(Point(3.001, 3))
