"""Plans too large for one exact search: a few lengths at a time are planned anew, exactly."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from random import Random

from nesting.effort import Effort

from .cutting import Cutting
from .exact import exact
from .layout import Layout, apart, beside
from .net_length import net_length_bound

#: Strips planned anew at a time, and times that the whole plan is gone through.
STRIPS_AT_A_TIME = 8
PASSES = 3

#: Searches in all, so that a job of a thousand strips still ends within seconds.
MOST_SEARCHES = 40


def improved(cutting: Cutting, layout: Layout, effort: Effort) -> Layout:
    """Return a layout that is not dearer, after some of its lengths and strips were planned anew together.

    Each pass mixes the parts of the plan in another, fixed order, since what can be gained depends on which
    rests come together.
    """
    searches = 0
    for seed in range(PASSES):
        parts = list(apart(layout))
        Random(seed).shuffle(parts)
        done: list[Layout] = []
        waiting = list(_batches(parts))
        while waiting:
            batch = waiting.pop(0)
            if len(batch) > 1 and searches < MOST_SEARCHES and not effort.over:
                searches += 1
                others = Counter(bar for part in (*done, *(p for w in waiting for p in w)) for bar in part.bars)
                batch = [_planned_anew(cutting, beside(batch), others, effort)]
            done += batch
        layout = beside(done)
    return layout


def _planned_anew(cutting: Cutting, part: Layout, others: Counter[int], effort: Effort) -> Layout:
    """Return the cheapest layout found of a part's strips from stock that the others leave."""
    ours = _only(cutting, part, others)
    found = exact(ours, part, net_length_bound(ours, effort), effort).layout
    return part if found is None else found


def _only(cutting: Cutting, part: Layout, others: Counter[int]) -> Cutting:
    copies = Counter(cut.member for cut in part.cuts if cut.index == 0)
    members = tuple(replace(m, quantity=copies[m.index]) for m in cutting.members if copies[m.index])
    serving = frozenset[int]().union(*(member.stocks for member in members))
    left = {
        index: stock if stock.available is None else replace(stock, available=stock.available - others[index])
        for index, stock in cutting.stocks.items()
        if index in serving
    }
    return Cutting(cutting.kerf, cutting.longest_piece, members, left)


def _batches(parts: list[Layout]) -> Iterator[list[Layout]]:
    """Yield parts in their order, as many at a time as have few enough strips together."""
    batch: list[Layout] = []
    for part in parts:
        if batch and sum(map(_strips, [*batch, part])) > STRIPS_AT_A_TIME:
            yield batch
            batch = []
        batch.append(part)
    yield batch


def _strips(layout: Layout) -> int:
    return sum(cut.index == 0 for cut in layout.cuts)
