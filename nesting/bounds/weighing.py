"""What no plan of one material and thickness can be below: cuts by prices, until they refute no cheaper choice."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from nesting.solving import maximize_linear

from .bars import Bars
from .least_taken import Taker
from .resources import Floats, Resources
from .small_sets import Refuter, SmallSets
from .stock_choice import Choice, Cut, cheapest_choice, costs_of, cut_of

#: Choices refuted at most, and prices tried at most for each.
MOST_CHOICES = 80
MOST_PRICES = 25

#: Deterministic solver time for a choice to refute, and for one that was not refuted but is not proven the cheapest.
QUICK, THOROUGH = 0.1, 0.5

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
        self._seen: dict[tuple[int, int, bytes], Floats] = {}

    def first_cuts(self) -> list[Cut]:
        """Return cuts by area alone and at the merchant's prices, shared out among all that a sheet gives."""
        resources, bought = self.resources, costs_of(self.resources)
        by_area = np.where(np.arange(resources.size) < resources.joint, 1.0, 0.0)
        prices = np.zeros(resources.size)
        prices[: len(bought)] = bought / resources.each[: len(bought)]
        cuts = [cut_of(resources, by_area, resources.each, self.taken(by_area))]
        for _ in range(MOST_PRICES):
            taken = self.taken(prices)
            cuts.append(cut_of(resources, prices, resources.each, taken))
            shared, needed = self._shared_out(), [worth.min() for worth in taken]
            if shared is None or shared[1] <= needed @ self._copies + SHORT:
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
        rows = [self._row(taker, taken, len(self.takers)) for (taker, _, _), taken in self._seen.items()]
        values = maximize_linear(objective, [*owned, *rows], upper, costs.tolist())
        if values is None:
            return None
        return np.maximum(values[:size], 0.0) * self._highest, float(values[size:] @ self._copies)

    def _row(self, place: int, taken: Floats, count: int) -> Floats:
        """Return that one of ``count`` values is no more than what is taken at any prices."""
        row = np.zeros(self.resources.size + count)
        row[: self.resources.size] = -taken * self._highest
        row[self.resources.size + place] = 1.0
        return row

    def taken(self, prices: Floats) -> list[Floats]:
        """Return the least that each panel is worth at these prices, by manner."""
        found = []
        for taker, panel in enumerate(self.takers):
            taken = panel.by_manner(prices)
            for manner, one in enumerate(taken):
                self._seen.setdefault((taker, manner, one.tobytes()), one)
            found.append(np.array(taken) @ prices)
        return found

    def refuting(self, choice: Choice) -> Cut | None:
        """Return a cut that a choice fails; None if none was found.

        First one that it fails even with a little more of everything: its prices say as much as they can of what is
        not in the choice (Magnanti and Wong, "Accelerating Benders decomposition", 1981, from memory).
        """
        return self._refuting(choice, choice.have + self._little) or self._refuting(choice, choice.have)

    def _refuting(self, choice: Choice, enough: Floats) -> Cut | None:
        """Return a cut that says that a choice does not suffice, by prices at which ``enough`` is worth too little."""
        cut = None
        for _ in range(MOST_PRICES):
            prices = self._prices(choice, enough)
            if prices is None:
                return cut
            taken = self.taken(prices)
            needed = sum(float(worth @ made) for worth, made in zip(taken, choice.made, strict=True))
            if needed - float(prices @ choice.have) > SHORT:
                cut = cut_of(self.resources, prices, self.resources.each, taken)
                if needed - float(prices @ enough) > SHORT:
                    return cut
        return cut

    def _prices(self, choice: Choice, have: Floats) -> Floats | None:
        """Return the prices at which the panels, made as chosen and as far as seen, are worth most above what there is.

        None if at none they are worth more: then no prices refute the choice.
        """
        made = {
            (taker, manner): float(copies)
            for taker, by_manner in enumerate(choice.made)
            for manner, copies in enumerate(by_manner)
            if copies
        }
        places = {which: place for place, which in enumerate(made)}
        size, count = self.resources.size, len(made)
        rows = [
            self._row(places[taker, manner], taken, count)
            for (taker, manner, _), taken in self._seen.items()
            if (taker, manner) in places
        ]
        objective = np.concatenate([-have * self._highest, list(made.values())])
        values = maximize_linear(objective, rows, np.concatenate([np.ones(size), np.full(count, np.inf)]))
        if values is None or float(values @ objective) <= SHORT:
            return None
        prices: Floats = np.maximum(values[:size], 0.0) * self._highest
        return prices


class Least(NamedTuple):
    """An amount in cents that no plan can be below, and whether a set of few panels was refuted for it."""

    cents: int
    by_small_set: bool


def least_cents(resources: Resources, takers: Sequence[Taker], refuted: Refuter) -> Least:
    """Return what sheets and joints for these panels can't be below."""
    weighing, bars, small = Weighing(resources, takers), Bars(resources, takers), SmallSets(resources, takers, refuted)
    cuts, proven, before, effort = weighing.first_cuts(), 0, np.zeros(0), QUICK
    for _ in range(MOST_CHOICES):
        choice = cheapest_choice(resources, takers, cuts, proven=proven, effort=effort)
        if choice is None:
            break
        proven = max(proven, choice.cents)
        # A cut whose rounding still lets the same choice through can't be bettered.
        chosen = np.concatenate([choice.counts, *choice.made])
        is_new = choice.counts.size > 0 and not np.array_equal(chosen, before)
        refuting = (weighing.refuting, bars.refuting, small.refuting) if is_new else ()
        cut = next((found for look in refuting if (found := look(choice)) is not None), None)
        if cut is not None:
            cuts.append(cut)
            before, effort = chosen, QUICK
        elif choice.cheapest or effort == THOROUGH:
            break
        else:
            effort = THOROUGH
    return Least(proven, small.has_refuted)


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
