"""How many sheets there are, whether they are used by themselves or within blanks."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from .stock import Stock

if TYPE_CHECKING:  # a first plan counts sheets without a solver
    from ortools.sat.python import cp_model


def there_is(stocks: Sequence[Stock]) -> dict[int, int | None]:
    """Return how many there are of each kind of sheet that these stocks take, None for as many as needed."""
    return {member.index: member.sheet.available for stock in stocks for member in stock.members}


def most_of(stock: Stock) -> int | None:
    """Return how many there can be of a sheet or blank, None for as many as needed."""
    limits = [
        member.sheet.available // stock.takes[member.index]
        for member in stock.members
        if member.sheet.available is not None
    ]
    return min(limits, default=None)


def respect_stock(model: "cp_model.CpModel", stocks: Sequence[Stock], counts: Sequence["cp_model.IntVar"]) -> None:
    """Take no more of a kind of sheet, by itself or within blanks, than there is."""
    for index, available in there_is(stocks).items():
        if available is not None:
            taken = [stock.takes[index] * x for stock, x in zip(stocks, counts, strict=True) if index in stock.takes]
            model.add(sum(taken) <= available)
