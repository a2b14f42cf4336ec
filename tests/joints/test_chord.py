"""How wide a panel is, exactly."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from nesting.joints import between, chord, least_chord
from tests.strategies import panel_corners, panel_polygons

Edges = tuple[list[tuple[float, float]], list[tuple[float, float]]]


def _polygon(edges: Edges) -> Polygon:
    return Polygon(edges[0] + edges[1][::-1])


def _width(edges: Edges, station: float) -> float:
    """Interpolate the width between the two corners beside a station, without any geometry library."""
    lower, upper = edges
    widths = [(low[0], high[1] - low[1]) for low, high in zip(lower, upper, strict=True)]
    for (left, width), (right, next_width) in pairwise(widths):
        if left <= station <= right:
            return width + (next_width - width) * (station - left) / (right - left)
    raise AssertionError("the station is off the panel")


@given(panel_corners(), st.floats(0.001, 0.999))
def test_the_chord_is_the_width_between_the_edges(edges: Edges, share: float) -> None:
    """Against interpolation by hand."""
    station = share * edges[0][-1][0]
    assert chord(_polygon(edges), station) == pytest.approx(_width(edges, station), abs=1e-6)


def test_a_chord_across_a_hole_leaves_the_hole_out() -> None:
    """Only wood counts."""
    shape = Polygon([(0, 0), (100, 0), (100, 60), (0, 60)], [[(40, 20), (60, 20), (60, 45), (40, 45)]])
    assert chord(shape, 50) == pytest.approx(35)
    assert chord(shape, 20) == pytest.approx(60)
    assert chord(shape, 200) == 0


@given(panel_corners(), st.floats(0.001, 0.999), st.floats(0.001, 0.999))
def test_the_least_chord_is_the_least_of_corners_and_ends(edges: Edges, one: float, other: float) -> None:
    """Widths are linear between corners, so those few stations decide."""
    length = edges[0][-1][0]
    start, end = sorted((one * length, other * length))
    corners = [station for station, _ in edges[0] if start < station < end]
    expected = min(_width(edges, station) for station in [start, *corners, end])
    assert least_chord(_polygon(edges), start, end) == pytest.approx(expected, abs=1e-5)


@given(panel_polygons(), st.floats(0.01, 0.99), st.floats(0.01, 0.99), st.floats(0, 1))
def test_no_chord_of_the_stretch_is_below_the_least(panel: Polygon, one: float, other: float, within: float) -> None:
    """What makes it a bound."""
    start, end = sorted((one * panel.bounds[2], other * panel.bounds[2]))
    station = start + within * (end - start)
    assert chord(panel, station) >= least_chord(panel, start, end) - 1e-5


def test_a_step_inside_the_stretch_is_seen() -> None:
    """On a step itself the closed panel has its greater width; the lesser stands just beside it."""
    stepped = Polygon([(0, 0), (200, 0), (200, 400), (100, 200), (100, 300), (0, 300)])
    assert least_chord(stepped, 50, 200) == pytest.approx(200, abs=1e-4)


def test_a_step_at_the_start_of_the_stretch_is_seen() -> None:
    """Just right of the step the panel is 200 wide, whatever it is on the step."""
    stepped = Polygon([(0, 0), (200, 0), (200, 400), (100, 200), (100, 300), (0, 300)])
    assert least_chord(stepped, 100, 200) == pytest.approx(200, abs=1e-4)


@given(panel_polygons(), st.floats(0.1, 0.9))
def test_the_two_sides_of_a_station_make_up_the_panel(panel: Polygon, share: float) -> None:
    """Open-ended on both sides."""
    station = share * panel.bounds[2]
    left, right = between(panel, -math.inf, station), between(panel, station, math.inf)
    assert left.bounds[2] <= station <= right.bounds[0] + 1e-9
    assert left.area + right.area == pytest.approx(panel.area, rel=1e-12)


def test_between_two_stations_lies_the_band() -> None:
    """A rectangle's band is a rectangle; beyond the panel there is none."""
    band = between(box(0, 0, 4000, 300), 1976, 2024)
    assert band.bounds == (1976, 0, 2024, 300)
    assert between(box(0, 0, 4000, 300), 5000, 6000).is_empty
