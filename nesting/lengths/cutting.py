"""What is to be cut, in whole units: members, the stock that may serve them, and how they hang together."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from nesting.joints import Reach, least_joints, windows
from nesting.model import Job, JointRule, Length, Strip, length_serves, same_section, sticks_from

from .measure import Measure, cents, common_measure


@dataclass(frozen=True)
class Stock:
    """A kind of length.

    ``stretches`` are its clear parts between faults and end trims, from and to. The room of a stretch is its
    length plus one kerf: pieces fit iff each with its kerf fits there. A plank that is ripped has the stretches of all
    its ``sticks``, one stick after the other. ``offcut`` is what one unit of a kept offcut is worth, in cents.
    """

    index: int
    stretches: tuple[tuple[int, int], ...]
    kerf: int
    cents: int
    available: int | None
    sticks: int | None = None
    offcut: Fraction = Fraction(0)

    @cached_property
    def rooms(self) -> tuple[int, ...]:
        """Room of each clear stretch."""
        return tuple(end - start + self.kerf for start, end in self.stretches)

    @cached_property
    def kinds_of_stretch(self) -> tuple[tuple[int, int], ...]:
        """Each room that some stretch has, and the place of the first stretch that has it."""
        return tuple((room, self.rooms.index(room)) for room in dict.fromkeys(self.rooms))

    @cached_property
    def room(self) -> int:
        """Room of all clear stretches together."""
        return sum(self.rooms)


@dataclass(frozen=True)
class Member:
    """A kind of strip with the rules of its joints; ``stocks`` are the indices of the lengths that may serve it.

    ``longest`` is the longest piece of it that any stock and the workshop allow; 0 without stock. ``least_end`` is
    the least distance from a station to the strip's end, ``least_between`` that from one station to the next;
    ``limit`` the most joints that one copy may have. Copies of a ``matched`` one go in pairs of the same joints;
    ``preferred`` are stretches where joints are better.
    """

    index: int
    length: int
    quantity: int
    joinable: bool
    half_lap: int
    least_end: int
    least_between: int
    zones: tuple[tuple[int, int], ...]
    joint_cents: int
    longest: int
    stocks: frozenset[int]
    limit: int | None = None
    preferred: tuple[tuple[int, int], ...] = ()
    matched: bool = False

    @property
    def lap(self) -> int:
        """Length of each overlap."""
        return 2 * self.half_lap

    @cached_property
    def reach(self) -> Reach:
        """The member as the interval programme takes it, no rule left out.

        Whole numbers, so its float arithmetic is exact.
        """
        return self._reach(max(self.least_end, self.least_between))

    @cached_property
    def least_joints(self) -> int | None:
        """Fewest joints that length and zones alone allow; None if no number does."""
        if self.length <= self.longest:
            return 0
        fewest = least_joints(self._reach(min(self.least_end, self.least_between))) if self.joinable else None
        return None if fewest is None or (self.limit is not None and fewest > self.limit) else fewest

    @property
    def most_joints(self) -> int:
        """Most joints that the least distances leave room for, and that are allowed."""
        if not self.joinable or self.length < 2 * self.least_end:
            return 0
        most = 1 + (self.length - 2 * self.least_end) // max(1, self.least_between)
        return most if self.limit is None else min(most, self.limit)

    def _reach(self, spacing: int) -> Reach:
        return Reach(start=0, end=self.length, lap=self.lap, usable=self.longest, least_piece=spacing, zones=self.zones)

    def windows(self, joints: int) -> tuple[tuple[tuple[int, int], ...], ...]:
        """Return, for each of so many joints, the stations at which it can lie; empty if they can't be placed."""
        return tuple(tuple((int(a), int(b)) for a, b in spans) for spans in windows(self.reach, joints))


@dataclass(frozen=True)
class Shift:
    """Joints in copies of one member keep a distance from those in all other copies of another, or of the same."""

    one: int
    other: int
    distance: int


