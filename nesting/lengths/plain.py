"""Strips without joints: cutting stock, proven where the effort allows."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from nesting.effort import Effort
from nesting.solving import Status

from .arc_flow import settled
from .buying import bought, plain_part
from .choosing import Chooser
from .diving import dived
from .generating import EXACT_SEARCH, generated, money_step, rounded_up
from .groups import Group
from .layout import Layout
from .listed import Listed
from .master import Master
from .outcome import Outcome
from .pricing import Pricing, unions
from .proven import Proven
from .safe_bound import Proof
from .subset_sums import subset_sums
from .task import Task
from .worth_choosing import groups_within

#: Shares of the way from the bound up to a better plan than the best that are aimed at, one after the other.
AIMS = (Fraction(0), *(Fraction(k, 10) for k in (1, 2, 4, 6, 10, 2, 5, 10)))

#: Patterns from which a choice is made, and its share of the effort that is left.
MOST_CHOSEN, CHOOSING = 3_000, 0.5

#: Share of the effort that is left for a choice of the patterns that are generated anyway.
RESTRICTED = 0.15


def plain(task: Task, first: Layout | None, net: Proven, effort: Effort) -> Outcome:
    """Return the best layout found for strips without joints, and what is proven.

    Patterns are generated for a linear master, whose prices give a bound in whole numbers. Plans come from filling
    length by length and from diving in the master; if they don't meet the bound, a choice of
    all patterns near it decides, or the arc-flow programme where they are too many.
    """
    single = unions(task, 1)
    assert single is not None, "there are no more single openings than stretches of stock"
    pricing, master, step = Pricing(task, single), Master(task), money_step(task)
    best = _better(task, first, subset_sums(task, pricing))
    found = generated(master, pricing, effort)
    if found is None:
        return Outcome(best, net)
    least, reason = max((rounded_up(found.cents, step), "patterns of every kind priced"), (net.cents, net.reason))
    best = _dived(task, best, least, step, master, pricing, effort)
    if best is not None and _cents(task, best) > least:
        some = Chooser(task, least).choose(master.groups, _cents(task, best) - step, effort.share_of_rest(RESTRICTED))
        best = _better(task, best, some.groups or None)
    if effort.over or (best is not None and _cents(task, best) <= least):
        return Outcome(best, Proven(least, reason))
    if best is not None and _cents(task, best) > least:
        choice = _chosen(task, pricing, found, _cents(task, best) - step, effort)
        best = _better(task, best, choice.groups or None) or best
        if choice.cents > least:
            least, reason = min(rounded_up(Fraction(choice.cents), step), _cents(task, best)), EXACT_SEARCH
        if choice.decided or effort.over or _cents(task, best) <= least:
            return Outcome(best, Proven(least, reason))
    decided = settled(task, found, _dearest(task, step) if best is None else _cents(task, best), step, effort)
    best = _better(task, best, decided.plan)
    if decided.cents is not None and decided.cents > least:
        least, reason = decided.cents, EXACT_SEARCH
    return Outcome(best, Proven(least, reason, best is None and decided.plan is None and decided.finished))


def _dived(
    task: Task, best: Layout | None, least: int, step: int, master: Master, pricing: Pricing, effort: Effort
) -> Layout | None:
    """Return the best plan that diving finds: at the bound itself, or between it and the best one so far."""
    for share in AIMS:
        if effort.over or (best is not None and _cents(task, best) <= least):
            break
        aim = 10**15 if best is None else least + int((_cents(task, best) - step - least) * share) // step * step
        dive = dived(master, pricing, effort, least if share == 0 else aim)
        best = _better(task, best, dive.groups if dive.whole else None)
    return best


@dataclass(frozen=True)
class _Chosen:
    """Patterns that make a better plan, if there are any; a bound in cents; whether there is no plan below it."""

    groups: Counter[Group]
    cents: int
    decided: bool


def _chosen(task: Task, pricing: Pricing, found: Proof, cents: int, effort: Effort) -> _Chosen:
    """Choose the cheapest of all patterns that a plan of at most so many cents can hold, if they are not too many."""
    groups = groups_within(task, pricing.unions, found, cents)
    if groups is None or len(groups) > MOST_CHOSEN:
        return _Chosen(Counter(), 0, False)
    active = Listed(task, found, found.most_reduced(cents), groups).active()
    choice = Chooser(task, 0).choose(active, cents, effort.share_of_rest(CHOOSING))
    return _Chosen(choice.groups, choice.cents, choice.status in (Status.OPTIMAL, Status.IMPOSSIBLE))


def _dearest(task: Task, step: int) -> int:
    """Return more than any plan without idle lengths costs."""
    strips = int(task.demand.sum())
    lengths = (strips if count is None else count for count in task.available)
    return sum(int(cents) * count for cents, count in zip(task.cents, lengths, strict=True)) // step * step + step


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
    left, parts = task.demand, []
    for group, count in plan.items():
        for _ in range(count):
            strips = np.minimum(group.strips, left)
            left = left - strips
            parts.append((group, tuple(strips.tolist())))
    return parts


def _cents(task: Task, layout: Layout) -> int:
    return layout.price(task.cutting)[0]
