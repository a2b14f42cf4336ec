"""Strips without joints: cutting stock, proven where the effort allows."""

from collections import Counter

from nesting.effort import Effort

from .arc_flow import settled
from .buying import bought, plain_part
from .diving import dived
from .generating import EXACT_SEARCH, generated, money_step, rounded_up
from .groups import Group
from .layout import Layout
from .master import Master
from .outcome import Outcome
from .pricing import Pricing, unions
from .proven import Proven
from .subset_sums import subset_sums
from .task import Task


def plain(task: Task, first: Layout | None, net: Proven, effort: Effort) -> Outcome:
    """Return the best layout found for strips without joints, and what is proven.

    Patterns are generated for a linear master, whose prices give a bound in whole numbers. Plans come from filling
    length by length and from diving in the master; if they don't meet the bound, the arc-flow programme decides.
    """
    single = unions(task, 1)
    assert single is not None, "there are no more single openings than stretches of stock"
    pricing, master, step = Pricing(task, single), Master(task), money_step(task)
    best = _better(task, first, subset_sums(task, pricing))
    found = generated(master, pricing, effort)
    if found is None:
        return Outcome(best, net)
    least, reason = max((rounded_up(found.cents, step), "patterns of every kind priced"), (net.cents, net.reason))
    for aim in _aims(task, best, least, step):
        if effort.over or (best is not None and _cents(task, best) <= aim):
            break
        dive = dived(master, pricing, effort, aim)
        best = _better(task, best, dive.groups if dive.whole else None)
    if effort.over or (best is not None and _cents(task, best) <= least):
        return Outcome(best, Proven(least, reason))
    decided = settled(task, found, _dearest(task, step) if best is None else _cents(task, best), step, effort)
    best = _better(task, best, decided.plan)
    if decided.cents is not None and decided.cents > least:
        least, reason = decided.cents, EXACT_SEARCH
    return Outcome(best, Proven(least, reason, best is None and decided.plan is None and decided.finished))


def _dearest(task: Task, step: int) -> int:
    """Return more than any plan without idle lengths costs."""
    strips = int(task.demand.sum())
    lengths = (strips if count is None else count for count in task.available)
    return sum(int(cents) * count for cents, count in zip(task.cents, lengths, strict=True)) // step * step + step


def _aims(task: Task, best: Layout | None, least: int, step: int) -> tuple[int, ...]:
    """Return the costs to dive for, one after the other: the bound itself, and half way to the best plan."""
    if best is None:
        return (least, 2 * least, 10**15)
    half = least + (_cents(task, best) - least) // (2 * step) * step
    return (least, half) if half > least else (least,)


def _better(task: Task, best: Layout | None, plan: Counter[Group] | None) -> Layout | None:
    """Return the cheaper of a layout and a choice of groups."""
    if plan is None:
        return best
    parts = [plain_part(task, group.openings.index(1), strips) for group, strips in _trimmed(task, plan)]
    layout = bought(task, parts)
    if layout is None or (best is not None and best.price(task.cutting) <= layout.price(task.cutting)):
        return best
    return layout


def _trimmed(task: Task, plan: Counter[Group]) -> list[tuple[Group, tuple[int, ...]]]:
    """Return each group with its strips, less those that are made twice over."""
    left, parts = task.demand.tolist(), []
    for group, count in plan.items():
        for _ in range(count):
            strips = tuple(min(a, b) for a, b in zip(group.strips, left, strict=True))
            left = [a - b for a, b in zip(left, strips, strict=True)]
            parts.append((group, strips))
    return parts


def _cents(task: Task, layout: Layout) -> int:
    return layout.price(task.cutting)[0]
