"""No more of a kind of sheet is taken than there is, by itself and within blanks together."""

from ortools.sat.python import cp_model

from nesting.sheets.limits import most_of, respect_stock, there_is
from nesting.sheets.stock import Stock
from nesting.sheets.tasks import tasks_of
from nesting.solving import minimize
from tests.jobs import PLY, job, panel


def a_sheet_and_a_blank_of_two(available: int | None) -> tuple[Stock, Stock]:
    """Return both, of one kind of sheet of which there are so many."""
    asked = job(panel("side", 4700, 900, joint="scarf"), sheets=({**PLY, "available": available},))
    stocks = tasks_of(asked)[-1].stocks
    blank = next(stock for stock in stocks if stock.takes == {0: 2})
    return stocks[0], blank


def taken_at_most(available: int | None, blanks: int) -> int:
    """Return how many sheets the solver takes at the most, beside so many blanks."""
    stocks, model = a_sheet_and_a_blank_of_two(available), cp_model.CpModel()
    counts = [model.new_int_var(0, 99, "sheets"), model.new_int_var(blanks, blanks, "blanks")]
    respect_stock(model, stocks, counts)
    model.minimize(-1 * counts[0])
    answer = minimize(model, effort=1.0)
    return answer.values["sheets"] if answer.found else -1


def test_sheets_within_blanks_are_counted() -> None:
    """Of five: five, three, one; three blanks would take six."""
    assert [taken_at_most(5, blanks) for blanks in range(4)] == [5, 3, 1, -1]


def test_as_many_as_needed_are_there_where_nobody_says() -> None:
    """No limit holds."""
    assert taken_at_most(None, blanks=2) == 99


def test_how_many_of_each_there_can_be() -> None:
    """Of five sheets two blanks."""
    sheet, blank = a_sheet_and_a_blank_of_two(5)
    assert (most_of(sheet), most_of(blank)) == (5, 2)
    assert there_is([sheet, blank]) == {0: 5}
    assert [most_of(stock) for stock in a_sheet_and_a_blank_of_two(None)] == [None, None]
