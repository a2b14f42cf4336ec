"""Where lines across the wood meet an outline, and which lines are drawn."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box

from nesting.drawing import tape_of
from nesting.report.marking_points import all_crossings, edges_of, lines_across
from tests.strategies import holed_polygons, star_polygons

MM = tape_of("mm")


def why(shape, at):
    """Return what is said of the line at a place."""
    return next(line.why for line in lines_across(shape, MM) if line.at == pytest.approx(at))


@given(holed_polygons() | star_polygons(), st.integers(-300, 300))
def test_every_crossing_lies_on_the_outline(shape, x):
    """A line across meets the boundary at each tabled place, and the outline lies nowhere beyond them."""
    met = all_crossings(edges_of(shape), [float(x)])[0]
    assert all(shape.boundary.distance(Point(x, y)) <= 0.002 for y in met)
    rest = shape.intersection(box(x - 1e-9, -999, x + 1e-9, 999))
    assert not met or rest.is_empty or rest.bounds[1] >= met[0] - 0.01


@given(star_polygons(), st.floats(0, 360))
def test_every_corner_is_on_a_line(shape, angle):
    """However a part is turned, each point that stands off the line between its neighbours is one of those tabled."""
    turned = affinity.rotate(shape, angle)
    points = [(line.at, y) for line in lines_across(turned, MM) for y in line.crossings]
    ring = turned.exterior.coords[:-1]
    for before, corner, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True):
        if LineString([before, after]).distance(Point(corner)) > 1:
            assert min(math.dist(corner, point) for point in points) <= 0.002


def test_lines_rise_and_none_is_drawn_twice():
    """A corner that falls on a station is told of there."""
    shape = box(300, 0, 900, 100)
    assert [line.at for line in lines_across(shape, MM)] == [300, 600, 900]
    assert why(shape, 300) == ("lower corner", "station", "upper corner")


def test_an_edge_along_a_line_is_told_by_its_ends():
    """Points in the middle of it are left out."""
    end = Polygon([(0, 0), (100, 0), (100, 20), (100, 40), (0, 40)])
    assert all_crossings(edges_of(end), [100.0])[0] == (0, 40)


def test_a_line_beside_the_part_meets_nothing():
    """Nothing is tabled where nothing is."""
    assert all_crossings(edges_of(box(0, 0, 10, 10)), [10.5])[0] == ()


def test_a_tip_is_met_once():
    """A part that ends in a point has one place there."""
    assert all_crossings(edges_of(Polygon([(0, 0), (100, 50), (0, 100)])), [100.0])[0] == (50,)


def test_a_nearly_upright_end_keeps_both_its_corners():
    """Sheared by less than anyone can mark, it counts as upright."""
    end = Polygon([(0, 0), (100, 0), (100.0004, 40), (0, 40)])
    assert all_crossings(edges_of(end), [100.0])[0] == (0, 40)


def test_a_short_curved_part_has_closer_stations():
    """Three hundred millimetres of arc need more than their ends; of straight edges they don't."""
    arc = [(150 - 150 * math.cos(t * math.pi / 40), 150 * math.sin(t * math.pi / 40)) for t in range(41)]
    stations = [line.at for line in lines_across(Polygon(arc), MM) if "station" in line.why]
    assert stations == [0, 50, 100, 150, 200, 250, 300]
    assert [line.at for line in lines_across(box(10, 0, 290, 80), MM)] == [10, 290]


def test_a_knuckle_of_a_few_degrees_is_a_corner_and_a_flattened_curve_has_none():
    """Between long edges a small turn stands off by more than half a millimetre; points of a curve do not."""
    assert why(Polygon([(0, 0), (900, 0), (900, 100), (450, 103), (0, 100)]), 450) == ("upper corner",)
    top = [(x, 100 + 40 * math.sin(x / 1000 * math.pi)) for x in range(1000, -1, -20)]
    said = {word for line in lines_across(Polygon([(0, 0), (1000, 0), *top]), MM) for word in line.why}
    assert said == {"lower corner", "upper corner", "station", "highest"}
    corners = [line.at for line in lines_across(Polygon([(0, 0), (1000, 0), *top]), MM) if "upper corner" in line.why]
    assert corners == [0, 1000]


def test_a_square_end_is_found_though_the_next_point_is_near():
    """A divided panel may be cut a hair beyond a point of its curved edge."""
    cut = Polygon([(0, 0), (500, 0), (500, 90), (499.8, 90.01), (450, 92), (0, 95)])
    assert "upper corner" in why(cut, 500)


def test_a_round_hole_is_marked_by_its_outermost_places():
    """Left, right, and the middle line with the lowest and the highest place."""
    hole = Point(400, 300).buffer(90, quad_segs=16).exterior.coords
    lines = lines_across(Polygon(box(0, 0, 800, 600).exterior.coords, [hole]), MM)
    holes = {round(line.at): [round(y) for y in line.crossings] for line in lines if "hole" in line.why}
    assert holes == {310: [0, 300, 600], 400: [0, 210, 390, 600], 490: [0, 300, 600]}
