"""The groups that a choice is made of, less those that larger ones stand in for."""

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from .groups import Group
from .safe_bound import Proof
from .task import Task
from .worth_choosing import Costs, reduced


class Listed:
    """Groups to choose among; one that another stands in for is brought back once that other is struck off."""

    def __init__(self, task: Task, found: Proof, limit: int, groups: list[Group]) -> None:
        self._task, self._found, self._limit = task, found, limit
        self._costs = Costs(task)
        self._groups = dict.fromkeys(groups)
        self._struck: set[Group] = set()
        self._tied = sorted(task.tied)
        self._active: list[Group] | None = None

    def active(self) -> list[Group]:
        """Return the groups that no other one of the same openings and joints stands in for."""
        if self._active is None:
            alike: dict[tuple[object, ...], list[Group]] = {}
            for group in self._groups:
                own = tuple(group.strips[place] for place in self._tied)
                alike.setdefault((group.openings, group.joints, group.kept, own), []).append(group)
            self._active = [group for groups in alike.values() for group in largest(groups)]
        return self._active

    def strike(self, group: Group) -> None:
        """Take a group out, and put it in with one joint more if that is possible and not too dear."""
        self._groups.pop(group, None)
        self._struck.add(group)
        self._active = None
        self._add(self._costs.group(group.strips, group.openings, group.joints + 1))

    def lower(self, group: Group, kept: int) -> None:
        """Put a group in again with offcuts that are worth less."""
        self.strike(group)
        self._add(replace(group, kept=kept))

    def loosen(self, groups: Iterable[Group]) -> None:
        """Put groups in with one joint more, beside themselves."""
        for group in groups:
            self._add(self._costs.group(group.strips, group.openings, group.joints + 1))

    def _add(self, group: Group) -> None:
        if group in self._struck or not self._costs.possible(group):
            return
        if reduced(self._found, group, self._costs) <= self._limit:
            self._groups[group] = None
        self._active = None


def largest(groups: list[Group]) -> list[Group]:
    """Return the groups whose strips no other one has all of."""
    if len(groups) == 1:
        return groups
    strips = np.array([group.strips for group in groups])
    order = np.argsort(-strips.sum(axis=1), kind="stable")
    kept: list[int] = []
    for place in order:
        if not kept or not (strips[kept] >= strips[place]).all(axis=1).any():
            kept.append(int(place))
    return [groups[place] for place in sorted(kept)]
