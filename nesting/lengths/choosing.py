"""Which of the listed groups make all strips at the least cost."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from nesting.effort import Effort
from nesting.solving import Programme, Status, WholeAnswer, columns_from_dense, minimize_whole

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
    forbidden: list[dict[Group, int]] = field(default_factory=list)

    def choose(self, groups: Sequence[Group], most: int | None, effort: Effort) -> Choice:
        """Return the cheapest choice of at most so many cents, with the fewest joints among equals where it is small.

        Members whose joints depend on other copies are made exactly as often as asked, others at least.
        """
        weight = self._weight(most)
        programme = self._programme(groups, most, weight)
        answer = minimize_whole(programme, nodes=NODES, stop=lambda: effort.over, seconds=effort.seconds_left)
        effort.spend(40 + len(groups))
        first = len(self.task.stocks)
        taken = Counter(
            {
                group: answer.values[first + k]
                for k, group in enumerate(groups)
                if answer.found and answer.values[first + k]
            }
        )
        return Choice(taken, answer.status, self._cents(answer, most, weight))

    def forbid(self, groups: Counter[Group]) -> None:
        """Let these groups not all be taken so often again."""
        self.forbidden.append(dict(groups))

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

    def _programme(self, groups: Sequence[Group], most: int | None, weight: int) -> Programme:
        task, costs = self.task, Costs(self.task)
        stocks, kinds, openings = len(task.stocks), len(task.members), len(task.openings)
        strips = np.array([group.strips for group in groups], dtype=np.int64).reshape(-1, kinds)
        taken = np.array([group.openings for group in groups], dtype=np.int64).reshape(-1, openings)
        cents = np.array([costs.cents(group) for group in groups], dtype=np.int64)
        joints = np.array([group.joints if weight > 1 else 0 for group in groups], dtype=np.int64)
        often = np.where(strips > 0, -(-task.demand // np.maximum(strips, 1)), 0).max(axis=1, initial=0)
        lengths = [self._most_lengths() if n is None else n for n in task.available]
        often = np.where(strips.any(axis=1), often, int(np.array(lengths) @ task.yields.sum(axis=1)))  # kept uncut
        extra, indicators = self._indicators(groups, often)
        matrix = np.zeros((stocks + len(groups) + indicators, kinds + openings + 1 + len(extra)))
        matrix[:stocks, kinds : kinds + openings] = -task.yields
        matrix[stocks : stocks + len(groups), :kinds] = strips
        matrix[stocks : stocks + len(groups), kinds : kinds + openings] = taken
        matrix[:stocks, kinds + openings] = task.cents
        matrix[stocks : stocks + len(groups), kinds + openings] = cents
        for row, (entries, _) in enumerate(extra):
            for column, entry in entries:
                matrix[stocks + column, kinds + openings + 1 + row] = entry
        exact = np.array([float(n) if k in task.tied else np.inf for k, n in enumerate(task.demand)])
        endless, tops = np.full(len(extra), -np.inf), np.array([top for _, top in extra])
        money = np.array([float(self.least)]), np.array([np.inf if most is None else float(most)])
        row_lower = [task.demand.astype(float), np.full(openings, -np.inf), money[0], endless]
        row_upper = [exact, np.zeros(openings), money[1], tops]
        objective = np.concatenate([task.cents * weight, cents * weight + joints, np.zeros(indicators)])
        return Programme(
            columns_from_dense(
                objective, matrix, np.zeros(len(matrix)), [*lengths, *often.tolist(), *([1] * indicators)]
            ),
            np.concatenate(row_lower),
            np.concatenate(row_upper),
        )

    def _indicators(
        self, groups: Sequence[Group], often: np.typing.NDArray[np.int64]
    ) -> tuple[list[tuple[list[tuple[int, float]], float]], int]:
        """Return rows (entries by column after the stock, upper limit) that keep forbidden choices out.

        For each group of a forbidden choice a variable of 0 or 1 is 1 if it is taken so often; not all may be 1.
        """
        place = {group: k for k, group in enumerate(groups)}
        rows: list[tuple[list[tuple[int, float]], float]] = []
        made = 0
        for choice in self.forbidden:
            if not all(group in place for group in choice):
                continue
            column = len(groups) + made
            for k, (group, count) in enumerate(choice.items()):
                top = float(often[place[group]]) - (count - 1)  # count - 1 and fewer need no indicator
                rows.append(([(place[group], 1.0), (column + k, -top)], float(count - 1)))
            rows.append(([(column + k, 1.0) for k in range(len(choice))], float(len(choice) - 1)))
            made += len(choice)
        return rows, made

    def _most_lengths(self) -> int:
        pieces = sum((1 + max(m.most_joints, m.least_joints or 0)) * m.quantity for m in self.task.members)
        return int(pieces)
