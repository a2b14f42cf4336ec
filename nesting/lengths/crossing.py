"""A strip that goes from one length to others: how short its piece in the one can be, given what others hold of it."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import permutations

from .cutting import Member

#: Which of the lengths gives each piece, along the strip: 0 is the one whose piece is to be short.
Order = tuple[int, ...]


@dataclass(frozen=True)
class Way:
    """How a strip is divided: stations of its joints, and which length each piece is from."""

    piece: int
    order: Order
    stations: tuple[int, ...]

    def pieces(self, member: Member) -> list[int]:
        """Return the lengths of the pieces along the strip."""
        starts = [0, *(station - member.half_lap for station in self.stations)]
        ends = [*(station + member.half_lap for station in self.stations), member.length]
        return [end - start for start, end in zip(starts, ends, strict=True)]


@dataclass(frozen=True)
class Crossing:
    """A member whose joints lie at ``stations`` only, and whose pieces are no longer than ``longest``."""

    member: Member
    longest: int

    @cached_property
    def stations(self) -> tuple[tuple[int, int], ...]:
        """Spans of stations at which a lap keeps off the ends and the no-joint zones."""
        return tuple(allowed_stations(self.member))

    def shortest(self, held: tuple[int, ...]) -> Way | None:
        """Return the way with the shortest piece in the first length where the others hold so much each."""
        ways = self._in_two(held[0]) if len(held) == 1 else self._in_three(*held)
        return min((way for way in ways if way.piece <= self.longest), key=lambda way: way.piece, default=None)

    def _in_two(self, held: int) -> Iterator[Way]:
        member, most = self.member, min(held, self.longest)
        if (station := self._last(most - member.half_lap)) is not None:
            yield Way(member.length - station + member.half_lap, (1, 0), (station,))
        if (station := self._first(member.length + member.half_lap - most)) is not None:
            yield Way(station + member.half_lap, (0, 1), (station,))

    def _in_three(self, one: int, other: int) -> Iterator[Way]:
        """Yield the best way for each order of the pieces."""
        most = (0, min(one, self.longest), min(other, self.longest))
        for order in permutations((0, 1, 2)):
            found = (
                self._short_first(most[order[1]], most[order[2]])
                if order[0] == 0
                else self._short_between(most[order[0]], most[order[2]])
                if order[1] == 0
                else self._short_last(most[order[0]], most[order[1]])
            )
            if found is not None:
                yield Way(Way(0, order, found).pieces(self.member)[order.index(0)], order, found)

    def _short_first(self, second: int, third: int) -> tuple[int, int] | None:
        """Return the stations with the first one as near the start as it can be."""
        member = self.member
        if second < member.lap + member.least_between:
            return None
        later = self._first(member.length + member.half_lap - third)
        while later is not None:
            sooner = self._first(later + member.lap - second)
            if sooner is None:
                return None
            if sooner + member.least_between <= later:
                return sooner, later
            later = self._first(max(later + 1, sooner + member.least_between))
        return None

    def _short_last(self, first: int, second: int) -> tuple[int, int] | None:
        """Return the stations with the last one as near the end as it can be."""
        member = self.member
        if second < member.lap + member.least_between:
            return None
        sooner = self._last(first - member.half_lap)
        while sooner is not None:
            later = self._last(sooner + second - member.lap)
            if later is None:
                return None
            if sooner + member.least_between <= later:
                return sooner, later
            sooner = self._last(min(sooner - 1, later - member.least_between))
        return None

    def _short_between(self, first: int, third: int) -> tuple[int, int] | None:
        """Return the stations as near one another as they can be."""
        member = self.member
        sooner, later = self._last(first - member.half_lap), self._first(member.length + member.half_lap - third)
        if sooner is None or later is None:
            return None
        if sooner + member.least_between <= later:
            return sooner, later
        ends = {end for span in self.stations for end in span}
        from_sooner = ((s, self._first(max(later, s + member.least_between))) for s in ends | {sooner} if s <= sooner)
        from_later = ((self._last(min(sooner, e - member.least_between)), e) for e in ends | {later} if e >= later)
        pairs: list[tuple[int | None, int | None]] = [*from_sooner, *from_later]
        near = [(one, other) for one, other in pairs if one is not None and other is not None]
        return min(near, key=lambda pair: pair[1] - pair[0], default=None)

    def _last(self, limit: int) -> int | None:
        """Return the last station up to a limit."""
        return max((min(end, limit) for start, end in self.stations if start <= limit), default=None)

    def _first(self, limit: int) -> int | None:
        """Return the first station from a limit on."""
        return min((max(start, limit) for start, end in self.stations if limit <= end), default=None)


def allowed_stations(member: Member) -> Iterator[tuple[int, int]]:
    """Yield the stations at which a lap keeps off the ends and the no-joint zones."""
    start, end = member.least_end, member.length - member.least_end
    for zone_start, zone_end in sorted(member.zones):
        yield from _if_forward(start, min(zone_start - member.half_lap, end))
        start = max(start, zone_end + member.half_lap)
    yield from _if_forward(start, end)


def _if_forward(start: int, end: int) -> Iterator[tuple[int, int]]:
    if start <= end:
        yield start, end
