"""The least that a panel takes when all that it takes has a price: the shortest way through its cells."""

from dataclasses import dataclass, replace

import numpy as np

from .asked import Asked
from .crossing import Crossing
from .divisible import Divisible, Places, ways_of
from .middle import weight, weights
from .resources import Floats, Resources
from .valuing import Valuing
from .worth import whole_worth, worth_of


@dataclass(frozen=True)
class Taker:
    """A panel, and all that it may be made of.

    ``worth`` is that of the panel in one piece, by area unless valued otherwise; ``wholes`` are the kinds of sheet on
    which it may lie so. Without these and without ways of joining no plan exists, and then any that serves counts.
    """

    asked: Asked
    worth: float
    wholes: tuple[int, ...]
    ways: tuple[Divisible, ...]

    @property
    def size(self) -> int:
        """Length of a vector over the resources."""
        return self.asked.resources.size

    def valued(self, valuing: Valuing) -> "Taker":
        """Return the panel with its chords valued otherwise."""
        ways = tuple(replace(way, worth=worth_of(self.asked, way.cells, valuing)) for way in self.ways)
        return replace(self, worth=whole_worth(self.asked, valuing), ways=ways)

    def least(self, prices: Floats) -> Floats:
        """Return what one copy takes where that costs the least; its cost is a lower bound for any choice."""
        return min(self.by_manner(prices), key=lambda taken: float(taken @ prices))

    @property
    def manners(self) -> tuple[Crossing | None, ...]:
        """In which manners it may be made, by the scarfs that it crosses: in one piece first, then joined."""
        return (*(() if self._is_joined else (None,)), *(way.crossing for way in self.ways))

    def by_manner(self, prices: Floats) -> list[Floats]:
        """Return what one copy takes at the least in each manner."""
        joined = [least_divided(way, prices, self.asked.resources) for way in self.ways]
        whole = [] if self._is_joined else [self._whole(prices)]
        return [*whole, *(taken for taken in joined if taken is not None)]

    @property
    def _is_joined(self) -> bool:
        """Whether it can't be in one piece."""
        return bool(self.ways) and not self.wholes

    def _whole(self, prices: Floats) -> Floats:
        ways = [self._whole_on(kind) for kind in self.wholes]
        return min(ways, key=lambda taken: float(taken @ prices), default=np.zeros(self.size))

    def _whole_on(self, kind: int) -> Floats:
        """Return what the panel takes in one piece on a kind of sheet."""
        taken = self.asked.over_middles[kind].copy()
        taken[kind] = self.worth
        return taken


def taker_of(asked: Asked) -> Taker:
    """Return the panel with what it may be made of; of one wider than any sheet nothing but its area counts."""
    if asked.is_wide:
        return Taker(asked, asked.area, asked.serving, ())
    anything, wholes = np.ones(asked.resources.size), asked.wholes()
    ways = tuple(way for way in ways_of(asked) if least_divided(way, anything, asked.resources) is not None)
    return Taker(asked, asked.area, wholes if wholes or ways else asked.serving, ways)


def least_divided(way: Divisible, prices: Floats, resources: Resources) -> Floats | None:
    """Return what a panel takes, joined once at least, in the division that costs the least by these prices.

    The cost of a piece is its price of area times the area between its ends. Summed up, each joint stands for the
    difference between the areas up to the ends of its two pieces, each at its own price: the least of that over a
    cell is at one of the cell's ends. So the cost of a path through the cells is a lower bound for every division
    with its joints in them.
    """
    area = prices[way.kinds]
    joint, payer = _joint_costs(way, prices, area, resources)
    first, between, last = _middle_costs(way, prices)
    count = len(way.worth.below)
    best = np.where(way.runs.first, first, np.inf).T  # of all up to a joint in cell n whose low piece is of kind t
    come = np.full((count, len(area)), -1)
    onward = np.full((count, len(area)), np.inf)  # the same with the joint itself, its high piece of kind t
    through = np.zeros((count, len(area)), dtype=np.int64)
    for n in range(count):
        if n:
            costs = np.where(way.runs.between[:, :n, n], onward[:n].T + between[:, :n, n], np.inf)
            least = costs.argmin(axis=1)
            cost = costs[np.arange(len(area)), least]
            shorter = cost < best[n]
            best[n, shorter], come[n, shorter] = cost[shorter], least[shorter]
        sums = best[n][:, None] + joint[n]
        through[n] = sums.argmin(axis=0)
        onward[n] = sums.min(axis=0)
    ends = np.where(way.runs.last.T, onward + area * way.worth.end + last.T, np.inf)
    at, kind = divmod(int(ends.argmin()), len(area))
    if not np.isfinite(ends[at, kind]):
        return None
    return _taken(way, prices, Path(come, through, payer), (at, kind), resources)


