"""Strips that may be joined: groups are priced, listed, chosen, and laid out until cost and bound meet."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

import numpy as np

from nesting.effort import Effort
from nesting.solving import Status

from .buying import Part, bought, offcut_worths
from .choosing import Choice, Chooser
from .clashing import MOST_CORES, Clash, clash_of
from .diving import dived
from .every_cut import Refuting
from .filling import Whole
from .generating import EXACT_SEARCH, generated, money_step, rounded_up
from .greedy import greedy
from .groups import Group
from .larger_groups import least_of_larger, most_openings
from .layout import Cut, Layout, apart, keeps_ties
from .listed import Listed
from .master import Master
from .net_length import most_joints
from .outcome import Outcome
from .pricing import Pricing, Unions, unions
from .proven import Proven
from .realising import paired_in_one_way, realised, realised_together
from .safe_bound import Proof
from .shifting import part_of, with_ties
from .task import Task
from .worth_choosing import Costs, groups_within

#: Openings that a listed group has at first, and at most; and the share of them by which that number grows.
FEWEST_OPENINGS, MOST_OPENINGS, GROWTH = 3, 25, 0.5

#: Share of the bound that the first list of groups reaches above it, and how much further each next one does.
FIRST_BAND, WIDER = 0.004, 2.5

#: Times the usual solver effort for laying out one group, one after the other, if it was too little to decide.
PATIENCE = (1, 10)

#: Shares of the way from the bound up to a better plan than the best that are aimed at, one after the other.
AIMS = (Fraction(1, 3), Fraction(2, 3), Fraction(1))

#: Share of all strips that is made one by one where a dive got stuck before them.
LEFT_OVER = 0.3

#: Share of what is left of the effort for one dive, so that some is there for what it leaves.
DIVING = 0.9

#: Strips, and how much more than the bound a plan costs, from which on any better plan is aimed at first.
MANY, FAR = 200, 1.01

#: Groups from which no choice is made as long as larger ones, not listed, keep it from proving anything.
MOST_UNPROVING = 500

#: Choices made from one list before it is left unfinished.
CHOICES = 150


_DECIDED = (Status.OPTIMAL, Status.IMPOSSIBLE)


@dataclass
class _Search:
    task: Task
    effort: Effort
    best: Layout | None
    least: int
    reason: str
    parts: dict[Group, tuple[Status, Part]] = field(default_factory=dict)
    before: Master | None = None
    clashes: list[Clash] = field(default_factory=list)
    limit: tuple[int | None, int] | None = None
    undecided: bool = False
    impossible: bool = False
    patience: int = 1

    @property
    def cents(self) -> int | None:
        return None if self.best is None else self.best.price(self.task.cutting)[0]

    @property
    def met(self) -> bool:
        return self.cents is not None and self.cents <= self.least

    @property
    def most_openings(self) -> int:
        """How many openings there are at most in one group of a plan that is better than the best."""
        if self.limit is None or self.limit[0] != self.cents:
            most = most_openings(self.task)
            if self.cents is not None:
                most = min(most, 1 + most_joints(self.task.cutting, self.cents - 1))
            self.limit = self.cents, max(1, most)
        return self.limit[1]

    @property
    def listed_openings(self) -> int:
        """How many openings a listed group has at most."""
        return min(MOST_OPENINGS, self.most_openings)

    def offer(self, layout: Layout | None) -> None:
        """Keep a layout if it is better than the best, its joints moved apart first if they are too near."""
        cutting = self.task.cutting
        if layout is not None and not keeps_ties(cutting, layout):
            layout = with_ties(self.task, layout, self.effort)
        if layout is None:
            return
        if self.best is None or layout.price(cutting) < self.best.price(cutting):
            self.best = layout

    def raise_to(self, cents: int, reason: str) -> None:
        """Take note of a bound that holds for all plans that are better than the best."""
        cents = cents if self.cents is None else min(cents, self.cents)
        if cents > self.least:
            self.least, self.reason = cents, reason

    def part(self, group: Group) -> tuple[Status, Part]:
        """Return how a group is laid out, looked up once."""
        group = replace(group, kept=0)
        if group not in self.parts:
            self.effort.spend(80 * self.patience)
            self.parts[group] = realised(self.task, group, self.effort.seconds_left, self.patience)
        return self.parts[group]

    def refuted(self, group: Group) -> bool:
        """Whether a group is known not to be laid out in any way."""
        return self.parts.get(replace(group, kept=0), (Status.UNKNOWN,))[0] is Status.IMPOSSIBLE

    def builds(self, group: Group) -> bool:
        """Whether a way was found to lay out a group."""
        return self.part(group)[0] in (Status.OPTIMAL, Status.FEASIBLE)

    def look_longer(self, patience: int) -> None:
        """Forget what the solver could not decide, and give it so many times the usual effort from now on."""
        self.patience, self.undecided = patience, False
        self.parts = {group: (status, part) for group, (status, part) in self.parts.items() if status in _DECIDED}

    def done(self) -> bool:
        """Whether there is nothing to be gained, or no effort left."""
        return self.met or self.effort.over


def spliced(task: Task, first: Layout | None, net: Proven, effort: Effort) -> Outcome:
    """Return the best layout found for strips that may be joined, and what is proven.

    Every plan splits into groups of openings and strips. Those of so many openings are priced by column generation,
    larger ones shown to be too dear; all that a plan up to a cost can hold are listed, the cheapest choice is made,
    and groups that can't be laid out are struck off, until the choice can be.
    """
    search = _Search(task, effort, first, net.cents, net.reason)
    fewest = max(FEWEST_OPENINGS, 2 + max((m.least_joints or 0) for m in task.members))
    for patience in PATIENCE:
        search.look_longer(patience)
        size = min(fewest, MOST_OPENINGS, search.most_openings)
        while not search.done() and _with_groups_of(search, size) and size < search.listed_openings:
            size = min(size + max(1, int(size * GROWTH)), search.listed_openings)
        if search.done() or not search.undecided:
            break
    return Outcome(search.best, Proven(search.least, search.reason, search.impossible and search.best is None))


def _with_groups_of(search: _Search, size: int) -> bool:
    """Search among groups of up to so many openings; return whether larger ones are in the way of a proof."""
    task = search.task
    listed = unions(task, size)
    if listed is None:
        return False
    pricing, master, step = (
        Pricing(task, listed),
        Master(task, size if size < search.most_openings else None, search.before),
        money_step(task),
    )
    search.before = master
    found = generated(master, pricing, search.effort)
    if found is None:
        return False
    larger = least_of_larger(task, found, size, search.most_openings)
    if larger >= 0:
        search.raise_to(rounded_up(found.cents, step), "groups of every kind priced")
    if not search.met:
        _dive(search, master, pricing, step)
    return _widening(search, listed, found, step, larger)


def _dive(search: _Search, master: Master, pricing: Pricing, step: int) -> None:
    """Look for a plan near the bound by fixing groups of the linear master; if none is there, for any better one."""
    costs = Costs(search.task)
    for aim in _aims(search, step):
        effort = search.effort.share_of_rest(DIVING)
        dive = dived(master, pricing, effort, aim, lambda group: search.builds(costs.jointed(group)))
        groups = Counter({costs.jointed(group): n for group, n in dive.groups.items()})
        if dive.whole:
            _lay_out(search, groups)
            return
        rest = _one_by_one(search, groups, dive.left)
        if rest is not None:
            _lay_out(search, groups, rest)


def _aims(search: _Search, step: int) -> Iterator[int]:
    """Yield costs to aim at, one after the other; many strips are first to be planned at all better than so far."""
    for share in AIMS:
        far = search.cents is not None and search.cents > search.least * FAR and search.task.cutting.copies >= MANY
        if search.cents is None:
            yield search.least
        elif not far or share == AIMS[-1]:
            yield _between(search.least, search.cents - step, share, step)


def _one_by_one(search: _Search, groups: Counter[Group], left: Whole) -> list[Part] | None:
    """Return parts that make what is left, one strip after the other, from the lengths that groups leave.

    None if that is much of all, or can't be done in this way.
    """
    if left.sum() > LEFT_OVER * search.task.cutting.copies:
        return None
    task = search.task
    members = tuple(replace(m, quantity=n) for m, n in zip(task.members, left.tolist(), strict=True) if n)
    taken = sum((np.array(group.openings) * n for group, n in groups.items()), np.zeros(len(task.openings)))
    stocks = {}
    for index, openings, available in zip(task.stocks, task.yields, task.available, strict=True):
        used = int((taken / np.maximum(openings, 1))[openings > 0].max(initial=0))
        stock = task.cutting.stocks[index]
        stocks[index] = stock if available is None else replace(stock, available=max(0, available - used))
    layout = greedy(replace(task.cutting, members=members, stocks=stocks, shifts=()), search.effort)
    return None if layout is None else [part_of(task, part) for part in apart(layout)]


def _between(least: int, most: int, share: Fraction, step: int) -> int:
    return least + int((most - least) * share) // step * step


def _widening(search: _Search, unions: Unions, found: Proof, step: int, larger: int) -> bool:
    """List groups further and further above the bound; return whether ``larger`` ones, not listed, end that."""
    task, size = search.task, int(unions.openings.max())
    band = max(step, int(found.cents * FIRST_BAND * 1000) // 1000)
    nothing = False  # whether a list that reached some way up held no plan at all
    while not search.met and not search.effort.over and not search.undecided:
        ceiling = None if search.cents is None else search.cents - step
        cents = int(found.cents) + (_all(task, found) if nothing else band)
        whole = ceiling is not None and cents >= ceiling
        cents = ceiling if whole and ceiling is not None else cents
        blocked = found.most_reduced(cents) > larger
        groups = groups_within(task, unions, found, cents)
        if groups is None:
            return True  # too many to list, but larger groups may still give a better bound, and better plans by diving
        if blocked and len(groups) > MOST_UNPROVING and search.cents is not None and size < search.listed_openings:
            return True
        finished = _choosing(search, groups, found, cents, ceiling, proves=not blocked)
        if blocked and (search.cents is not None or size < search.listed_openings):
            return True
        if not finished or whole:
            return False
        if nothing and search.cents is None:
            search.impossible = not blocked and not search.undecided
            return blocked
        nothing = search.cents is None
        band = int(band * WIDER)
    return False


def _all(task: Task, found: Proof) -> int:
    """Return how far above the bound a list reaches that leaves out no group at all."""
    openings, joints = most_openings(task), most_openings(task) * max((m.joint_cents for m in task.members), default=0)
    dearest = openings * int(found.openings.max(initial=0)) * max(1, int(found.ratio) + 1)
    return dearest // found.scale + joints + 1


def _choosing(
    search: _Search, groups: list[Group], found: Proof, cents: int, ceiling: int | None, *, proves: bool
) -> bool:
    """Choose among listed groups until the choice can be laid out; return whether the list was gone through.

    Only a list that holds all groups of plans up to ``cents`` proves anything.
    """
    task, listed = search.task, Listed(search.task, found, found.most_reduced(cents), groups)
    chooser, step = Chooser(task, search.least, clashes=search.clashes), money_step(task)
    for group in groups:
        if search.refuted(group):
            listed.strike(group)
    for _ in range(CHOICES):
        if search.effort.over:
            return False
        chooser.least = search.least
        choice = chooser.choose(listed.active(), ceiling, search.effort)
        if proves and not search.undecided:
            search.raise_to(rounded_up(Fraction(min(choice.cents, cents + 1)), step), EXACT_SEARCH)
        if not choice.groups:
            return choice.status is Status.IMPOSSIBLE
        if _settle(search, listed, chooser, choice):
            return choice.status is Status.OPTIMAL
        if search.met:
            return True
    return False


def _settle(search: _Search, listed: Listed, chooser: Chooser, choice: Choice) -> bool:
    """Lay out a choice; if it can't be, strike off what is in the way. Return whether it could."""
    bad = False
    for group in choice.groups:
        status, _ = search.part(group)
        if status in (Status.IMPOSSIBLE, Status.UNKNOWN):
            bad = True
            search.undecided = search.undecided or status is Status.UNKNOWN
            listed.strike(group)
    if bad:
        return False
    if dearer := _keeping_less(search, choice.groups):
        _lay_out(search, choice.groups)
        for group, kept in dearer.items():
            listed.lower(group, kept)
        return False
    tied = _tied(search.task, choice.groups)
    if tied:
        status, parts = realised_together(search.task, tied, search.effort.seconds_left, search.patience)
        search.effort.spend(300 * search.patience)
        if parts and _worth(search, parts) < sum(group.kept for group in tied):
            search.undecided = True  # joints that keep a shift may leave less in one piece
            others = Counter(choice.groups)
            others.subtract(Counter(tied))
            _lay_out(search, +others, parts)
            chooser.forbid(Counter(tied))
            return False
        if not parts:
            _note_clash(search, chooser, tied, status)
            listed.loosen(tied)
            return False
        others = Counter(choice.groups)
        others.subtract(Counter(tied))
        _lay_out(search, +others, parts)
        return True
    _lay_out(search, choice.groups)
    return True


