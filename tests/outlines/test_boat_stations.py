"""A panel's own stations beside the boat's."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.outlines import boat_station
from tests.strategies import tenths

ROWS = [(0, 150), (1000, 1140), (4200, 4400)]


def test_without_a_map_own_stations_are_the_boats() -> None:
    """No rows, no change."""
    assert boat_station(1234.5, ()) == 1234.5


@pytest.mark.parametrize(("own", "boat"), ROWS)
def test_rows_are_kept(own: float, boat: float) -> None:
    """Each row is met exactly."""
    assert boat_station(own, ROWS) == boat


@pytest.mark.parametrize(
    ("own", "boat"),
    [(500, 645), (2600, 2770), (-100, 51), (4300, 4501.875)],  # computed: 0.99 a mm, then 3260 / 3200 a mm
)
def test_between_and_beyond_rows_the_map_is_straight(own: float, boat: float) -> None:
    """Between rows, before the first (going on with its slope) and after the last."""
    assert boat_station(own, ROWS) == pytest.approx(boat)


@given(
    st.lists(st.tuples(tenths(1, 900), tenths(1, 900)), min_size=1, max_size=6), tenths(-500, 6000), tenths(0.1, 500)
)
def test_further_along_the_panel_is_further_along_the_boat(
    steps: list[tuple[float, float]], own: float, more: float
) -> None:
    """Rising rows give a rising map, so the order of joints is the same in both."""
    rows = [(0.0, 100.0)]
    for step, boat_step in steps:
        rows.append((rows[-1][0] + step, rows[-1][1] + boat_step))
    assert boat_station(own, rows) < boat_station(own + more, rows)
