"""What sheets cost by themselves or within blanks, less for each where a merchant asks less from some number on."""

from collections import Counter
from collections.abc import Sequence

from nesting.model import Sheet

from .stock import Stock


def cost_of(stocks: Sequence[Stock]) -> int:
    """Return, in cents, what these sheets and blanks cost together, the scarfs of blanks among it."""
    kinds = {index: sheet for index, sheet in sheets_in(stocks).items() if sheet.price_breaks}
    taken = sum((stock.takes for stock in stocks), Counter[int]()) if kinds else Counter[int]()
    return sum(stock.price for stock in stocks) - sum(_taken_off(sheet, taken[k]) for k, sheet in kinds.items())


def sheets_in(stocks: Sequence[Stock]) -> dict[int, Sheet]:
    """Return the kinds of sheet that these take, by index."""
    return {member.index: member.sheet for stock in stocks for member in stock.members}


def _taken_off(sheet: Sheet, needed: int) -> int:
    count, price = sheet.bought_for(needed)
    return int((needed * sheet.price - count * price) * 100)