def _joint_costs(way: Divisible, prices: Floats, area: Floats, resources: Resources) -> tuple[Floats, Places]:
    """Return what a joint costs, and who pays it, by cell, kind of its low piece and kind of its high piece.

    Both are of shape (N, T, T).
    """
    more = area[:, None] - area[None, :]
    up_to = np.where(more >= 0, way.worth.below[:, None, None], way.worth.above[:, None, None])
    costs = more * up_to + np.minimum(area[:, None], area[None, :]) * way.worth.twice[:, None, None]
    costs += (way.worth.straps * area.min())[:, None, None]
    paid, payer = np.full(costs.shape, np.inf), np.full(costs.shape, -1)
    for owner in np.unique(way.payer[way.payer >= 0]).tolist():
        money = prices[owner] * way.money + weights(resources, prices, [owner], way.money[None])[0]
        cheaper = (way.payer == owner).any(axis=0)[None] & (money[:, None, None] < paid)
        paid = np.where(cheaper, money[:, None, None], paid)
        payer[cheaper] = owner
    total: Floats = costs + paid
    return total, payer


@dataclass(frozen=True)
class Path:
    """How the cheapest division was found: from which cell and kind each state came, and who pays for each joint."""

    come: Places
    through: Places
    payer: Places


def _taken(way: Divisible, prices: Floats, path: Path, end: tuple[int, int], resources: Resources) -> Floats:
    """Return what the path that ends with a piece of this kind from this cell takes."""
    area = prices[way.kinds]
    taken = np.zeros(resources.size)
    (n, high), cheapest = end, way.kinds[int(area.argmin())]
    taken[way.kinds[high]] += way.worth.end
    taken[cheapest] += way.worth.rest
    _reach_over(taken, resources, int(way.kinds[high]), float(way.middles.last[high, n]))
    while n >= 0:
        low = int(path.through[n, high])
        up_to = way.worth.below[n] if area[low] >= area[high] else way.worth.above[n]
        taken[way.kinds[low]] += up_to
        taken[way.kinds[high]] -= up_to
        taken[way.kinds[low if area[low] < area[high] else high]] += way.worth.twice[n]
        taken[cheapest] += way.worth.straps[n]
        owner = int(path.payer[n, low, high])
        taken[owner] += way.money[n]
        _reach_over(taken, resources, owner, float(way.money[n]))
        before = int(path.come[n, low])
        chord = way.middles.first[low, n] if before < 0 else way.middles.between[low, before, n]
        _reach_over(taken, resources, int(way.kinds[low]), float(chord))
        n, high = before, low
    return taken


def _reach_over(taken: Floats, resources: Resources, owner: int, chord: float) -> None:
    """Add what a chord takes of the lines of a kind of sheet or scarf."""
    for place, line in resources.lines_on(owner):
        taken[place] += float(weight(line, np.array([chord]))[0])


def _middle_costs(way: Divisible, prices: Floats) -> tuple[Floats, Floats, Floats]:
    """Return what first pieces, pieces between joints, and last pieces cost at the middles of their sheets."""
    cost = [(prices[over.places], over) for over in way.over_middles]
    return (
        np.stack([np.tensordot(each, over.first, 1) for each, over in cost]),
        np.stack([np.tensordot(each, over.between, 1) for each, over in cost]),
        np.stack([np.tensordot(each, over.last, 1) for each, over in cost]),
    )
