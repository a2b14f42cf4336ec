"""Groups with one joint fewer than openings, laid out or refuted by trying all trees.

Their openings hang together without rings: one of them, the root, makes some strips whole, and from it strips cross to
others, each of which is the root of what hangs on it. All that limits a layout is the room of openings. So it is
best if what hangs on a root holds as much as it can of the strip that crosses to it, and the root is left with as
short a piece as the joints' rules allow. The most that can be left of a root is found for each share of the openings
and strips, the smaller ones first: exact, since shares are counted by kinds and there are few.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from itertools import product
from math import prod

from nesting.solving import Status

from .buying import Part
from .crossing import Crossing, Way
from .groups import Group
from .layout import Cut
from .task import Task

#: Ways of parting openings and strips in two beyond which trees are not tried.
MOST_PARTINGS = 20_000

Counts = tuple[int, ...]


def laid_out_as_tree(task: Task, group: Group) -> tuple[Status, Part] | None:
    """Return whether and how a group is laid out; None if this can't tell, as it is larger or has more joints."""
    if group.joints != sum(group.openings) - 1 or task.cutting.keeps:
        return None
    trees = _Trees(task, group)
    if trees.partings > MOST_PARTINGS:
        return None
    root = trees.root(trees.all_openings, trees.all_strips, None)
    if root is None:
        return (Status.IMPOSSIBLE, Part((), ())) if trees.exact else None
    return Status.OPTIMAL, _Drawn(trees).part(root)


@dataclass(frozen=True)
class _Hanging:
    """What hangs on a root: a strip that crosses in some way, and the shares that the other openings make."""

    crossing: int
    way: Way
    shares: tuple["_Share", ...]


@dataclass(frozen=True)
class _Share:
    """Openings and strips that hang together: a kind of opening as root, and the most that is left of it.

    ``rest`` is the share without what was hung on it last; None if there is only the root.
    """

    root: int
    strips: Counts
    left: int
    rest: "_Share | None" = None
    hanging: _Hanging | None = None


