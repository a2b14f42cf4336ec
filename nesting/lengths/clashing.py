"""Groups that can't all be taken, since the joints of their tied strips would get too near, or can't be matched."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, combinations

from nesting.effort import Effort

from .every_cut import Refuting
from .groups import Group
from .task import Task

#: Attempts at leaving strips out of what clashes, and work units for each.
ATTEMPTS, WORK = 10, 60

#: Groups in a clash for which it is told which others clash in the same way.
MOST_CORES = 3


@dataclass(frozen=True)
class Clash:
    """Cores that can't be laid out together; so no plan holds different groups that each are a core and more.

    A group is a core and more if it makes all of its strips, from fewer or shorter openings, with no more joints: laid
    out, it would show how the core can be.
    """

    cores: tuple[Group, ...]

    def holders(self, task: Task, groups: Sequence[Group]) -> list[tuple[frozenset[int], int]]:
        """Return sets of groups, by place, with numbers: the clash is there iff of each so many are taken.

        By Hall's theorem: different groups can be found for all cores iff for any of the cores there are as many groups
        as cores.
        """
        own = [frozenset(k for k, group in enumerate(groups) if _holds(task, group, core)) for core in self.cores]
        return [
            (frozenset[int]().union(*some), count)
            for count in range(1, len(own) + 1)
            for some in combinations(own, count)
        ]


def clash_of(groups: Sequence[Group], refuting: Refuting, effort: Effort) -> Clash:
    """Return the least that was found to clash of groups that can't be laid out together, wherever cuts lie."""

    def clash(cores: Sequence[Group]) -> bool:
        effort.spend(WORK)
        return not effort.over and refuting.cores(cores, effort.seconds_left)

    bare = [_without(group, set(range(len(group.strips))) - refuting.task.tied) for group in groups]
    kept = bare if clash(bare) else list(groups)
    for number in reversed(range(len(kept))):
        less = [*kept[:number], *kept[number + 1 :]]
        if len(kept) > 2 and clash(less):
            kept = less
    for number, place in _others(kept, refuting.task)[:ATTEMPTS]:
        less = [*kept[:number], _without(kept[number], {place}), *kept[number + 1 :]]
        if clash(less):
            kept = less
    return Clash(tuple(kept))


def _others(groups: Sequence[Group], task: Task) -> list[tuple[int, int]]:
    """Return the groups, by number, and the places of their strips that no joint elsewhere depends on."""
    return [
        (number, place)
        for number, group in enumerate(groups)
        for place, count in enumerate(group.strips)
        if count and place not in task.tied
    ]


def _without(group: Group, places: set[int] | frozenset[int]) -> Group:
    return replace(group, strips=tuple(0 if place in places else n for place, n in enumerate(group.strips)), kept=0)


def _holds(task: Task, group: Group, core: Group) -> bool:
    makes = all(n >= least for n, least in zip(group.strips, core.strips, strict=True))
    return makes and group.joints <= core.joints and _within(task, group.openings, core.openings)


def _within(task: Task, openings: Sequence[int], others: Sequence[int]) -> bool:
    """Whether each opening can be told another that is no shorter and serves all that it does."""
    kinds = sorted(range(len(openings)), key=lambda kind: -task.openings[kind].room)
    if len({opening.members for opening in task.openings}) > 1:
        return all(n <= more for n, more in zip(openings, others, strict=True))
    have, there = accumulate(openings[kind] for kind in kinds), accumulate(others[kind] for kind in kinds)
    return all(n <= more for n, more in zip(have, there, strict=True))
