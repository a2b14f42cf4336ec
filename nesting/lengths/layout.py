"""Which piece of which strip comes from which length."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, groupby, product

from .cutting import Cutting, Member
from .keeping import worth


@dataclass(frozen=True, order=True)
class Cut:
    """A piece: the ``index``-th (from 0) of a copy (from 1) of a member, cut from a clear stretch of a bar."""

    member: int
    copy: int
    index: int
    length: int
    bar: int
    stretch: int = 0

    def moved(self, copy: int, bar: int) -> "Cut":
        """Return the piece as one of another copy, from the same stretch of another bar."""
        return Cut(self.member, copy, self.index, self.length, bar, self.stretch)  # much faster than ``replace``


@dataclass(frozen=True)
class Layout:
    """Lengths taken (stock index of each bar) and what is cut from them."""

    bars: tuple[int, ...] = ()
    cuts: tuple[Cut, ...] = ()

    def joints(self) -> Counter[int]:
        """Return the number of joints by member."""
        return Counter(cut.member for cut in self.cuts if cut.index > 0)

    def price(self, cutting: Cutting) -> tuple[int, int]:
        """Return what counts: stock and joints less kept offcuts in cents, then the number of joints."""
        joints = self.joints()
        cost = {member.index: member.joint_cents for member in cutting.members}
        stock = sum(cutting.stocks[bar].cents for bar in self.bars)
        cents = stock + sum(cost[member] * count for member, count in joints.items())
        return cents - self.offcut_cents(cutting), joints.total()

    def offcut_cents(self, cutting: Cutting) -> int:
        """Return what the kept offcuts are worth."""
        if not cutting.keeps:
            return 0
        kept = ((cutting.stocks[self.bars[bar]], rest) for bar, _, rest in self.rests(cutting))
        return sum(worth(stock.offcut, rest, cutting.keep_from) for stock, rest in kept)

    def rests(self, cutting: Cutting) -> Iterator[tuple[int, int, int]]:
        """Yield bar, stretch, and what is left of it beyond the cut that frees it, where something is."""
        taken: Counter[tuple[int, int]] = Counter()
        for cut in self.cuts:
            taken[cut.bar, cut.stretch] += cut.length + cutting.kerf
        for bar, index in enumerate(self.bars):
            for stretch, room in enumerate(cutting.stocks[index].rooms):
                if (rest := room - cutting.kerf - taken[bar, stretch]) > 0:
                    yield bar, stretch, rest

    def on(self, bar: int) -> tuple[Cut, ...]:
        """Return the pieces of one bar, longest first."""
        return self._by_bar.get(bar, ())

    @cached_property
    def _by_bar(self) -> dict[int, tuple[Cut, ...]]:
        longest_first = sorted(self.cuts, key=lambda cut: (cut.bar, -cut.length, cut))
        return {bar: tuple(cuts) for bar, cuts in groupby(longest_first, key=lambda cut: cut.bar)}


def stations(member: Member, pieces: Iterable[int]) -> tuple[int, ...]:
    """Return the middles of the laps between consecutive pieces."""
    end, found = 0, []
    for piece in pieces:
        end += piece
        found.append(end - member.half_lap)
        end -= member.lap
    return tuple(found[:-1])


def keeps_ties(cutting: Cutting, layout: Layout) -> bool:
    """Whether joints that have to keep a distance do so, and matched copies go in pairs."""
    places = {
        cutting.members[place].index: [joints for _, joints in copies_of(cutting.members[place], layout)]
        for place in cutting.tied
    }
    matched = (places[cutting.members[k].index] for k in cutting.tied if cutting.members[k].matched)
    if any(count % 2 for copies in matched for count in Counter(copies).values()):
        return False
    return all(
        abs(a - b) >= shift.distance
        for shift in cutting.shifts
        for one, other in _pairs(places, cutting.members[shift.one].index, cutting.members[shift.other].index)
        for a in one
        for b in other
    )


def copies_of(member: Member, layout: Layout) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Yield each copy of a member and the stations of its joints."""
    own = sorted(cut for cut in layout.cuts if cut.member == member.index)
    for copy, cuts in groupby(own, key=lambda cut: cut.copy):
        yield copy, stations(member, (cut.length for cut in cuts))


def _pairs(
    places: dict[int, list[tuple[int, ...]]], one: int, other: int
) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Yield the stations of two different copies, each two once."""
    if one == other:
        yield from combinations(places[one], 2)
    else:
        yield from product(places[one], places[other])


def beside(layouts: Iterable[Layout]) -> Layout:
    """Return several layouts, each counting its copies from 1, as one that counts them on."""
    bars: list[int] = []
    cuts: list[Cut] = []
    made: Counter[int] = Counter()
    for layout in layouts:
        cuts += [c.moved(c.copy + made[c.member], c.bar + len(bars)) for c in layout.cuts]
        bars += layout.bars
        made.update(cut.member for cut in layout.cuts if cut.index == 0)
    return Layout(tuple(bars), tuple(sorted(cuts)))


def apart(layout: Layout) -> Iterator[Layout]:
    """Yield the parts of a layout that share no strip, each counting its copies from 1; idle bars are left out."""
    cuts_of: dict[int, list[Cut]] = {}
    bars_of: dict[int, set[int]] = {}
    first = _first_of_each(layout)
    for cut in layout.cuts:
        cuts_of.setdefault(first(cut.bar), []).append(cut)
        bars_of.setdefault(first(cut.bar), set()).add(cut.bar)
    for root, cuts in cuts_of.items():
        yield _counted_anew(layout, sorted(bars_of[root]), cuts)


def _first_of_each(layout: Layout) -> Callable[[int], int]:
    """Return what tells for each bar one that stands for all that share strips with it, one after the other."""
    towards = list(range(len(layout.bars)))

    def first(bar: int) -> int:
        while towards[bar] != bar:
            towards[bar] = bar = towards[towards[bar]]
        return bar

    bar_of: dict[tuple[int, int], int] = {}
    for cut in layout.cuts:
        towards[first(cut.bar)] = first(bar_of.setdefault((cut.member, cut.copy), cut.bar))
    return first


def _counted_anew(layout: Layout, bars: list[int], cuts: list[Cut]) -> Layout:
    place = {bar: position for position, bar in enumerate(bars)}
    copies: dict[tuple[int, int], int] = {}
    made: Counter[int] = Counter()
    for member, copy in sorted({(cut.member, cut.copy) for cut in cuts}):
        made[member] += 1
        copies[member, copy] = made[member]
    anew = (c.moved(copies[c.member, c.copy], place[c.bar]) for c in cuts)
    return Layout(tuple(layout.bars[bar] for bar in bars), tuple(sorted(anew)))
