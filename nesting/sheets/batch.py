"""Looks for sheets for a few of many equal boats: what is cheaper for these is so for all."""

from dataclasses import dataclass

from nesting.effort import Effort

from .all_at_once import AllAtOnce
from .choosing import SOLVER_WORK
from .fewer_boats import FewerBoats, fewer_boats
from .improving import MOST_AT_ONCE
from .selecting import Selection
from .tasks import Task

#: Share of the work that looks at a few of many equal boats; and where all are too many to be laid at once.
SHARE, SHARE_IF_LARGE = 0.5, 0.8

#: Work units that a step counts for, beside others, which found no sheets that it might have tried.
IDLE = 1000


@dataclass
class _Few:
    """A number of boats, the search for them, and what it has had of the work."""

    boats: FewerBoats
    search: AllAtOnce
    had: int = 0


class Batch:
    """A task of many equal boats, and a search for each number of them whose pieces are laid at once."""

    def __init__(self, task: Task, search: AllAtOnce) -> None:
        self._task = task
        self._few = [_Few(boats, search.for_task(boats.task)) for boats in fewer_boats(task, MOST_AT_ONCE)]
        self._share = SHARE_IF_LARGE if FewerBoats(task, 1).pieces > MOST_AT_ONCE else SHARE
        self._spent = 0

    def is_next(self, spent: int) -> bool:
        """Whether a step is to be made here, after so much work in all: never where there are no equal boats."""
        return bool(self._few) and self._spent <= self._share * spent

    def step(self, best: Selection, effort: Effort) -> Selection:
        """Return a selection for all that is cheaper than the best, or that one if the step found none."""
        few = min(self._few, key=lambda one: one.had)
        before = effort.spent
        found = few.search.below(-(-best.cost // few.boats.times), effort)
        spent = effort.spent - before
        self._spent += spent
        few.had += spent if spent > SOLVER_WORK else IDLE
        if found is None:
            return best
        return min(best, few.boats.for_all(found, self._task.parts), key=lambda selection: selection.rank)
