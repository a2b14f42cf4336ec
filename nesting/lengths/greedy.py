"""A first plan: one strip after the other, each in the way that seems cheapest at the time."""

from collections.abc import Callable
from dataclasses import replace
from itertools import product

from nesting.effort import Effort

from .bench import Bench
from .cutting import Cutting, Member
from .layout import Layout, beside
from .ways import Way, ways

#: Shares of a length's price that an unused rest of it is taken to be worth while the plan is being made: with 0
#: whole strips from fresh lengths look dear, with 1 only the length used counts. None is right for all jobs.
WORTH_OF_RESTS = (0.9, 0.6, 1.0, 0.3, 0.0)

#: Strips placed, over all these plans, after which no further one is begun.
ENOUGH_PLACED = 240

#: Equal strips are planned so many at a time, and that plan is repeated.
STRIPS_AT_ONCE = 60

Order = Callable[[Member], tuple[int, int]]


def greedy(cutting: Cutting, effort: Effort) -> Layout | None:
    """Return the best of several quick plans, or None if none of them came to an end."""
    if (doubled := _in_pairs(cutting, effort)) is not None:
        return doubled
    if (repeated := _repeated(cutting, effort)) is not None:
        return repeated
    orders: tuple[Order, ...] = (_longest_first, _shortest_first)
    best: Layout | None = None
    for number, (order, worth) in enumerate(product(orders, WORTH_OF_RESTS)):
        if best is not None and (effort.stopped or number * cutting.copies >= ENOUGH_PLACED):
            break
        layout = _one_by_one(cutting, sorted(cutting.members, key=order), worth, effort)
        if layout is not None and (best is None or layout.price(cutting) < best.price(cutting)):
            best = layout
    return best


def _in_pairs(cutting: Cutting, effort: Effort) -> Layout | None:
    """Return a plan for one hand of all matched strips, made twice, with the others beside; None if that fails."""
    matched = [member for member in cutting.members if member.matched]
    if not matched:
        return None
    one_hand = tuple(replace(member, quantity=member.quantity // 2, matched=False) for member in matched)
    stocks = {
        index: stock if stock.available is None else replace(stock, available=stock.available // 2)
        for index, stock in cutting.stocks.items()
    }
    hand = greedy(replace(cutting, members=one_hand, stocks=stocks, shifts=()), effort)
    if hand is None:
        return None
    both = beside([hand, hand])
    others = tuple(member for member in cutting.members if not member.matched)
    rest = greedy(_less(replace(cutting, members=others, shifts=()), both), effort) if others else Layout()
    return None if rest is None else beside([both, rest])


def _less(cutting: Cutting, taken: Layout) -> Cutting:
    """Return a cutting with so many lengths fewer."""
    stocks = {
        index: stock if stock.available is None else replace(stock, available=stock.available - taken.bars.count(index))
        for index, stock in cutting.stocks.items()
    }
    return replace(cutting, stocks=stocks)


def _repeated(cutting: Cutting, effort: Effort) -> Layout | None:
    """Return a plan for a share of many equal strips, as often as it takes; None if they are few or different."""
    times = cutting.copies // STRIPS_AT_ONCE
    if times < 2 or sum(-(-member.quantity // times) for member in cutting.members) > cutting.copies // 2:
        return None
    members = tuple(replace(member, quantity=-(-member.quantity // times)) for member in cutting.members)
    stocks = {
        index: stock if stock.available is None else replace(stock, available=stock.available // times)
        for index, stock in cutting.stocks.items()
    }
    share = greedy(replace(cutting, members=members, stocks=stocks), effort)
    if share is None:
        return None
    whole, asked = beside([share] * times), {member.index: member.quantity for member in cutting.members}
    kept = tuple(cut for cut in whole.cuts if cut.copy <= asked[cut.member])
    used = sorted({cut.bar for cut in kept})
    place = {bar: new for new, bar in enumerate(used)}
    return Layout(tuple(whole.bars[bar] for bar in used), tuple(cut.moved(cut.copy, place[cut.bar]) for cut in kept))


def _longest_first(member: Member) -> tuple[int, int]:
    return (-member.length, member.index)


def _shortest_first(member: Member) -> tuple[int, int]:
    return (member.length, member.index)


def _one_by_one(cutting: Cutting, members: list[Member], worth: float, effort: Effort) -> Layout | None:
    bench = Bench(cutting)
    for member in members:
        for copy in range(1, member.quantity + 1):
            best = min(ways(bench, member), key=lambda way: _seeming_cost(cutting, member, way, worth), default=None)
            if best is None:
                return None
            bench.cut(member, copy, best)
            effort.spend(len(best))
    return with_cheapest_bars(cutting, bench.layout())


def _seeming_cost(cutting: Cutting, member: Member, way: Way, worth: float) -> tuple[float, int]:
    cost = float(member.joint_cents * (len(way) - 1))
    for source, length in way:
        stock = cutting.stocks[source.stock]
        cost += worth * stock.cents * (length + cutting.kerf) / stock.room
        cost += (1 - worth) * stock.cents * (source.begun is None)
    return cost, len(way)


def with_cheapest_bars(cutting: Cutting, layout: Layout) -> Layout:
    """Return the layout with each bar, fullest first, from the cheapest stock that still holds its pieces.

    Bars and stock with faults are left as they are.
    """
    loads = {bar: sum(cut.length + cutting.kerf for cut in layout.on(bar)) for bar in range(len(layout.bars))}
    bars = list(layout.bars)
    for bar in sorted(loads, key=lambda bar: (-loads[bar], bar)):
        if not _clear(cutting, bars[bar]):
            continue
        allowed = frozenset.intersection(*(_member(cutting, cut.member).stocks for cut in layout.on(bar)))
        fitting = [
            index
            for index in allowed
            if _clear(cutting, index) and _free(cutting, bars, bar, index) and loads[bar] <= _room(cutting, index)
        ]
        bars[bar] = min(fitting, key=lambda index: (cutting.stocks[index].cents, _room(cutting, index), index))
    return Layout(tuple(bars), layout.cuts)


def _member(cutting: Cutting, index: int) -> Member:
    return next(member for member in cutting.members if member.index == index)


def _room(cutting: Cutting, index: int) -> int:
    return cutting.stocks[index].room


def _clear(cutting: Cutting, index: int) -> bool:
    """Whether a stock is one clear stretch."""
    return len(cutting.stocks[index].stretches) == 1


def _free(cutting: Cutting, bars: list[int], bar: int, index: int) -> bool:
    """Whether a bar may be of a stock, or already is."""
    available = cutting.stocks[index].available
    return bars[bar] == index or available is None or bars.count(index) < available
