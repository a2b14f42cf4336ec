"""More variants where those thought likely all clash: with joints at stations that keep apart, found by a solver."""

from collections.abc import Sequence

from . import refusing
from .plain_choice import plain_choice
from .tasks import Task, by_way
from .variants import Variant, variant_at


def widened(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """Return the tasks, with one more variant of each divided panel that has neighbours if none of them fit together.

    Without a choice that is plain to see a solver is asked, and without any it looks for stations that keep apart.
    """
    first = tasks[0]
    if first.way == "joined" or not first.clashing or plain_choice(first) is not None or _has_a_choice(first):
        return tuple(tasks)
    found = _kept_apart(first)
    if not found:
        return tuple(tasks)
    stocks = max((task.stocks for task in tasks), key=len)
    several = zip(*(task.variants for task in tasks), strict=True)
    variants = [list(dict.fromkeys(variant for ways in panel for variant in ways)) for panel in several]
    added = [(*known, *(v for v in found if v.panel == known[0].panel)) for known in variants]
    return by_way(first.job, stocks, first.parts, tuple(added))


def _has_a_choice(task: Task) -> bool:
    from .choosing import choose  # opens the solver

    return choose(task.parts, task.variants, task.clashing, task.stocks, None) is not None


def _kept_apart(task: Task) -> tuple[Variant, ...]:
    """Return a variant of each divided panel that has neighbours, whose joints keep apart; nothing if none is found."""
    from .keeping_apart import stations_apart

    panels = refusing.divided_neighbours(task.job, task.parts)
    found = stations_apart(panels, panels.most_joints)
    parts = {part.panel.name: part for part in task.parts}
    there = [variant_at(parts[name], at, task.job) for name, at in zip(panels.names, found or (), strict=False)]
    variants = tuple(variant for variant in there if variant is not None)
    return variants if len(variants) == len(panels.names) else ()
