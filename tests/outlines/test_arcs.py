"""Arcs turned into chords."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.outlines import SAG, flatten


def test_straight_segments_stay_as_they_are() -> None:
    """A bulge of zero is a straight line."""
    assert flatten(((0, 0), (10, 0, 0.0), (10, 5))) == [(0, 0), (10, 0), (10, 5)]


def test_a_half_turn_bulges_to_the_right_of_its_direction() -> None:
    """Bulge 1 is a half circle, anticlockwise: from (0, 0) to (100, 0) it runs below the line."""
    points = flatten(((0, 0, 1.0), (100, 0), (100, 100)))
    assert points[0] == (0, 0)
    assert points[-2:] == [(100, 0), (100, 100)]
    arc = points[1:-2]
    assert min(y for _, y in arc) == pytest.approx(-50, abs=SAG)
    assert all(math.dist(point, (50, 0)) == pytest.approx(50, abs=1e-9) for point in arc)


@given(st.floats(0.02, 20), st.booleans(), st.floats(1, 3000), st.sampled_from([0.005, 0.05, 1]))
def test_chords_lie_within_the_sag_of_the_arc(bulge: float, clockwise: bool, chord: float, sag: float) -> None:
    """Every point lies on the circle, and no middle of a chord further than the sag from it."""
    signed = -bulge if clockwise else bulge
    points = flatten(((0, 0, signed), (chord, 0), (chord, 1)), sag)[:-1]
    # The rise of an arc is bulge x half its chord; from rise and chord follow radius and centre.
    rise = signed * chord / 2
    radius = (chord**2 / 4 + rise**2) / (2 * abs(rise))
    centre = (chord / 2, (radius - abs(rise)) * math.copysign(1, rise))
    assert points[-1] == (chord, 0)
    for start, end in pairwise(points):
        assert math.dist(start, centre) == pytest.approx(radius, rel=1e-6)
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        assert radius - math.dist(middle, centre) <= sag * (1 + 1e-6) + 1e-9


def test_a_smaller_sag_takes_more_points() -> None:
    """Ten times nearer, about the root of ten times more."""
    arc = ((0, 0, 1.0), (100, 0, 1.0))
    counts = [len(flatten(arc, sag)) for sag in (0.5, 0.05, 0.005)]
    assert counts[0] < counts[1] < counts[2]


def test_an_arc_that_is_all_but_straight_is_straight() -> None:
    """Drawing programs write bulges such as 1e-14 where a line is meant."""
    assert flatten(((0, 0, 1e-14), (1000, 0), (1000, 500))) == [(0, 0), (1000, 0), (1000, 500)]
