"""What each piece is worth, by the sheets that all layouts found would take, and sheets filled for the most worth."""

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from random import Random

import numpy as np

from nesting.effort import Effort
from nesting.packing import Workshop, fill
from nesting.solving import GrowingMaster, columns_from_dense

from .layouts import Layout
from .pieces import PieceKind
from .stock import Stock

#: By how much the area of the pieces that are offered to a sheet exceeds it.
OFFERED = 1.4

#: Of each kind at most so many times the sheet's share of all pieces is offered: small ones would crowd out the rest.
FAIR = 2

#: Pieces that are offered to a sheet at most.
MOST_OFFERED = 45


def worths(needed: Counter[PieceKind], layouts: Sequence[Layout]) -> dict[PieceKind, float]:
    """Return, in cents, what one more piece of each kind would cost if sheets could be cut in any share of a layout.

    These are the prices of the rows of the linear relaxation of the choice of layouts (Gilmore and Gomory 1961, "A
    linear programming approach to the cutting-stock problem", from memory). Kinds that no layout holds have none.
    """
    made = {kind for layout in layouts for kind in layout.counts}
    kinds = [kind for kind in needed if kind in made]
    useful = [layout for layout in layouts if any(kind in needed for kind in layout.counts)]
    matrix = [[float(layout.counts[kind]) for kind in kinds] for layout in useful]
    need = np.array([float(needed[kind]) for kind in kinds])
    master = GrowingMaster(need, np.full(len(kinds), np.inf))
    prices = [float(layout.stock.price) for layout in useful]
    master.add(columns_from_dense(prices, matrix, np.zeros(len(useful)), np.full(len(useful), np.inf)))
    if not useful or not master.solve():
        return {}
    return dict(zip(kinds, map(float, master.duals), strict=True))


def filled_for_worth(
    stock: Stock,
    needed: Counter[PieceKind],
    worth: Mapping[PieceKind, float],
    workshop: Workshop,
    effort: Effort,
    chance: Random,
) -> Layout:
    """Return a layout of pieces of great worth on one sheet or blank; it may be empty."""
    kinds = _offered(stock, needed, worth, chance)
    items = [replace(kind.item, angles=kind.angles_on(stock)) for kind in kinds]
    if not items:
        return Layout(stock, ())
    values = [max(worth.get(kind, 0.0), 1.0) for kind in kinds]
    filling = fill(workshop, stock.container, items, effort, seed=chance.randrange(2**31), values=values)
    return Layout(stock, tuple((kinds[place.item], place) for place in filling.placements))


def _offered(
    stock: Stock, needed: Counter[PieceKind], worth: Mapping[PieceKind, float], chance: Random
) -> list[PieceKind]:
    """Return pieces for a sheet, those worth most for their area sooner, some more than fit."""
    fitting = [kind for kind in needed if stock.index in kind.stocks]
    fitting.sort(key=lambda kind: -worth.get(kind, 0.0) / kind.area * chance.uniform(0.7, 1.3))
    share = stock.area / sum(kind.area * count for kind, count in needed.items())
    offered: list[PieceKind] = []
    area = 0.0
    for kind in fitting:
        for _ in range(min(needed[kind], int(stock.area / kind.area), math.ceil(FAIR * share * needed[kind]))):
            if area > OFFERED * stock.area or len(offered) >= MOST_OFFERED:
                return offered
            offered.append(kind)
            area += kind.area
    return offered