@dataclass(frozen=True)
class Cutting:
    """Members that share stock and are therefore planned together.

    Offcuts of at least ``keep_from`` are kept.
    """

    kerf: int
    longest_piece: int | None
    members: tuple[Member, ...]
    stocks: Mapping[int, Stock]
    shifts: tuple[Shift, ...] = ()
    keep_from: int = 1

    @cached_property
    def keeps(self) -> bool:
        """Whether offcuts of some stock are worth anything."""
        return any(stock.offcut for stock in self.stocks.values())

    @property
    def copies(self) -> int:
        """Number of strips to be made."""
        return sum(member.quantity for member in self.members)

    @cached_property
    def tied(self) -> frozenset[int]:
        """Places of the members whose joints depend on those of other copies: they keep apart, or are the same."""
        matched = {place for place, member in enumerate(self.members) if member.matched and member.most_joints}
        return frozenset(matched.union(*({shift.one, shift.other} for shift in self.shifts)))

    @cached_property
    def least_useful(self) -> int:
        """Room below which no piece of any member can be cut."""
        return self.kerf + min(
            min(member.length, member.least_end + member.half_lap) if member.joinable else member.length
            for member in self.members
        )

    def handles(self, piece: int) -> bool:
        """Whether a piece is not too long for the workshop."""
        return self.longest_piece is None or piece <= self.longest_piece

    def longest_in(self, room: int) -> int:
        """Return the longest piece that so much room gives."""
        free = room - self.kerf
        return free if self.longest_piece is None else min(free, self.longest_piece)

    def need(self, member: Member, joints: int) -> int:
        """Return the room that one copy with so many joints takes: every piece with its kerf."""
        return member.length + self.kerf + joints * (member.lap + self.kerf)

    def levels(self) -> tuple[tuple[frozenset[int], tuple[Member, ...]], ...]:
        """Return sets of stock, each with the members that nothing outside the set can serve."""
        sets = {member.stocks for member in self.members} | {frozenset(self.stocks)}
        ordered = sorted(sets, key=lambda stocks: (len(stocks), sorted(stocks)))
        return tuple((stocks, tuple(m for m in self.members if m.stocks <= stocks)) for stocks in ordered)


def measured(job: Job) -> tuple[Cutting, Measure]:
    """Return all timber of a job as one cutting, whatever hangs together, and its measure."""
    measure = common_measure(job)
    kerf = measure.units(job.workshop.kerf.crosscut)
    longest = job.workshop.longest_piece
    stocks = {stock.index: stock for stock in _stocks(job, measure, kerf)}
    members = tuple(_member(job, index, measure, stocks) for index in range(len(job.strips)))
    shifts = tuple(_shifts(job, members, measure))
    most = None if longest is None else measure.units(longest)
    return Cutting(kerf, most, members, stocks, shifts, measure.units_up(job.workshop.keep_length_from)), measure


def hanging_together(whole: Cutting) -> Iterator[Cutting]:
    """Yield the parts of a cutting that share neither stock nor a shift, in the order of their first member."""
    waiting = list(range(len(whole.members)))
    while waiting:
        together = _reached(whole, waiting[0])
        members = tuple(whole.members[place] for place in together)
        stocks = sorted(frozenset[int]().union(*(member.stocks for member in members)))
        anew = {place: new for new, place in enumerate(together)}
        shifts = (Shift(anew[s.one], anew[s.other], s.distance) for s in whole.shifts if s.one in anew)
        waiting = [place for place in waiting if place not in anew]
        own = {index: whole.stocks[index] for index in stocks}
        yield replace(whole, members=members, stocks=own, shifts=tuple(shifts))


def _reached(whole: Cutting, first: int) -> list[int]:
    """Return the places of all members that hang together with one, by stock or by a shift."""
    found, before = {first}, set[int]()
    while found != before:
        before = set(found)
        stocks = frozenset[int]().union(*(whole.members[place].stocks for place in found))
        found |= {place for place, member in enumerate(whole.members) if member.stocks & stocks}
        found |= {place for s in whole.shifts if {s.one, s.other} & found for place in (s.one, s.other)}
    return sorted(found)


