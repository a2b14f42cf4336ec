"""Chords of a panel are exact: their sum is its area, and the least is what it is by geometry."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from nesting.bounds.profile import Profile, profile_of
from nesting.bounds.valuing import Valuing
from nesting.joints import between, least_chord
from tests.strategies import panel_corners


def least(profile: Profile, start: float, end: float) -> float:
    """Return the least chord over one stretch."""
    return float(profile.least(np.array([start]), np.array([end]))[0])


def test_a_step_is_told_from_both_sides() -> None:
    """100 wide to station 50, 40 from there on."""
    profile = profile_of(Polygon([(0, 0), (80, 0), (80, 40), (50, 40), (50, 100), (0, 100)]))
    assert least(profile, 0, 49.9) == 100
    assert least(profile, 0, 50) == 40
    assert least(profile, 50, 80) == 40


def test_a_hole_is_taken_off() -> None:
    """A hole of 20 by 30."""
    profile = profile_of(Polygon(box(0, 0, 100, 60).exterior, [box(40, 10, 60, 40).exterior]))
    assert least(profile, 41, 59) == 30
    assert least(profile, 61, 90) == 60


def test_beyond_the_panel_there_is_nothing() -> None:
    """The least over a stretch that leaves the panel is nought."""
    assert least(profile_of(box(0, 0, 100, 60)), 50, 101) == 0


@settings(max_examples=50)
@given(panel_corners(), st.floats(0, 1), st.floats(0, 1))
def test_chords_agree_with_geometry(
    edges: tuple[list[tuple[float, float]], list[tuple[float, float]]], one: float, other: float
) -> None:
    """Area between two stations and least chord there, against shapely."""
    shape = Polygon([*edges[0], *edges[1][::-1]])
    profile = profile_of(shape)
    west, _, east, _ = shape.bounds
    start, end = sorted((west + one * (east - west), west + other * (east - west)))
    low, high = Valuing().sums(profile, 0, np.array([start, end]))
    assert high - low == pytest.approx(between(shape, start, end).area, rel=1e-9, abs=1e-4)
    assert least(profile, start, end) == pytest.approx(least_chord(shape, start, end), abs=1e-3)
