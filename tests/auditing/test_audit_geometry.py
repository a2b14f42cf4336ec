"""The plane geometry that the audit rests on."""

import pytest
from shapely import affinity
from shapely.geometry import Polygon

from nesting.auditing.geometry import between, polygon, reaches_into, same_shape, width_at
from nesting.auditing.neighbours import boat_station

SQUARE = Polygon([(0, 0), (100, 0), (100, 100), (0, 100)])


@pytest.mark.parametrize(("by", "same"), [(0.0005, True), (0.002, False)])
def test_shapes_are_the_same_within_a_thousandth(by, same):
    """Half a micrometre is nothing; two are told."""
    assert same_shape(SQUARE, affinity.translate(SQUARE, by, 0)) is same


def test_shapes_of_the_same_corners_may_yet_differ():
    """A notch on the left and a notch at the top have the same five corners and the same area."""
    left = Polygon([(0, 0), (100, 0), (100, 100), (0, 100), (50, 50)])
    top = Polygon([(0, 0), (100, 0), (100, 100), (50, 50), (0, 100)])
    assert left.area == top.area
    assert not same_shape(left, top)


def test_a_spike_without_area_makes_a_difference():
    """It would be sawn into the neighbour, or be missing there."""
    spiked = Polygon([(0, 0), (100, 0), (100, 100), (50.0001, 100), (50, 103), (49.9999, 100), (0, 100)])
    assert spiked.symmetric_difference(SQUARE).area < 0.001
    assert not same_shape(SQUARE, spiked)
    assert not same_shape(spiked, SQUARE)


def test_to_touch_is_not_to_reach_into():
    """Only what lies deeper than the tolerance counts."""
    assert not reaches_into(SQUARE, affinity.translate(SQUARE, 100, 0))
    assert reaches_into(SQUARE, affinity.translate(SQUARE, 99.9, 0))
    assert reaches_into(SQUARE, Polygon([(50, 50), (51, 50), (51, 51)]))


def test_a_stretch_between_stations_may_be_in_parts():
    """A panel shaped like a U has two arms, the larger first."""
    panel = Polygon([(0, 0), (100, 0), (100, 20), (50, 20), (50, 80), (100, 80), (100, 110), (0, 110)])
    assert [part.area for part in between(panel, 60, 100)] == pytest.approx([1200, 800])
    assert width_at(panel, 75) == pytest.approx(50)
    assert width_at(panel, 25) == pytest.approx(110)


@pytest.mark.parametrize(
    "ring",
    [
        ((0, 0), (1, 0)),
        ((0, 0), (1, 1), (1, 0), (0, 1)),
        ((0, 0), (1, 0), (2, 0)),
        ((0, 0), (2e6, 0), (0, 2e6)),
        ((0, 0), (float("nan"), 0), (0, 1)),
    ],
    ids=["two points", "crossing itself", "without area", "absurdly large", "not a number"],
)
def test_a_polygon_that_is_not_sound_is_none(ring):
    """It is a finding, never a crash."""
    assert polygon(ring) is None


@pytest.mark.parametrize(("station", "boat"), [(-100, -10), (0, 100), (500, 650), (1500, 1600), (2500, 2400)])
def test_boat_stations_are_linear_between_rows_and_beyond_them(station, boat):
    """First slope 1.1, second 0.8, by hand."""
    assert boat_station(station, ((0, 100), (1000, 1200), (2000, 2000))) == pytest.approx(boat)


def test_without_rows_a_panel_has_the_boats_own_stations():
    """Nothing is mapped."""
    assert boat_station(1234.5, ()) == 1234.5
