"""All of a set of items in several containers at once, apart if that is found."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.effort import Effort

from .accepting import accepted
from .container import Container
from .first_fit import Item, Placement
from .posing import Wanted
from .searching import Search
from .verifying import is_feasible
from .wanting import pose_in, want_within
from .workshop import Workshop

Array = NDArray[np.float64]

#: Sweeps without progress after which an attempt goes back to its best, and how often it may.
PATIENCE, STRIKES = 150, 3

#: Arrangements that are kept, best first, to start from again.
POOL = 8

#: Share of the attempts that start from nothing once there is a pool; none where it was said where items may lie.
FROM_NOTHING = 0.3

#: By how much the order of areas is disturbed where items are laid one after another.
DISTURBANCE = 0.25

#: Where each item lies: the number of its container, and its place in it.
Places = tuple[tuple[int, Placement], ...]


@dataclass(frozen=True)
class Arrangement:
    """A place for every item; where they are ``apart`` that is verified.

    ``overlaps`` tells of each item how much it overlaps, as the search measures it: no length, but less is better.
    """

    places: Places
    overlaps: tuple[float, ...]
    apart: bool

    @property
    def overlap(self) -> float:
        """Of all items together."""
        return sum(self.overlaps)


def arrange_together(
    workshop: Workshop,
    containers: Sequence[Container],
    items: Sequence[Item],
    effort: Effort,
    *,
    seed: int = 0,
    allowed: Sequence[frozenset[int]] | None = None,
    start: Places = (),
) -> Arrangement | None:
    """Return the arrangement of least overlap that was found, or None if an item fits nowhere.

    Parameters
    ----------
    workshop : Workshop
        Its gaps apply; what it prepares serves later calls too.
    items : sequence of Item
        Each once. Items with lines are laid in those of their containers alone that have the lines of the first.
    allowed : sequence of set of int, or None
        Numbers of the containers in which each item may lie; None for all.
    start : sequence of (container, Placement)
        Where some items may lie at first; others are laid around them.

    Raises
    ------
    ValueError
        If there is no container, or an outline can't be worked with.
    """
    items = accepted(items, containers)
    everywhere = frozenset(range(len(containers)))
    wide = [_allowed(containers, item, everywhere if allowed is None else allowed[k]) for k, item in enumerate(items)]
    wanted = [_widest(workshop, containers, item, where) for item, where in zip(items, wide, strict=True)]
    if not all(want.options for want in wanted):
        return None
    search = pose_in(workshop, containers, items, wanted, effort, seed, wide)
    found = _arranged(search, np.array([want.area for want in wanted]), np.random.default_rng(seed), start)
    if found is None:
        return None
    places = tuple((int(search.layout.container[k]), search.placement(k, k)) for k in range(search.layout.movable))
    if not found:
        return Arrangement(places, tuple(map(float, search.losses() / search.side)), apart=False)
    if not _verified(workshop, containers, items, places):
        return None  # not seen so far
    return Arrangement(places, (0.0,) * len(items), apart=True)


def _allowed(containers: Sequence[Container], item: Item, allowed: frozenset[int]) -> frozenset[int]:
    """Return the containers in which an item is tried: one with lines keeps to those whose lines are alike."""
    if not item.lines or not allowed:
        return allowed
    first = containers[min(allowed)]
    alike = (k for k in allowed if containers[k].lines == first.lines)
    return frozenset(k for k in alike if containers[k].outline.bounds == first.outline.bounds)


def _widest(workshop: Workshop, containers: Sequence[Container], item: Item, allowed: frozenset[int]) -> Wanted:
    """Return an item with the options it has in the container that leaves it most: the search clips to each."""
    unlike = {containers[k].outline.bounds: containers[k] for k in sorted(allowed)}
    found = [want_within(workshop, item, container) for container in unlike.values()]
    return max(found, key=lambda want: len(want.options), default=Wanted((), 0.0))


def _arranged(search: Search, areas: Array, chance: np.random.Generator, start: Places) -> bool | None:
    """Try one arrangement after another until all items are apart, or the effort is spent; whether they are apart.

    The best arrangement is left in the search; None if an item fits nowhere.
    """
    pool: list[tuple[float, Array]] = []
    _lay(search, start)
    while True:
        search.start_anew()
        order = np.argsort(-areas * chance.uniform(1 - DISTURBANCE, 1 + DISTURBANCE, len(areas)))
        for item in order:
            if search.layout.container[item] < 0:
                search.place(int(item))
        if (search.layout.container[: len(areas)] < 0).any():
            return None  # it fits nowhere, whatever lies there
        if search.separate(PATIENCE, strikes=STRIKES):
            return True
        pool.append((search.least, search.places()))
        pool.sort(key=lambda one: one[0])
        del pool[POOL:]
        if search.effort.over:
            search.restore(pool[0][1])
            return False
        _restart(search, areas, chance, pool, 0.0 if start else FROM_NOTHING)


def _lay(search: Search, start: Places) -> None:
    """Lay what is given where it is allowed; nothing else lies anywhere."""
    search.layout.container[: search.layout.movable] = -1
    for container, place in start:
        if search.layout.allowed[place.item, container]:
            search.lay(place.item, container, place)


def _restart(
    search: Search, areas: Array, chance: np.random.Generator, pool: list[tuple[float, Array]], from_nothing: float
) -> None:
    """Begin anew, or go back to one of the pool with a few items taken off, larger ones sooner."""
    layout = search.layout
    if chance.random() < from_nothing:
        layout.container[: layout.movable] = -1
        return
    search.restore(pool[min(int(abs(chance.normal()) * len(pool) / 4), len(pool) - 1)][1])
    count = min(len(areas), 2 + int(chance.integers(max(1, len(areas) // 8))))
    layout.container[chance.choice(len(areas), count, replace=False, p=areas / areas.sum())] = -1


def _verified(workshop: Workshop, containers: Sequence[Container], items: Sequence[Item], places: Places) -> bool:
    return all(
        is_feasible(container, items, [place for k, place in places if k == number], workshop.gaps.parts)
        for number, container in enumerate(containers)
    )
