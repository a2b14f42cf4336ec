"""Outlines from two rows of nails."""

import pytest
from hypothesis import given
from shapely.geometry import Polygon

from nesting.outlines import Nail, OutlineError, outline_from_offsets, polygon
from tests.strategies import panel_corners

Edges = tuple[list[tuple[float, float]], list[tuple[float, float]]]


def _edge(*rows: tuple[float, float]) -> list[Nail]:
    return [Nail(*row) for row in rows]


def test_two_nails_an_edge_make_a_plain_quadrilateral() -> None:
    """Straight edges need no points between; the ends may be raked."""
    outline = outline_from_offsets(_edge((-20, 300), (1050, 280)), _edge((0, 0), (1000, 10)))
    assert outline.points == ((0, 0), (1000, 10), (1050, 280), (-20, 300))


def test_a_bent_edge_stands_proud_of_its_chords() -> None:
    """The upper edge is a batten through three nails, the lower one straight."""
    outline = outline_from_offsets(_edge((0, 200), (1000, 260), (2000, 200)), _edge((0, 0), (2000, 0)))
    shape = polygon(outline)
    chords = Polygon([(0, 0), (2000, 0), (2000, 200), (1000, 260), (0, 200)])
    assert shape.area > chords.area
    # Computed: between nails 0 and 1 the batten of three even nails runs 0.6875 of the way up at half the span.
    assert shape.exterior.distance(Polygon([(500, 241.25), (500.001, 241.25), (500, 241.251)])) <= 0.06


def test_a_knuckle_ends_one_batten_and_begins_another() -> None:
    """With a corner at the middle nail both runs have two nails, so both are straight."""
    upper = [Nail(0, 200), Nail(1000, 260, corner=True), Nail(2000, 200)]
    outline = outline_from_offsets(upper, _edge((0, 0), (2000, 0)))
    assert outline.points == ((0, 0), (2000, 0), (2000, 200), (1000, 260), (0, 200))


def test_corner_marks_on_end_nails_change_nothing() -> None:
    """An edge ends there anyway."""
    rows = [(0, 200), (1000, 260), (2000, 200)]
    marked = [Nail(0, 200, corner=True), Nail(1000, 260), Nail(2000, 200, corner=True)]
    lower = _edge((0, 0), (2000, 0))
    assert outline_from_offsets(marked, lower) == outline_from_offsets(_edge(*rows), lower)


@given(panel_corners())
def test_every_nail_is_a_point_of_the_outline(edges: Edges) -> None:
    """Faired or not, the outline runs through all nails, the lower edge first."""
    lower, upper = edges
    outline = outline_from_offsets(_edge(*upper), _edge(*lower))
    assert {*lower, *upper} <= {(point[0], point[1]) for point in outline.points}
    assert outline.points[0] == lower[0]
    assert outline.points[-1] == upper[0]


def test_an_edge_of_one_nail_is_refused_by_name() -> None:
    """A batten needs two nails."""
    with pytest.raises(OutlineError, match="upper edge has 1 rows") as refused:
        outline_from_offsets(_edge((0, 200)), _edge((0, 0), (2000, 0)))
    assert refused.value.code == "few-offsets"


@pytest.mark.parametrize("second", [500, 400])
def test_stations_that_do_not_rise_are_refused_by_name(second: float) -> None:
    """Twice the same station, or one that goes back."""
    with pytest.raises(OutlineError, match=f"lower edge's station {second} follows 500") as refused:
        outline_from_offsets(_edge((0, 200), (900, 200)), _edge((0, 0), (500, 0), (second, 5), (900, 0)))
    assert refused.value.code == "stations-order"
    assert refused.value.remedy in str(refused.value)
