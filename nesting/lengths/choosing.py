"""Which of the listed groups make all strips at the least cost."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from nesting.effort import Effort
from nesting.solving import Programme, Status, WholeAnswer, columns_from_dense, minimize_whole

from .clashing import Clash
from .filling import Whole
from .forbidding import rows_against
from .groups import Group
from .task import Task
from .worth_choosing import Costs

#: Nodes of the solver's search tree for one choice.
NODES = 3_000

#: Objectives beyond this are kept to whole cents, joints left aside: HiGHS works in floats.
LARGEST_OBJECTIVE = 5_000_000


@dataclass(frozen=True)
class Choice:
    """Groups with how often each is taken, if any were found; and cents that no choice is below."""

    groups: Counter[Group]
    status: Status
    cents: int


@dataclass
class Chooser:
    """Chooses among groups, some of which may not all be taken together."""

    task: Task
    least: int
    forbidden: list[Counter[Group]] = field(default_factory=list)
    clashes: list[Clash] = field(default_factory=list)

    def choose(self, groups: Sequence[Group], most: int | None, effort: Effort) -> Choice:
        """Return the cheapest choice of at most so many cents, with the fewest joints among equals where it is small.

        Members whose joints depend on other copies are made exactly as often as asked, others at least.
        """
        weight = self._weight(most)
        answer = minimize_whole(
            self._programme(groups, weight),
            nodes=NODES,
            stop=lambda: effort.over,
            too_much=None if most is None else (most + 1) * weight,
            presolved=False,
            seconds=effort.seconds_left,
        )
        effort.spend(40 + len(groups))
        cents = self._cents(answer, most, weight)
        if not answer.found or (most is not None and (answer.objective or 0) >= (most + 1) * weight):
            beyond = answer.status is Status.IMPOSSIBLE or (most is not None and cents > most)
            return Choice(Counter(), Status.IMPOSSIBLE if beyond else Status.UNKNOWN, cents)
        first = len(self.task.stocks)
        taken = {group: answer.values[first + k] for k, group in enumerate(groups) if answer.values[first + k]}
        return Choice(Counter(taken), answer.status, cents)

    def forbid(self, groups: Counter[Group]) -> None:
        """Let these groups not all be taken so often again."""
        self.forbidden.append(groups)

    def _weight(self, most: int | None) -> int:
        """Return more than all joints of a plan can be, or 1 where the objective would grow too large."""
        joints = sum(max(m.most_joints, m.least_joints or 0) * m.quantity for m in self.task.members)
        cents = most if most is not None else LARGEST_OBJECTIVE
        return 1 + joints if (1 + joints) * cents <= LARGEST_OBJECTIVE else 1

    def _cents(self, answer: WholeAnswer, most: int | None, weight: int) -> int:
        """Return the bound on cents: joints, fewer than the weight, are taken off before it is divided."""
        if answer.status is Status.IMPOSSIBLE:
            return self.least if most is None else most + 1
        if answer.bound is None:
            return self.least
        return max(self.least, -((weight - 1 - answer.bound) // weight))

    def _programme(self, groups: Sequence[Group], weight: int) -> Programme:
        task, costs = self.task, Costs(self.task)
        stocks, kinds, openings = len(task.stocks), len(task.members), len(task.openings)
        strips = np.array([group.strips for group in groups], dtype=np.int64).reshape(-1, kinds)
        taken = np.array([group.openings for group in groups], dtype=np.int64).reshape(-1, openings)
        cents = np.array([costs.cents(group) for group in groups], dtype=np.int64)
        joints = np.array([group.joints if weight > 1 else 0 for group in groups], dtype=np.int64)
        often = self._most_often(strips)
        lengths = [self._most_lengths() if n is None else n for n in task.available]
        often = np.where(strips.any(axis=1), often, int(np.array(lengths) @ task.yields.sum(axis=1)))  # kept uncut
        extra = rows_against(task, groups, often.tolist(), self.forbidden, self.clashes)
        indicators = extra.indicators
        matrix = np.zeros((stocks + len(groups) + indicators, kinds + openings + len(extra.rows)))
        matrix[:stocks, kinds : kinds + openings] = -task.yields
        matrix[stocks : stocks + len(groups), :kinds] = strips
        matrix[stocks : stocks + len(groups), kinds : kinds + openings] = taken
        for row, (entries, _) in enumerate(extra.rows):
            for column, entry in entries:
                matrix[stocks + column, kinds + openings + row] = entry
        exact = np.array([float(n) if k in task.tied else np.inf for k, n in enumerate(task.demand)])
        endless, tops = np.full(len(extra.rows), -np.inf), np.array([top for _, top in extra.rows])
        objective = np.concatenate([task.cents * weight, cents * weight + joints, np.zeros(indicators)])
        return Programme(
            columns_from_dense(
                objective, matrix, np.zeros(len(matrix)), [*lengths, *often.tolist(), *([1] * indicators)]
            ),
            np.concatenate([task.demand.astype(float), np.full(openings, -np.inf), endless]),
            np.concatenate([exact, np.zeros(openings), tops]),
        )

    def _most_often(self, strips: Whole) -> Whole:
        """Return how often each group is taken at most: strips whose joints depend on others are never made twice."""
        times = np.where(strips > 0, -(-self.task.demand // np.maximum(strips, 1)), 0).max(axis=1, initial=0)
        for place in sorted(self.task.tied):
            own = self.task.demand[place] // np.maximum(strips[:, place], 1)
            times = np.where(strips[:, place] > 0, np.minimum(times, own), times)
        return np.asarray(times, dtype=np.int64)

    def _most_lengths(self) -> int:
        pieces = sum((1 + max(m.most_joints, m.least_joints or 0)) * m.quantity for m in self.task.members)
        return int(pieces)
