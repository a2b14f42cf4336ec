"""All groups that a plan of at most a given cost can hold, listed by their reduced cost."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from .filling import Whole, exact_fill_values, worthwhile
from .groups import Group
from .pricing import Unions, with_offcut
from .safe_bound import Proof
from .task import Task

#: Groups beyond which the list is given up: the programme that chooses among them would take too long.
MOST_GROUPS = 10_000


@dataclass(frozen=True)
class Costs:
    """What the joints of a set of strips take at least: room and money for each, and how many there can be."""

    task: Task

    def joint(self, strips: tuple[int, ...]) -> tuple[int, int]:
        """Return the least room and cents of a joint in any of these strips."""
        members = [m for m, n in zip(self.task.members, strips, strict=True) if n and m.joinable]
        lap = min((m.lap for m in members), default=0) + self.task.cutting.kerf
        return lap, min((m.joint_cents for m in members), default=0)

    def fewest(self, strips: tuple[int, ...]) -> int:
        """Return the joints that the strips need wherever they are cut from."""
        return sum((m.least_joints or 0) * n for m, n in zip(self.task.members, strips, strict=True))

    def most(self, strips: tuple[int, ...]) -> int:
        """Return the joints that the strips may have."""
        return sum(max(m.most_joints, m.least_joints or 0) * n for m, n in zip(self.task.members, strips, strict=True))

    def cents(self, group: Group) -> int:
        """Return what the joints of a group cost at least, less what is kept."""
        return group.joints * self.joint(group.strips)[1] - group.kept

    def group(self, strips: tuple[int, ...], openings: tuple[int, ...], joints: int) -> Group:
        """Return a group with the most that its offcuts can be worth."""
        return with_offcut(self.task, strips, openings, joints)

    def jointed(self, group: Group) -> Group:
        """Return a group with as many joints as its strips need."""
        return self.group(group.strips, group.openings, max(group.joints, self.fewest(group.strips)))

    def possible(self, group: Group) -> bool:
        """Whether openings hold the strips with that many joints, and the strips may have them."""
        lap, _ = self.joint(group.strips)
        room = sum(o.room * n for o, n in zip(self.task.openings, group.openings, strict=True))
        need = sum(int(size) * n for size, n in zip(self.task.sizes, group.strips, strict=True))
        return room >= need + lap * group.joints and group.joints <= self.most(group.strips)


def groups_within(task: Task, unions: Unions, found: Proof, cents: int) -> list[Group] | None:
    """Return every group that a plan of at most so many cents can hold, with its fewest joints; None if too many.

    With more joints a group costs no less.
    """
    limit = found.most_reduced(cents)
    costs = Costs(task)
    groups: list[Group] = []
    for row, table in _fillings(task, unions, found, limit):
        if table is None or len(groups) > MOST_GROUPS:
            return None
        openings, least = tuple(unions.counts[row].tolist()), int(unions.openings[row]) - 1
        for strips, joints in _possible(task, found, table, unions.counts[row], limit):
            group = costs.group(strips, openings, joints)
            if task.cutting.keeps and reduced(found, group, costs) > limit:
                continue
            if any(strips) or (group.kept and not least):
                groups.append(group)
    return groups


def _possible(
    task: Task, found: Proof, table: Whole, openings: Whole, limit: int
) -> Iterator[tuple[tuple[int, ...], int]]:
    """Yield those rows of strips that openings hold, with the fewest joints there can be.

    Where no offcut is worth anything, only those whose reduced cost is within a limit.
    """
    members, far = task.members, 2**40
    laps = np.array([m.lap if m.joinable else far for m in members], dtype=np.int64)
    cents = np.array([m.joint_cents if m.joinable else far for m in members], dtype=np.int64)
    fewest = np.array([m.least_joints or 0 for m in members], dtype=np.int64)
    most = np.maximum(fewest, np.array([m.most_joints for m in members], dtype=np.int64))
    lap, each = (np.where(table > 0, own, far).min(axis=1, initial=far) for own in (laps, cents))
    joints = np.maximum(int(openings.sum()) - 1, table @ fewest)
    room = int(openings @ np.array([opening.room for opening in task.openings], dtype=np.int64))
    need = table @ task.sizes + (np.where(lap == far, 0, lap) + task.cutting.kerf) * joints
    fits = (need <= room) & (joints <= table @ most)
    if not task.cutting.keeps:
        price = np.where(each == far, 0, each) * joints * found.scale + int(openings @ found.openings)
        fits &= price - table @ found.strips <= limit
    for strips, own in zip(table[fits].tolist(), joints[fits].tolist(), strict=True):
        yield tuple(strips), own


def reduced(found: Proof, group: Group, costs: Costs) -> int:
    """Return what a group costs less what its strips are worth and plus what its openings are worth."""
    worth = sum(int(p) * n for p, n in zip(found.strips, group.strips, strict=True))
    taken = sum(int(p) * n for p, n in zip(found.openings, group.openings, strict=True))
    return costs.cents(group) * found.scale + taken - worth


def _fillings(task: Task, unions: Unions, found: Proof, limit: int) -> Iterator[tuple[int, Whole | None]]:
    """Yield the fillings of each union whose reduced cost is within the limit; None for too many."""
    table = np.zeros((MOST_GROUPS, len(task.members)), dtype=np.int16)
    base = (unions.openings - 1) * task.joint_cents * found.scale + unions.counts @ found.openings - limit
    for number, members in enumerate(unions.members):
        rows = np.flatnonzero(unions.serves == number)
        values = np.array([p if k in members else 0 for k, p in enumerate(found.strips)], dtype=np.int64)
        copies = np.array([d if k in members else 0 for k, d in enumerate(task.demand)], dtype=np.int64)
        after = exact_fill_values(values, task.sizes, copies, int(unions.room[rows].max()), True)
        keeping = task.keeping(unions.offcuts[number], found.scale)
        after = np.array([keeping.with_offcut(row) for row in after]) if keeping.rate else after
        for row in rows[after[0][unions.room[rows]] >= base[rows]]:
            room, need = int(unions.room[row]), int(base[row])
            end = worthwhile(values, task.sizes, copies, after, room, need, table, 0)
            yield int(row), None if end < 0 else table[:end].astype(np.int64)
