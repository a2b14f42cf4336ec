"""Which strips are ripped from one long plank: as many as its width gives."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from .cutting import Cutting, Member
from .turning import Family


@dataclass(frozen=True)
class Bundle:
    """A long plank of some length, and the member (by place) of each stick in use, straight and turned by turns.

    ``family`` is the place of the first member of the family that decides its length; -1 if there is none.
    """

    length: int
    sticks: tuple[tuple[int, bool], ...]
    family: int = -1

    @property
    def has_turned(self) -> bool:
        """Whether any stick is turned end for end."""
        return any(turned for _, turned in self.sticks)


@dataclass(frozen=True)
class Sorting:
    """How strips are given to long planks: ``mixing`` several kinds in one plank, ``turning`` where no shift asks."""

    mixing: bool
    turning: bool


def bundles(
    cutting: Cutting, places: Sequence[int], families: Sequence[Family], width: int, sorting: Sorting
) -> list[Bundle]:
    """Return long planks for all copies of some members, ``width`` sticks from each.

    Strips that keep a shift come first, so that free sticks of their planks can go to others no longer than these;
    the others follow by falling length, which makes the lengths of all planks together least. Matched copies lie in
    one plank, two and two the same way.
    """
    made: list[_Filling] = []
    for family in families:
        made += _of_family(cutting, family, width)
    tied = {place for family in families for place in family.turned}
    free = sorted(set(places) - tied, key=lambda place: (-cutting.members[place].length, place))
    kinds = [free] if sorting.mixing else [[place] for place in free]
    for kind in kinds:
        own = made if sorting.mixing else []
        for place, count in _units(cutting, kind):
            _add(own, cutting.members[place], place, count, width, sorting.turning)
        made = own if sorting.mixing else [*made, *own]
    return [filling.bundle() for filling in made]


@dataclass
class _Filling:
    """A long plank whose sticks are being given away."""

    length: int
    straight: list[int]
    turned: list[int]
    family: int = -1

    @property
    def taken(self) -> int:
        return len(self.straight) + len(self.turned)

    def bundle(self) -> Bundle:
        """Return it with sticks that lie one way and the other by turns, as far as they go."""
        both = zip_longest(sorted(self.straight), sorted(self.turned))
        sticks = [
            (place, way) for pair in both for place, way in zip(pair, (False, True), strict=True) if place is not None
        ]
        return Bundle(self.length, tuple(sticks), self.family)


def _of_family(cutting: Cutting, family: Family, width: int) -> list[_Filling]:
    """Return the planks of members that keep a shift: all of one length, so that mirror images compare."""
    length, first = max(cutting.members[place].length for place in family.turned), min(family.turned)
    made: list[_Filling] = []
    if family.wary:
        for number in range(cutting.members[first].quantity):
            if number % 2:
                made[-1].turned.append(first)
            else:
                made.append(_Filling(length, [first], [], first))
        return made
    units = {way: list(_units(cutting, [p for p in family.turned if family.turned[p] is way])) for way in (False, True)}
    for pair in zip_longest(units[False], units[True]):
        for unit, way in zip(pair, (False, True), strict=True):
            if unit is not None:
                _put(made, unit, way, width, _Filling(length, [], [], first))
    return made


def _put(made: list[_Filling], unit: tuple[int, int], way: bool, width: int, fresh: _Filling) -> None:
    """Give sticks of the last plank to a unit, or of a fresh one if it has not so many left."""
    place, count = unit
    if not made or made[-1].taken + count > width:
        made.append(fresh)
    (made[-1].turned if way else made[-1].straight).extend([place] * count)


def _add(made: list[_Filling], member: Member, place: int, count: int, width: int, turning: bool) -> None:
    """Give sticks of the first plank that is long enough and has so many to copies, the way that fewer lie."""
    there = next((f for f in made if f.length >= member.length and f.taken + count <= width), None)
    if there is None:
        there = _Filling(member.length, [], [])
        made.append(there)
    way = turning and len(there.turned) < len(there.straight)
    (there.turned if way else there.straight).extend([place] * count)


def _units(cutting: Cutting, places: Iterable[int]) -> Iterator[tuple[int, int]]:
    """Yield copies that lie side by side: two of a matched strip, else one."""
    for place in places:
        member = cutting.members[place]
        size = 2 if member.matched else 1
        yield from ((place, size) for _ in range(member.quantity // size))