@dataclass
class _Trees:
    task: Task
    group: Group
    best: dict[tuple[int, Counts, Counts], _Share | None] = field(default_factory=dict)

    @cached_property
    def kinds(self) -> tuple[int, ...]:
        """Kinds of opening in the group."""
        return tuple(kind for kind, count in enumerate(self.group.openings) if count)

    @cached_property
    def places(self) -> tuple[int, ...]:
        """Members in the group."""
        return tuple(place for place, count in enumerate(self.group.strips) if count)

    @cached_property
    def all_openings(self) -> Counts:
        """All of the openings, by kind."""
        return tuple(self.group.openings[kind] for kind in self.kinds)

    @cached_property
    def all_strips(self) -> Counts:
        """All of the strips, by place."""
        return tuple(self.group.strips[place] for place in self.places)

    @property
    def partings(self) -> int:
        """In how many ways each share of openings and strips can be parted in two."""
        return prod((n + 1) * (n + 2) // 2 for n in (*self.all_openings, *self.all_strips))

    @cached_property
    def exact(self) -> bool:
        """Whether no strip may have more joints than are tried here."""
        return all(min(self.task.members[place].most_joints, self.group.joints) <= 2 for place in self.places)

    @cached_property
    def rooms(self) -> Counts:
        """Room of each kind of opening."""
        return tuple(self.task.openings[kind].room for kind in self.kinds)

    @cached_property
    def sizes(self) -> Counts:
        """Length of each strip with one kerf."""
        return tuple(int(self.task.sizes[place]) for place in self.places)

    @cached_property
    def crossings(self) -> tuple[Crossing, ...]:
        """The strips as they can be divided."""
        longest = self.task.cutting.longest_piece
        members = [self.task.members[place] for place in self.places]
        return tuple(Crossing(m, m.length if longest is None else longest) for m in members)

    @cached_property
    def slack(self) -> int:
        """What is left of all openings together."""
        return self.free(self.all_openings, self.all_strips)

    def free(self, openings: Counts, strips: Counts) -> int:
        """Return what openings have left at most, together."""
        laps = (sum(openings) - 1) * self.task.lap
        return _times(self.rooms, openings) - _times(self.sizes, strips) - laps

    def serves(self, kind: int, strip: int) -> bool:
        """Whether a strip may be cut from a kind of opening."""
        return self.places[strip] in self.task.openings[self.kinds[kind]].members

    def root(self, openings: Counts, strips: Counts, crossing: int | None) -> _Share | None:
        """Return openings that make strips with the most left of one that serves a strip, if there are any."""
        kinds = [k for k, n in enumerate(openings) if n and (crossing is None or self.serves(k, crossing))]
        shares = [self.share(kind, openings, strips) for kind in kinds]
        return max((s for s in shares if s is not None), key=lambda share: share.left, default=None)

    def share(self, root: int, openings: Counts, strips: Counts) -> _Share | None:
        """Return openings that make strips, with the most left of a root of some kind; looked up once."""
        key = root, openings, strips
        if key not in self.best:
            self.best[key] = self._share(root, openings, strips)
        return self.best[key]

    def _share(self, root: int, openings: Counts, strips: Counts) -> _Share | None:
        if sum(openings) == 1:
            return self._whole(root, strips)
        best: _Share | None = None
        least = self.free(openings, strips) - self.slack  # with less left than this, too much is lost elsewhere
        others = tuple(n - (kind == root) for kind, n in enumerate(openings))
        for crossing, count in enumerate(strips):
            if not count or not self.serves(root, crossing) or not self.task.members[self.places[crossing]].joinable:
                continue
            made = tuple(n - (k == crossing) for k, n in enumerate(strips))
            for own, own_strips, hanging in self._hung(crossing, others, made):
                rest = self.share(root, _less(openings, own), _less(made, own_strips))
                left = -1 if rest is None else rest.left - hanging.way.piece - self.task.cutting.kerf
                if left >= max(0, least) and (best is None or left > best.left):
                    best = _Share(root, strips, left, rest, hanging)
        return best

    def _whole(self, root: int, strips: Counts) -> _Share | None:
        """Return a single opening from which strips are cut whole."""
        crossings = [crossing for crossing, n in zip(self.crossings, strips, strict=True) if n]
        served = all(self.serves(root, k) for k, n in enumerate(strips) if n)
        left = self.rooms[root] - _times(self.sizes, strips)
        if left < 0 or not served or any(crossing.member.length > crossing.longest for crossing in crossings):
            return None
        return _Share(root, strips, left)

    def _hung(self, crossing: int, openings: Counts, strips: Counts) -> Iterator[tuple[Counts, Counts, _Hanging]]:
        """Yield openings and strips that can hang on a root by a strip, with the shortest piece left to it."""
        for own in _shares_of(openings):
            for own_strips in _shares_of(strips) if any(own) else ():
                if self.free(own, own_strips) <= 0:
                    continue
                found = [each for each in self._ways(crossing, own, own_strips) if each is not None]
                if found:
                    yield own, own_strips, min(found, key=lambda hanging: hanging.way.piece)

    def _ways(self, crossing: int, openings: Counts, strips: Counts) -> Iterator[_Hanging | None]:
        yield self._with(crossing, [self.root(openings, strips, crossing)])
        if min(self.task.members[self.places[crossing]].most_joints, self.group.joints) < 2 or sum(openings) < 2:
            return
        for one in _shares_of(openings):
            if any(one) and one <= (other := _less(openings, one)) and any(other):
                for own in _shares_of(strips):
                    first = self.root(one, own, crossing)
                    if first is not None:
                        yield self._with(crossing, [first, self.root(other, _less(strips, own), crossing)])

    def _with(self, crossing: int, shares: list[_Share | None]) -> _Hanging | None:
        found = tuple(share for share in shares if share is not None)
        if len(found) < len(shares):
            return None
        way = self.crossings[crossing].shortest(tuple(share.left - self.task.cutting.kerf for share in found))
        return None if way is None else _Hanging(crossing, way, found)


@dataclass
class _Drawn:
    """Cuts of a share, opening by opening."""

    trees: _Trees
    cuts: list[Cut] = field(default_factory=list)
    taken: Counter[int] = field(default_factory=Counter)
    made: Counter[int] = field(default_factory=Counter)

    def part(self, share: _Share) -> Part:
        """Return a group as it is laid out."""
        self._root(share)
        openings = (kind for kind, count in enumerate(self.trees.group.openings) for _ in range(count))
        return Part(tuple(openings), tuple(sorted(self.cuts)))

    def _root(self, share: _Share) -> int:
        """Add all cuts of a share; return the opening that is its root."""
        if share.hanging is None or share.rest is None:
            bar = sum(self.trees.all_openings[: share.root]) + self.taken[share.root]
            self.taken[share.root] += 1
            for strip, count in enumerate(share.strips):
                for _ in range(count):
                    self._cut(strip, [self.trees.crossings[strip].member.length], [bar])
            return bar
        bar, hanging = self._root(share.rest), share.hanging
        bars = [bar, *(self._root(each) for each in hanging.shares)]
        pieces = hanging.way.pieces(self.trees.crossings[hanging.crossing].member)
        self._cut(hanging.crossing, pieces, [bars[place] for place in hanging.way.order])
        return bar

    def _cut(self, strip: int, pieces: list[int], bars: list[int]) -> None:
        self.made[strip] += 1
        member = self.trees.crossings[strip].member
        for index, (piece, bar) in enumerate(zip(pieces, bars, strict=True)):
            self.cuts.append(Cut(member.index, self.made[strip], index, piece, bar))


def _shares_of(counts: Counts) -> Iterator[Counts]:
    """Yield all counts that are no more than these."""
    return product(*(range(n + 1) for n in counts))


def _times(sizes: Counts, counts: Counts) -> int:
    return sum(size * count for size, count in zip(sizes, counts, strict=True))


def _less(counts: Counts, others: Counts) -> Counts:
    return tuple(n - m for n, m in zip(counts, others, strict=True))
