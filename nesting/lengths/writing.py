"""The outcome in the words of the plan: millimetres, ids, stations, offcuts and money."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from itertools import groupby

from nesting.model import Bound, Job, Joint, LengthOffcut, Share, StripPiece, UsedLength

from .cutting import Cutting, Member, Stock, length_of
from .layout import Cut, Layout, apart, beside, copies_of, stations
from .measure import Measure
from .outcome import Outcome


def share_of(job: Job, cuttings: Sequence[Cutting], outcomes: Sequence[Outcome], measure: Measure) -> Share:
    """Return the timber's share of the plan; bars are numbered by stock, as the job lists it, longest cut first."""
    layout = _in_order(
        beside(part for outcome in outcomes if outcome.layout is not None for part in apart(outcome.layout))
    )
    members = {member.index: member for cutting in cuttings for member in cutting.members}
    layout = _in_pairs(layout, members.values())
    stocks = {index: stock for cutting in cuttings for index, stock in cutting.stocks.items()}
    return Share(
        used=tuple(used for bar, index in enumerate(layout.bars) for used in _used(job, f"L{bar + 1}", stocks[index])),
        pieces=tuple(_pieces(job, layout, stocks, measure)),
        joints=tuple(_joints(job, members, layout, measure)),
        offcuts=tuple(_offcuts(job, layout, stocks, measure)),
    )


def bound_of(outcomes: Sequence[Outcome]) -> Bound:
    """Return what is proven of all timber together."""
    if not outcomes:
        return Bound(amount=Decimal(0), reason="no timber is asked for")
    reasons = dict.fromkeys(outcome.proven.reason for outcome in outcomes)
    return Bound(amount=Decimal(sum(o.proven.cents for o in outcomes)).scaleb(-2), reason="; ".join(reasons))


def _in_pairs(layout: Layout, members: Iterable[Member]) -> Layout:
    """Return the layout with matched copies numbered so that those with the same joints follow one another."""
    number: dict[tuple[int, int], int] = {}
    for member in members:
        if member.matched:
            copies = sorted((joints, copy) for copy, joints in copies_of(member, layout))
            number.update({(member.index, copy): place for place, (_, copy) in enumerate(copies, start=1)})
    cuts = (cut.moved(number.get((cut.member, cut.copy), cut.copy), cut.bar) for cut in layout.cuts)
    return Layout(layout.bars, tuple(sorted(cuts)))


def _in_order(layout: Layout) -> Layout:
    order = sorted(range(len(layout.bars)), key=lambda bar: (layout.bars[bar], _key(layout.on(bar))))
    place = {bar: position for position, bar in enumerate(order)}
    cuts = sorted(c.moved(c.copy, place[c.bar]) for c in layout.cuts)
    return Layout(tuple(layout.bars[bar] for bar in order), tuple(cuts))


def _key(cuts: tuple[Cut, ...]) -> tuple[tuple[int, int, int, int], ...]:
    return tuple((-cut.length, cut.member, cut.copy, cut.index) for cut in cuts)


def _used(job: Job, bar: str, stock: Stock) -> Iterator[UsedLength]:
    """Yield a length, or the sticks of one that is ripped."""
    length = length_of(job, stock.index)
    for stick in range(1, 1 + (stock.sticks or 1)):
        yield UsedLength(
            id=bar if stock.sticks is None else f"{bar}-{stick}",
            stock=length.name,
            source=length.source,
            length=length.length,
            faults=length.faults,
            plank=None if stock.sticks is None else bar,
            stick=stick,
            sticks=stock.sticks or 1,
        )


def _on(stock: Stock, bar: int, stretch: int) -> str:
    """Return the id of the length, or of the stick, that a stretch is of."""
    if stock.sticks is None:
        return f"L{bar + 1}"
    return f"L{bar + 1}-{1 + stretch // (len(stock.stretches) // stock.sticks)}"


def _spans(layout: Layout, bar: int, stocks: Mapping[int, Stock]) -> Iterator[tuple[Cut, int, int]]:
    """Yield the pieces of a bar with their ends: laid from the start of each clear stretch, one kerf apart."""
    stock = stocks[layout.bars[bar]]
    starts = {stretch: start for stretch, (start, _) in enumerate(stock.stretches)}
    for cut in layout.on(bar):
        start = starts[cut.stretch]
        yield cut, start, start + cut.length
        starts[cut.stretch] = start + cut.length + stock.kerf


def _pieces(job: Job, layout: Layout, stocks: Mapping[int, Stock], measure: Measure) -> Iterator[StripPiece]:
    counts = {name: len(tuple(cuts)) for name, cuts in groupby(layout.cuts, key=_strip_of)}
    for bar in range(len(layout.bars)):
        for cut, start, end in _spans(layout, bar, stocks):
            yield StripPiece(
                id=_piece_id(job, cut),
                part=job.strips[cut.member].name,
                copy_number=cut.copy,
                index=cut.index + 1,
                of=counts[_strip_of(cut)],
                on=_on(stocks[layout.bars[bar]], bar, cut.stretch),
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


def _offcuts(job: Job, layout: Layout, stocks: Mapping[int, Stock], measure: Measure) -> Iterator[LengthOffcut]:
    """Yield the rest of each clear stretch beyond the cut that frees it."""
    for bar, index in enumerate(layout.bars):
        stock = stocks[index]
        starts = {stretch: start for stretch, (start, _) in enumerate(stock.stretches)}
        for cut, _, end in _spans(layout, bar, stocks):
            starts[cut.stretch] = end + stock.kerf
        for stretch, (_, end) in enumerate(stock.stretches):
            if starts[stretch] < end:
                rest = measure.millimetres(end - starts[stretch])
                kept = rest >= job.workshop.keep_length_from
                value = int(stock.offcut * (end - starts[stretch])) if kept else 0
                yield LengthOffcut(
                    on=_on(stock, bar, stretch),
                    start=measure.millimetres(starts[stretch]),
                    end=measure.millimetres(end),
                    kept=kept,
                    value=Decimal(value).scaleb(-2),
                )


def _strip_of(cut: Cut) -> tuple[int, int]:
    return cut.member, cut.copy


def _piece_id(job: Job, cut: Cut) -> str:
    return f"{job.strips[cut.member].name}-{cut.copy}-{cut.index + 1}"
