"""Sheets as containers."""

import pytest
import shapely

from nesting.sheets.stock import serving, stock_of
from tests.jobs import PLY, job, panel


def test_a_whole_sheet_is_trimmed_on_all_four_edges() -> None:
    """2440 x 1220 less 10 a side (trim of 5 to 10: common practice)."""
    (stock,) = stock_of(job(panel("shelf", 100, 100)))
    assert stock.container.outline.bounds == (10, 10, 2430, 1210)
    assert stock.size == (2420, 1200)


def test_an_offcut_is_used_up_to_its_outline_and_its_fault_is_no_area() -> None:
    """It has no factory edge; a fault is taken off what it offers."""
    offcut = {
        "name": "rest",
        "material": "gaboon",
        "thickness": 6,
        "outline": {"points": [[0, 0], [900, 0], [900, 400], [0, 600]]},
        "faults": [{"points": [[100, 100], [200, 100], [200, 200], [100, 200]]}],
        "available": 1,
    }
    (stock,) = stock_of(job(panel("shelf", 100, 100), sheets=(offcut,)))
    assert stock.trim == 0
    assert stock.area == pytest.approx(900 * 500 - 100 * 100)


def test_material_thickness_and_grade_decide_which_sheets_serve() -> None:
    """A better grade may serve, a poorer one may not."""
    sheets = (
        {**PLY, "name": "poor", "grade": "exterior"},
        {**PLY, "name": "good", "grade": "marine"},
        {**PLY, "name": "thick", "thickness": 9, "grade": "marine"},
        {**PLY, "name": "other", "material": "birch", "grade": "marine"},
    )
    asked = job(
        panel("side", 100, 100, grade="marine"), panel("seat", 100, 100), sheets=sheets, grades=["exterior", "marine"]
    )
    stocks = stock_of(asked)
    assert [s.sheet.name for s in serving(stocks, asked, asked.panels[0])] == ["good"]
    assert [s.sheet.name for s in serving(stocks, asked, asked.panels[1])] == ["poor", "good"]


def test_a_shape_is_held_if_its_box_fits() -> None:
    """To the thousandth of a millimetre."""
    (stock,) = stock_of(job(panel("shelf", 100, 100)))
    assert stock.holds_box(shapely.box(0, 0, 2420, 1200))
    assert not stock.holds_box(shapely.box(0, 0, 2420.1, 1200))
