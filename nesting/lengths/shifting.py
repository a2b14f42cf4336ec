"""A first plan whose joints keep their shift, and are matched, from one that was made without looking at that."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import islice, product

from nesting.effort import Effort

from .buying import Part, bought
from .greedy import greedy
from .groups import Group
from .layout import Layout, apart
from .pricing import unions
from .realising import realised_together
from .task import Task, openings_there
from .worth_choosing import Costs

#: Ways of relaxing groups whose joints are too near that are looked at, and tried.
MOST_CHOICES, RELAXED_TRIED = 500, 12

#: Ways of cutting named strips from lengths of their own that are tried.
WAYS_TRIED = 12


def with_ties(task: Task, layout: Layout, effort: Effort) -> Layout | None:
    """Return the plan with those groups laid out anew that hold tied strips; None if that fails."""
    named = task.tied
    groups, parts = [], []
    for own in apart(layout):
        group, part = group_of(task, own), part_of(task, own)
        if any(group.strips[place] for place in named):
            groups.append(group)
        else:
            parts.append(part)
    for number, tried in enumerate(_relaxed(task, groups)):
        if number and effort.over:  # the first try is short, and there may be no other plan
            return None
        _, anew = realised_together(task, tried, effort.seconds_left)
        effort.spend(300)
        if anew:
            return bought(task, [*parts, *anew])
    return None


def _relaxed(task: Task, groups: list[Group]) -> Iterator[tuple[Group, ...]]:
    """Yield the groups as they are, then with further joints and lengths, the cheapest first; so many as are tried."""
    costs = Costs(task)
    wider = [[group, *(each for each in _wider(task, group) if costs.possible(each))] for group in groups]
    choices = islice(product(*wider), MOST_CHOICES)
    yield from sorted(choices, key=lambda choice: sum(_price(task, group, costs)[1] for group in choice))[
        :RELAXED_TRIED
    ]


def _wider(task: Task, group: Group) -> Iterator[Group]:
    """Yield a group with one or two more joints, and with one more length without limit and a joint."""
    for more in (1, 2):
        yield Group(group.strips, group.openings, group.joints + more)
    for kind in range(len(task.openings)):
        if openings_there(task, kind) is None:
            openings = tuple(n + (k == kind) for k, n in enumerate(group.openings))
            yield Group(group.strips, openings, group.joints + 1)


def set_apart(task: Task, effort: Effort) -> Layout | None:
    """Return a plan in which each strip whose joints depend on others has lengths of its own; None if none is found."""
    named = sorted(task.tied)
    others = tuple(member for place, member in enumerate(task.members) if place not in named)
    rest = greedy(replace(task.cutting, members=others, shifts=()), effort) if others else Layout()
    if rest is None:
        return None
    parts = [part_of(task, own) for own in apart(rest)]
    copies = [place for place in named for _ in range(task.members[place].quantity)]
    ways = [_alone(task, place) for place in copies]
    one_way = all(task.members[place].matched for place in named)
    for turn in range(WAYS_TRIED):
        if effort.over or not all(ways):
            return None
        tried = [own[(turn if number % 2 or one_way else turn // 2) % len(own)] for number, own in enumerate(ways)]
        _, anew = realised_together(task, tried, effort.seconds_left)
        effort.spend(300)
        layout = bought(task, [*parts, *anew]) if anew else None
        if layout is not None:
            return layout
    return None


def _alone(task: Task, place: int) -> list[Group]:
    """Return groups of one copy on openings of its own, cheapest first, unlimited ones before all others."""
    member, costs = task.members[place], Costs(task)
    listed = unions(task, (member.least_joints or 0) + 2)
    if listed is None:
        return []
    strips = tuple(int(k == place) for k in range(len(task.members)))
    rows = [tuple(row) for row in listed.counts.tolist()]
    groups = [Group(strips, row, max(sum(row) - 1, costs.fewest(strips))) for row in rows]
    return sorted((group for group in groups if costs.possible(group)), key=lambda group: _price(task, group, costs))


def _price(task: Task, group: Group, costs: Costs) -> tuple[bool, int]:
    limited, cents = False, costs.cents(group)
    for kind, count in enumerate(group.openings):
        if count:
            limited = limited or openings_there(task, kind) is not None
            cents += count * min(int(c) for c, n in zip(task.cents, task.yields[:, kind], strict=True) if n)
    return limited, cents


def _used(layout: Layout) -> list[tuple[int, int]]:
    """Return the bar and stretch of every opening that something is cut from."""
    return sorted({(cut.bar, cut.stretch) for cut in layout.cuts})


def _kind(task: Task, layout: Layout, opening: tuple[int, int]) -> int:
    bar, stretch = opening
    return task.stretch_kinds[task.stocks.index(layout.bars[bar])][stretch]


def group_of(task: Task, layout: Layout) -> Group:
    """Return a part of a layout as a group: its strips, the openings that are used, and its joints."""
    openings = Counter(_kind(task, layout, opening) for opening in _used(layout))
    copies = Counter(cut.member for cut in layout.cuts if cut.index == 0)
    return Group(
        tuple(copies[member.index] for member in task.members),
        tuple(openings[kind] for kind in range(len(task.openings))),
        sum(cut.index > 0 for cut in layout.cuts),
    )


def part_of(task: Task, layout: Layout) -> Part:
    """Return a part of a layout with the openings that it uses."""
    used = _used(layout)
    place = {opening: k for k, opening in enumerate(used)}
    cuts = tuple(replace(cut, bar=place[cut.bar, cut.stretch], stretch=0) for cut in layout.cuts)
    return Part(tuple(_kind(task, layout, opening) for opening in used), cuts)
