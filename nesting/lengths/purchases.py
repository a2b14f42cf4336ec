"""What to buy: branching on how many lengths of each stock are taken.

Where stocks differ in length and price, whole numbers of each are most of what the linear master leaves out. Every set
of purchases lies in one box of least and most counts; a box is split where the master wants a part of a length, until
it wants whole ones. What no box can beat is reckoned in whole numbers.
"""

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

import numpy as np

from nesting.effort import Effort

from .cheapest_room import cheapest_room, most_room
from .filling import Whole
from .generating import NOISE, Prices, candidates, covering, gain, rounded_up
from .master import Master
from .pricing import Pricing
from .safe_bound import boxed_bound, scale_of, whole_prices

#: How far from a whole number a count may be to be taken for one.
NEAR_WHOLE = 1e-6

#: Rounds of pricing for one box.
ROUNDS = 200

#: Steps of the search for the cheapest lengths that have room for all strips.
STEPS = 20_000

#: Prices times stock up to which it is tabled how much room can be had for each price.
MOST_PRICES = 3_000_000

Counts = tuple[int, ...]


@dataclass(frozen=True, order=True)
class Box:
    """Purchases between least and most counts of each stock; none costs less than ``cents``.

    ``wanted`` are the counts that the master takes of them.
    """

    cents: Fraction
    number: int
    least: Counts = field(compare=False)
    most: Counts = field(compare=False)
    wanted: tuple[float, ...] = field(compare=False)

    @property
    def whole(self) -> bool:
        """Whether the master takes whole lengths."""
        return all(abs(count - round(count)) <= NEAR_WHOLE for count in self.wanted)

    @property
    def counts(self) -> Counts:
        """The lengths that the master takes, rounded."""
        return tuple(map(round, self.wanted))

    def halves(self) -> Iterator[tuple[Counts, Counts]]:
        """Yield both parts, as least and most counts, parted at the stock of which the master wants nearest a half."""
        place = max(range(len(self.wanted)), key=lambda s: min(self.wanted[s] % 1, -self.wanted[s] % 1))
        below = int(self.wanted[place] // 1)
        yield self.least, _with(self.most, place, below)
        yield _with(self.least, place, below + 1), self.most

    def beyond(self, counts: Counts) -> Iterator[tuple[Counts, Counts]]:
        """Yield parts that together hold all purchases but those of at most such counts of every stock."""
        most = self.most
        for place, count in enumerate(counts):
            if count < self.most[place]:
                yield _with(self.least, place, max(self.least[place], count + 1)), most
            most = _with(most, place, min(most[place], count))
            if self.least[place] > count:
                return


class Boxes:
    """All purchases that may be cheaper than the best plan, in boxes, the cheapest first."""

    def __init__(self, master: Master, pricing: Pricing, step: int, effort: Effort) -> None:
        self._master, self._pricing, self._step, self._effort = master, pricing, step, effort
        self._rooms = pricing.task.yields @ np.array([opening.room for opening in pricing.task.openings])
        self._for_price: Whole | None = None
        self._open: list[Box] = []
        self._unsettled: list[Fraction] = []
        self._made = 0

    def begin(self, cents: int) -> None:
        """Put in all purchases below so many cents."""
        task = self._pricing.task
        pieces = int(task.demand.sum())
        dearest = [cents // price if price else pieces for price in task.cents.tolist()]
        there = [pieces if count is None else count for count in task.available]
        most = tuple(map(min, [min(pieces, count) for count in dearest], there))
        if cents // self._step * len(most) <= MOST_PRICES:
            self._for_price = most_room(task.cents // self._step, self._rooms, np.array(most), cents // self._step)
        self._add((0,) * len(most), most, cents)

    def next_whole(self, cents: int) -> Box | None:
        """Return the box of the cheapest purchases that the master wants whole; None if none is below an amount."""
        while self._open and not self._effort.over and rounded_up(self._open[0].cents, self._step) < cents:
            box = heapq.heappop(self._open)
            if box.whole:
                return box
            for least, most in box.halves():
                self._add(least, most, cents, box.cents)
        return None

    def go_beyond(self, box: Box, cents: int, *, settled: bool) -> None:
        """Put back what a box holds beside the purchases that its master wants, and those as well unless settled."""
        if not settled:
            self._unsettled.append(box.cents)
        for least, most in box.beyond(box.counts):
            self._add(least, most, cents, box.cents)

    def least(self, cents: int) -> int:
        """Return what no plan costs less than, up to an amount that the best one costs."""
        bounds = [*self._unsettled, *(box.cents for box in self._open)]
        return min(cents, min((rounded_up(bound, self._step) for bound in bounds), default=cents))

    def _add(self, least: Counts, most: Counts, cents: int, before: Fraction = Fraction(0)) -> None:
        """Put in a box, unless no purchases in it are cheaper than an amount."""
        if any(low > high for low, high in zip(least, most, strict=True)):
            return
        room_cents, counts = self._with_room(least, most, cents)
        if room_cents >= cents:
            return
        bound, wanted = self._priced(least, most, cents, before)
        if rounded_up(bound, self._step) >= cents:
            return
        if counts is not None and room_cents > bound:
            bound, wanted = Fraction(room_cents), counts if self._may_do(counts, room_cents) else wanted
        self._made += 1
        heapq.heappush(self._open, Box(bound, self._made, least, most, wanted))

    def _with_room(self, least: Counts, most: Counts, cents: int) -> tuple[int, Counts | None]:
        """Return the cheapest lengths of a box with room for all strips, and their cents; nothing if it takes long."""
        if self._for_price is None:
            return 0, None
        task, step = self._pricing.task, self._step
        need, limits = int(task.demand @ task.sizes), (np.array(least), np.array(most))
        price, counts, proven = cheapest_room(
            task.cents // step, self._rooms, *limits, self._for_price, need, cents // step, STEPS
        )
        return (int(price) * step, tuple(counts.tolist())) if proven else (0, None)

    def _may_do(self, counts: Counts, cents: int) -> bool:
        """Whether prices leave it open that all strips can be cut from at most so many lengths, which cost so much."""
        bound, _ = self._priced((0,) * len(counts), counts, cents + self._step, Fraction(0))
        return rounded_up(bound, self._step) <= cents

    def _priced(self, least: Counts, most: Counts, cents: int, bound: Fraction) -> tuple[Fraction, tuple[float, ...]]:
        """Return what prices prove of a box, and what the master takes of each stock."""
        self._master.hold_stock(least, most)
        for _ in range(ROUNDS):
            if self._effort.over or not self._master.solve(self._effort.seconds_left):
                break
            self._effort.spend(5)
            added, found = self._round(least, most)
            bound = max(bound, found)
            if not added or rounded_up(bound, self._step) >= cents:
                break
        return bound, tuple(self._master.stock.tolist())

    def _round(self, least: Counts, most: Counts) -> tuple[int, Fraction]:
        """Price patterns once; return how many were added, and the bound of a box."""
        task, pricing = self._pricing.task, self._pricing
        prices = Prices(*self._master.prices)
        scale = scale_of(prices.strips)
        strips: Whole = whole_prices(prices.strips, scale)
        openings = np.ceil(prices.openings * scale).astype(np.int64)
        priced = pricing.look(strips, openings, scale, task.demand)
        bound = boxed_bound(task, strips, covering(pricing, priced, openings), scale, least, most)
        worth = [group for group in candidates(pricing, priced, strips, scale) if gain(task, prices, group) > NOISE]
        return self._master.add(worth, task.joint_cents), bound


def _with(counts: Sequence[int], place: int, count: int) -> Counts:
    return (*counts[:place], count, *counts[place + 1 :])
