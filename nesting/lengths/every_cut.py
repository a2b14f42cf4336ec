"""Refuting, for cuts at any place, what was refuted for cuts at whole units.

Without shifts whole units lose nothing (see ``measure``). Shifts compare stations of two strips, for which that does
not hold. But from any plan a whole one follows: move every station down to a whole unit. Least distances, zones and
shifts, all whole, still hold; only a piece may grow, by less than a unit. So if no whole plan exists even where each
piece gives its length's room one unit back, there is no plan at all. Units are made fine first, so that this is little.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from nesting.solving import Status

from .cutting import Cutting, Member, Stock
from .groups import Group
from .realising import held_together, realised_together
from .task import Task, task_of

#: Fine units in a unit.
FINER = 64


@dataclass(frozen=True)
class Refuting:
    """Tells of groups whose joints must keep a shift that they can't be laid out, wherever cuts may lie."""

    task: Task
    patience: int

    def groups(self, groups: Sequence[Group], seconds: float | None) -> bool:
        """Whether that is proven of groups as they are."""
        return realised_together(self._finer, groups, seconds, self.patience)[0] is Status.IMPOSSIBLE

    def cores(self, cores: Sequence[Group], seconds: float | None) -> bool:
        """Whether it is proven of all groups that make such strips, and others beside them: see ``held_together``."""
        return held_together(self._finer, cores, seconds, self.patience) is Status.IMPOSSIBLE

    @cached_property
    def _finer(self) -> Task:
        return task_of(_roomier(self.task.cutting))


def _roomier(cutting: Cutting) -> Cutting:
    """Return a cutting in fine units whose saw takes one of them less, while each length ends where it did."""
    return replace(
        cutting,
        kerf=cutting.kerf * FINER - 1,
        longest_piece=None if cutting.longest_piece is None else cutting.longest_piece * FINER,
        members=tuple(map(_finer_member, cutting.members)),
        stocks={index: _finer_stock(stock) for index, stock in cutting.stocks.items()},
        shifts=tuple(replace(shift, distance=shift.distance * FINER) for shift in cutting.shifts),
    )


def _finer_member(member: Member) -> Member:
    return replace(
        member,
        length=member.length * FINER,
        half_lap=member.half_lap * FINER,
        least_end=member.least_end * FINER,
        least_between=member.least_between * FINER,
        zones=tuple((start * FINER, end * FINER) for start, end in member.zones),
        longest=member.longest * FINER,
    )


def _finer_stock(stock: Stock) -> Stock:
    stretches = tuple((start * FINER, end * FINER) for start, end in stock.stretches)
    return replace(stock, stretches=stretches, kerf=stock.kerf * FINER)
