"""Long planks and their sticks: what is cut from each, and what is left between the laps."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from .cutting import Member


@dataclass(frozen=True)
class StripCut:
    """A strip (member by place) cut from a stick, from and to along the long plank."""

    place: int
    start: int
    end: int


@dataclass(frozen=True)
class LongStickCut:
    """One stick of a long plank, turned end over end or not, and the strips cut from it."""

    turned: bool
    strips: tuple[StripCut, ...] = ()

    def station(self, strip: StripCut, scarf: int) -> int:
        """Return a strip's own station at a place along the plank."""
        return strip.end - scarf if self.turned else scarf - strip.start


@dataclass(frozen=True)
class LongPlankCut:
    """One long plank, a copy of a member of the wide cutting: where its scarfs are, and its sticks."""

    member: int
    copy: int
    length: int
    half_lap: int
    scarfs: tuple[int, ...]
    sticks: tuple[LongStickCut, ...]

    def within(self, strip: StripCut) -> Iterator[tuple[int, int]]:
        """Yield number and place of the scarfs within a strip, counted from 1."""
        for number, scarf in enumerate(self.scarfs, start=1):
            if strip.start <= scarf - self.half_lap and scarf + self.half_lap <= strip.end:
                yield number, scarf

    def rests(self, stick: LongStickCut, kerf: int) -> Iterator[tuple[int, int]]:
        """Yield what is left of a stick between the laps, beyond the cut that frees it."""
        taken = [(scarf - self.half_lap, scarf + self.half_lap) for scarf in self.scarfs]
        taken += [(strip.start - kerf, strip.end + kerf) for strip in stick.strips]
        start = 0
        for low, high in sorted(taken):
            if low > start:
                yield start, low
            start = max(start, high)
        if start < self.length:
            yield start, self.length


def first_stick(place: int, turned: bool, strip: int, plank: int) -> LongStickCut:
    """Return a stick with a strip at the end of its long plank from which the strip's stations count."""
    return LongStickCut(turned, (StripCut(place, plank - strip, plank) if turned else StripCut(place, 0, strip),))


def with_short_strips(
    planks: Sequence[LongPlankCut], short: Sequence[tuple[int, Member]], kerf: int
) -> tuple[LongPlankCut, ...]:
    """Return long planks with whole strips in what is left of them.

    ``short`` are members with their places; longer ones come first, each where it first fits.
    """
    waiting = Counter({place: member.quantity for place, member in short})
    longest_first = sorted(short, key=lambda each: (-each[1].length, each[0]))
    made = []
    for plank in planks:
        sticks = []
        for stick in plank.sticks:
            for start, end in tuple(plank.rests(stick, kerf)):
                found = _filled(start, end, longest_first, waiting, kerf)
                stick = replace(stick, strips=(*stick.strips, *found))
            sticks.append(stick)
        made.append(replace(plank, sticks=tuple(sticks)))
    return tuple(made)


def _filled(
    start: int, end: int, longest_first: Sequence[tuple[int, Member]], waiting: Counter[int], kerf: int
) -> list[StripCut]:
    """Return strips that lie side by side in a stretch, and take them off what is waiting."""
    found = []
    for place, member in longest_first:
        while waiting[place] and start + member.length <= end:
            found.append(StripCut(place, start, start + member.length))
            waiting[place] -= 1
            start += member.length + kerf
    return found
