"""The linear master programme: stock is bought, its openings hold groups, groups make strips."""

from collections.abc import Iterable, Sequence

import numpy as np

from nesting.solving import GrowingMaster, columns_from_dense
from nesting.solving.programme import Floats

from .filling import Whole
from .groups import Group
from .task import Task
from .worth_choosing import Costs


class Master:
    """Buy stock and choose groups so that all strips are made, in fractions.

    Rows are the members, then the openings. Members that no group makes yet are made by dear makeshifts, which a
    plan that can be made does not use. It starts with the groups of a master ``before``, if there was one.
    """

    def __init__(self, task: Task, pool_above: int | None = None, before: "Master | None" = None) -> None:
        self.task = task
        self.groups: list[Group] = []
        self.known: set[Group] = set()
        self.struck: set[int] = set()
        self._strips: list[Whole] = []
        self._matrix = np.zeros((0, len(task.members)), dtype=np.int64)
        kinds, openings = len(task.members), len(task.openings)
        upper = np.concatenate([np.full(kinds, np.inf), np.zeros(openings), [np.inf]])
        lower = np.concatenate([task.demand.astype(float), np.full(openings, -np.inf), [0.0]])
        self._lp = GrowingMaster(lower, upper)
        self._add_stock(task.cents)
        self._add_makeshifts(self._dear())
        self._pooled = 0 if pool_above is None else self._add_pool(pool_above)
        self._fixed = len(task.stocks) + kinds + self._pooled
        if before is not None:
            self.add(before.groups, task.joint_cents)
            self.struck = set(before.struck)

    def add(self, groups: Iterable[Group], joint_cents: float) -> int:
        """Add groups that are not there yet; return how many."""
        fresh = [group for group in dict.fromkeys(groups) if group not in self.known]
        if fresh:
            self.known.update(fresh)
            self.groups += fresh
            matrix = np.array([group.strips + group.openings for group in fresh])
            costs = np.array([group.joints * joint_cents - group.kept for group in fresh], dtype=float)
            self._lp.add(columns_from_dense(costs, matrix, np.zeros(len(fresh)), np.full(len(fresh), np.inf)))
        return len(fresh)

    def strike(self, place: int) -> None:
        """Take note that a group can't be laid out, and offer it with one joint more if that may do."""
        group, costs = self.groups[place], Costs(self.task)
        self.struck.add(place)
        more = costs.group(group.strips, group.openings, costs.jointed(group).joints + 1)
        if costs.possible(more):
            self.add([more], self.task.joint_cents)

    def solve(self, seconds: float | None = None) -> bool:
        """Solve within so many seconds; return whether the solver calls its values best."""
        return self._lp.solve(seconds)

    def close_pool(self) -> None:
        """Let strips be made by groups only."""
        if self._pooled:
            none = np.zeros(self._pooled)
            self._lp.limit_columns(self._fixed - self._pooled, none, none)

    def hold(self, least: Floats, most: Floats) -> None:
        """Keep how often each group is chosen within limits."""
        self._lp.limit_columns(self._fixed, least, most)

    def hold_stock(self, least: Sequence[int], most: Sequence[int]) -> None:
        """Keep the lengths of each stock within limits."""
        self._lp.limit_columns(0, np.array(least, dtype=float), np.array(most, dtype=float))

    def let_go(self) -> None:
        """Let all groups be chosen, and stock be taken, as often as may be, whatever was held before."""
        most = [np.inf if count is None else float(count) for count in self.task.available]
        self._lp.limit_columns(0, np.zeros(len(most)), np.array(most))
        self.hold(np.zeros(len(self.groups)), np.full(len(self.groups), np.inf))

    @property
    def strips(self) -> Whole:
        """Copies of each member (columns) that each group (rows) makes."""
        if len(self._strips) != len(self.groups):
            self._strips += [np.array(group.strips, dtype=np.int64) for group in self.groups[len(self._strips) :]]
            self._matrix = np.array(self._strips, dtype=np.int64).reshape(-1, len(self.task.members))
        return self._matrix

    @property
    def objective(self) -> float:
        """The least cost in cents, in floats."""
        return self._lp.objective

    @property
    def prices(self) -> tuple[Floats, Floats]:
        """What one more copy of each member costs, and what one opening of each kind is worth."""
        duals, kinds = self._lp.duals, len(self.task.members)
        return np.maximum(duals[:kinds], 0.0), np.maximum(-duals[kinds : kinds + len(self.task.openings)], 0.0)

    @property
    def chosen(self) -> Floats:
        """How much of each group is chosen."""
        return self._lp.values[self._fixed :]

    @property
    def stock(self) -> Floats:
        """How many lengths of each stock are taken."""
        return self._lp.values[: len(self.task.stocks)]

    @property
    def makeshift(self) -> bool:
        """Whether some strips are not made by groups."""
        first = len(self.task.stocks)
        values = self._lp.values[first : first + len(self.task.members)]
        return bool(values.max(initial=0.0) > 1e-7)

    def _add_stock(self, cents: Whole) -> None:
        task = self.task
        matrix = np.hstack([np.zeros((len(task.stocks), len(task.members))), -task.yields])
        most = np.array([np.inf if count is None else float(count) for count in task.available])
        self._lp.add(columns_from_dense(cents, matrix, np.zeros(len(most)), most))

    def _add_makeshifts(self, costs: Sequence[float]) -> None:
        kinds = len(self.task.members)
        matrix = np.hstack([np.eye(kinds), np.zeros((kinds, len(self.task.openings)))])
        self._lp.add(columns_from_dense(costs, matrix, np.zeros(kinds), np.full(kinds, np.inf)))

    def _add_pool(self, size: int) -> int:
        """Add a pool of room that stands in for all groups of more openings than ``size``; return how many columns.

        Of s openings, each brings its room less the share (s - 1) / s of a joint, and costs that share of one. The
        share at ``size`` + 1 is the least of all larger groups, so none of them is cheaper than the pool.
        """
        task, share = self.task, size / (size + 1)
        kinds, openings = len(task.members), len(task.openings)
        matrix = np.zeros((openings + kinds, kinds + openings + 1))
        matrix[:openings, kinds : kinds + openings] = np.eye(openings)
        matrix[:openings, -1] = [opening.room - share * task.lap for opening in task.openings]
        matrix[openings:, :kinds] = np.eye(kinds)
        matrix[openings:, -1] = -task.sizes
        costs = np.concatenate([np.full(openings, share * task.joint_cents), np.zeros(kinds)])
        self._lp.add(columns_from_dense(costs, matrix, np.zeros(len(costs)), np.full(len(costs), np.inf)))
        return len(costs)

    def _dear(self) -> list[float]:
        """Return what a makeshift costs: ten times what making the strip alone can cost."""
        dearest = float(self.task.cents.max(initial=0)) + self.task.joint_cents + 1
        pieces = [1 + max(m.least_joints or 0, 1 if m.joinable else 0) for m in self.task.members]
        return [10.0 * dearest * count for count in pieces]
