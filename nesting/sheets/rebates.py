"""What price breaks take off, as part of a model that chooses sheets."""

from collections.abc import Sequence

from ortools.sat.python import cp_model

from nesting.model import Sheet
from nesting.solving import rebate

from .costs import sheets_in
from .stock import Stock

#: More sheets of one kind than any job needs.
MOST_SHEETS = 100_000


def rebates(model: cp_model.CpModel, stocks: Sequence[Stock], counts: Sequence[cp_model.IntVar]) -> cp_model.LinearExpr:
    """Return, in cents, what price breaks take off the prices of so many sheets and blanks."""
    kinds = {index: sheet for index, sheet in sheets_in(stocks).items() if sheet.price_breaks}
    return cp_model.LinearExpr.sum([_rebate(model, k, sheet, stocks, counts) for k, sheet in kinds.items()])


def _rebate(
    model: cp_model.CpModel, index: int, sheet: Sheet, stocks: Sequence[Stock], counts: Sequence[cp_model.IntVar]
) -> cp_model.LinearExpr:
    """Return what is taken off one kind of sheet, by itself and within blanks."""
    takes = [stock.takes[index] for stock in stocks]
    cents = [(least, int(price * 100)) for least, price in sheet.prices]
    needed = cp_model.LinearExpr.weighted_sum(counts, takes)
    return rebate(model, needed, cents, sheet.available or MOST_SHEETS)
