"""The batten against a natural cubic spline solved another way."""

from bisect import bisect_right
from itertools import accumulate, pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.outlines.batten import batten, curvatures, sampled
from tests.strategies import tenths

Curve = tuple[list[float], list[float]]


@st.composite
def nails(draw: st.DrawFn) -> Curve:
    """Return rising stations and their offsets."""
    steps = draw(st.lists(tenths(50, 500), min_size=1, max_size=9))
    stations = list(accumulate(steps, initial=draw(tenths(-100, 100))))
    return stations, [draw(tenths(-150, 150)) for _ in stations]


def _natural_spline(xs: list[float], ys: list[float], at: float) -> float:
    """Evaluate by polynomial pieces in powers of x - x[i], their c solved by Thomas' elimination.

    Burden and Faires, "Numerical Analysis", natural cubic spline (from memory).
    """
    count = len(xs) - 1
    step = [after - before for before, after in pairwise(xs)]
    ratio, carry = [0.0], [0.0]
    for i in range(1, count):
        pivot = 2 * (xs[i + 1] - xs[i - 1]) - step[i - 1] * ratio[i - 1]
        bend = 3 * (ys[i + 1] - ys[i]) / step[i] - 3 * (ys[i] - ys[i - 1]) / step[i - 1]
        ratio.append(step[i] / pivot)
        carry.append((bend - step[i - 1] * carry[i - 1]) / pivot)
    c = [0.0] * (count + 1)
    for i in range(count - 1, -1, -1):
        c[i] = carry[i] - ratio[i] * c[i + 1]
    i = min(max(bisect_right(xs, at) - 1, 0), count - 1)
    b = (ys[i + 1] - ys[i]) / step[i] - step[i] * (c[i + 1] + 2 * c[i]) / 3
    d = (c[i + 1] - c[i]) / (3 * step[i])
    run = at - xs[i]
    return ys[i] + b * run + c[i] * run**2 + d * run**3


@given(nails(), st.lists(st.floats(0, 1), min_size=1, max_size=10))
def test_a_batten_is_the_natural_cubic_spline(curve: Curve, shares: list[float]) -> None:
    """Against the other way of solving it."""
    xs, ys = curve
    at = [xs[0] + share * (xs[-1] - xs[0]) for share in shares]
    expected = [_natural_spline(xs, ys, station) for station in at]
    assert batten(np.array(xs), np.array(ys), np.array(at)) == pytest.approx(expected, abs=1e-6)


def test_three_nails_by_hand() -> None:
    """Computed: nails (0, 0), (1, 1), (2, 0) bend by -3 in the middle; half way up the batten stands at 0.6875."""
    xs, ys = np.array([0.0, 1.0, 2.0]), np.array([0.0, 1.0, 0.0])
    assert curvatures(xs, ys) == pytest.approx([0, -3, 0])
    assert batten(xs, ys, np.array([0.5, 1.5])) == pytest.approx([0.6875, 0.6875])


@given(nails())
def test_a_batten_passes_through_its_nails_with_free_ends(curve: Curve) -> None:
    """No moment at the ends."""
    xs, ys = np.array(curve[0]), np.array(curve[1])
    assert batten(xs, ys, xs) == pytest.approx(ys, abs=1e-9)
    assert curvatures(xs, ys)[[0, -1]] == pytest.approx([0, 0])


@given(nails(), st.floats(-0.5, 0.5), st.floats(-200, 200))
def test_nails_in_one_line_leave_the_batten_straight(curve: Curve, slope: float, height: float) -> None:
    """However the nails are spaced."""
    xs = np.array(curve[0])
    at = np.linspace(xs[0], xs[-1], 33)
    assert batten(xs, slope * xs + height, at) == pytest.approx(slope * at + height, abs=1e-8)
    assert len(sampled(xs, 0 * xs, 0.05)) == len(xs)


@given(nails(), st.sampled_from([0.01, 0.05, 0.5]))
def test_chords_stay_within_the_sag(curve: Curve, sag: float) -> None:
    """Measured between the points, against the other spline; every nail is one of the points."""
    xs, ys = curve
    points = sampled(np.array(xs), np.array(ys), sag)
    assert set(xs) <= set(points[:, 0])
    at = np.linspace(xs[0], xs[-1], 400)
    stray = [
        abs(_natural_spline(xs, ys, station) - chord)
        for station, chord in zip(at, np.interp(at, points[:, 0], points[:, 1]), strict=True)
    ]
    assert max(stray) <= sag + 1e-9
