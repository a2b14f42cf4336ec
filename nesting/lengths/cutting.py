"""What is to be cut, in whole units: members, the stock that may serve them, and how they hang together."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from nesting.joints import Reach, least_joints, windows
from nesting.model import Job, length_serves

from .measure import Measure, cents, common_measure


@dataclass(frozen=True)
class Stock:
    """A kind of length. ``room`` is its length plus one kerf: pieces fit iff each with its kerf fits there."""

    index: int
    length: int
    room: int
    cents: int
    available: int | None


@dataclass(frozen=True)
class Member:
    """A kind of strip with the rules of its joints; ``stocks`` are the indices of the lengths that may serve it.

    ``longest`` is the longest piece of it that any stock and the workshop allow; 0 without stock.
    """

    index: int
    length: int
    quantity: int
    joinable: bool
    half_lap: int
    least_piece: int
    zones: tuple[tuple[int, int], ...]
    joint_cents: int
    longest: int
    stocks: frozenset[int]

    @property
    def lap(self) -> int:
        """Length of each overlap."""
        return 2 * self.half_lap

    @property
    def spacing(self) -> int:
        """Least distance between stations, and from one to the strip's end."""
        return max(self.least_piece, self.lap)

    @cached_property
    def reach(self) -> Reach:
        """The member as the interval programme takes it: whole numbers, so its float arithmetic is exact."""
        return Reach(
            start=0,
            end=self.length,
            lap=self.lap,
            usable=self.longest,
            least_piece=self.least_piece,
            zones=self.zones,
        )

    @cached_property
    def least_joints(self) -> int | None:
        """Fewest joints that length and zones alone allow; None if no number does."""
        if self.length <= self.longest:
            return 0
        return least_joints(self.reach) if self.joinable else None

    @property
    def most_joints(self) -> int:
        """Most joints that the least piece leaves room for."""
        return max(0, self.length // self.spacing - 1) if self.joinable else 0

    def windows(self, joints: int) -> tuple[tuple[tuple[int, int], ...], ...]:
        """Return, for each of so many joints, the stations at which it can lie; empty if they can't be placed."""
        return tuple(tuple((int(a), int(b)) for a, b in spans) for spans in windows(self.reach, joints))


@dataclass(frozen=True)
class Cutting:
    """Members that share stock and are therefore planned together."""

    kerf: int
    longest_piece: int | None
    members: tuple[Member, ...]
    stocks: Mapping[int, Stock]

    @property
    def copies(self) -> int:
        """Number of strips to be made."""
        return sum(member.quantity for member in self.members)

    def longest_from(self, stock: int) -> int:
        """Return the longest piece that a fresh length of this stock gives."""
        return self.longest_in(self.stocks[stock].room)

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
    stocks = {
        index: Stock(
            index,
            measure.units(length.length),
            measure.units(length.length) + kerf,
            cents(length.price),
            length.available,
        )
        for index, length in enumerate(job.lengths)
    }
    members = tuple(_member(job, index, measure) for index in range(len(job.strips)))
    return Cutting(kerf, None if longest is None else measure.units(longest), members, stocks), measure


def hanging_together(whole: Cutting) -> Iterator[Cutting]:
    """Yield the parts of a cutting that share no stock with one another, in the order of their first member."""
    waiting = list(whole.members)
    while waiting:
        stocks, before = waiting[0].stocks, frozenset[int]()
        while stocks != before:
            before = stocks
            stocks = stocks.union(*(m.stocks for m in waiting if m.stocks & stocks))
        members = tuple(m for m in waiting if m.stocks <= stocks)
        waiting = [m for m in waiting if not m.stocks <= stocks]
        yield Cutting(
            whole.kerf, whole.longest_piece, members, {index: whole.stocks[index] for index in sorted(stocks)}
        )


def _member(job: Job, index: int, measure: Measure) -> Member:
    strip = job.strips[index]
    rule = None if strip.joint is None else job.joints[strip.joint]
    serving = {i: length.length for i, length in enumerate(job.lengths) if length_serves(job, length, strip)}
    longest = min(max(serving.values(), default=0.0), job.workshop.longest_piece or float("inf"))
    return Member(
        index=index,
        length=measure.units(strip.length),
        quantity=strip.quantity,
        joinable=rule is not None,
        half_lap=measure.units(rule.lap(strip.section[1]) / 2) if rule else 0,
        least_piece=measure.units(rule.least_piece) if rule else 1,
        zones=tuple((measure.units(a), measure.units(b)) for a, b in strip.no_joint) if rule else (),
        joint_cents=cents(rule.cost.of(strip.section[0])) if rule else 0,
        longest=measure.units(longest),
        stocks=frozenset(serving),
    )