def _keeping_less(search: _Search, groups: Iterable[Group]) -> dict[Group, int]:
    """Return the groups whose offcuts can't be worth as much as was thought, with what they are worth."""
    found = {}
    for group in groups:
        if not any(group.strips):
            continue
        status, part = search.part(group)
        worths = offcut_worths(search.task, part)
        kept = sum(map(int, worths))
        if kept < group.kept:
            found[group] = kept
            sure = status is Status.OPTIMAL and kept == int(sum(worths))  # each offcut's worth is cut to whole cents
            search.undecided = search.undecided or not sure
    return found


def _worth(search: _Search, parts: Iterable[Part]) -> int:
    """Return what the offcuts of parts are worth."""
    return sum(int(each) for part in parts for each in offcut_worths(search.task, part))


def _note_clash(search: _Search, chooser: Chooser, tied: list[Group], status: Status) -> None:
    """Forbid groups that could not be laid out together: all that clash like them where that is proven."""
    search.effort.spend(300 * search.patience)
    refuting = Refuting(search.task, search.patience)
    sure = status is Status.IMPOSSIBLE and paired_in_one_way(search.task)
    if sure and refuting.groups(tied, search.effort.seconds_left):
        clash = clash_of(tied, refuting, search.effort)
        if len(clash.cores) <= MOST_CORES:
            search.clashes.append(clash)
            return
    else:
        search.undecided = True
    chooser.forbid(Counter(tied))


