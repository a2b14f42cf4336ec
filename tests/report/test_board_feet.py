"""Board feet, against a lumber bill of the 1910s."""

import pytest
from hypothesis import given

from nesting.report.board_feet import FOOT, INCH, board_feet, board_feet_as_sold
from tests.strategies import tenths

#: Count, thickness, width (inches), length (feet), board feet: Danforth, "Mechanical Processes" (1910s), lumber bill.
BILL = [(40, 2, 6, 16, 640), (12, 0.5, 8, 12, 96), (80, 1.5, 6, 16, 960), (30, 1, 12, 14, 420)]


@pytest.mark.parametrize(("count", "thickness", "width", "length", "expected"), BILL)
def test_each_row_of_a_lumber_bill(count: int, thickness: float, width: float, length: float, expected: int) -> None:
    """Stock of half an inch counts as an inch."""
    each = board_feet_as_sold(width * INCH, thickness * INCH, length * FOOT)
    assert count * each == pytest.approx(expected)


def test_the_whole_bill_and_its_true_volume() -> None:
    """2116 as sold; the true volume is 2068, since the half-inch boards hold half as much (worked out)."""
    rows = [(count, width * INCH, thickness * INCH, length * FOOT) for count, thickness, width, length, _ in BILL]
    assert sum(count * board_feet_as_sold(*size) for count, *size in rows) == pytest.approx(2116)
    assert sum(count * board_feet(*size) for count, *size in rows) == pytest.approx(2068)


@given(tenths(1, 300), tenths(1, 80), tenths(10, 9000))
def test_what_is_sold_is_never_less_than_what_is_there(width: float, thickness: float, length: float) -> None:
    """And the same from an inch upwards."""
    sold, true = board_feet_as_sold(width, thickness, length), board_feet(width, thickness, length)
    assert sold >= true
    assert thickness < INCH or sold == true
