"""Items that may be turned freely, or within a range, are tried at angles of use."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Polygon

from nesting.effort import Budget, Effort
from nesting.packing import Container, Item, Workshop, every_turn, fill, pack_strip, turns_within


@given(st.floats(-400, 400), st.floats(0, 300))
def test_angles_lie_within_the_range_and_hold_its_ends(low: float, wide: float) -> None:
    """As turns from 0 to below 360 degrees."""
    angles = turns_within(shapely.box(0, 0, 30, 10), low, low + wide)
    beyond = [(angle - low) % 360 for angle in angles]
    assert all(0 <= angle < 360 for angle in angles)
    assert all(turn <= wide + 1e-6 or turn >= 360 - 1e-6 for turn in beyond)
    assert min(min(turn, 360 - turn) for turn in beyond) < 1e-6


@given(st.floats(1, 89))
def test_a_slanted_rectangle_is_tried_along_the_container(slant: float) -> None:
    """Its box is then least."""
    slanted = affinity.rotate(shapely.box(0, 0, 30, 10), slant, origin=(0, 0))
    boxes = [Item(slanted).attitude(angle).of(slanted).envelope.area for angle in every_turn(slanted)]
    assert min(boxes) == pytest.approx(300)


def test_what_is_longer_than_the_container_lies_across_its_corners() -> None:
    """110 x 10 in a square of 100, whose diagonal is 141."""
    rod, room = shapely.box(0, 0, 110, 10), Container(shapely.box(0, 0, 100, 100))
    assert fill(Workshop(), room, [Item(rod, every_turn(rod))], Effort(Budget(work=200))).complete
    assert not fill(Workshop(), room, [Item(rod, (0.0, 90.0))], Effort(Budget(work=200))).complete


def test_a_strip_is_shorter_where_items_may_be_turned_freely() -> None:
    """Two right triangles make the rectangle that each is half of, which is turned out of true."""
    triangle = affinity.rotate(Polygon([(0, 0), (40, 0), (0, 100)]), 20, origin=(0, 0))
    (*_, free) = pack_strip(Workshop(), [Item(triangle, every_turn(triangle))] * 2, 100, Effort(Budget(work=3000)))
    assert free.length == pytest.approx(40, abs=1e-3)


@pytest.mark.parametrize("turns", [(1, 0, 15), (0, math.inf, 15), (0, 10, 0)])
def test_a_range_without_angles_is_refused(turns: tuple[float, float, float]) -> None:
    """Upside down, endless, or without a step."""
    with pytest.raises(ValueError, match="there are no angles"):
        turns_within(shapely.box(0, 0, 1, 1), *turns)
