"""Long planks as strips as wide as the planks they are made of, with the rules of all that is ripped from them."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .bundles import Bundle
from .cutting import Cutting, Member, Shift, Stock
from .turning import Family, Spans, between, mirrored, staggering, zones_of


@dataclass(frozen=True)
class WideRule:
    """What a scarf across a whole plank costs, and how stations are staggered: see ``turning.staggering``.

    ``mirrored``: they are the mirror images of these.

    Turned strips that need not keep a shift are staggered by a lap.
    """

    joint_cents: int
    period: int | None
    mirrored: bool


def wide_cutting(
    cutting: Cutting, planks: Stock, bundles: Sequence[Bundle], families: Sequence[Family], rule: WideRule
) -> tuple[Cutting, tuple[Bundle, ...]]:
    """Return the cutting of long planks, equal ones as one member, with the bundle of each member by its place.

    A layout of it is one of all their strips: stations of the plank hold for the straight ones, mirrored for the
    others, and joints of strips that keep a shift are so far apart. It is no bound: narrow forbidden stretches are
    widened to a lap.
    """
    kinds = Counter(bundles)
    by_family = {min(family.turned): family for family in families}
    members = tuple(
        _member(cutting, planks, bundle, by_family.get(bundle.family), rule, number, count)
        for number, (bundle, count) in enumerate(kinds.items())
    )
    shifts = tuple(_shifts(tuple(kinds), by_family))
    own = Cutting(cutting.kerf, cutting.longest_piece, members, {planks.index: planks}, shifts, cutting.keep_from)
    return own, tuple(kinds)


def _member(
    cutting: Cutting,
    planks: Stock,
    bundle: Bundle,
    family: Family | None,
    rule: WideRule,
    number: int,
    count: int,
) -> Member:
    strips = [cutting.members[place] for place, _ in bundle.sticks]
    half_lap = strips[0].half_lap
    limits = [strip.limit for strip in strips if strip.limit is not None]
    forbidden = tuple(span for stick in dict.fromkeys(bundle.sticks) for span in _forbidden(cutting, bundle, stick))
    if family is not None or bundle.has_turned:
        distance = 2 * half_lap if family is None else family.distance
        allowed = staggering(bundle.length, distance, rule.period)
        forbidden += between(mirrored(allowed, bundle.length) if rule.mirrored else allowed, bundle.length)
    longest = max((end - start for start, end in planks.stretches), default=0)
    return Member(
        index=number,
        length=bundle.length,
        quantity=count,
        joinable=True,
        half_lap=half_lap,
        least_end=max(strip.least_end for strip in strips),
        least_between=max(strip.least_between for strip in strips),
        zones=zones_of(forbidden, half_lap, bundle.length),
        joint_cents=rule.joint_cents,
        longest=longest if cutting.longest_piece is None else min(longest, cutting.longest_piece),
        stocks=frozenset({planks.index}),
        limit=min(limits, default=None),
    )


def _forbidden(cutting: Cutting, bundle: Bundle, stick: tuple[int, bool]) -> Spans:
    """Return where along a long plank no scarf may have its middle, for one stick's strip."""
    place, turned = stick
    strip = cutting.members[place]
    spans = [(start - strip.half_lap, end + strip.half_lap) for start, end in strip.zones]
    spans.append((-bundle.length, strip.least_end))
    beyond = strip.length + cutting.kerf + strip.half_lap
    spans.append((strip.length - strip.least_end, beyond if strip.length < bundle.length else 2 * bundle.length))
    return mirrored(tuple(sorted(spans)), bundle.length) if turned else tuple(spans)


def _shifts(kinds: Sequence[Bundle], by_family: dict[int, Family]) -> Iterator[Shift]:
    """Yield the shifts from long plank to long plank of a wary family: strips that lie the same way keep them too."""
    for one, bundle in enumerate(kinds):
        family = by_family.get(bundle.family)
        if family is None or not family.wary:
            continue
        yield from (Shift(one, k, family.distance) for k in range(one, len(kinds)) if kinds[k].family == bundle.family)
