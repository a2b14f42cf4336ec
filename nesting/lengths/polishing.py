"""What is still free when money and joints are settled: long offcuts before short ones, joints where they are better.

Nothing is proven of this: it never costs more, nor takes more joints.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from nesting.effort import Effort

from .buying import bought
from .cutting import Cutting
from .groups import Group
from .layout import Layout, apart, copies_of, keeps_ties
from .realising import best_realised
from .shifting import group_of, part_of
from .task import Task, task_of

#: Solver effort for laying out some lengths anew, and how many pairs of lengths are tried.
EFFORT, MOST_PAIRS = 0.1, 12

#: Pieces in all beyond which a layout is left as it is.
MOST_CUTS = 2000

#: Lengths that are compared with one another.
MOST_COMPARED = 40

#: Pieces beyond which lengths are not laid out anew together.
MOST_PIECES = 16

#: Work units for one attempt.
WORK = 30


def polished(cutting: Cutting, layout: Layout | None, effort: Effort) -> Layout | None:
    """Return a layout that costs the same with as many joints, and leaves more that is kept, or has better joints."""
    if layout is None or len(layout.cuts) > MOST_CUTS or not _free(cutting, layout) or not keeps_ties(cutting, layout):
        return layout
    polish = _Polish(cutting, task_of(cutting), effort)
    parts = list(apart(layout))
    tied = [part for part in parts if polish.tied(part)]
    others = [part for part in parts if not polish.tied(part)]
    if tied and sum(len(part.cuts) for part in tied) <= MOST_PIECES * 4:
        tied = polish.anew(tied)
    alike = {part: polish.anew([part])[0] for part in dict.fromkeys(others)}
    others = polish.in_pairs([alike[part] for part in others])
    made = bought(polish.task, [part_of(polish.task, part) for part in (*tied, *others)])
    if made is None or not keeps_ties(cutting, made) or made.price(cutting) > layout.price(cutting):
        return layout
    return made if _merit(cutting, made) > _merit(cutting, layout) else layout


@dataclass(frozen=True)
class _Polish:
    cutting: Cutting
    task: Task
    effort: Effort

    def tied(self, part: Layout) -> bool:
        """Whether a part holds strips whose joints depend on other copies."""
        own = {self.cutting.members[place].index for place in self.task.tied}
        return any(cut.member in own for cut in part.cuts)

    def anew(self, parts: list[Layout]) -> list[Layout]:
        """Return parts laid out anew, or as they are if that is no better."""
        if self.effort.over or not any(_free(self.cutting, part) for part in parts):
            return parts
        made = self._laid([group_of(self.task, part) for part in parts])
        return made if made and self._better(made, parts) else parts

    def in_pairs(self, parts: list[Layout]) -> list[Layout]:
        """Return parts in which, two by two, strips were exchanged so that more is left in one piece."""
        tried: set[frozenset[Layout]] = set()
        while len(tried) < MOST_PAIRS and not self.effort.over:
            pair = next((p for p in self._worth_trying(parts) if frozenset(parts[k] for k in p) not in tried), None)
            if pair is None:
                break
            two = [parts[place] for place in pair]
            tried.add(frozenset(two))
            made = self._laid([_as_one(*(group_of(self.task, part) for part in two))])
            if made and self._better(made, two):
                parts = [*(part for place, part in enumerate(parts) if place not in pair), *made]
        return parts

    def _better(self, made: Sequence[Layout], before: Sequence[Layout]) -> bool:
        """Whether parts cost no more and leave more that is kept, or have more joints where they are better."""
        cheap = _price(self.cutting, made) <= _price(self.cutting, before)
        return cheap and _merits(self.cutting, made) > _merits(self.cutting, before)

    def _worth_trying(self, parts: Sequence[Layout]) -> Iterator[tuple[int, int]]:
        """Yield pairs of parts of which something is left that is too short to keep, and enough in all."""
        least = self.cutting.keep_from
        rests = [[rest for _, _, rest in part.rests(self.cutting)] for part in parts]
        lost = {place: sum(rest for rest in own if rest < least) for place, own in enumerate(rests)}
        most_lost = sorted(_two_of_each(parts), key=lambda place: -lost[place])[:MOST_COMPARED]
        for one, other in combinations(most_lost, 2):
            pieces = len(parts[one].cuts) + len(parts[other].cuts)
            if lost[one] and sum(rests[one]) + sum(rests[other]) >= least and pieces <= MOST_PIECES:
                yield one, other

    def _laid(self, groups: list[Group]) -> list[Layout]:
        self.effort.spend(WORK)
        made = best_realised(self.task, groups, self.effort.seconds_left, EFFORT * len(groups))
        layouts = [bought(self.task, [part]) for part in made]
        return [layout for layout in layouts if layout is not None] if all(layouts) else []


def _two_of_each(parts: Sequence[Layout]) -> Iterator[int]:
    """Yield the places of the first two of all equal parts."""
    seen: Counter[Layout] = Counter()
    for place, part in enumerate(parts):
        seen[part] += 1
        if seen[part] <= 2:
            yield place


def _free(cutting: Cutting, layout: Layout) -> bool:
    """Whether some rest is too short to be kept, or a joint could lie better."""
    short = any(rest < cutting.keep_from for _, _, rest in layout.rests(cutting))
    return short or any(not well for well in _joints_well(cutting, layout))


def _joints_well(cutting: Cutting, layout: Layout) -> Iterator[bool]:
    """Yield for each joint of a strip that has better places whether its lap lies in one."""
    for member in cutting.members:
        for _, joints in copies_of(member, layout) if member.preferred else ():
            for station in joints:
                low, high = station - member.half_lap, station + member.half_lap
                yield any(start <= low and high <= end for start, end in member.preferred)


def _merit(cutting: Cutting, layout: Layout) -> tuple[int, int]:
    """Return the length of what is kept, and how many joints lie where they are better."""
    kept = sum(rest for _, _, rest in layout.rests(cutting) if rest >= cutting.keep_from)
    return kept, sum(_joints_well(cutting, layout))


def _merits(cutting: Cutting, parts: Sequence[Layout]) -> tuple[int, int]:
    merits = [_merit(cutting, part) for part in parts]
    return sum(kept for kept, _ in merits), sum(joints for _, joints in merits)


def _price(cutting: Cutting, parts: Sequence[Layout]) -> tuple[int, int]:
    prices = [part.price(cutting) for part in parts]
    return sum(cents for cents, _ in prices), sum(joints for _, joints in prices)


def _as_one(one: Group, other: Group) -> Group:
    """Return the strips, openings and joints of two groups, as if they hung together."""
    return Group(
        tuple(a + b for a, b in zip(one.strips, other.strips, strict=True)),
        tuple(a + b for a, b in zip(one.openings, other.openings, strict=True)),
        one.joints + other.joints,
    )
