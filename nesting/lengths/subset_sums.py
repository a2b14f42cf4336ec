"""Plain plans length by length: each is filled as well as the strips that are left allow."""

from collections import Counter

import numpy as np

from .groups import Group
from .pricing import Pricing
from .task import Task

#: Powers of a strip's size by which it is weighed: above 1 long strips go first.
POWERS = (1.0, 1.15, 1.4)


def subset_sums(task: Task, pricing: Pricing) -> Counter[Group] | None:
    """Return the cheapest of a few plans without joints, or None if none came to an end."""
    plans = [_plan(task, pricing, power) for power in POWERS]
    return min((plan for plan in plans if plan is not None), key=lambda plan: stock_cents(task, plan), default=None)


def stock_cents(task: Task, plan: Counter[Group]) -> int:
    """Return the price of groups on single openings of stock that is one opening each."""
    return sum(count * _price(task, group.openings.index(1)) for group, count in plan.items())


def _price(task: Task, kind: int) -> int:
    return int(min(cents for cents, count in zip(task.cents, task.yields[:, kind], strict=True) if count))


def _plan(task: Task, pricing: Pricing, power: float) -> Counter[Group] | None:
    left = task.demand.copy()
    lengths = [None if count is None else int(count) for count in task.available]
    values = np.maximum(1, (task.sizes.astype(float) ** power * 1000 / float(task.sizes.max()) ** (power - 1))).astype(
        np.int64
    )
    plan: Counter[Group] = Counter()
    nothing = np.zeros(len(task.openings), dtype=np.int64)
    while left.any():
        free = [kind for kind in range(len(task.openings)) if _source(task, lengths, kind) is not None]
        priced = pricing.look(values, nothing, 1, left)
        rows = [row for row in range(len(priced.best)) if pricing.unions.counts[row].argmax() in free]
        rows = [row for row in rows if priced.best[row] > 0]
        if not rows:
            return None
        row = min(rows, key=lambda row: _price(task, int(pricing.unions.counts[row].argmax())) / int(priced.best[row]))
        group = pricing.group(priced, row)
        kind = group.openings.index(1)
        source = _source(task, lengths, kind)
        assert source is not None
        times = min(int(n) // c for n, c in zip(left, group.strips, strict=True) if c)
        limit = lengths[source]
        times = times if limit is None else min(times, limit)
        plan[group] += times
        left = left - times * np.array(group.strips)
        if limit is not None:
            lengths[source] = limit - times
    return plan


def _source(task: Task, lengths: list[int | None], kind: int) -> int | None:
    """Return the cheapest stock of which some is left and that has such an opening."""
    found = [s for s, count in enumerate(task.yields[:, kind]) if count and (lengths[s] is None or lengths[s])]
    return min(found, key=lambda s: int(task.cents[s]), default=None)
