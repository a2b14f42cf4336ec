"""What is left of a sheet and worth keeping."""

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from nesting.packing import Container
from nesting.sheets.leftover import offcuts
from tests.strategies import tenths


def left(container: Container, *pieces: Polygon) -> list[Polygon]:
    """Return the offcuts of one sheet, cut with a kerf of 3, of at least 400 x 200."""
    return list(offcuts(container, pieces, 3.0, 0.0, (400, 200)))


def test_beside_one_part_the_rest_is_kept_whole() -> None:
    """A part over the full width leaves one rectangle, a kerf from it."""
    (rest,) = left(Container(shapely.box(0, 0, 2440, 1220)), shapely.box(0, 0, 1000, 1220))
    assert rest.bounds == (1003, 0, 2440, 1220)


def test_an_untouched_sheet_is_kept_whole() -> None:
    """To the millimetre."""
    (rest,) = left(Container(shapely.box(10, 10, 2430, 1210)))
    assert rest.bounds == (10, 10, 2430, 1210)


def test_two_rectangles_can_be_kept() -> None:
    """The larger first; what parts them is a kerf."""
    first, second = left(Container(shapely.box(0, 0, 2440, 1220)), shapely.box(0, 0, 1000, 600))
    assert first.area >= second.area
    assert first.distance(second) >= 3


def test_what_is_too_small_is_not_kept() -> None:
    """397 x 1220 is shorter than the 400 asked for."""
    assert left(Container(shapely.box(0, 0, 2440, 1220)), shapely.box(0, 0, 2040, 1220)) == []


def test_a_fault_is_kept_off() -> None:
    """An offcut with a knot in it is no straight, useful piece."""
    knot = shapely.box(1000, 500, 1100, 600)
    assert all(rest.intersection(knot).area == 0 for rest in left(Container(shapely.box(0, 0, 2440, 1220), (knot,))))


@settings(max_examples=30)
@given(st.lists(st.tuples(tenths(0, 1800), tenths(0, 900), tenths(10, 900), tenths(10, 500)), max_size=5))
def test_offcuts_keep_a_kerf_from_parts_and_from_one_another(corners: list[tuple[float, float, float, float]]) -> None:
    """And lie on the sheet, with the least size asked for, in whole millimetres."""
    sheet = shapely.box(0, 0, 2440, 1220)
    pieces = [shapely.box(x, y, x + w, y + h).intersection(sheet) for x, y, w, h in corners]
    kept = left(Container(sheet), *pieces)
    for index, rest in enumerate(kept):
        west, south, east, north = rest.bounds
        assert sheet.covers(rest)
        assert east - west >= 400
        assert north - south >= 200
        assert rest.bounds == pytest.approx([round(c) for c in rest.bounds])
        assert all(rest.distance(other) >= 3 - 1e-6 for other in [*pieces, *kept[:index]])
