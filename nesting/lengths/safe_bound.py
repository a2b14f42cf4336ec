"""A bound on the cost of all plans from whole numbers alone, whatever prices it is given."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from nesting.solving.programme import Floats

from .filling import Whole
from .task import Task

#: Prices are held as whole numbers, the dearest of them near this: sums of thousands still fit 64 bits.
FINEST = 2**36


def scale_of(prices: Floats) -> int:
    """Return how many whole units stand for a cent."""
    return max(1, int(FINEST / max(1.0, float(prices.max(initial=1.0)))))


def whole_prices(prices: Floats, scale: int) -> Whole:
    """Return prices in whole units, rounded down."""
    return np.floor(prices * scale).astype(np.int64)


@dataclass(frozen=True)
class Proof:
    """Whole prices and the bound that follows from them.

    Attributes
    ----------
    strips, openings : arrays
        Whole prices, ``scale`` to the cent.
    cents : Fraction
        No plan costs less.
    ratio : Fraction
        What the prices had to be divided by.
    """

    strips: Whole
    openings: Whole
    scale: int
    cents: Fraction
    ratio: Fraction

    def most_reduced(self, cents: int) -> int:
        """Return the reduced cost, in whole units, that no group of a plan costing so many cents exceeds."""
        return int((cents - self.cents) * self.scale * self.ratio)


def proof(task: Task, strips: Whole, openings: Whole, scale: int, least_reduced: int) -> Proof:
    """Return the bound that follows from prices.

    Weak duality, after Farley (1990, from memory) for the division: every group costs at least its strips at their
    prices less its openings at theirs, up to ``least_reduced``, which counts once for each strip at most. Where a
    stock's openings are worth more than it costs, limited stock is charged for the difference, and without a limit all
    prices are mixed with those of nothing but offcuts, which every group and stock keep to, until they are not; where
    offcuts are worth nothing that divides them.

    Parameters
    ----------
    strips, openings : arrays
        Whole prices, ``scale`` to the cent.
    least_reduced : int
        No group's cost less its strips' prices plus its openings' prices is below this, in whole units.
    """
    worth = [int(row @ openings) for row in task.yields]
    kept = [
        sum((n * task.kept_whole[k] for k, n in enumerate(row.tolist())), Fraction(0)) * scale for row in task.yields
    ]
    cents = [int(price) * scale for price in task.cents]
    ratio = Fraction(1)
    for value, whole, cost, available in zip(worth, kept, cents, task.available, strict=True):
        if available is None and value > cost and value - whole > (cost - whole) * ratio:
            if cost <= whole:
                return _nothing(task, strips, scale)
            ratio = (value - whole) / (cost - whole)
    charged = sum(
        (available * max(Fraction(0), (value - whole) / ratio + whole - cost))
        for value, whole, cost, available in zip(worth, kept, cents, task.available, strict=True)
        if available is not None
    )
    earned = sum(int(p) * int(d) for p, d in zip(strips, task.demand, strict=True))
    missing = min(0, least_reduced) * int(task.demand.sum())
    return Proof(strips, openings, scale, ((earned + missing) / ratio - charged) / scale, ratio)


def boxed_bound(
    task: Task, strips: Whole, openings: Whole, scale: int, least: Sequence[int], most: Sequence[int]
) -> Fraction:
    """Return what no plan costs less than that takes so many lengths of each stock.

    Weak duality: strips are worth their prices, and each length costs its price less what its openings are worth.

    Parameters
    ----------
    strips, openings : arrays
        Whole prices, ``scale`` to the cent; no group of one opening is worth more than that opening.
    least, most : sequences of int
        Lengths of each stock, by place.
    """
    bound = int(strips @ task.demand)
    for price, row, low, high in zip(task.cents.tolist(), task.yields, least, most, strict=True):
        cost = price * scale - int(row @ openings)
        bound += cost * (low if cost >= 0 else high)
    return Fraction(bound, scale)


def _nothing(task: Task, strips: Whole, scale: int) -> Proof:
    """Return that plans cost nothing at least: strips are worth nothing, openings what they are worth uncut."""
    openings = np.array([-int(-value * scale // 1) for value in task.kept_whole], dtype=np.int64)
    rounded = int(task.yields.sum(axis=1).max(initial=0))  # at most one unit for each opening of a length
    return Proof(strips * 0, openings, scale, Fraction(-rounded * _most_lengths(task), scale), Fraction(1))


def _most_lengths(task: Task) -> int:
    """Return how many lengths a plan has at most, one for each piece; 0 where nothing was rounded."""
    if not task.cutting.keeps:
        return 0
    return sum(m.quantity * (1 + max(m.least_joints or 0, m.most_joints)) for m in task.members)
