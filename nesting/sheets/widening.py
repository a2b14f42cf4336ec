"""More variants where those thought likely all clash: with joints at stations that keep apart, found by a solver."""

from collections.abc import Sequence

from .joined import joined_at
from .parts import Part
from .plain_choice import plain_choice
from .tasks import Task, by_way
from .variants import Variant, variant_at


def widened(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """Return the tasks, with one more variant of each panel that has neighbours if none of them fit together.

    Without a choice that is plain to see a solver is asked, and without any it looks for stations that keep apart.
    """
    first = tasks[0]
    if not first.clashing or plain_choice(first) is not None or _has_a_choice(first):
        return tuple(tasks)
    found = _kept_apart(first)
    if not found:
        return tuple(tasks)
    stocks = max((task.stocks for task in tasks), key=len)
    several = zip(*(task.variants for task in tasks), strict=True)
    variants = [list(dict.fromkeys(variant for ways in panel for variant in ways)) for panel in several]
    new = [variant for variant in found if not any(variant in known for known in variants)]
    added = [(*known, *(v for v in new if v.panel == known[0].panel)) for known in variants]
    return by_way(first.job, stocks, first.parts, tuple(added))


def _has_a_choice(task: Task) -> bool:
    from .choosing import choose  # opens the solver

    return choose(task.parts, task.variants, task.clashing, task.stocks, None) is not None


def _kept_apart(task: Task) -> tuple[Variant, ...]:
    """Return variants of the panels that have neighbours, whose joints keep apart; nothing if none are found."""
    from .refusing_neighbours import neighbours_of

    those = neighbours_of(task.job, task.parts)
    made = [_made(part, at, task) for part, at in zip(those, _stations(task, those), strict=False)]
    return tuple(variant for variant in made if variant is not None) if all(made) else ()


def _stations(task: Task, those: Sequence[Part]) -> Sequence[tuple[float, ...]]:
    from .keeping_apart import stations_apart
    from .refusing_neighbours import from_blanks, panels_of

    panels = panels_of(task.job, those)
    on_blanks = task.way == "joined"
    return (
        from_blanks(task.job, those).stations(panels) if on_blanks else stations_apart(panels, panels.most_joints)
    ) or ()


def _made(part: Part, stations: tuple[float, ...], task: Task) -> Variant | None:
    """Return a panel with joints at these stations, made as the task makes it; without joints it is known already."""
    known = task.variants[task.parts.index(part)]
    if not stations:
        return next((variant for variant in known if not variant.stations), None)
    return (joined_at if task.way == "joined" else variant_at)(part, stations, task.job)
