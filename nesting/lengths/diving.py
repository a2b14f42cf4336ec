"""A whole plan from the linear master: groups are fixed one after the other, and the rest is priced anew."""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from nesting.effort import Effort
from nesting.solving.programme import Floats

from .filling import Whole
from .generating import GROUPS_A_ROUND, NOISE, Prices, gain
from .groups import Group
from .master import Master
from .pricing import Pricing
from .safe_bound import scale_of, whole_prices

#: Rounds of pricing after each fixing.
ROUNDS = 25

#: Share of all strips of which so many are fixed at once where no group is chosen wholly: at least one group.
FIXED_AT_ONCE = 0.01

#: Fixings taken back, in all, because what is left then costs more than is aimed at.
TAKEN_BACK = 60


#: Tells whether a group can be laid out.
Buildable = Callable[[Group], bool]


@dataclass
class _Dive:
    master: Master
    pricing: Pricing
    left: Whole
    buildable: Buildable
    effort: Effort
    fixed: dict[int, int] = field(default_factory=dict)
    banned: set[int] = field(default_factory=set)

    def solve(self, aim: float) -> bool:
        """Solve what is left, with groups that fit it; return whether it can still be made at the cost aimed at."""
        for _ in range(ROUNDS):
            self._hold()
            if self.effort.over or not self.master.solve(self.effort.seconds_left):
                return False
            if not self.master.makeshift and self.master.objective <= aim:
                return True
            if not self._priced():
                return not self.master.makeshift and self.master.objective <= aim
        return False

    def least(self) -> Floats:
        """Return how often each group is fixed."""
        least = np.zeros(len(self.master.groups))
        for place, count in self.fixed.items():
            least[place] = count
        return least

    def take(self, place: int, count: int) -> None:
        """Fix a group so often, or until its strips are all made; strike it off if it can't be laid out."""
        if place in self.master.struck:
            return
        if not self.buildable(self.master.groups[place]):
            self.master.strike(place)
            return
        strips = self.master.strips[place]
        for _ in range(count):
            if not np.minimum(strips, self.left).any():
                return
            self.left = np.maximum(self.left - strips, 0)
            self.fixed[place] = self.fixed.get(place, 0) + 1

    def _hold(self) -> None:
        least = self.least()
        proper = np.array((self.master.strips <= self.left).all(axis=1))
        proper[list(self.banned | self.master.struck)] = False
        self.master.hold(least, np.where(proper, np.inf, least))

    def _priced(self) -> int:
        strips, openings = self.master.prices
        task, scale = self.pricing.task, scale_of(strips)
        values, prices = whole_prices(strips, scale), whole_prices(openings, scale)
        priced = self.pricing.look(values, prices, scale, self.left)
        rows = np.argsort(priced.reduced, kind="stable")[:GROUPS_A_ROUND]
        worth = [int(row) for row in rows if priced.reduced[row] < -NOISE * scale]
        groups = [self.pricing.group(priced, row) for row in worth]
        true = Prices(strips, openings)
        around = self.pricing.around_each(values, prices, scale, self.left)
        groups += [group for group in around if gain(task, true, group) > NOISE]
        return self.master.add(groups, task.joint_cents)


@dataclass(frozen=True)
class Dived:
    """Groups that were fixed, and the strips that are not made by them: none if the plan is whole."""

    groups: Counter[Group]
    left: Whole

    @property
    def whole(self) -> bool:
        """Whether all strips are made."""
        return not self.left.any()


def dived(master: Master, pricing: Pricing, effort: Effort, aim: int, buildable: Buildable = lambda _: True) -> Dived:
    """Return groups that make all strips at no more than a cost aimed at, or as many as were made before it got stuck.

    Whole parts of the fractional choice are fixed, or else the group chosen most. A fixing after which the rest
    costs more than is aimed at is taken back, a few times; a group that can't be laid out is never fixed.
    """
    dive = _Dive(master, pricing, pricing.task.demand.copy(), buildable, effort)
    master.close_pool()
    back = 0
    possible = dive.solve(aim + NOISE)
    while possible and dive.left.any() and not effort.over:
        effort.spend(5)
        before = (dive.left.copy(), dict(dive.fixed))
        chosen = master.chosen - dive.least()[: len(master.chosen)]
        chosen = np.where(master.strips.any(axis=1), chosen, 0.0)  # what is kept uncut is not to be fixed
        place = _fix(dive, chosen)
        if place is None:
            break
        if dive.solve(aim + NOISE):
            continue
        back += 1
        dive.left, dive.fixed = before
        dive.banned.add(place)
        possible = back <= TAKEN_BACK and dive.solve(aim + NOISE)
    return Dived(Counter({master.groups[place]: count for place, count in dive.fixed.items()}), dive.left)


def _fix(dive: _Dive, chosen: Floats) -> int | None:
    """Fix the whole parts, or the groups chosen most; return the last group fixed, None if nothing is chosen."""
    whole = np.flatnonzero(np.floor(chosen + NOISE) > 0).tolist()
    for place in whole:
        dive.take(place, int(chosen[place] + NOISE))
    if whole:
        return int(whole[-1])
    likeliest = np.argsort(-chosen, kind="stable")
    enough = int(dive.left.sum() - dive.pricing.task.demand.sum() * FIXED_AT_ONCE)
    fixed: int | None = None
    for place in likeliest[chosen[likeliest] > NOISE].tolist():
        dive.take(place, 1)
        fixed = place
        if dive.left.sum() <= enough:
            break
    return fixed
