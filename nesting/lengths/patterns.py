"""Patterns near the bound: every way of filling one opening that a plan of at most a given cost can hold."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from .filling import Whole, exact_fill_values, worthwhile
from .groups import Group
from .safe_bound import Proof
from .task import Task


@dataclass(frozen=True)
class Patterns:
    """Ways of filling openings, one a row: the kind of opening, and the copies of each member cut from it."""

    kinds: Whole
    strips: Whole

    def __len__(self) -> int:
        return len(self.kinds)

    def group(self, task: Task, place: int) -> Group:
        """Return one of them as a group."""
        openings = tuple(int(kind == self.kinds[place]) for kind in range(len(task.openings)))
        return Group(tuple(self.strips[place].tolist()), openings, 0)


@dataclass(frozen=True)
class Near:
    """All patterns that a plan of at most so many cents can hold."""

    cents: int
    patterns: Patterns


@dataclass(frozen=True)
class Listing:
    """Lists the patterns of strips without joints by what prices say of them."""

    task: Task
    found: Proof

    def within(self, cents: int, most: int) -> Near | None:
        """Return the patterns up to a cost, whether larger ones hold their strips or not; None if too many."""
        table = np.zeros((most, len(self.task.members)), dtype=np.int16)
        limit, end, kinds = self.found.most_reduced(cents), 0, []
        for kind, values, copies, after in self._openings:
            room, need = self.task.openings[kind].room, int(self.found.openings[kind]) - limit
            start, end = end, worthwhile(values, self.task.sizes, copies, after, room, need, table, end)
            if end < 0:
                return None
            kinds.append(np.full(end - start, kind, dtype=np.int64))
        strips = table[:end].astype(np.int64)
        used = strips.any(axis=1)
        return Near(cents, Patterns(np.concatenate(kinds)[used], strips[used]))

    def widest(self, ceiling: int, step: int, most: int) -> Near | None:
        """Return the patterns up to a cost as near to a ceiling as their number allows; None if that is none."""
        near = self.within(ceiling, most)
        if near is not None:
            return near
        low, high = int(-(-self.found.cents // step)) - 1, ceiling // step
        while high - low > 1:
            middle = (low + high) // 2
            tried = self.within(middle * step, most)
            if tried is None:
                high = middle
            else:
                low, near = middle, tried
        return near

    @cached_property
    def _openings(self) -> tuple[tuple[int, Whole, Whole, Whole], ...]:
        """Return each kind of opening with prices, copies, and best values of what may be cut from it."""
        return tuple(self._each())

    def _each(self) -> Iterator[tuple[int, Whole, Whole, Whole]]:
        task = self.task
        for members in dict.fromkeys(opening.members for opening in task.openings):
            own = np.array([place in members for place in range(len(task.members))])
            values, copies = np.where(own, self.found.strips, 0), np.where(own, task.demand, 0)
            kinds = [kind for kind, opening in enumerate(task.openings) if opening.members == members]
            room = max(task.openings[kind].room for kind in kinds)
            after = exact_fill_values(values, task.sizes, copies, room, True)
            yield from ((kind, values, copies, after) for kind in kinds)
