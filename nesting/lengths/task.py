"""A cutting as arrays: kinds of strips by place, and kinds of clear stretches that any column of a master draws on."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

import numpy as np

from .cutting import Cutting, Member, Shift
from .filling import Whole
from .keeping import Keeping


@dataclass(frozen=True)
class Opening:
    """A kind of clear stretch: its room (one kerf beyond its end), and the places of the members it may serve.

    ``offcut`` is what one unit of a kept offcut of it is worth, in cents.
    """

    room: int
    members: frozenset[int]
    offcut: Fraction = Fraction(0)


@dataclass(frozen=True)
class Task:
    """What is asked and what there is, by place in arrays.

    ``stretch_kinds[s]`` are the kinds of opening that the stretches of the s-th stock are.
    """

    cutting: Cutting
    openings: tuple[Opening, ...]
    stretch_kinds: tuple[tuple[int, ...], ...]

    @cached_property
    def yields(self) -> Whole:
        """How many openings of each kind (column) one length of each stock (row) has."""
        counts = [[kinds.count(kind) for kind in range(len(self.openings))] for kinds in self.stretch_kinds]
        return np.array(counts, dtype=np.int64).reshape(len(self.stretch_kinds), len(self.openings))

    @property
    def members(self) -> tuple[Member, ...]:
        """Kinds of strips."""
        return self.cutting.members

    @cached_property
    def shifts(self) -> tuple[Shift, ...]:
        """The shifts that joints keep, between members by place."""
        return self.cutting.shifts

    @property
    def tied(self) -> frozenset[int]:
        """Places of the members whose joints depend on those of other copies."""
        return self.cutting.tied

    @cached_property
    def stocks(self) -> tuple[int, ...]:
        """Indices of the stock, in the order of ``yields``."""
        return tuple(self.cutting.stocks)

    @cached_property
    def sizes(self) -> Whole:
        """Each member's length with one kerf."""
        return np.array([member.length + self.cutting.kerf for member in self.members], dtype=np.int64)

    @cached_property
    def demand(self) -> Whole:
        """Copies of each member."""
        return np.array([member.quantity for member in self.members], dtype=np.int64)

    @cached_property
    def cents(self) -> Whole:
        """Price of one length of each stock."""
        return np.array([self.cutting.stocks[index].cents for index in self.stocks], dtype=np.int64)

    @cached_property
    def available(self) -> tuple[int | None, ...]:
        """How many lengths of each stock there are."""
        return tuple(self.cutting.stocks[index].available for index in self.stocks)

    def buying_at_most(self, counts: Sequence[int]) -> "Task":
        """Return the task with no more than so many lengths of each stock, by place."""
        stocks = {
            index: replace(self.cutting.stocks[index], available=count)
            for index, count in zip(self.stocks, counts, strict=True)
        }
        return replace(self, cutting=replace(self.cutting, stocks=stocks))

    @cached_property
    def kept_whole(self) -> tuple[Fraction, ...]:
        """What an opening of each kind is worth if nothing is cut from it, in cents, long enough to be kept or not."""
        return tuple(opening.offcut * (opening.room - self.cutting.kerf) for opening in self.openings)

    @cached_property
    def _offcuts(self) -> dict[tuple[int, ...], tuple[Fraction, int, int]]:
        return {}

    def offcut_of(self, openings: tuple[int, ...]) -> tuple[Fraction, int, int]:
        """Return of openings taken together the most that a unit of an offcut is worth, their room, and their worth.

        The last, in cents, is what they are worth if nothing is cut from them.
        """
        if openings not in self._offcuts:
            taken = [(kind, count) for kind, count in enumerate(openings) if count]
            value = max(self.openings[kind].offcut for kind, _ in taken)
            room = sum(self.openings[kind].room * count for kind, count in taken)
            whole = sum((self.kept_whole[kind] * count for kind, count in taken), Fraction(0))
            self._offcuts[openings] = value, room, int(whole)
        return self._offcuts[openings]

    def keeping(self, value: Fraction, scale: int) -> Keeping:
        """Return how offcuts of a value enter a knapsack in units of which so many are a cent."""
        return Keeping(value, scale, self.cutting.kerf, self.cutting.keep_from)

    @cached_property
    def lap(self) -> int:
        """The least room that a joint costs: a lap and one more kerf."""
        return min((m.lap for m in self.members if m.joinable), default=0) + self.cutting.kerf

    @cached_property
    def joint_cents(self) -> int:
        """The least cost of a joint."""
        return min((m.joint_cents for m in self.members if m.joinable), default=0)


def task_of(cutting: Cutting) -> Task:
    """Return the arrays of a cutting; clear stretches that serve alike are one kind."""
    serving = {
        index: frozenset(place for place, member in enumerate(cutting.members) if index in member.stocks)
        for index in cutting.stocks
    }
    found: dict[Opening, int] = {}
    places = tuple(
        tuple(found.setdefault(Opening(room, serving[index], stock.offcut), len(found)) for room in stock.rooms)
        for index, stock in cutting.stocks.items()
    )
    return Task(cutting, tuple(found), places)


def openings_there(task: Task, kind: int) -> int | None:
    """Return how many openings of a kind there are; None without a limit."""
    there = 0
    for count, available in zip(task.yields[:, kind], task.available, strict=True):
        if count and available is None:
            return None
        there += int(count) * (available or 0)
    return there
