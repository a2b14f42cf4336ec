"""The bars that are being cut while a plan is put together piece by piece."""

from dataclasses import dataclass, field

from .cutting import Cutting, Member
from .layout import Cut, Layout

#: Begun bars looked at for one piece; more alternatives cost time and seldom change a plan.
BARS_LOOKED_AT = 6


@dataclass(frozen=True)
class Source:
    """A begun bar, or a fresh length of some stock (``bar`` is None); ``room`` is what is left of it."""

    stock: int
    room: int
    bar: int | None


@dataclass
class Bench:
    """Bars begun so far with the room left in each, and the pieces cut."""

    cutting: Cutting
    stocks: list[int] = field(default_factory=list)
    rooms: list[int] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)

    def sources(self, member: Member, taken: tuple[Source, ...]) -> list[Source]:
        """Return where a further piece of a member may come from, besides bars that other pieces of it took."""
        begun = {source.bar for source in taken}
        bars = {
            (room, stock): Source(stock, room, bar)
            for bar, (stock, room) in enumerate(zip(self.stocks, self.rooms, strict=True))
            if bar not in begun and stock in member.stocks and room > self.cutting.kerf
        }
        fresh = [
            Source(stock, self.cutting.stocks[stock].room, None)
            for stock in sorted(member.stocks)
            if self._left(stock, taken) > 0
        ]
        return [bars[key] for key in sorted(bars, reverse=True)] + fresh

    def cut(self, member: Member, copy: int, way: tuple[tuple[Source, int], ...]) -> None:
        """Cut the pieces of one copy, each from its source."""
        for index, (source, length) in enumerate(way):
            bar = source.bar
            if bar is None:
                bar = len(self.stocks)
                self.stocks.append(source.stock)
                self.rooms.append(source.room)
            self.rooms[bar] -= length + self.cutting.kerf
            self.cuts.append(Cut(member.index, copy, index, length, bar))

    def layout(self) -> Layout:
        """Return what was cut."""
        return Layout(tuple(self.stocks), tuple(self.cuts))

    def _left(self, stock: int, taken: tuple[Source, ...]) -> int:
        available = self.cutting.stocks[stock].available
        if available is None:
            return 1
        return available - self.stocks.count(stock) - sum(s.bar is None and s.stock == stock for s in taken)
