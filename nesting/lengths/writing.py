"""The outcome in the words of the plan: millimetres, ids, stations, offcuts and money."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from itertools import groupby

from nesting.model import Bound, Job, Joint, Share, StripPiece

from .bars import in_order, offcuts_of, place_on, spans, used_of
from .both_ways import Chosen, ways_told
from .cutting import Member, Stock
from .layout import Cut, Layout, apart, beside, copies_of, stations
from .measure import Measure
from .writing_planks import with_long_planks


def share_of(job: Job, chosen: Sequence[Chosen], measure: Measure) -> Share:
    """Return the timber's share of the plan; bars are numbered by stock, as the job lists it, longest cut first.

    Planks of long planks come after them.
    """
    plain = [pair for each in chosen for pair in each.plain]
    layout = in_order(
        beside(part for _, outcome in plain if outcome.layout is not None for part in apart(outcome.layout))
    )
    members = {member.index: member for cutting, _ in plain for member in cutting.members}
    layout = _in_pairs(layout, members.values())
    stocks = {index: stock for cutting, _ in plain for index, stock in cutting.stocks.items()}
    bars = enumerate(layout.bars, start=1)
    share = Share(
        used=tuple(used for bar, index in bars for used in used_of(job, f"L{bar}", stocks[index])),
        pieces=tuple(_pieces(job, layout, stocks, measure)),
        joints=tuple(_joints(job, members, layout, measure)),
        offcuts=tuple(offcuts_of(job, layout, stocks, measure)),
        plank_ways=tuple(ways_told(job, chosen)),
    )
    return with_long_planks(job, share, [each.long_planks for each in chosen if each.long_planks], measure)


def bound_of(chosen: Sequence[Chosen]) -> Bound:
    """Return what is proven of all timber together."""
    if not chosen:
        return Bound(amount=Decimal(0), reason="no timber is asked for")
    reasons = dict.fromkeys(each.proven.reason for each in chosen)
    return Bound(amount=Decimal(sum(each.proven.cents for each in chosen)).scaleb(-2), reason="; ".join(reasons))


def _in_pairs(layout: Layout, members: Iterable[Member]) -> Layout:
    """Return the layout with matched copies numbered so that those with the same joints follow one another."""
    number: dict[tuple[int, int], int] = {}
    for member in members:
        if member.matched:
            copies = sorted((joints, copy) for copy, joints in copies_of(member, layout))
            number.update({(member.index, copy): place for place, (_, copy) in enumerate(copies, start=1)})
    cuts = (cut.moved(number.get((cut.member, cut.copy), cut.copy), cut.bar) for cut in layout.cuts)
    return Layout(layout.bars, tuple(sorted(cuts)))


def _pieces(job: Job, layout: Layout, stocks: Mapping[int, Stock], measure: Measure) -> Iterator[StripPiece]:
    counts = {name: len(tuple(cuts)) for name, cuts in groupby(layout.cuts, key=_strip_of)}
    for bar in range(len(layout.bars)):
        for cut, start, end in spans(layout, bar, stocks):
            yield StripPiece(
                id=_piece_id(job, cut),
                part=job.strips[cut.member].name,
                copy_number=cut.copy,
                index=cut.index + 1,
                of=counts[_strip_of(cut)],
                on=place_on(stocks[layout.bars[bar]], bar, cut.stretch),
                start=measure.millimetres(start),
                end=measure.millimetres(end),
            )


def _joints(job: Job, members: dict[int, Member], layout: Layout, measure: Measure) -> Iterator[Joint]:
    for (index, copy), group in groupby(layout.cuts, key=_strip_of):
        cuts = tuple(group)
        strip = job.strips[index]
        for place, station in enumerate(stations(members[index], (cut.length for cut in cuts))):
            rule = job.joints[str(strip.joint)]
            yield Joint(
                id=f"{strip.name}-{copy}/J{place + 1}",
                part=strip.name,
                copy_number=copy,
                station=measure.millimetres(station),
                lap=rule.lap(strip.bevelled),
                slope=rule.slope,
                thickness=strip.bevelled,
                across=strip.scarf_across,
                width=strip.joint_width,
                pieces=(_piece_id(job, cuts[place]), _piece_id(job, cuts[place + 1])),
                cost=rule.cost.of(strip.joint_width),
            )


def _strip_of(cut: Cut) -> tuple[int, int]:
    return cut.member, cut.copy


def _piece_id(job: Job, cut: Cut) -> str:
    return f"{job.strips[cut.member].name}-{cut.copy}-{cut.index + 1}"
