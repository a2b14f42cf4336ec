"""The bars that are being cut while a plan is put together piece by piece."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from .cutting import Cutting, Member
from .layout import Cut, Layout

#: Begun bars looked at for one piece; more alternatives cost time and seldom change a plan.
BARS_LOOKED_AT = 6


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
    """Bars begun so far (their stock), the room left in each of their stretches, and the pieces cut."""

    cutting: Cutting
    bars: list[int] = field(default_factory=list)
    begun: list[tuple[int, int]] = field(default_factory=list)
    rooms: list[int] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    places: list[int] = field(default_factory=list)
    taken: Counter[int] = field(default_factory=Counter)

    def sources(self, member: Member, taken: tuple[Source, ...]) -> list[Source]:
        """Return where a further piece of a member may come from, besides stretches that other pieces of it took."""
        used = {source.begun for source in taken}
        bars = {
            (room, self.bars[bar]): Source(self.bars[bar], room, place, stretch)
            for place, (bar, stretch, room) in self._open()
            if place not in used and self.bars[bar] in member.stocks
        }
        fresh = [
            Source(stock, room, None, stretch)
            for stock in sorted(member.stocks)
            if self._left(stock, taken) > 0
            for room, stretch in self.cutting.stocks[stock].kinds_of_stretch
        ]
        return [bars[key] for key in sorted(bars, reverse=True)] + fresh

    def cut(self, member: Member, copy: int, way: tuple[tuple[Source, int], ...]) -> None:
        """Cut the pieces of one copy, each from its source."""
        for index, (source, length) in enumerate(way):
            place = self._begin(source) if source.begun is None else source.begun
            self.rooms[place] -= length + self.cutting.kerf
            bar, stretch = self.begun[place]
            self.cuts.append(Cut(member.index, copy, index, length, bar, stretch))

    def layout(self) -> Layout:
        """Return what was cut."""
        return Layout(tuple(self.bars), tuple(self.cuts))

    def _open(self) -> Iterator[tuple[int, tuple[int, int, int]]]:
        """Yield bar, stretch and room of every place from which some piece can still be cut."""
        self.places = [place for place in self.places if self.rooms[place] >= self.cutting.least_useful]
        for place in self.places:
            yield place, (*self.begun[place], self.rooms[place])

    def _begin(self, source: Source) -> int:
        """Put a fresh length on the bench; return the place of the stretch that is wanted of it."""
        first = len(self.begun)
        for stretch, room in enumerate(self.cutting.stocks[source.stock].rooms):
            self.places.append(len(self.begun))
            self.begun.append((len(self.bars), stretch))
            self.rooms.append(room)
        self.bars.append(source.stock)
        self.taken[source.stock] += 1
        return first + source.stretch

    def _left(self, stock: int, taken: tuple[Source, ...]) -> int:
        available = self.cutting.stocks[stock].available
        if available is None:
            return 1
        return available - self.taken[stock] - sum(s.begun is None and s.stock == stock for s in taken)
