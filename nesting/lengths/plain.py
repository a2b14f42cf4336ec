"""Strips without joints: cutting stock, proven where the effort allows."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from operator import mul

import numpy as np

from nesting.effort import Effort
from nesting.solving import Status

from .arc_flow import settled
from .buying import bought, plain_part
from .choosing import Chooser
from .covering import covered
from .diving import dived
from .generating import EXACT_SEARCH, completed, generated, money_step, rounded_up
from .groups import Group
from .layout import Layout
from .master import Master
from .outcome import Outcome
from .patterns import Listing
from .pricing import Pricing, unions
from .proven import Proven
from .purchases import Box, Boxes
from .safe_bound import Proof
from .subset_sums import subset_sums
from .task import Task

#: Shares of the way from the bound up to a better plan than the best that are aimed at, one after the other.
AIMS = tuple(Fraction(k, 10) for k in (0, 1, 2, 4, 6, 10, 2, 5, 10))

#: Patterns from which choices are made, and their share of the effort that is left: of all that matter, or of some.
MOST_CHOSEN, DECIDING, CHOOSING = (500, 2_000), 0.9, 0.5

#: What proves a bound that prices alone give.
PRICED = "patterns of every kind priced"

#: What proves a bound that branching on purchases gives; shares of the effort that is left for it, and for one of them.
BRANCHED, BRANCHING, TRYING = "every number of lengths to buy weighed, patterns of every kind priced", 0.7, 0.3

#: Share of the effort that is left for a choice of the patterns that are generated anyway.
RESTRICTED = 0.15


@dataclass
class _Search:
    """The best layout so far, and what is proven: no plan is below ``least`` cents."""

    task: Task
    pricing: Pricing
    master: Master
    effort: Effort
    best: Layout | None
    found: Proof
    least: int
    reason: str

    @cached_property
    def step(self) -> int:
        """The cents of which every plan's cost is a multiple."""
        return money_step(self.task)

    @property
    def cents(self) -> int:
        """What the best layout costs; more than any plan if there is none."""
        return _dearest(self.task, self.step) if self.best is None else self.best.price(self.task.cutting)[0]

    @property
    def ceiling(self) -> int:
        """What a better layout costs at most."""
        return self.cents - self.step

    @property
    def done(self) -> bool:
        """Whether there is nothing to be gained, or no effort left."""
        return self.effort.over or self.cents <= self.least

    @property
    def impossible(self) -> bool:
        """Whether there is no plan at all: none was found, and none costs less than all stock that is of use."""
        return self.best is None and self.cents <= self.least

    def offer(self, plan: Counter[Group] | None) -> None:
        """Keep a choice of groups if it is cheaper than the best."""
        self.best = _better(self.task, self.best, plan)

    def raise_to(self, cents: int, reason: str) -> None:
        """Take note of a bound that holds for all plans that are better than the best."""
        cents = min(cents, self.cents)
        if cents > self.least:
            self.least, self.reason = cents, reason


def plain(task: Task, first: Layout | None, net: Proven, effort: Effort) -> Outcome:
    """Return the best layout found for strips without joints, and what is proven.

    Patterns are generated for a linear master, whose prices give a bound in whole numbers. Plans come from filling
    length by length and from diving in the master. If they don't meet the bound, what to buy is branched on where there
    are several stocks; then a choice of all patterns near the bound decides, or the arc-flow programme where they are
    too many.
    """
    single = unions(task, 1)
    assert single is not None, "there are no more single openings than stretches of stock"
    pricing, master = Pricing(task, single), Master(task)
    best = _better(task, first, subset_sums(task, pricing))
    found = generated(master, pricing, effort)
    if found is None:
        return Outcome(best, net)
    least, reason = max((rounded_up(found.cents, money_step(task)), PRICED), (net.cents, net.reason))
    search = _Search(task, pricing, master, effort, best, found, least, reason)
    for look in (_dive_at_the_bound, _branch, _complete, _dive, _choose, _settle):
        if search.done:
            break
        look(search)
    return Outcome(search.best, Proven(search.least, search.reason, search.impossible))


def _dive_at_the_bound(search: _Search) -> None:
    """Look for a plan that costs no more than is proven."""
    _dive_to(search, 10**15 if search.best is None else search.least)


