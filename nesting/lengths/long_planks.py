"""Planks scarfed once and then ripped: strips that are longer than a plank, from long planks of one kind."""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import product

from nesting.effort import Effort

from .bundles import Bundle, Sorting, bundles
from .cutting import Cutting, Member
from .greedy import greedy
from .keeping import worth
from .layout import Layout, copies_of
from .long_sticks import LongPlankCut, LongStickCut, first_stick, with_short_strips
from .outcome import Outcome
from .plank_uses import PlankUse
from .remaining import what_remains
from .turning import families, parted_by_shifts
from .wide import WideRule, wide_cutting

Planning = Callable[[Cutting, Effort], Outcome]

#: Ways of giving strips to long planks, the first of those that cost the same is taken: turned by turns, mixed.
SORTINGS = (Sorting(True, True), Sorting(False, True), Sorting(True, False), Sorting(False, False))

#: Sets of strips that are looked at by themselves.
MOST_SETS = 6

#: Ways of giving strips to long planks that are planned in earnest.
MOST_IN_EARNEST = 4


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

    All of them, or only those of which there are enough; the others are scarfed one by one. Whole strips that fit what
    is left of the sticks are cut from there. ``planned`` plans a cutting. None if no strip is longer, or no such plan
    is found.
    """
    best: Scarfed | None = None
    for likely in _likeliest(cutting, use, effort):
        made = _in_earnest(cutting, use, likely, planned, effort)
        if made is not None and (best is None or made.cents < best.cents):
            best = made
    return best


def _likeliest(cutting: Cutting, use: PlankUse, effort: Effort) -> list["_Likely"]:
    """Return a few ways of giving strips to long planks, of each set of strips the one with the cheapest quick plan."""
    found: dict[tuple[tuple[int, int], ...], tuple[int, _Likely]] = {}
    for likely in _likely(cutting, use):
        cents = _quick_cents(cutting, use, likely, effort)
        if cents is not None and (likely.taken not in found or cents < found[likely.taken][0]):
            found[likely.taken] = cents, likely
    return [likely for _, likely in sorted(found.values(), key=lambda pair: pair[0])[:MOST_IN_EARNEST]]


def _in_earnest(
    cutting: Cutting, use: PlankUse, likely: "_Likely", planned: Planning, effort: Effort
) -> Scarfed | None:
    layout = planned(likely.wide, effort.share_of_rest(0.5)).layout
    if layout is None:
        return None
    planks, left = _made(cutting, use, likely, layout)
    rest = tuple((part, planned(part, effort)) for part in left)
    if any(outcome.layout is None for _, outcome in rest):
        return None
    return Scarfed(use, cutting.members, likely.wide, layout, planks, rest)


@dataclass(frozen=True)
class _Likely:
    """Long planks as a cutting, and the strips of each of its members."""

    wide: Cutting
    bundles: tuple[Bundle, ...]

    @property
    def taken(self) -> tuple[tuple[int, int], ...]:
        """How many of each member (by place) come from long planks."""
        pairs = zip(self.wide.members, self.bundles, strict=True)
        taken = Counter(place for member, bundle in pairs for place, _ in bundle.sticks * member.quantity)
        return tuple(sorted(taken.items()))


def _likely(cutting: Cutting, use: PlankUse) -> Iterator[_Likely]:
    """Yield ways of giving strips to long planks and of staggering, each once."""
    seen: set[tuple[Member, ...]] = set()
    for places in _sets_of_strips(cutting, use.too_long(cutting)):
        tied = families(cutting, places)
        if tied is None:
            continue
        lap = 2 * cutting.members[places[0]].half_lap
        rules = [WideRule(use.joint_cents, *each) for each in product((None, use.longest - lap), (False, True))]
        for sorting, rule, full in product(SORTINGS, rules, (False, True)):
            made = bundles(cutting, places, tied, use.sticks, sorting)
            made = [bundle for bundle in made if len(bundle.sticks) == use.sticks] if full else made
            wide, kinds = wide_cutting(cutting, use.planks, made, tied, rule)
            if wide.members and wide.members not in seen and _may_be(wide):
                seen.add(wide.members)
                yield _Likely(wide, kinds)


def _sets_of_strips(cutting: Cutting, places: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Yield which strips may come from long planks: all, or those that keep a shift from one another, or one alone."""
    sets = [places] if places else []
    sets += parted_by_shifts(cutting, places)
    sets += [(place,) for place in places]
    yield from list(dict.fromkeys(sets))[:MOST_SETS]


def _may_be(wide: Cutting) -> bool:
    """Whether each long plank alone can be made, and handled."""
    return all(member.least_joints is not None and wide.handles(member.length) for member in wide.members)


def _quick_cents(cutting: Cutting, use: PlankUse, likely: _Likely, effort: Effort) -> int | None:
    """Return what quick plans of long planks and of all the rest cost; None if there are none."""
    layout = greedy(likely.wide, effort)
    if layout is None:
        return None
    cents = layout.price(likely.wide)[0]
    for part in _made(cutting, use, likely, layout)[1]:
        quick = greedy(part, effort) if all(member.least_joints is not None for member in part.members) else None
        if quick is None:
            return None
        cents += quick.price(part)[0]
    return cents


def _made(
    cutting: Cutting, use: PlankUse, likely: _Likely, layout: Layout
) -> tuple[tuple[LongPlankCut, ...], tuple[Cutting, ...]]:
    """Return long planks with all that is cut from them, and what remains to be planned."""
    planks = tuple(_planks(cutting, use, likely, layout))
    long = Counter(strip.place for plank in planks for stick in plank.sticks for strip in stick.strips)
    short = [
        (place, member)
        for place, member in enumerate(cutting.members)
        if not long[place] and not member.matched and use.ripped in member.stocks
    ]
    planks = with_short_strips(planks, short, cutting.kerf)
    return planks, tuple(what_remains(cutting, planks, (use.planks.index, use.ripped), len(layout.bars)))


def _planks(cutting: Cutting, use: PlankUse, likely: _Likely, layout: Layout) -> Iterator[LongPlankCut]:
    """Yield each long plank with its scarfs, and all sticks that it is ripped into."""
    for member, bundle in zip(likely.wide.members, likely.bundles, strict=True):
        sticks = [first_stick(k, turned, cutting.members[k].length, bundle.length) for k, turned in bundle.sticks]
        sticks += [LongStickCut(False)] * (use.sticks - len(sticks))
        for copy, scarfs in copies_of(member, layout):
            yield LongPlankCut(member.index, copy, bundle.length, member.half_lap, scarfs, tuple(sticks))
