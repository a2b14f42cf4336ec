"""What no plan of one material and thickness can be below: cuts by prices, until they refute no cheaper choice."""

from collections.abc import Sequence

import numpy as np

from nesting.solving import maximize_linear

from .bars import Bars
from .least_taken import Taker
from .resources import Floats, Resources
from .stock_choice import Choice, Cut, cheapest_choice, costs_of, cut_of

#: Choices refuted at most, and prices tried at most for each.
MOST_CHOICES = 80
MOST_PRICES = 25

#: Prices are at most this many times what is paid for a whole sheet, or a scarf.
DEAREST = 4.0

#: Share of a sheet or scarf, and cents of joint money for a scarf, that a choice is given more when it is weighed.
LITTLE = 0.05
MONEY = 800

#: Cents by which a choice must fall short for a cut to be worth it.
SHORT = 0.5


class Weighing:
    """Prices of resources, and by them the least that all panels take; it remembers every way seen to make a panel."""

    def __init__(self, resources: Resources, takers: Sequence[Taker]) -> None:
        self.resources = resources
        self.takers = takers
        self._copies = np.array([float(taker.asked.panel.quantity) for taker in takers])
        self._highest = _highest(resources)
        self._little = _little(resources)
        self._seen: dict[tuple[int, bytes], Floats] = {}

    def first_cuts(self) -> list[Cut]:
        """Return cuts by area alone and at the merchant's prices, shared out among all that a sheet gives."""
        resources, bought = self.resources, costs_of(self.resources)
        by_area = np.where(np.arange(resources.size) < resources.joint, 1.0, 0.0)
        prices = np.zeros(resources.size)
        prices[: len(bought)] = bought / resources.each[: len(bought)]
        cuts = [cut_of(resources, by_area, resources.each, self.needed(by_area))]
        for _ in range(MOST_PRICES):
            needed = self.needed(prices)
            cuts.append(cut_of(resources, prices, resources.each, needed))
            shared = self._shared_out()
            if shared is None or shared[1] <= needed + SHORT:
                break
            prices = shared[0]
        return cuts

    def _shared_out(self) -> tuple[Floats, float] | None:
        """Return the prices, none of which makes a sheet or scarf dearer than it is, at which panels are worth most.

        With that worth, as far as ways to make them were seen: it can but be less.
        """
        resources, size = self.resources, self.resources.size
        costs = np.array(costs_of(resources), dtype=float)
        owned = np.zeros((len(costs), size + len(self.takers)))
        owned[list(resources.owners), np.arange(size)] = resources.each * self._highest
        objective = np.concatenate([np.zeros(size), self._copies])
        upper = np.concatenate([np.ones(size), np.full(len(self.takers), np.inf)])
        values = maximize_linear(objective, [*owned, *self._rows()], upper, costs.tolist())
        if values is None:
            return None
        return np.maximum(values[:size], 0.0) * self._highest, float(values[size:] @ self._copies)

    def _rows(self) -> list[Floats]:
        """Return, for every way seen to make a panel, that the panel is worth no more than that at any prices."""
        size, rows = self.resources.size, []
        for (taker, _), taken in self._seen.items():
            row = np.zeros(size + len(self.takers))
            row[:size] = -taken * self._highest
            row[size + taker] = 1.0
            rows.append(row)
        return rows

    def needed(self, prices: Floats) -> float:
        """Return the least that all panels are worth at these prices."""
        taken = [taker.least(prices) for taker in self.takers]
        for taker, one in enumerate(taken):
            self._seen.setdefault((taker, one.tobytes()), one)
        return float(sum(copies * (one @ prices) for copies, one in zip(self._copies, taken, strict=True)))

    def refuting(self, choice: Choice) -> Cut | None:
        """Return a cut that a choice fails; None if none was found.

        First one that it fails even with a little more of everything: its prices say as much as they can of what is
        not in the choice (Magnanti and Wong, "Accelerating Benders decomposition", 1981, from memory).
        """
        return self._refuting(choice.have + self._little, choice.have) or self._refuting(choice.have, choice.have)

    def _refuting(self, enough: Floats, have: Floats) -> Cut | None:
        """Return a cut that says that ``have`` does not suffice, by prices at which ``enough`` is worth too little."""
        cut = None
        for _ in range(MOST_PRICES):
            prices = self._prices(enough)
            if prices is None:
                return cut
            needed = self.needed(prices)
            if needed - float(prices @ have) > SHORT:
                cut = cut_of(self.resources, prices, self.resources.each, needed)
                if needed - float(prices @ enough) > SHORT:
                    return cut
        return cut

    def _prices(self, have: Floats) -> Floats | None:
        """Return the prices at which the panels, as far as seen, are worth most above what there is.

        None if at none they are worth more: then no prices refute the choice.
        """
        size, count = self.resources.size, len(self.takers)
        objective = np.concatenate([-have * self._highest, self._copies])
        values = maximize_linear(objective, self._rows(), np.concatenate([np.ones(size), np.full(count, np.inf)]))
        if values is None or float(values @ objective) <= SHORT:
            return None
        prices: Floats = np.maximum(values[:size], 0.0) * self._highest
        return prices


def least_cents(resources: Resources, takers: Sequence[Taker]) -> int:
    """Return an amount in cents that sheets and joints for these panels can't be below."""
    weighing, bars = Weighing(resources, takers), Bars(resources, takers)
    cuts, proven, before = weighing.first_cuts(), 0, np.zeros(0)
    for _ in range(MOST_CHOICES):
        choice = cheapest_choice(resources, cuts)
        if choice is None:
            break
        proven = max(proven, choice.cents)
        # A cut whose rounding still lets the same choice through can't be bettered.
        if choice.counts.size == 0 or np.array_equal(choice.counts, before):
            break
        cut = weighing.refuting(choice) or bars.refuting(choice)
        if cut is None:
            break
        cuts.append(cut)
        before = choice.counts
    return proven


def _highest(resources: Resources) -> Floats:
    """Return the highest price to try for each resource: some times what is paid for it, and never nought."""
    costs = np.array(costs_of(resources), dtype=float)
    costs[: resources.joint] = max(float(costs[: resources.joint].max()), 1.0)
    return np.maximum(DEAREST * costs[list(resources.owners)] / resources.each, 1e-6)


def _little(resources: Resources) -> Floats:
    """Return a small share of a sheet of each kind, of what a scarf costs in joint money, and of a scarf of each."""
    counts = np.full(resources.joint + 1 + len(resources.scarfs), LITTLE)
    counts[resources.joint] *= MONEY
    return counts[list(resources.owners)] * resources.each
