"""Planks scarfed once and then ripped: the strips that are longer than a plank, from long planks of one kind."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product

from nesting.effort import Effort

from .bundles import Bundle, Sorting, bundles
from .cutting import Cutting, Member, Shift, Stock, hanging_together
from .greedy import greedy
from .keeping import worth
from .layout import Layout, copies_of
from .long_sticks import LongPlankCut, LongStickCut, first_stick, with_short_strips
from .outcome import Outcome
from .plank_uses import PlankUse
from .turning import Family, families
from .wide import WideRule, wide_cutting

Planning = Callable[[Cutting, Effort], Outcome]

#: Ways of giving strips to long planks, the first of those that cost the same is taken: turned by turns, mixed.
SORTINGS = (Sorting(True, True), Sorting(False, True), Sorting(True, False), Sorting(False, False))


@dataclass(frozen=True)
class Scarfed:
    """Strips from long planks, and the others cut and scarfed as ever.

    Attributes
    ----------
    use : PlankUse
    strips : tuple of Member
        The members that were to be planned.
    wide : Cutting
        Long planks as members.
    layout : Layout
        What is cut from the planks, over their whole width.
    planks : tuple of LongPlankCut
        Each long plank with its scarfs, its sticks, and the strips cut from these.
    rest : tuple of (Cutting, Outcome)
        The other strips, each with a layout.
    """

    use: PlankUse
    strips: tuple[Member, ...]
    wide: Cutting
    layout: Layout
    planks: tuple[LongPlankCut, ...]
    rest: tuple[tuple[Cutting, Outcome], ...]

    @cached_property
    def cents(self) -> int:
        """What stock and joints cost, less kept offcuts, those of sticks too."""
        others = (outcome.layout.price(cutting)[0] for cutting, outcome in self.rest if outcome.layout is not None)
        kept = (value for plank in self.planks for stick in plank.sticks for *_, value in self.rests(plank, stick))
        return self.layout.price(self.wide)[0] + sum(others) - sum(kept)

    def rests(self, plank: LongPlankCut, stick: LongStickCut) -> Iterator[tuple[int, int, int]]:
        """Yield what is left of a stick, from and to along the plank, with its worth in cents."""
        value, least = self.use.planks.offcut / self.use.sticks, self.wide.keep_from
        for start, end in plank.rests(stick, self.wide.kerf):
            yield start, end, worth(value, end - start, least)

    @property
    def scarfs(self) -> int:
        """How many scarfs run across planks."""
        return self.layout.joints().total()


def scarfed_once(cutting: Cutting, use: PlankUse, planned: Planning, effort: Effort) -> Scarfed | None:
    """Return the best plan found in which strips longer than a plank are ripped from long planks of one kind.

    Whole strips that fit what is left of the sticks are cut from there. ``planned`` plans a cutting. None if no strip
    is longer, or no such plan is found.
    """
    places = use.too_long(cutting)
    tied = families(cutting, places) if places else None
    if tied is None:
        return None
    best = min(_likely(cutting, use, places, tied, effort), key=lambda each: each[0], default=None)
    if best is None:
        return None
    _, wide, kinds = best
    layout = planned(wide, effort.share_of_rest(0.5)).layout
    if layout is None:
        return None
    short = [(k, m) for k, m in enumerate(cutting.members) if k not in places and not m.matched]
    short = [(place, member) for place, member in short if use.ripped in member.stocks]
    planks, found = with_short_strips(tuple(_planks(cutting, use, wide, kinds, layout)), short, cutting.kerf)
    rest = tuple((part, planned(part, effort)) for part in _rest(cutting, use, places, len(layout.bars), found))
    if any(outcome.layout is None for _, outcome in rest):
        return None
    return Scarfed(use, cutting.members, wide, layout, planks, rest)


def _planks(
    cutting: Cutting, use: PlankUse, wide: Cutting, kinds: Sequence[Bundle], layout: Layout
) -> Iterator[LongPlankCut]:
    """Yield each long plank with its scarfs, and all sticks that it is ripped into."""
    for member, bundle in zip(wide.members, kinds, strict=True):
        sticks = [first_stick(k, turned, cutting.members[k].length, bundle.length) for k, turned in bundle.sticks]
        sticks += [LongStickCut(False)] * (use.sticks - len(sticks))
        for copy, scarfs in copies_of(member, layout):
            yield LongPlankCut(member.index, copy, bundle.length, member.half_lap, scarfs, tuple(sticks))


def _likely(
    cutting: Cutting, use: PlankUse, places: tuple[int, ...], tied: list[Family], effort: Effort
) -> Iterator[tuple[tuple[int, int], Cutting, tuple[Bundle, ...]]]:
    """Yield ways of giving strips to long planks and of staggering, each with what a quick plan of it costs."""
    lap = 2 * cutting.members[places[0]].half_lap
    for sorting, period in product(SORTINGS, (None, use.longest - lap)):
        made = bundles(cutting, places, tied, use.sticks, sorting)
        wide, kinds = wide_cutting(cutting, use.planks, made, tied, WideRule(use.joint_cents, period))
        if not _may_be(wide):
            continue
        quick = greedy(wide, effort)
        if quick is not None:
            yield quick.price(wide), wide, kinds


def _may_be(wide: Cutting) -> bool:
    """Whether each long plank alone can be made, and handled."""
    return all(member.least_joints is not None and wide.handles(member.length) for member in wide.members)


def _rest(
    cutting: Cutting, use: PlankUse, places: tuple[int, ...], taken: int, found: Counter[int]
) -> Iterator[Cutting]:
    """Yield what remains to be planned: the other strips, in one piece where they kept a shift from those.

    ``taken`` planks are taken already, and some copies of the members ``found``.
    """
    left = {place: member.quantity - found[place] for place, member in enumerate(cutting.members)}
    others = [place for place in left if place not in places and left[place]]
    anew = {place: number for number, place in enumerate(others)}
    near = {p for s in cutting.shifts if s.distance and {s.one, s.other} & set(places) for p in (s.one, s.other)}
    members = tuple(replace(cutting.members[place], quantity=left[place]) for place in others)
    members = tuple(
        replace(each, joinable=False) if k in near else each for k, each in zip(others, members, strict=True)
    )
    shifts = tuple(
        Shift(anew[s.one], anew[s.other], s.distance) for s in cutting.shifts if s.one in anew and s.other in anew
    )
    stocks = dict(cutting.stocks)
    for index in (use.planks.index, use.ripped):
        if index in stocks:
            stocks[index] = _less(stocks[index], taken)
    yield from hanging_together(replace(cutting, members=members, stocks=stocks, shifts=shifts))


def _less(stock: Stock, taken: int) -> Stock:
    return stock if stock.available is None else replace(stock, available=max(0, stock.available - taken))
