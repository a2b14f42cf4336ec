"""From outlines as they are given to sound polygons."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from nesting.model import Outline
from nesting.outlines import SAG, OutlineError, polygon
from tests.strategies import holed_polygons, panel_polygons, star_polygons

SQUARE = ((0, 0), (100, 0), (100, 100), (0, 100))


def _outline(*points: tuple[float, ...], holes: tuple[tuple[tuple[float, ...], ...], ...] = ()) -> Outline:
    return Outline.model_validate({"points": points, "holes": holes})


def _code(outline: Outline) -> str:
    with pytest.raises(OutlineError) as refused:
        polygon(outline)
    assert refused.value.reason
    assert refused.value.remedy
    return refused.value.code


def _corners(shape: Polygon) -> list[tuple[float, float]]:
    return list(shape.exterior.coords)[:-1]


def test_a_sound_outline_keeps_its_corners() -> None:
    """Nothing to mend, nothing mended."""
    assert _corners(polygon(_outline(*SQUARE))) == list(SQUARE)


def test_a_clockwise_outline_is_turned_round() -> None:
    """Anticlockwise outside, clockwise inside."""
    hole = ((20, 20), (40, 20), (40, 40), (20, 40))
    shape = polygon(_outline(*SQUARE[::-1], holes=(hole,)))
    assert shape.exterior.is_ccw
    assert not shape.interiors[0].is_ccw
    assert shape.area == 100 * 100 - 20 * 20


@pytest.mark.parametrize(
    "points",
    [
        (*SQUARE, SQUARE[0]),  # closed by repeating the first point
        (SQUARE[0], SQUARE[0], *SQUARE[1:]),  # one point twice
        (SQUARE[0], (0.0005, 0.0), *SQUARE[1:]),  # within the tolerance of a point
        (SQUARE[0], (30, 0), (60, 0), *SQUARE[1:]),  # on the straight
        (SQUARE[0], (30, 0), (30, 0), *SQUARE[1:], (0, 50), SQUARE[0]),  # all at once
    ],
)
def test_points_that_say_nothing_are_dropped(points: tuple[tuple[float, float], ...]) -> None:
    """Repeated points and points on straight lines leave the same square."""
    assert _corners(polygon(_outline(*points))) == list(SQUARE)


def test_a_circle_of_two_arcs_has_its_area_within_the_sag() -> None:
    """Two points with bulge 1; the ring between radius less sag and radius holds the difference."""
    area = polygon(_outline((0, 0, 1), (200, 0, 1))).area
    assert math.pi * (100 - SAG) ** 2 <= area <= math.pi * 100**2


def test_an_arc_going_inwards_takes_wood_away() -> None:
    """A negative bulge on an anticlockwise outline is hollow: a half circle of radius 50 out of the square."""
    shape = polygon(_outline((0, 0, -1), (100, 0), (100, 100), (0, 100)))
    assert shape.area == pytest.approx(100 * 100 - math.pi * 50**2 / 2, abs=50 * math.pi * SAG)


@pytest.mark.parametrize(
    ("outline", "code"),
    [
        (_outline((0, 0), (100, 100), (100, 0), (0, 100)), "self-crossing"),
        (_outline((0, 0), (100, 0), (50, 50), (100, 100), (0, 100), (50, 50)), "self-crossing"),  # touches itself
        (_outline((0, 0), (100, 0), (100, 100), (100, 200), (100, 100), (0, 100)), "self-crossing"),  # a spike
        (_outline(*SQUARE, holes=(((50, 50), (150, 50), (150, 80)),)), "self-crossing"),  # a hole across the edge
        (_outline(*SQUARE, holes=(((200, 200), (220, 200), (220, 220)),)), "hole-outside"),
        (
            _outline(*SQUARE, holes=(((20, 20), (80, 20), (80, 80), (20, 80)), ((40, 40), (60, 40), (60, 60)))),
            "hole-outside",
        ),
        (_outline((0, 0), (100, 0), (200, 0)), "no-area"),
        (_outline((0, 0), (100, 0)), "no-area"),
        (_outline((5, 5), (5, 5), (5, 5)), "no-area"),
        (_outline((0, 0), (0.9, 0), (0.9, 0.9), (0, 0.9)), "no-area"),  # metres taken for millimetres
    ],
)
def test_what_cannot_be_mended_is_refused_with_a_code(outline: Outline, code: str) -> None:
    """Mending these would be guessing."""
    assert _code(outline) == code


def test_a_crossing_is_refused_with_its_place() -> None:
    """The bow tie crosses in the middle."""
    with pytest.raises(OutlineError, match=r"near \(50, 50\)"):
        polygon(_outline((0, 0), (100, 100), (100, 0), (0, 100)))


@given(st.one_of(star_polygons(), panel_polygons(), holed_polygons()), st.booleans())
def test_cleaning_keeps_the_shape(shape: Polygon, clockwise: bool) -> None:
    """The result is valid, anticlockwise and the same region as was given."""
    given_shape = (
        Polygon(shape.exterior.coords[::-1], [ring.coords for ring in shape.interiors]) if clockwise else shape
    )
    cleaned = polygon(Outline.model_validate(given_shape))
    assert cleaned.is_valid
    assert cleaned.exterior.is_ccw
    assert all(not ring.is_ccw for ring in cleaned.interiors)
    assert cleaned.symmetric_difference(shape).area <= 1e-5 * shape.length


@given(st.one_of(star_polygons(), panel_polygons(), holed_polygons()))
def test_cleaning_twice_is_cleaning_once(shape: Polygon) -> None:
    """What is clean stays as it is, point for point."""
    once = polygon(Outline.model_validate(shape))
    assert polygon(Outline.model_validate(once)).equals_exact(once, 0)


def test_a_gentle_curve_of_many_points_is_kept() -> None:
    """20 mm of rise over 5 m in steps of half a millimetre: each point is all but straight, together they are not."""
    count, length, rise = 9000, 5000.0, 20.0
    upper = [(length * i / count, 200 + 4 * rise * (i / count) * (1 - i / count)) for i in range(count, -1, -1)]
    shape = polygon(_outline((0, 0), (length, 0), *upper))
    assert shape.bounds[3] == pytest.approx(220, abs=SAG)


def test_a_fine_circle_of_many_points_is_kept() -> None:
    """A hole drilled for a 40 mm pipe, drawn with far too many points, is no straight line."""
    corners = [(20 * math.cos(math.tau * i / 20_000), 20 * math.sin(math.tau * i / 20_000)) for i in range(20_000)]
    assert polygon(_outline(*corners)).area == pytest.approx(math.pi * 400, abs=math.tau * 20 * SAG)
