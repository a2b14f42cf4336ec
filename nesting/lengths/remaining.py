"""What remains to be planned once some strips come from long planks."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from .cutting import Cutting, Member, Shift, Stock, hanging_together
from .long_sticks import LongPlankCut
from .turning import zones_of


def what_remains(
    cutting: Cutting, planks: Sequence[LongPlankCut], forms: Sequence[int], taken: int
) -> Iterator[Cutting]:
    """Yield the strips that no long plank gives, planned together as far as they hang together.

    Where they keep a shift from strips of the long planks, these joints have their place by now: they are kept away
    from by no-joint zones. Of the stock in all ``forms`` of the planks so many are ``taken``.
    """
    made = Counter(strip.place for plank in planks for stick in plank.sticks for strip in stick.strips)
    left = [place for place, member in enumerate(cutting.members) if member.quantity > made[place]]
    anew = {place: number for number, place in enumerate(left)}
    members = tuple(_kept_away(cutting, place, cutting.members[place].quantity - made[place], planks) for place in left)
    shifts = tuple(
        Shift(anew[s.one], anew[s.other], s.distance) for s in cutting.shifts if s.one in anew and s.other in anew
    )
    stocks = {index: _less(stock, taken) if index in forms else stock for index, stock in cutting.stocks.items()}
    yield from hanging_together(replace(cutting, members=members, stocks=stocks, shifts=shifts))


def _kept_away(cutting: Cutting, place: int, quantity: int, planks: Sequence[LongPlankCut]) -> Member:
    """Return a member with so many copies, whose joints keep their shifts from those of long planks."""
    member = cutting.members[place]
    distance = {s.other if s.one == place else s.one: s.distance for s in cutting.shifts if place in (s.one, s.other)}
    near = {
        (stick.station(strip, scarf), distance[strip.place])
        for plank in planks
        for stick in plank.sticks
        for strip in stick.strips
        if distance.get(strip.place)
        for _, scarf in plank.within(strip)
    }
    forbidden = tuple((station - apart, station + apart) for station, apart in sorted(near))
    zones = zones_of(forbidden, member.half_lap, member.length) if member.joinable else ()
    return replace(member, quantity=quantity, zones=(*member.zones, *zones))


def _less(stock: Stock, taken: int) -> Stock:
    return stock if stock.available is None else replace(stock, available=max(0, stock.available - taken))
