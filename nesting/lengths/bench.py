"""The bars that are being cut while a plan is put together piece by piece."""

import heapq
from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from itertools import islice

from .cutting import Cutting, Member
from .layout import Cut, Layout

#: Begun bars looked at for one piece, and over all strips: more alternatives cost time and seldom change a plan.
BARS_LOOKED_AT, BARS_IN_ALL = 6, 1200


@dataclass(frozen=True)
class Source:
    """A clear stretch of a begun bar, or of a fresh length of some stock (``begun`` is None).

    ``room`` is what is left of it, ``begun`` its place on the bench.
    """

    stock: int
    room: int
    begun: int | None
    stretch: int = 0


@dataclass
class Bench:
    """Bars begun so far (their stock), what is left of their stretches, and the pieces cut.

    ``open`` holds for each stock the rooms left from which some piece can still be cut, rising, each with the place of
    its stretch in ``begun``.
    """

    cutting: Cutting
    bars: list[int] = field(default_factory=list)
    begun: list[tuple[int, int]] = field(default_factory=list)
    open: dict[int, list[tuple[int, int]]] = field(default_factory=dict)
    cuts: list[Cut] = field(default_factory=list)
    taken: Counter[int] = field(default_factory=Counter)

    @cached_property
    def _looked_at(self) -> int:
        return max(1, min(BARS_LOOKED_AT, BARS_IN_ALL // self.cutting.copies))

    def roomiest(self, member: Member, taken: tuple[Source, ...]) -> list[Source]:
        """Return the roomiest begun stretches that may serve a member, falling, besides those that it took already."""
        found = heapq.merge(*(self._falling(stock, taken) for stock in member.stocks), reverse=True)
        return [self._source(*each) for each in islice(found, self._looked_at)]

    def roomiest_of_each(self, member: Member) -> list[Source]:
        """Return the roomiest begun stretch of each stock that may serve a member."""
        found = (next(self._falling(stock, ()), None) for stock in member.stocks)
        return [self._source(*each) for each in sorted((each for each in found if each), reverse=True)]

    def best_fit(self, member: Member, taken: tuple[Source, ...], room: int) -> list[Source]:
        """Return the begun stretch that holds so much room with the least left over, if there is any."""
        used = {source.begun for source in taken}
        found = []
        for stock in member.stocks:
            rising = self.open.get(stock, [])
            after = islice(rising, bisect_left(rising, (room, -1)), None)
            found += [(left, stock, place) for left, place in islice((e for e in after if e[1] not in used), 1)]
        return [self._source(*min(found))] if found else []

    def fresh(self, member: Member, taken: tuple[Source, ...]) -> list[Source]:
        """Return the kinds of stretch of fresh lengths that may serve a member."""
        return [
            Source(stock, room, None, stretch)
            for stock in sorted(member.stocks)
            if self._left(stock, taken) > 0
            for room, stretch in self.cutting.stocks[stock].kinds_of_stretch
        ]

    def cut(self, member: Member, copy: int, way: tuple[tuple[Source, int], ...]) -> None:
        """Cut the pieces of one copy, each from its source."""
        for index, (source, length) in enumerate(way):
            place = self._begin(source) if source.begun is None else source.begun
            self._use(source.stock, place, source.room, source.room - length - self.cutting.kerf)
            bar, stretch = self.begun[place]
            self.cuts.append(Cut(member.index, copy, index, length, bar, stretch))

    def layout(self) -> Layout:
        """Return what was cut."""
        return Layout(tuple(self.bars), tuple(self.cuts))

    def _falling(self, stock: int, taken: tuple[Source, ...]) -> Iterator[tuple[int, int, int]]:
        """Yield the rooms left of a stock, each once, with stock and place, besides those that were taken."""
        used, rising = {source.begun for source in taken}, self.open.get(stock, [])
        end = len(rising)
        while end:
            room, place = rising[end - 1]
            if place in used:
                end -= 1
                continue
            yield room, stock, place
            end = bisect_left(rising, (room, -1))

    def _source(self, room: int, stock: int, place: int) -> Source:
        return Source(stock, room, place, self.begun[place][1])

    def _begin(self, source: Source) -> int:
        """Put a fresh length on the bench; return the place of the stretch that is wanted of it."""
        first = len(self.begun)
        for stretch, room in enumerate(self.cutting.stocks[source.stock].rooms):
            insort(self.open.setdefault(source.stock, []), (room, len(self.begun)))
            self.begun.append((len(self.bars), stretch))
        self.bars.append(source.stock)
        self.taken[source.stock] += 1
        return first + source.stretch

    def _use(self, stock: int, place: int, room: int, left: int) -> None:
        """Take what is left of a stretch for what was."""
        rising = self.open[stock]
        del rising[bisect_left(rising, (room, place))]
        if left >= self.cutting.least_useful:
            insort(rising, (left, place))

    def _left(self, stock: int, taken: tuple[Source, ...]) -> int:
        available = self.cutting.stocks[stock].available
        if available is None:
            return 1
        return available - self.taken[stock] - sum(s.begun is None and s.stock == stock for s in taken)