def _complete(search: _Search) -> None:
    """Bring the bound as near to the master's cost as it goes: then a better plan can hold fewer patterns."""
    search.master.let_go()
    search.found = completed(search.master, search.pricing, search.effort, search.found)
    search.raise_to(rounded_up(search.found.cents, search.step), PRICED)


def _dive(search: _Search) -> None:
    """Look for plans between the bound and the best one so far."""
    for share in AIMS:
        if search.done:
            break
        aim = search.least + int((search.ceiling - search.least) * share) // search.step * search.step
        _dive_to(search, 10**15 if search.best is None else aim)


def _dive_to(search: _Search, aim: int) -> None:
    dive = dived(search.master, search.pricing, search.effort, aim)
    search.offer(dive.groups if dive.whole else None)


def _branch(search: _Search) -> None:
    """Settle what to buy where there are several stocks: the cheapest purchases first, each tried out by itself."""
    if len(search.task.stocks) == 1 or search.best is None:
        return
    boxes = Boxes(search.master, search.pricing, search.step, search.effort.share_of_rest(BRANCHING))
    search.master.let_go()
    boxes.begin(search.cents)
    reasons: set[str | None] = {BRANCHED}
    while (box := boxes.next_whole(search.cents)) is not None:
        settled_by = _try_out(search, box)
        boxes.go_beyond(box, search.cents, settled=settled_by is not None)
        reasons.add(settled_by)
    search.raise_to(boxes.least(search.cents), EXACT_SEARCH if EXACT_SEARCH in reasons else BRANCHED)
    search.master.let_go()


def _try_out(search: _Search, box: Box) -> str | None:
    """Look for a better plan from at most the lengths that a box's master takes; return why no more is left, if so."""
    task = search.task.buying_at_most(box.counts)
    cents = sum(map(mul, task.cents.tolist(), box.counts))
    pricing, master, effort = search.pricing, Master(task, before=search.master), search.effort.share_of_rest(TRYING)
    dive = dived(master, pricing, effort, min(cents, search.ceiling))
    search.offer(dive.groups if dive.whole else None)
    if search.cents <= rounded_up(box.cents, search.step):
        return BRANCHED
    master.let_go()
    found = generated(master, pricing, effort)
    near = None if found is None else Listing(task, found).within(min(cents, search.ceiling), MOST_CHOSEN[-1])
    if near is None:
        return None
    choice = covered(task, near, 0, search.step, effort)
    search.offer(choice.groups)
    return EXACT_SEARCH if choice.status in (Status.OPTIMAL, Status.IMPOSSIBLE) else None


def _choose(search: _Search) -> None:
    """Choose among all patterns near the bound, at first few and then more, until none is left out of a better plan."""
    listing = Listing(search.task, search.found)
    for most in MOST_CHOSEN:
        near = None if search.done else listing.widest(search.ceiling, search.step, most)
        if near is None:
            continue
        share = DECIDING if near.cents >= search.ceiling else CHOOSING
        choice = covered(search.task, near, search.least, search.step, search.effort.share_of_rest(share))
        search.raise_to(choice.cents, EXACT_SEARCH)
        search.offer(choice.groups)
        if near.cents >= search.ceiling:
            return
    if not search.done:
        _choose_some(search)


def _choose_some(search: _Search) -> None:
    """Choose among the patterns that were generated anyway."""
    if search.best is not None:
        effort = search.effort.share_of_rest(RESTRICTED)
        search.offer(Chooser(search.task, search.least).choose(search.master.groups, search.ceiling, effort).groups)


def _settle(search: _Search) -> None:
    """Let the arc-flow programme decide."""
    decided = settled(search.task, search.found, search.cents, search.step, search.effort)
    if decided.cents is not None:
        search.raise_to(decided.cents, EXACT_SEARCH)
    search.offer(decided.plan)


def _dearest(task: Task, step: int) -> int:
    """Return more than any plan without idle lengths costs."""
    strips = int(task.demand.sum())
    lengths = (strips if count is None else count for count in task.available)
    return sum(int(cents) * count for cents, count in zip(task.cents, lengths, strict=True)) // step * step + step


def _better(task: Task, best: Layout | None, plan: Counter[Group] | None) -> Layout | None:
    """Return the cheaper of a layout and a choice of groups, if there are any."""
    if not plan:
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
