"""What one chain has told others of what it found, and has heard from them."""

from collections.abc import Mapping, Sequence

from .known import Known
from .layouts import Layout, Pool
from .outcomes import Outcomes
from .selecting import Selection
from .tasks import Task
from .told import ToldSelection, heard, told


class Exchange:
    """Tells everything once, and nothing of what was heard.

    Parameters
    ----------
    outcomes, pool : Outcomes, Pool
        What was found, and where to put what is heard.
    known : mapping
        For each way the variants that are known.
    """

    def __init__(self, outcomes: Outcomes, pool: Pool, known: Mapping[Task, Known]) -> None:
        self._outcomes, self._pool, self._known = outcomes, pool, known
        self._shared: set[Layout] = set()
        self._ranks: dict[Task, tuple[int, int, int]] = {}

    def hear(self, several: Sequence[ToldSelection]) -> None:
        """Take in what others found."""
        for one in several:
            task = self._outcomes.tasks[one.way]
            selection, layouts = heard(one, task, self._known[task])
            self._take(task, selection, layouts)

    def tell(self) -> tuple[ToldSelection, ...]:
        """Return the best of each way, and layouts of the same pieces, as far as nobody else knows them."""
        tasks = enumerate(self._outcomes.tasks)
        return tuple(news for way, task in tasks if self._outcomes.has(task) for news in self._news(way, task))

    def _take(self, task: Task, selection: Selection, layouts: Sequence[Layout]) -> None:
        self._outcomes.take(task, selection)
        if self._outcomes.of(task) is selection:
            self._ranks[task] = selection.rank
        self._pool.add(layouts)
        self._shared.update(layouts)

    def _news(self, way: int, task: Task) -> list[ToldSelection]:
        best = self._outcomes.of(task)
        pieces = {kind for variant in best.variants for kind in variant.pieces}
        new = (one for one in self._pool.layouts if one not in self._shared)
        layouts = [one for one in new if one.stock in task.stocks and pieces.issuperset(one.counts)]
        if self._ranks.get(task) == best.rank and not layouts:
            return []
        for variant in best.variants:  # so that what is heard of them later is of the same pieces
            self._known[task].learn(variant)
        self._ranks[task] = best.rank
        self._shared.update(layouts)
        return [told(way, best, layouts)]
