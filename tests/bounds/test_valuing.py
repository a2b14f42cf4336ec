"""Values of chords: the most that go abreast, and sums along a panel, against brute force."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from nesting.bounds.profile import profile_of
from nesting.bounds.valuing import Valuing
from tests.strategies import panel_corners

steps = st.lists(
    st.tuples(st.integers(100, 900), st.integers(0, 2000)), min_size=1, max_size=4, unique_by=lambda s: s[0]
)
slopes = st.sampled_from([0.0, 0.5, 1.0])


def valuing_of(given_steps: list[tuple[int, int]], slope: float) -> Valuing:
    """Return a valuing with these steps."""
    widths, values = zip(*sorted(given_steps), strict=True)
    return Valuing(slope, np.array(widths, dtype=float), np.array(values, dtype=float))


@settings(max_examples=60)
@given(steps, slopes, st.integers(100, 1500))
def test_no_widths_abreast_are_worth_more_than_the_knapsack_says(
    given_steps: list[tuple[int, int]], slope: float, height: int
) -> None:
    """Every choice of steps that goes within the height, the rest by slope."""
    valuing = valuing_of(given_steps, slope)
    most, counts, left = valuing.best_across(height)
    ranges = [range(int(height // width) + 1) for width in valuing.widths]
    choices = (np.array(choice) for choice in product(*ranges))
    fitting = [c for c in choices if c @ valuing.widths <= height]
    brute = max(float(c @ valuing.values) + slope * (height - float(c @ valuing.widths)) for c in fitting)
    assert most == pytest.approx(brute, abs=1e-6)
    assert most >= brute
    assert float(counts @ valuing.widths) + left == pytest.approx(height)


def test_values_never_fall_as_widths_grow() -> None:
    """A step of less value than a narrower one counts as that."""
    valuing = valuing_of([(100, 90), (200, 50)], 0.1)
    assert valuing.of(np.array([50.0, 100.0, 200.0, 1000.0])).tolist() == [5, 90, 90, 100]


@settings(max_examples=40)
@given(panel_corners(), steps, slopes, st.floats(0, 1))
def test_sums_along_a_panel_are_the_integral_of_values(
    edges: tuple[list[tuple[float, float]], list[tuple[float, float]]],
    given_steps: list[tuple[int, int]],
    slope: float,
    share: float,
) -> None:
    """Against ten thousand chords read one by one; never more than these by more than their own error."""
    profile = profile_of(Polygon([*edges[0], *edges[1][::-1]]))
    valuing = valuing_of(given_steps, slope)
    end = profile.start + share * (profile.end - profile.start)
    knots = np.linspace(profile.start, end, 10_001)
    middles = (knots[1:] + knots[:-1]) / 2
    k = np.clip(np.searchsorted(profile.corners, middles, side="right") - 1, 0, None)
    rise = (profile.last[k] - profile.first[k]) / np.diff(profile.corners)[k]
    chords = profile.first[k] + rise * (middles - profile.corners[k])
    brute = float(valuing.of(chords + 6).sum()) * (end - profile.start) / 10_000
    assert valuing.sums(profile, 6, np.array([end]))[0] == pytest.approx(brute, rel=2e-3, abs=50)
