"""The best selection found for each way of joining, and what is told of them."""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from nesting.model import NoPlanError, Way

from .selecting import Selection
from .tasks import Task

#: How much of the work a way has that is behind, where the leading one has 1; and the one that is looked at first,
#: which most often leads in the end.
BEHIND, FIRST_BEHIND = 0.1, 0.5


class Outcomes:
    """The best selection for each task, or why there is none."""

    def __init__(self, tasks: Sequence[Task]) -> None:
        self.tasks = tuple(tasks)
        self._best: dict[Task, Selection] = {}
        self._failures: dict[Task, NoPlanError] = {}

    @property
    def found(self) -> bool:
        """Whether there is any selection."""
        return bool(self._best)

    @property
    def best(self) -> Selection:
        """The best of all; of equal ones that of the way looked at first."""
        return self._best[self._leading]

    @property
    def failure(self) -> NoPlanError:
        """Why the first way failed."""
        return next(iter(self._failures.values()))

    def of(self, task: Task) -> Selection:
        """Return the best selection of one way."""
        return self._best[task]

    def failed(self, task: Task) -> NoPlanError | None:
        """Return why a way was given up, if it was."""
        return self._failures.get(task)

    def has(self, task: Task) -> bool:
        """Whether a way has a selection."""
        return task in self._best

    def take(self, task: Task, selection: Selection) -> None:
        """Note a selection if it is the best of its way."""
        if task not in self._best or selection.rank < self._best[task].rank:
            self._best[task] = selection

    def settle(self, selection: Selection) -> None:
        """Take a selection for the best that is as good and leaves larger offcuts."""
        self._best[self._leading] = selection

    def give_up(self, task: Task, error: NoPlanError) -> None:
        """Note that no plan was found in a way."""
        self._failures[task] = error

    def next_task(self, had: Mapping[Task, int]) -> Task:
        """Return the way to try next: the one that has had the least work for its weight."""
        return min(
            (task for task in self.tasks if task in self._best), key=lambda task: had.get(task, 0) / self._weight(task)
        )

    def _weight(self, task: Task) -> float:
        if task is self._leading:
            return 1.0
        return FIRST_BEHIND if task is self.tasks[0] else BEHIND

    @property
    def _leading(self) -> Task:
        return min(self._best, key=lambda task: self._best[task].rank)


def ways_told(outcomes: Outcomes) -> tuple[Way, ...]:
    """Return what each way would come to; nothing if there is but one."""
    if len(outcomes.tasks) == 1:
        return ()
    told = [_told(task, outcomes) for task in outcomes.tasks]
    pure = [way.objective for way in told if way.way != "mixed" and way.objective is not None]
    # Mixing is told of only if it is better than either: what is good in one way is allowed in both.
    return tuple(w for w in told if w.way != "mixed" or _beats(w.objective, pure))


def _beats(mixed: Decimal | None, pure: Sequence[Decimal]) -> bool:
    return mixed is not None and (not pure or mixed < min(pure))


def _told(task: Task, outcomes: Outcomes) -> Way:
    if error := outcomes.failed(task):
        return Way(way=task.way, objective=None, told=error.problems[0].reason)
    if not outcomes.has(task):
        return Way(way=task.way, objective=None, told="the budget was spent before it was tried", tried=False)
    best = outcomes.of(task)
    sheets = sum(len(layout.stock.members) for layout in best.layouts)
    blanks = sum(layout.stock.blank is not None for layout in best.layouts)
    told = f"{sheets} sheets" + (f", {blanks} blanks" if blanks else "") + f", {best.joints} joints"
    return Way(way=task.way, objective=Decimal(best.cost) / 100, told=told)
