"""Fills sheet after sheet until every piece has a place."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from random import Random

from nesting.packing import Placer, Preference

from .costs import prices_at, prices_drawn
from .layouts import Layout, lay
from .limits import there_is
from .pieces import PieceKind
from .stock import Stock


@dataclass(frozen=True)
class Manner:
    """How one pass goes about it.

    Attributes
    ----------
    order : int
        Which of ``ORDERS`` orders of pieces.
    preference : Preference
        Which place on a sheet is best.
    loose : float
        How far chance may prefer a poorer sheet, 0 to 1.
    offered : callable
        Which kinds of sheet are tried next for the pieces that are left.
    priced : callable
        At what price, in cents by index, each kind of sheet is reckoned.
    angles : int
        At how many of its angles a piece is tried.
    """

    order: int
    preference: Preference
    loose: float
    offered: Callable[[Sequence[Stock], Counter[PieceKind]], Sequence[Stock]]
    priced: Callable[[Sequence[Stock], Random], Mapping[int, int]]
    angles: int = 4


#: Orders in which pieces are tried: by area, by length, by width, and by area with chance in it.
ORDERS = 4


def plain_manner() -> Manner:
    """Return the manner of a first plan: largest first, lowest place, best sheet."""
    return Manner(order=0, preference=Preference(), loose=0.0, offered=_likeliest, priced=_singly, angles=2)


def manner_by_the_many(index: int) -> Manner:
    """Return the manner in which one kind of sheet costs what it does if very many are bought."""

    def priced(stocks: Sequence[Stock], _: Random) -> Mapping[int, int]:
        return prices_at(stocks, {index: -1})

    return Manner(order=0, preference=Preference(), loose=0.0, offered=_all, priced=priced)


def random_manner(chance: Random) -> Manner:
    """Return a manner drawn by chance."""
    sideways = chance.choice((0.01, 0.01, 0.2, 1.0))
    order, loose = chance.randrange(ORDERS), chance.choice((0.0, 0.1, 0.3))
    return Manner(order, Preference(x=sideways), loose, offered=_all, priced=prices_drawn)


def _all(stocks: Sequence[Stock], _: Counter[PieceKind]) -> Sequence[Stock]:
    """Try every kind of sheet."""
    return stocks


def _singly(stocks: Sequence[Stock], _: Random) -> Mapping[int, int]:
    """Reckon what one costs."""
    return prices_at(stocks, {})


def _likeliest(stocks: Sequence[Stock], left: Counter[PieceKind]) -> Sequence[Stock]:
    """Try free sheets, and the kind with the cheapest area for the piece of the best grade that fits the fewest."""
    free = [stock for stock in stocks if stock.price == 0]
    if free:
        return free
    hardest = min(left, key=lambda kind: (-kind.rank, sum(s.index in kind.stocks for s in stocks), -kind.area))
    fitting = [stock for stock in stocks if stock.index in hardest.stocks]
    return [min(fitting, key=lambda stock: stock.price / stock.area)] if fitting else []


@dataclass
class Filled:
    """What one pass found: the sheets it used, every layout that it tried, and the pieces left without a sheet."""

    used: list[Layout]
    tried: list[Layout]
    left: Counter[PieceKind]


def fill_sheets(
    wanted: Counter[PieceKind],
    stocks: Sequence[Stock],
    placer: Placer,
    manner: Manner,
    gap: float,
    chance: Random,
) -> Filled:
    """Take sheet after sheet, each time the one that gives most for its price, until nothing is left to place."""
    result = Filled([], [], +wanted)
    there = there_is(stocks)
    prices = manner.priced(stocks, chance)
    worth = {kind: _worth(kind, stocks, prices) for kind in wanted}
    while result.left:
        offered = manner.offered([stock for stock in stocks if _enough(there, stock)], result.left)
        layouts = [_laid(stock, result.left, placer, manner, gap, chance) for stock in offered]
        layouts = [layout for layout in layouts if layout.laid]
        if not layouts:
            break
        result.tried += layouts
        merits = [_merit(one, prices[one.stock.index], worth, result.left, manner, chance) for one in layouts]
        best = layouts[merits.index(max(merits))]
        result.used.append(best)
        result.left = result.left - best.counts
        for index, count in best.stock.takes.items():
            left = there[index]
            there[index] = None if left is None else left - count
    return result


def _enough(there: dict[int, int | None], stock: Stock) -> bool:
    """Whether the sheets that it takes are still there."""
    return all((left := there[index]) is None or left >= count for index, count in stock.takes.items())


def _laid(stock: Stock, left: Counter[PieceKind], placer: Placer, manner: Manner, gap: float, chance: Random) -> Layout:
    kinds = [kind for kind in left.elements() if stock.index in kind.stocks]
    kinds.sort(key=lambda kind: (-kind.rank, -_size(kind, manner, chance)))
    return lay(stock, kinds, placer, manner.preference, gap, manner.angles)


def _size(kind: PieceKind, manner: Manner, chance: Random) -> float:
    west, south, east, north = kind.item.polygon.bounds
    if manner.order == 1:
        return float(east - west)
    if manner.order == 2:
        return float(north - south)
    return kind.area * (chance.uniform(0.6, 1.4) if manner.order == 3 else 1.0)


def _worth(kind: PieceKind, stocks: Sequence[Stock], prices: Mapping[int, int]) -> float:
    """Return what a piece would cost at the cheapest price of an area that may serve it."""
    return kind.area * min(prices[stock.index] / stock.area for stock in stocks if stock.index in kind.stocks)


def _merit(
    layout: Layout,
    price: int,
    worth: Mapping[PieceKind, float],
    left: Counter[PieceKind],
    manner: Manner,
    chance: Random,
) -> tuple[bool, float]:
    """Return how good it is to take a sheet of that price next: what it saves for each cent; free ones first."""
    value = sum(worth[kind] for kind, _ in layout.laid)
    if layout.counts == left:  # nothing is left after it: only its price counts
        value = sum(worth[kind] for kind in left.elements())
    ratio = value / price if price else layout.area
    return price == 0, ratio * (1 - manner.loose * chance.random())
