"""Shapes mirrored and turned by any angle."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point

from nesting.packing.attitude import AS_DRAWN, Attitude, whole_turns_off

attitudes = st.builds(Attitude, st.integers(0, 359_999).map(lambda figure: figure / 1000), st.booleans())


@pytest.mark.parametrize("angle", [0, 90, 180, 270, 90.0, 180.0])
def test_quarter_turns_are_exact(angle: float) -> None:
    """No coordinate is off by a rounding, whether the angle is a whole number or a float."""
    bounds = Attitude(angle).of(shapely.box(0, 0, 0.3, 0.1)).bounds
    assert set(map(abs, bounds)) == {0.0, 0.1, 0.3}


def test_a_turn_by_degrees_is_anticlockwise_and_comes_after_mirroring() -> None:
    """30 degrees lift the end of a line of 2 to a height of 1; mirrored it was below before (computed)."""
    assert Attitude(30).of(Point(2, 0)).y == pytest.approx(1)
    assert Attitude(90, mirrored=True).of(Point(0, 1)).x == pytest.approx(1)


@given(attitudes, attitudes)
def test_seen_from_another_attitude_a_point_lies_where_it_was(one: Attitude, other: Attitude) -> None:
    """To lie so within the other, turned as that one is, is to lie as before."""
    point = Point(1234.5, -678.9)
    assert other.of(one.seen_from(other).of(point)).distance(one.of(point)) < 1e-9


@given(attitudes, st.integers(0, 359_999).map(lambda figure: figure / 1000))
def test_the_same_turn_by_different_sums_is_the_same_attitude(one: Attitude, further: float) -> None:
    """Two shapes turned together look the same from each other, so what is known of them serves again."""
    turned_on = Attitude(whole_turns_off(one.angle + further), one.mirrored)
    base = Attitude(further)
    assert turned_on.seen_from(base) == one.seen_from(AS_DRAWN)


def test_a_hair_below_nothing_is_no_whole_turn() -> None:
    """The remainder of a tiny negative angle would be 360 degrees."""
    assert whole_turns_off(-1e-15) == 0
