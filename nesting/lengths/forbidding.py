"""Rows that keep choices of groups out which can't be laid out together."""

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field

from .clashing import Clash
from .groups import Group
from .task import Task

#: Entries (by column: groups, then indicators) of a row, and what they may add up to at most.
Row = tuple[list[tuple[int, float]], float]


@dataclass
class Rows:
    """Rows, and how many further columns of 0 or 1 they need, after those of the groups."""

    rows: list[Row] = field(default_factory=list)
    indicators: int = 0


@dataclass(frozen=True)
class _Limits:
    """How often each group may be taken, and how many tied strips there are: each of the groups holds one at least."""

    often: tuple[int, ...]
    tied: int

    def of(self, places: frozenset[int]) -> int:
        return max(1, min(self.tied, sum(self.often[place] for place in places)))


def rows_against(
    task: Task,
    groups: Sequence[Group],
    often: Sequence[int],
    forbidden: Collection[Counter[Group]],
    clashes: Collection[Clash],
) -> Rows:
    """Return what keeps out choices of groups, and all choices that clash; ``often`` is the most of each group."""
    found, limits = Rows(), _Limits(tuple(often), sum(int(task.demand[k]) for k in task.tied))
    place = {group: k for k, group in enumerate(groups)}
    for choice in forbidden:
        if all(group in place for group in choice):
            sets = [(frozenset([place[group]]), count) for group, count in choice.items()]
            _not_all(found, sets, limits, len(groups))
    for clash in clashes:
        _not_all(found, list(_told_apart(clash.holders(task, groups))), limits, len(groups))
    return found


def _told_apart(sets: Sequence[tuple[frozenset[int], int]]) -> Iterator[tuple[frozenset[int], int]]:
    """Yield the sets less those that others, which need more of the same, stand for."""
    most = {places: max(count for own, count in sets if own == places) for places, _ in sets}
    yield from most.items()


def _not_all(found: Rows, sets: Sequence[tuple[frozenset[int], int]], limits: _Limits, first: int) -> None:
    """Let not of each set so many groups be taken.

    For each set an indicator is 1 if so many are; not all may be 1. A single one needs none.
    """
    if not all(places for places, _ in sets):
        return
    if len(sets) == 1:
        places, count = sets[0]
        found.rows.append(([(place, 1.0) for place in sorted(places)], float(count - 1)))
        return
    for number, (places, count) in enumerate(sets):
        top = float(limits.of(places) - (count - 1))  # count - 1 and fewer need no indicator
        entries = [(place, 1.0) for place in sorted(places)]
        found.rows.append(([*entries, (first + found.indicators + number, -top)], float(count - 1)))
    found.rows.append(([(first + found.indicators + k, 1.0) for k in range(len(sets))], float(len(sets) - 1)))
    found.indicators += len(sets)
