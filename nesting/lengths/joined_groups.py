"""The exact search, first half: which strips and lengths hang together through pieces they share.

Draw lengths and strips as dots and pieces as lines between them. A connected group of s lengths and t strips needs
at least s + t - 1 lines, and a strip has one joint fewer than pieces: so the group has at least s - 1 joints, and
its lengths together cover its strips, laps and kerfs. Every valid plan splits into such groups, so the cheapest
choice of groups is a lower bound; and if each chosen group can be laid out at its cost, it is a cheapest plan.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from itertools import product
from math import prod

import numpy as np
import numpy.typing as npt

from .combinations import Combinations, Whole
from .cutting import Cutting, Member, Stock

#: Sets of strips beyond this number make the exact search too slow.
MOST_SETS = 5_000

#: More than any objective can be: marks what is not possible.
NEVER = 2**62

#: Copies of each member, in the order of ``cutting.members``.
Strips = tuple[int, ...]


@dataclass(frozen=True)
class Group:
    """Strips that hang together: copies by member index, lengths by stock index, and joints in all.

    ``cents`` is what the group costs at least.
    """

    strips: Strips
    copies: Mapping[int, int]
    bars: Mapping[int, int]
    joints: int
    cents: int


@dataclass
class GroupKinds:
    """For each set of strips the groups worth choosing among: the cheapest for each use of limited stock.

    Where members of different joint rules mix, the shortest lap and the cheapest joint are taken for all of
    them, so that a group never costs less than it says. Left out are groups of which no plan within ``most_cents``
    can hold one.
    """

    cutting: Cutting
    combinations: Combinations
    most_joints: Mapping[int, int]
    most_cents: int | None = None
    impossible: dict[Strips, set[tuple[int, int]]] = field(default_factory=dict)
    known: dict[Strips, tuple[Group, ...]] = field(default_factory=dict)

    def all(self) -> Iterator[Group]:
        """Yield the groups for every set of strips."""
        for strips in product(*(range(member.quantity + 1) for member in self.cutting.members)):
            if any(strips):
                if strips not in self.known:
                    self.known[strips] = tuple(self._of(strips))
                yield from self.known[strips]

    def forbid(self, groups: Iterable[Group]) -> None:
        """Take out groups that are proven impossible with their lengths and their number of joints."""
        for group in groups:
            row = [group.bars[index] for index in self.cutting.stocks]
            number = int(np.flatnonzero((self.combinations.counts == row).all(axis=1))[0])
            self.impossible.setdefault(group.strips, set()).add((number, group.joints))
            self.known.pop(group.strips, None)

    def _of(self, strips: Strips) -> Iterator[Group]:
        joints, costs = self._joints_and_costs(strips)
        for rows in self.combinations.classes:
            best = int(rows[np.lexsort((joints[rows], costs[rows]))[0]])
            if costs[best] < NEVER and not self._too_dear(strips, int(costs[best])):
                yield self._group(strips, best, int(joints[best]), int(costs[best]))

    def _too_dear(self, strips: Strips, cents: int) -> bool:
        """Whether a group leaves too little money for the other strips, at the least price that any length has."""
        if self.most_cents is None:
            return False
        others = zip(self.cutting.members, strips, strict=True)
        need = sum((m.quantity - count) * self.cutting.need(m, m.least_joints or 0) for m, count in others)
        price, room = self._cheapest_length
        return (cents - self.most_cents) * room + price * max(0, need - self._free_room) > 0

    @cached_property
    def _cheapest_length(self) -> tuple[int, int]:
        """Price and room of the length that is cheapest for its room, free ones of limited number left aside."""
        priced = [s for s in self._stocks if s.cents > 0 or s.available is None]
        best = min(priced, key=lambda stock: Fraction(stock.cents, stock.room), default=None)
        return (0, 1) if best is None else (best.cents, best.room)

    @cached_property
    def _free_room(self) -> int:
        return sum(s.room * (s.available or 0) for s in self._stocks if s.cents == 0)

    def _joints_and_costs(self, strips: Strips) -> tuple[Whole, Whole]:
        """Return, for each combination of lengths, the fewest joints not known to be impossible, and the cost."""
        taken = [(member, count) for member, count in zip(self.cutting.members, strips, strict=True) if count]
        joints = np.maximum(self.combinations.bars - 1, sum((m.least_joints or 0) * count for m, count in taken))
        for number, known in sorted(self.impossible.get(strips, ())):
            joints[number] = max(joints[number], known + 1)
        rules = [member for member, _ in taken if member.joinable]
        lap = min((member.lap for member in rules), default=0) + self.cutting.kerf
        need = sum(count * self.cutting.need(member, 0) for member, count in taken)
        possible = self.combinations.room >= need + lap * joints
        possible &= joints <= sum(self.most_joints[member.index] * count for member, count in taken)
        for member, _ in taken:
            possible &= self._serving[member.index]
        for level, least in self._levels(taken):
            possible &= level >= least
        costs = self.combinations.cents + joints * min((member.joint_cents for member in rules), default=0)
        return joints, np.where(possible, costs, NEVER)

    def _levels(self, taken: list[tuple[Member, int]]) -> Iterator[tuple[Whole, int]]:
        """Yield the room that better stock has in each combination, and what must be cut from it."""
        for stocks, room in self._rooms.items():
            only = [(member, count) for member, count in taken if member.stocks <= stocks]
            if only:
                yield room, sum(count * self.cutting.need(m, m.least_joints or 0) for m, count in only)

    @cached_property
    def _rooms(self) -> dict[frozenset[int], Whole]:
        """The room in each combination that counts for members served by some stock only."""
        return {
            stocks: self.combinations.counts @ np.array([s.room if s.index in stocks else 0 for s in self._stocks])
            for stocks, _ in self.cutting.levels()
        }

    @cached_property
    def _serving(self) -> dict[int, npt.NDArray[np.bool_]]:
        """Whether each combination has a length for a member: one that holds it whole if it can't be joined."""
        serving: dict[int, npt.NDArray[np.bool_]] = {}
        for member in self.cutting.members:
            whole = self.most_joints[member.index] == 0
            fits = [
                s.index in member.stocks and (not whole or self.cutting.longest_from(s.index) >= member.length)
                for s in self._stocks
            ]
            serving[member.index] = self.combinations.counts @ np.array(fits, dtype=np.int64) > 0
        return serving

    @property
    def _stocks(self) -> list[Stock]:
        return list(self.cutting.stocks.values())

    def _group(self, strips: Strips, number: int, joints: int, cents: int) -> Group:
        copies = {member.index: count for member, count in zip(self.cutting.members, strips, strict=True)}
        row = self.combinations.counts[number].tolist()
        return Group(strips, copies, dict(zip(self.cutting.stocks, row, strict=True)), joints, cents)


def sets_of_strips(cutting: Cutting) -> int:
    """Return how many sets of strips there are to look at."""
    return prod(member.quantity + 1 for member in cutting.members)