def _tied(task: Task, groups: Counter[Group]) -> list[Group]:
    """Return the groups, each as often as it is taken, that hold strips whose joints depend on other copies."""
    return [group for group, n in groups.items() for _ in range(n) if any(group.strips[place] for place in task.tied)]


def _lay_out(search: _Search, groups: Counter[Group], more: Iterable[Part] = ()) -> None:
    """Offer the plan that consists of groups and of parts that are laid out already."""
    parts = list(more)
    for group, count in groups.items():
        status, part = search.part(group)
        if status not in (Status.OPTIMAL, Status.FEASIBLE):
            return
        parts += [part] * count
    search.offer(bought(search.task, _without_surplus(search.task, parts)))


def _without_surplus(task: Task, parts: list[Part]) -> list[Part]:
    """Return the parts less the copies that are made beyond what is asked."""
    left = {member.index: member.quantity for member in task.members}
    kept = []
    for part in parts:
        place: dict[tuple[int, int], int] = {}
        made: Counter[int] = Counter()
        for cut in part.cuts:
            if (cut.member, cut.copy) not in place and left[cut.member] > 0:
                left[cut.member] -= 1
                made[cut.member] += 1
                place[cut.member, cut.copy] = made[cut.member]
        cuts = [
            Cut(c.member, place[c.member, c.copy], c.index, c.length, c.bar)
            for c in part.cuts
            if (c.member, c.copy) in place
        ]
        used = sorted({cut.bar for cut in cuts})
        again = {bar: new for new, bar in enumerate(used)}
        moved = tuple(Cut(c.member, c.copy, c.index, c.length, again[c.bar]) for c in cuts)
        kept.append(Part(tuple(part.openings[bar] for bar in used), moved))
    return kept
