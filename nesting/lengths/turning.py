"""Which strips ripped from one long plank are turned end for end, and where scarfs may lie so that joints stagger.

All strips from one long plank have their joints at its scarfs: at x from one end, or at length - x where they are
turned. So strips that have to keep a shift from one another lie the one way and the other, and the scarfs lie so that
no station is near the mirror image of any.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from .cutting import Cutting

#: Stretches of stations, from and to; what is forbidden is open, what is allowed closed.
Spans = tuple[tuple[int, int], ...]

#: Places of members whose joints keep a shift.
Pairs = set[tuple[int, int]]


@dataclass(frozen=True)
class Family:
    """Members by place whose joints keep a shift from one another, at most ``distance``.

    ``turned`` tells which of them are turned. Of a family that is ``wary`` there is one member, and its joints keep
    apart in any two copies: one long plank then gives one copy each way, and joints keep apart from plank to plank.
    """

    turned: Mapping[int, bool]
    distance: int
    wary: bool


def families(cutting: Cutting, places: Sequence[int]) -> list[Family] | None:
    """Return the families of some members that keep a shift; None if some can't all lie one way or the other."""
    own = [shift for shift in cutting.shifts if shift.distance and {shift.one, shift.other} <= set(places)]
    pairs = {(shift.one, shift.other) for shift in own}
    found: list[Family] = []
    for place in places:
        if not _beside(pairs, place) or any(place in family.turned for family in found):
            continue
        turned = _two_ways(pairs, place)
        if turned is None:
            return None
        wary = any((member, member) in pairs for member in turned)
        if wary and len(turned) > 1:
            return None
        found.append(Family(turned, max(shift.distance for shift in own if shift.one in turned), wary))
    return found


def parted_by_shifts(cutting: Cutting, places: Sequence[int]) -> list[tuple[int, ...]]:
    """Return some members parted into those that hang together by shifts."""
    pairs = {(s.one, s.other) for s in cutting.shifts if s.distance and {s.one, s.other} <= set(places)}
    found: list[tuple[int, ...]] = []
    for place in places:
        if not any(place in group for group in found):
            reached, before = {place}, set[int]()
            while reached != before:
                before = set(reached)
                reached |= set[int]().union(*(_beside(pairs, each) for each in before))
            found.append(tuple(sorted(reached)))
    return found


def staggering(length: int, distance: int, period: int | None) -> Spans:
    """Return stations of which none is nearer than a distance to the mirror image of any, its own included.

    With u counted from the middle, these are u from kP + D/2 to kP + P/2 - D/2 for a period P and whole k: two such add
    up to D at least, or to -D at most. Without a period they are all that lie D/2 or more beyond the middle.
    """
    if period is None:
        return (((length + distance + 1) // 2, length),) if distance <= length else ()
    cells = range(-length // (2 * period) - 1, length // (2 * period) + 2)
    spans = (
        (-(-(length + 2 * k * period + distance) // 2), (length + 2 * k * period + period - distance) // 2)
        for k in cells
    )
    return tuple((max(a, 0), min(b, length)) for a, b in spans if max(a, 0) <= min(b, length))


def between(allowed: Spans, length: int) -> Spans:
    """Return the open stretches of 0 to a length, and a little beyond, that are not allowed."""
    ends = ((-length, -length), *allowed, (2 * length, 2 * length))
    return tuple((before[1], after[0]) for before, after in pairwise(ends) if before[1] < after[0])


def mirrored(spans: Spans, length: int) -> Spans:
    """Return stretches as they lie seen from the other end."""
    return tuple((length - end, length - start) for start, end in reversed(spans))


def zones_of(forbidden: Spans, half_lap: int, length: int) -> Spans:
    """Return no-joint zones, which no part of a lap may enter, that keep stations out of all these stretches.

    Where a stretch is narrower than a lap the zone is its middle, which forbids a little more.
    """
    return tuple(_zone(start, end, half_lap, length) for start, end in _merged(forbidden) if end > 0 and start < length)


def _zone(start: int, end: int, half_lap: int, length: int) -> tuple[int, int]:
    low, high = start + half_lap, end - half_lap
    if low >= high:
        middle = (start + end) // 2
        low, high = middle, middle + (start + end) % 2
    return max(low, 0), min(max(high, 0), length)


def _merged(spans: Spans) -> Iterator[tuple[int, int]]:
    """Yield the stretches that open ones make together where they overlap."""
    reached: list[int] = []
    for start, end in sorted(spans):
        if reached and start < reached[1]:
            reached[1] = max(reached[1], end)
            continue
        if reached:
            yield reached[0], reached[1]
        reached = [start, end]
    if reached:
        yield reached[0], reached[1]


def _two_ways(pairs: Pairs, first: int) -> dict[int, bool] | None:
    """Return for all members that hang together with one by shifts which are turned; None if that can't be."""
    turned, waiting = {first: False}, [first]
    while waiting:
        place = waiting.pop()
        for other in _beside(pairs, place) - {place}:
            if other not in turned:
                turned[other] = not turned[place]
                waiting.append(other)
            elif turned[other] == turned[place]:
                return None
    return turned


def _beside(pairs: Pairs, place: int) -> set[int]:
    """Return the members whose joints keep a shift from those of one."""
    return {b for a, b in pairs if a == place} | {a for a, b in pairs if b == place}
