"""The forms in which an outline may be given."""

from typing import Any

import pytest
import shapely
from hypothesis import given
from pydantic import ValidationError
from shapely.geometry import MultiPolygon, Polygon, box

from nesting.model import Outline
from tests.strategies import holed_polygons, panel_polygons, tenths


class Drawn:
    """A polygon of somebody else's, known only by its ``__geo_interface__``."""

    def __init__(self, mapping: dict[str, Any]) -> None:
        self.__geo_interface__ = mapping


@given(tenths(0.1, 9000), tenths(0.1, 9000))
def test_a_rectangle_is_its_four_corners(length: float, width: float) -> None:
    """Length along x, from the origin, anticlockwise."""
    outline = Outline.model_validate({"rectangle": [length, width]})
    assert outline.points == ((0, 0), (length, 0), (length, width), (0, width))
    assert outline.rings == (outline.points,)


@pytest.mark.parametrize(
    "sides",
    [
        [300],
        [300, 200, 100],
        300,
        "300 x 200",
        [300, 0],
        [-300, 200],
        [float("nan"), 2],
        [float("inf"), 2],
        [True, 2],
        ["three", 2],
    ],
)
def test_what_is_no_rectangle_is_refused(sides: Any) -> None:
    """Two figures above zero."""
    with pytest.raises(ValidationError, match=r"rectangle needs two|must be a length"):
        Outline.model_validate({"rectangle": sides})


@pytest.mark.parametrize("side", [None, [300], {"length": 300}])
def test_a_side_that_is_no_figure_is_refused_not_stumbled_over(side: Any) -> None:
    """A slip in the job file is the builder's problem, not ours."""
    with pytest.raises(ValidationError):
        Outline.model_validate({"rectangle": [side, 200]})


def test_a_rectangle_takes_no_points_but_marks() -> None:
    """One shape, given once."""
    with pytest.raises(ValidationError, match="either rectangle or points"):
        Outline.model_validate({"rectangle": [300, 200], "points": [[0, 0], [1, 0], [1, 1]]})
    marked = Outline.model_validate({"rectangle": [300, 200], "marks": [{"points": [[150, 0], [150, 200]]}]})
    assert marked.marks[0].points == ((150, 0), (150, 200))


@given(panel_polygons())
def test_a_shapely_polygon_is_taken_as_it_is(shape: Polygon) -> None:
    """Point for point, the first not repeated."""
    outline = Outline.model_validate(shape)
    assert outline.points == tuple(shape.exterior.coords[:-1])
    assert outline.holes == ()


@given(holed_polygons())
def test_holes_come_along(shape: Polygon) -> None:
    """Outer ring first."""
    outline = Outline.model_validate(shape)
    assert outline.rings == tuple(tuple(ring.coords[:-1]) for ring in (shape.exterior, *shape.interiors))


def test_heights_are_left_out() -> None:
    """A polygon in space is taken by its x and y, and a height is never read as a bulge."""
    shape = shapely.force_3d(box(0, 0, 300, 200), 18)
    assert all(len(vertex) == 2 for vertex in Outline.model_validate(shape).points)


def test_any_object_with_the_interface_serves() -> None:
    """Not only shapely's."""
    ring = ((0, 0), (10, 0), (10, 5), (0, 0))
    assert Outline.model_validate(Drawn({"type": "Polygon", "coordinates": [ring]})).points == ring[:-1]


@pytest.mark.parametrize(
    ("given_shape", "words"),
    [
        (MultiPolygon([box(0, 0, 1, 1), box(2, 0, 3, 1)]), "not a MultiPolygon"),
        (shapely.Point(0, 0), "not a Point"),
        (Polygon(), "empty polygon"),
        (Drawn({}), "not a None"),
    ],
)
def test_other_shapes_are_refused(given_shape: object, words: str) -> None:
    """One polygon is asked for."""
    with pytest.raises(ValidationError, match=words):
        Outline.model_validate(given_shape)


def test_a_ring_needs_two_points_at_least() -> None:
    """Two joined by arcs make a circle; one makes nothing."""
    assert len(Outline.model_validate({"points": [[0, 0, 1], [10, 0, 1]]}).points) == 2
    with pytest.raises(ValidationError):
        Outline.model_validate({"points": [[0, 0]]})
    with pytest.raises(ValidationError, match="a hole needs"):
        Outline.model_validate({"points": [[0, 0], [9, 0], [9, 9]], "holes": [[[1, 1]]]})