def _shifts(job: Job, members: Sequence[Member], measure: Measure) -> Iterator[Shift]:
    """Yield the shifts between strips that may both have joints."""
    place = {strip.name: index for index, strip in enumerate(job.strips)}
    for pair in job.neighbours:
        if all(name in place and members[place[name]].most_joints for name in pair.between):
            yield Shift(place[pair.between[0]], place[pair.between[1]], measure.units(pair.shift))


def _sections(job: Job) -> tuple[tuple[float, float], ...]:
    """Return every section that a strip has."""
    return tuple(dict.fromkeys(strip.section for strip in job.strips))


def _stocks(job: Job, measure: Measure, kerf: int) -> Iterator[Stock]:
    """Yield each length as it is, then as it is ripped for each section: see ``length_of``."""
    ways = len(job.lengths)
    for index, length in enumerate(job.lengths):
        clear = _clear(length, measure, kerf)
        price = cents(length.price) if length.source == "buy" else 0
        whole = Stock(index, clear, kerf, price, length.available, None, measure.cents_a_unit(length.offcut_value))
        yield whole
        for number, section in enumerate(_sections(job), start=1):
            if sticks := sticks_from(job, length, section):
                each = replace(whole, stretches=clear * sticks, sticks=sticks, offcut=whole.offcut / sticks)
                yield replace(each, index=index + number * ways)


def _serving(job: Job, strip: Strip) -> Iterator[int]:
    """Yield the indices of the stock that may serve a strip, ripped for its section or not at all."""
    number = 1 + _sections(job).index(strip.section)
    for index, length in enumerate(job.lengths):
        if length_serves(job, length, strip):
            yield index if same_section(length.section, strip.section) else index + number * len(job.lengths)


def length_of(job: Job, stock: int) -> Length:
    """Return the length that a stock is, ripped or not."""
    return job.lengths[stock % len(job.lengths)]


def _clear(length: Length, measure: Measure, kerf: int) -> tuple[tuple[int, int], ...]:
    """Return the stretches between the faults; a fault narrower than the kerf is taken to be as wide as that.

    A length without any clear stretch is left with one of nothing.
    """
    start, end = 0, measure.units(length.length)
    stretches = []
    for first, last in sorted((measure.units(a), measure.units(b)) for a, b in length.faults):
        if first > start:
            stretches.append((start, first))
        start = max(start, last, first + kerf)
    if start < end:
        stretches.append((start, end))
    return tuple(stretches) or ((0, 0),)


def _spacing(rule: JointRule, strip: Strip, measure: Measure) -> int:
    """Return the least distance between stations, and from one to the strip's end."""
    return max(measure.units(strip.least_piece or rule.least_piece), measure.units(rule.lap(strip.bevelled)))


def _member(job: Job, index: int, measure: Measure, stocks: Mapping[int, Stock]) -> Member:
    strip = job.strips[index]
    rule = None if strip.joint is None else job.joints[strip.joint]
    spacing = _spacing(rule, strip, measure) if rule else 1
    serving = list(_serving(job, strip))
    longest = max((b - a for i in serving for a, b in stocks[i].stretches), default=0)
    if job.workshop.longest_piece is not None:
        longest = min(longest, measure.units(job.workshop.longest_piece))
    return Member(
        index=index,
        length=measure.units(strip.length),
        quantity=strip.quantity,
        joinable=rule is not None,
        half_lap=measure.units(rule.lap(strip.bevelled) / 2) if rule else 0,
        least_end=spacing,
        least_between=spacing,
        zones=tuple((measure.units(a), measure.units(b)) for a, b in strip.no_joint) if rule else (),
        joint_cents=cents(rule.cost.of(strip.joint_width)) if rule else 0,
        longest=longest,
        stocks=frozenset(serving),
        limit=strip.most_joints,
        preferred=tuple((measure.units(a), measure.units(b)) for a, b in strip.prefer) if rule else (),
        matched=strip.matched,
    )
