"""The groups that prices make worth choosing, found by exact knapsacks over the room that openings have together."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from operator import mul
from typing import Protocol

import numpy as np
import numpy.typing as npt

from .filling import Whole, fill_listed, fill_table, fill_with_each, filling
from .groups import Group
from .keeping import Keeping, worth
from .task import Task, openings_there

#: Copies times room beyond which single openings are filled by search instead of from a table.
LARGE_TABLE = 200_000

#: Fillings listed in such a search beyond which a table is made after all.
MOST_STATES = 500_000

MOST_ROOMS_SEARCHED = 20

#: Kinds of strips from which on groups are also looked for around each kind, and cells (kinds times room) up to which.
MANY_KINDS, MOST_CELLS = 12, 30_000_000

#: Ways of taking openings together beyond which no more are listed.
MOST_UNIONS = 30_000


@dataclass(frozen=True)
class Unions:
    """Ways of taking openings together, one a row: ``counts`` of each kind, and what may be cut from them.

    ``room`` is what they hold with one joint fewer than openings; ``serves`` numbers the set of members, and the
    most that a unit of an offcut is worth in any of them.
    """

    counts: Whole
    room: Whole
    serves: Whole
    members: tuple[frozenset[int], ...]
    offcuts: tuple[Fraction, ...]

    @cached_property
    def openings(self) -> Whole:
        """Number of openings in each."""
        return np.asarray(self.counts.sum(axis=1), dtype=np.int64)


def unions(task: Task, most: int) -> Unions | None:
    """Return all ways of taking up to so many openings together; None if they are too many."""
    counts = _taken(task, most)
    if counts is None:
        return None
    rooms = np.array([opening.room for opening in task.openings], dtype=np.int64)
    _, first, alike = np.unique(counts > 0, axis=0, return_index=True, return_inverse=True)
    sets: dict[tuple[frozenset[int], Fraction], int] = {}
    serves = np.zeros(len(first), dtype=np.int64)
    for kinds in np.argsort(first).tolist():
        row = tuple(counts[first[kinds]].tolist())
        serves[kinds] = sets.setdefault((_served(task, row), task.offcut_of(row)[0]), len(sets))
    room = counts @ rooms - (counts.sum(axis=1) - 1) * task.lap
    members, offcuts = tuple(served for served, _ in sets), tuple(value for _, value in sets)
    return Unions(counts, room, serves[alike.reshape(-1)], members, offcuts)


def _taken(task: Task, most: int) -> Whole | None:
    """Return all counts of openings up to a sum, of each kind no more than there are; small sums and first kinds first.

    None if they are too many.
    """
    kinds = len(task.openings)
    limits = [most if limit is None else limit for limit in (openings_there(task, kind) for kind in range(kinds))]
    level, last, found = np.zeros((1, kinds), dtype=np.int64), np.zeros(1, dtype=np.int64), []
    for _ in range(most):
        grown = []
        for kind, limit in enumerate(limits):
            more = level[(last <= kind) & (level[:, kind] < limit)]
            more[:, kind] += 1
            grown.append(more)
        level = np.concatenate(grown)
        level = level[np.lexsort(-level.T[::-1])]
        last = kinds - 1 - (level[:, ::-1] > 0).argmax(axis=1)
        found.append(level)
        if sum(map(len, found)) > MOST_UNIONS:
            return None
    return np.concatenate(found)


def _served(task: Task, row: tuple[int, ...]) -> frozenset[int]:
    """Return the members that can be cut from openings taken together, by length and grade alone."""
    taken = [opening for opening, count in zip(task.openings, row, strict=True) if count]
    found = set()
    for place, member in enumerate(task.members):
        rooms = [opening.room for opening in taken if place in opening.members]
        whole = member.least_joints == 0 and any(int(task.sizes[place]) <= room for room in rooms)
        if whole or (rooms and member.joinable):
            found.add(place)
    return frozenset(found)


@dataclass(frozen=True)
class Priced:
    """What prices say of every union: ``reduced`` is the least reduced cost of a group on it, in whole units."""

    reduced: Whole
    best: Whole
    readers: tuple["_Reader", ...]


class _Reader(Protocol):
    """Reads the best filling of a room for one set of members."""

    def values(self, rooms: Whole) -> Whole:
        """Return the best values."""

    def strips(self, room: int) -> tuple[int, ...]:
        """Return the copies of each member in the best filling."""


@dataclass(frozen=True)
class _Table:
    sizes: Whole
    best: Whole
    taken: npt.NDArray[np.int16]

    def values(self, rooms: Whole) -> Whole:
        return self.best[rooms]

    def strips(self, room: int) -> tuple[int, ...]:
        return filling(self.taken, self.sizes, room)


@dataclass(frozen=True)
class _Kept:
    """A table for rooms of which what the strips leave may be kept."""

    table: _Table
    keeping: Keeping
    best: Whole

    def values(self, rooms: Whole) -> Whole:
        return self.best[rooms]

    def strips(self, room: int) -> tuple[int, ...]:
        return self.table.strips(self.keeping.room_of_strips(self.table.best, room))


@dataclass(frozen=True)
class _Searched:
    found: dict[int, tuple[int, tuple[int, ...]]]

    def values(self, rooms: Whole) -> Whole:
        return np.array([self.found[room][0] for room in rooms.tolist()], dtype=np.int64)

    def strips(self, room: int) -> tuple[int, ...]:
        return self.found[room][1]


@dataclass(frozen=True)
class Pricing:
    """Finds the best groups on every union for given prices."""

    task: Task
    unions: Unions

    def look(self, strips: Whole, openings: Whole, scale: int, demand: Whole) -> Priced:
        """Return the least reduced costs for whole prices."""
        unions = self.unions
        best = np.zeros(len(unions.room), dtype=np.int64)
        readers = []
        for number, members in enumerate(unions.members):
            rows = np.flatnonzero(unions.serves == number)
            values = np.array([p if k in members else 0 for k, p in enumerate(strips)], dtype=np.int64)
            keeping = self.task.keeping(unions.offcuts[number], scale)
            reader = self._reader(values, demand, unions.room[rows], keeping)
            best[rows] = reader.values(unions.room[rows])
            readers.append(reader)
        joints = (unions.openings - 1) * self.task.joint_cents * scale
        return Priced(joints + unions.counts @ openings - best, best, tuple(readers))

    def around_each(self, strips: Whole, openings: Whole, scale: int, demand: Whole) -> Iterator[Group]:
        """Yield groups of good reduced cost around each kind of strip, where there are many kinds."""
        if not self._many():
            return
        joints = (self.unions.openings - 1) * self.task.joint_cents * scale
        prices = joints + self.unions.counts @ openings
        for number, members in enumerate(self.unions.members):
            rows = np.flatnonzero(self.unions.serves == number)
            values = np.array([p if k in members else 0 for k, p in enumerate(strips)], dtype=np.int64)
            rooms = self.unions.room[rows]
            table = fill_table(values, self.task.sizes, demand, int(rooms.max()))
            places, found = fill_with_each(values, self.task.sizes, demand, *table, rooms, prices[rows])
            for kind in np.flatnonzero(places >= 0).tolist():
                row = int(rows[places[kind]])
                counts, least = tuple(self.unions.counts[row].tolist()), int(self.unions.openings[row]) - 1
                yield Group(tuple(found[kind].tolist()), counts, least)

    def _many(self) -> bool:
        kinds = len(self.task.sizes)
        joined = int(self.unions.openings.max()) > 1
        small = kinds * int(self.unions.room.max()) <= MOST_CELLS
        return joined and kinds >= MANY_KINDS and small and not self.task.cutting.keeps

    def group(self, priced: Priced, row: int) -> Group:
        """Return the best group on a union."""
        reader = priced.readers[int(self.unions.serves[row])]
        strips = reader.strips(int(self.unions.room[row]))
        return with_offcut(
            self.task, strips, tuple(self.unions.counts[row].tolist()), int(self.unions.openings[row]) - 1
        )

    def _reader(self, values: Whole, demand: Whole, rooms: Whole, keeping: Keeping) -> _Reader:
        task, most = self.task, int(rooms.max())
        if keeping.rate:
            table = _Table(task.sizes, *fill_table(values, task.sizes, demand, most))
            return _Kept(table, keeping, keeping.with_offcut(table.best))
        if len(task.sizes) * most > LARGE_TABLE and most * int(values.max(initial=0)) < 2**62:
            found = _searched(values, task.sizes, demand, sorted(set(rooms.tolist())))
            if found is not None:
                return found
        return _Table(task.sizes, *fill_table(values, task.sizes, demand, most))


def with_offcut(task: Task, strips: tuple[int, ...], openings: tuple[int, ...], joints: int) -> Group:
    """Return a group with the most that its offcuts can be worth: what strips and joints leave kept in one piece."""
    if not task.cutting.keeps:
        return Group(strips, openings, joints)
    value, room, longest = task.offcut_of(openings)
    laps = [m.lap for m, n in zip(task.members, strips, strict=True) if n and m.joinable]
    lap = min(laps, default=0) + task.cutting.kerf
    need = sum(map(mul, task.sizes.tolist(), strips)) + lap * joints
    kept = min(longest, worth(value, room - need - task.cutting.kerf, task.cutting.keep_from))
    return Group(strips, openings, joints, kept)


def _searched(values: Whole, sizes: Whole, demand: Whole, rooms: list[int]) -> _Searched | None:
    """Fill each room by search; None if that takes too long."""
    if len(rooms) > MOST_ROOMS_SEARCHED:
        return None
    order = np.argsort(-(values / sizes), kind="stable")
    found = {}
    for room in rooms:
        value, counts, finished = fill_listed(values[order], sizes[order], demand[order], room, MOST_STATES)
        if not finished:
            return None
        strips = np.zeros(len(sizes), dtype=np.int64)
        strips[order] = counts
        found[room] = (int(value), tuple(strips.tolist()))
    return _Searched(found)
