"""Used lengths as the plan tells of them: in which order, where the pieces lie on each, and what is left."""

from collections.abc import Iterator, Mapping
from decimal import Decimal

from nesting.model import Job, LengthOffcut, UsedLength

from .cutting import Stock, length_of
from .layout import Cut, Layout
from .measure import Measure


def in_order(layout: Layout) -> Layout:
    """Return the layout with its bars by stock, those with the longest cuts first."""
    order = sorted(range(len(layout.bars)), key=lambda bar: (layout.bars[bar], _key(layout.on(bar))))
    place = {bar: position for position, bar in enumerate(order)}
    cuts = sorted(c.moved(c.copy, place[c.bar]) for c in layout.cuts)
    return Layout(tuple(layout.bars[bar] for bar in order), tuple(cuts))


def _key(cuts: tuple[Cut, ...]) -> tuple[tuple[int, int, int, int], ...]:
    return tuple((-cut.length, cut.member, cut.copy, cut.index) for cut in cuts)


def used_of(job: Job, bar: str, stock: Stock) -> Iterator[UsedLength]:
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


def place_on(stock: Stock, bar: int, stretch: int) -> str:
    """Return the id of the length, or of the stick, that a stretch is of."""
    if stock.sticks is None:
        return f"L{bar + 1}"
    return f"L{bar + 1}-{1 + stretch // (len(stock.stretches) // stock.sticks)}"


def spans(layout: Layout, bar: int, stocks: Mapping[int, Stock]) -> Iterator[tuple[Cut, int, int]]:
    """Yield the pieces of a bar with their ends: laid from the start of each clear stretch, one kerf apart."""
    stock = stocks[layout.bars[bar]]
    starts = {stretch: start for stretch, (start, _) in enumerate(stock.stretches)}
    for cut in layout.on(bar):
        start = starts[cut.stretch]
        yield cut, start, start + cut.length
        starts[cut.stretch] = start + cut.length + stock.kerf


def offcuts_of(
    job: Job, layout: Layout, stocks: Mapping[int, Stock], measure: Measure, first: int = 0
) -> Iterator[LengthOffcut]:
    """Yield the rest of each clear stretch beyond the cut that frees it; so many lengths are numbered before."""
    for bar, index in enumerate(layout.bars):
        stock = stocks[index]
        starts = {stretch: start for stretch, (start, _) in enumerate(stock.stretches)}
        for cut, _, end in spans(layout, bar, stocks):
            starts[cut.stretch] = end + stock.kerf
        for stretch, (_, end) in enumerate(stock.stretches):
            if starts[stretch] < end:
                rest = measure.millimetres(end - starts[stretch])
                kept = rest >= job.workshop.keep_length_from
                value = int(stock.offcut * (end - starts[stretch])) if kept else 0
                yield LengthOffcut(
                    on=place_on(stock, first + bar, stretch),
                    start=measure.millimetres(starts[stretch]),
                    end=measure.millimetres(end),
                    kept=kept,
                    value=Decimal(value).scaleb(-2),
                )
