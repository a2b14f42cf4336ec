"""What sheets cost by themselves or within blanks, less for each where a merchant asks less from some number on."""

from collections import Counter
from collections.abc import Mapping, Sequence
from random import Random

from nesting.model import Sheet

from .stock import Stock


def cost_of(stocks: Sequence[Stock]) -> int:
    """Return, in cents, what these sheets and blanks cost together, the scarfs of blanks among it."""
    kinds = {index: sheet for index, sheet in sheets_in(stocks).items() if sheet.price_breaks}
    taken = sum((stock.takes for stock in stocks), Counter[int]()) if kinds else Counter[int]()
    return sum(stock.price for stock in stocks) - sum(_taken_off(sheet, taken[k]) for k, sheet in kinds.items())


def by_the_many(stocks: Sequence[Stock]) -> list[int]:
    """Return, by index, the kinds of sheet of which each costs less from some number on."""
    return [index for index, sheet in sheets_in(stocks).items() if sheet.price_breaks]


def prices_at(stocks: Sequence[Stock], breaks: Mapping[int, int]) -> dict[int, int]:
    """Return, in cents by index of stock, what each costs at these price breaks.

    Parameters
    ----------
    breaks : mapping of int to int
        By index of sheet, which of its prices holds for those within the stock: 0, and where it is left out, what one
        costs by itself; -1 what each costs where most are bought.
    """
    sheets = sheets_in(stocks)
    less = {index: int((sheets[index].price - sheets[index].prices[at][1]) * 100) for index, at in breaks.items()}
    return {stock.index: stock.price - sum(stock.takes[k] * by for k, by in less.items()) for stock in stocks}


def prices_drawn(stocks: Sequence[Stock], chance: Random) -> dict[int, int]:
    """Return, in cents by index of stock, what each costs at price breaks drawn by chance.

    Sheets of which many cost less are so preferred to others now and then: to buy them by the many may be the cheapest
    only once all are of that kind.
    """
    sheets = sheets_in(stocks)
    return prices_at(stocks, {index: chance.randrange(len(sheets[index].prices)) for index in by_the_many(stocks)})


def sheets_in(stocks: Sequence[Stock]) -> dict[int, Sheet]:
    """Return the kinds of sheet that these take, by index."""
    return {member.index: member.sheet for stock in stocks for member in stock.members}


def _taken_off(sheet: Sheet, needed: int) -> int:
    count, price = sheet.bought_for(needed)
    return int((needed * sheet.price - count * price) * 100)
