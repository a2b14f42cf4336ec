"""All ways of taking several lengths together, as arrays: what hangs together is chosen among them."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from .cutting import Cutting

#: Combinations beyond this number make the exact search too slow.
MOST_COMBINATIONS = 6000

Whole = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Combinations:
    """Combinations of lengths, one a row.

    Attributes
    ----------
    counts : (n, stocks) array
        Lengths of each stock, in the order of ``cutting.stocks``.
    bars, cents, room : (n,) arrays
        Number of lengths, their price, and the room they have together.
    classes : list of arrays
        Row numbers, apart by how much of limited stock they take.
    """

    counts: Whole
    bars: Whole
    cents: Whole
    room: Whole
    classes: tuple[Whole, ...]


def combinations(cutting: Cutting, most_bars: int, most_cents: int | None) -> Combinations | None:
    """Return all combinations of at most so many lengths within a price; None if there are too many."""
    rows: list[tuple[int, ...]] = []
    for row in _rows(cutting, tuple(cutting.stocks), most_bars, most_cents):
        rows.append(row)
        if len(rows) > MOST_COMBINATIONS:
            return None
    counts = np.array([row for row in rows if any(row)], dtype=np.int64).reshape(-1, len(cutting.stocks))
    stocks = cutting.stocks.values()
    return Combinations(
        counts=counts,
        bars=counts.sum(axis=1),
        cents=counts @ np.array([stock.cents for stock in stocks], dtype=np.int64),
        room=counts @ np.array([stock.room for stock in stocks], dtype=np.int64),
        classes=_classes(counts, np.array([stock.available is not None for stock in stocks])),
    )


def _rows(cutting: Cutting, stocks: tuple[int, ...], bars: int, cents: int | None) -> Iterator[tuple[int, ...]]:
    """Yield counts of the given stocks within what is left of lengths and money."""
    if not stocks:
        yield ()
        return
    stock = cutting.stocks[stocks[0]]
    most = bars if stock.available is None else min(bars, stock.available)
    if cents is not None and stock.cents > 0:
        most = min(most, cents // stock.cents)
    for count in range(most + 1):
        left = None if cents is None else cents - count * stock.cents
        yield from ((count, *rest) for rest in _rows(cutting, stocks[1:], bars - count, left))


def _classes(counts: Whole, limited: npt.NDArray[np.bool_]) -> tuple[Whole, ...]:
    rows: dict[tuple[int, ...], list[int]] = {}
    for number, row in enumerate(counts[:, limited].tolist()):
        rows.setdefault(tuple(row), []).append(number)
    return tuple(np.array(numbers, dtype=np.int64) for numbers in rows.values())
