"""From openings with their pieces to lengths that are bought, each with its stretches."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from nesting.solving import Programme, columns_from_dense, minimize_whole

from .keeping import worth
from .layout import Cut, Layout
from .task import Task


@dataclass(frozen=True)
class Part:
    """Openings, by kind, and what is cut from them: ``bar`` of a cut counts these openings, copies count from 1."""

    openings: tuple[int, ...]
    cuts: tuple[Cut, ...]


def bought(task: Task, parts: Iterable[Part]) -> Layout | None:
    """Return the parts on the cheapest lengths that have such openings; None if there are not enough."""
    kept = [part for part in parts if part.cuts]
    need = Counter(kind for part in kept for kind in part.openings)
    counts = _lengths(task, need)
    if counts is None:
        return None
    bars, free = _openings_of(task, counts)
    made: Counter[int] = Counter()
    cuts: list[Cut] = []
    for part in kept:
        places = [free[kind].pop() for kind in part.openings]
        for cut in part.cuts:
            bar, stretch = places[cut.bar]
            cuts.append(Cut(cut.member, cut.copy + made[cut.member], cut.index, cut.length, bar, stretch))
        made.update(cut.member for cut in part.cuts if cut.index == 0)
    return _without_idle(Layout(tuple(bars), tuple(sorted(cuts))))


def offcut_worths(task: Task, part: Part) -> list[Fraction]:
    """Return what the offcut of each opening is worth in cents, not yet cut to whole ones."""
    cutting, left = task.cutting, [task.openings[kind].room for kind in part.openings]
    for cut in part.cuts:
        left[cut.bar] -= cut.length + cutting.kerf
    rests = [room - cutting.kerf for room in left]
    values = [task.openings[kind].offcut for kind in part.openings]
    return [
        value * rest if rest >= cutting.keep_from else Fraction(0) for value, rest in zip(values, rests, strict=True)
    ]


def plain_part(task: Task, kind: int, strips: Sequence[int]) -> Part:
    """Return one opening from which whole strips are cut."""
    cuts = [
        Cut(member.index, copy, 0, member.length, 0)
        for member, count in zip(task.members, strips, strict=True)
        for copy in range(1, count + 1)
    ]
    return Part((kind,), tuple(cuts))


def _lengths(task: Task, need: Counter[int]) -> list[int] | None:
    """Return how many lengths of each stock have the openings at the least price."""
    wanted = np.array([need[kind] for kind in range(len(task.openings))], dtype=float)
    matrix = task.yields.astype(float)
    most = [float(wanted.sum()) if count is None else float(count) for count in task.available]
    columns = columns_from_dense(_less_uncut(task), matrix, np.zeros(len(most)), np.array(most))
    if ((task.yields > 0).sum(axis=0) == 1).all():  # each opening comes from one stock only
        counts = [int(max((-(-wanted // np.maximum(row, 1)))[row > 0], default=0)) for row in task.yields]
        return counts if all(n <= top for n, top in zip(counts, most, strict=True)) else None
    answer = minimize_whole(Programme(columns, wanted, np.full(len(wanted), np.inf)), nodes=2_000, stop=lambda: False)
    return list(answer.values) if answer.found else None


def _less_uncut(task: Task) -> list[float]:
    """Return prices of stock less what its stretches are worth uncut: what is not needed of them can be kept."""
    least, kerf = task.cutting.keep_from, task.cutting.kerf
    uncut = [
        sum(worth(task.openings[kind].offcut, task.openings[kind].room - kerf, least) for kind in kinds)
        for kinds in task.stretch_kinds
    ]
    return [float(cents - kept) for cents, kept in zip(task.cents.tolist(), uncut, strict=True)]


def _openings_of(task: Task, counts: Sequence[int]) -> tuple[list[int], dict[int, list[tuple[int, int]]]]:
    """Return the bars, and for each kind of opening the bars and stretches that are one."""
    kinds = {opening: kind for kind, opening in enumerate(task.openings)}
    bars: list[int] = []
    free: dict[int, list[tuple[int, int]]] = {kind: [] for kind in kinds.values()}
    for place, (index, count) in enumerate(zip(task.stocks, counts, strict=True)):
        for _ in range(count):
            for stretch, kind in enumerate(task.stretch_kinds[place]):
                free[kind].append((len(bars), stretch))
            bars.append(index)
    for places in free.values():
        places.reverse()
    return bars, free


def _without_idle(layout: Layout) -> Layout:
    """Return the layout without lengths that nothing is cut from."""
    used = sorted({cut.bar for cut in layout.cuts})
    place = {bar: new for new, bar in enumerate(used)}
    return Layout(
        tuple(layout.bars[bar] for bar in used), tuple(cut.moved(cut.copy, place[cut.bar]) for cut in layout.cuts)
    )
