"""One container, filled with items of the greatest value."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.effort import Effort

from .accepting import accepted
from .container import Container
from .first_fit import Item, Placement
from .tiling import tile_if_full
from .verifying import is_feasible
from .wanting import pose_in, want_within
from .workshop import Workshop

Array = NDArray[np.float64]

#: Sweeps without progress after which an attempt goes back to its best, and how often it may.
PATIENCE, STRIKES = 100, 2

#: Arrangements of one set that are kept, best first, to start from again.
POOL = 12

#: One attempt in four starts from nothing.
FROM_NOTHING = 0.25

#: Share of the attempts that ask for all items at once, if there is area enough.
ALL_AT_ONCE = 0.7


@dataclass(frozen=True)
class Filling:
    """What was laid into a container, verified; and the items that were not, in order."""

    placements: tuple[Placement, ...]
    left_out: tuple[int, ...]

    @property
    def complete(self) -> bool:
        """Whether all items lie in the container."""
        return not self.left_out


def fill(
    workshop: Workshop,
    container: Container,
    items: Sequence[Item],
    effort: Effort,
    *,
    seed: int = 0,
    values: Sequence[float] | None = None,
    mandatory: frozenset[int] = frozenset(),
    start: Sequence[Placement] = (),
) -> Filling:
    """Lay items of the greatest total value that is found into a container.

    Parameters
    ----------
    workshop : Workshop
        Its gaps apply; what it prepares serves later fills too.
    items : sequence of Item
        Each once at most.
    effort : Effort
        Where it has only work units, the same seed gives the same filling. Each item is tried once in any case,
        unless the effort was asked to stop.
    values : sequence of float or None
        What each item is worth; None for its area.
    mandatory : set of int
        Items worth more than all others together. Whether they are in is seen from ``left_out``.
    start : sequence of Placement
        Where items may lie at first, of these same items; those that overlap are dropped.

    Raises
    ------
    ValueError
        If an outline can't be worked with, or not all that is mandatory can be in by its area.
    """
    items = accepted(items, [container])
    _refuse_mandatory(container, items, mandatory)
    tiled = _tiled(workshop, container, items, effort, seed)
    if tiled is not None:
        return tiled
    filler = _Filler(workshop, container, items, effort, seed, _worth(items, values, mandatory))
    return filler.run(start) if filler.possible else Filling((), tuple(range(len(items))))


def _refuse_mandatory(container: Container, items: Sequence[Item], mandatory: frozenset[int]) -> None:
    """Raise an error if there is no such item, or all of them are larger than the container."""
    if unknown := sorted(index for index in mandatory if not 0 <= index < len(items)):
        raise ValueError(f"item {unknown[0]} is mandatory, and there is none of that number")
    area, free = sum(items[index].polygon.area for index in mandatory), container.free_area
    if area > free * (1 + 1e-9):
        raise ValueError(f"the mandatory items have an area of {area:g}, and the container {free:g}")


def _tiled(
    workshop: Workshop, container: Container, items: Sequence[Item], effort: Effort, seed: int
) -> Filling | None:
    """Fill the container to the last corner, if the items have just its area and a try finds how."""
    places = tile_if_full(workshop.gaps, [container], items, effort, seed) or ()
    placements = tuple(place for _, place in places)
    return Filling(placements, ()) if placements and is_feasible(container, items, placements, 0) else None


def _worth(items: Sequence[Item], values: Sequence[float] | None, mandatory: frozenset[int]) -> Array:
    worth = np.array([item.polygon.area for item in items] if values is None else values, np.float64)
    whole = float(worth.sum()) + 1.0
    return worth + whole * np.array([index in mandatory for index in range(len(items))], np.float64)


class _Filler:
    """One filling in the making; ``possible`` are the items that fit into the container's box at all."""

    def __init__(
        self, workshop: Workshop, container: Container, items: Sequence[Item], effort: Effort, seed: int, worth: Array
    ) -> None:
        self._workshop, self._container, self._items, self._effort = workshop, container, items, effort
        wanted = [want_within(workshop, item, container) for item in items]
        self.possible = [index for index, want in enumerate(wanted) if want.options]
        self._area = container.free_area
        self._chance = np.random.default_rng(seed)
        if not self.possible:
            return
        self._worth = worth[self.possible]
        self._areas = np.array([wanted[index].area for index in self.possible])
        inside = [items[index] for index in self.possible]
        posed = [wanted[index] for index in self.possible]
        self._search = pose_in(workshop, [container], inside, posed, effort, seed)

    def run(self, start: Sequence[Placement]) -> Filling:
        """Fill greedily, then try better sets until the effort is spent or all items are in."""
        self._lay(start)
        self._greedy()
        best = self._verified()
        if best is None:  # not seen so far; then nothing is handed on unverified
            self._only(np.zeros(len(self.possible), bool))
            best = Filling((), tuple(range(len(self._items))))
        kept, held = self._search.places(), self._inside()
        pools: dict[bytes, list[tuple[float, Array]]] = {}
        while not self._effort.over and not held.all():
            aim = self._aim(held)
            if aim is None:
                break
            if self._reach(aim, kept, pools.setdefault(aim.tobytes(), [])):
                better = self._verified()
                if better is not None:
                    best, kept, held = better, self._search.places(), aim
                    pools.clear()
        return best

    def _lay(self, start: Sequence[Placement]) -> None:
        """Lay what is given, and take off again what overlaps."""
        search, layout = self._search, self._search.layout
        rank = {index: k for k, index in enumerate(self.possible)}
        for placement in start:
            if placement.item in rank:
                search.lay(rank[placement.item], 0, placement)
        search.start_anew()
        for item in range(layout.movable):
            if layout.depth[item].max() > search.free_depth:
                search.take_off(item)

    def _greedy(self) -> None:
        """Lay item after item, most valuable and largest first, where it overlaps nothing, if there is such a place."""
        room = self._area - float(self._areas[self._inside()].sum())
        for item in np.lexsort((-self._areas, -np.floor(self._worth / (self._worth.sum() + 1.0) * 2))):
            if self._search.layout.container[item] >= 0 or self._areas[item] > room or self._effort.stopped:
                continue
            if self._search.place_low(int(item)):
                room -= self._areas[item]

    def _aim(self, held: NDArray[np.bool_]) -> NDArray[np.bool_] | None:
        """Return a set of items of greater value than those that are in, and not too large; None if there is none."""
        every = np.ones(len(held), bool)
        if self._areas.sum() <= self._area and self._chance.random() < ALL_AT_ONCE:
            return every
        for _ in range(50):
            aim = held.copy()
            aim[self._chance.choice(np.flatnonzero(~held))] = True
            fresh = aim & ~held
            while self._areas[aim].sum() > self._area or self._chance.random() < 0.3:
                droppable = np.flatnonzero(aim & ~fresh)
                if not len(droppable):
                    break
                aim[self._chance.choice(droppable)] = False
            if self._areas[aim].sum() <= self._area and self._worth[aim].sum() > self._worth[held].sum():
                return aim
        return None

    def _reach(self, aim: NDArray[np.bool_], kept: Array, pool: list[tuple[float, Array]]) -> bool:
        """Search for an arrangement of a set; whether one was found."""
        search = self._search
        if pool and self._chance.random() < FROM_NOTHING:
            self._only(np.zeros(len(aim), bool))
        elif pool:
            at = min(int(abs(self._chance.normal()) * len(pool) / 4), len(pool) - 1)
            search.restore(pool[at][1])
            self._replace_some()
        else:
            search.restore(kept)
        self._only(aim)
        search.start_anew()
        for item in sorted(np.flatnonzero(aim), key=lambda k: -self._areas[k]):
            if search.layout.container[item] < 0:
                search.place(int(item))
        if search.separate(PATIENCE, strikes=STRIKES):
            return True
        pool.append((search.least, search.places()))
        pool.sort(key=lambda one: one[0])
        del pool[POOL:]
        return False

    def _only(self, aim: NDArray[np.bool_]) -> None:
        """Take off all items that are not in a set."""
        layout = self._search.layout
        layout.container[: layout.movable][~aim] = -1

    def _replace_some(self) -> None:
        """Take off two items that lie there, large ones sooner: they will be laid anew."""
        inside = np.flatnonzero(self._inside())
        shares = self._areas[inside] / self._areas[inside].sum()
        for item in self._chance.choice(inside, min(2, len(inside)), replace=False, p=shares):
            self._search.layout.container[item] = -1

    def _inside(self) -> NDArray[np.bool_]:
        inside: NDArray[np.bool_] = self._search.layout.container[: len(self.possible)] >= 0
        return inside

    def _verified(self) -> Filling | None:
        """Return what lies there, or None if shapely finds fault with it."""
        search, inside = self._search, self._inside()
        placements = tuple(search.placement(int(k), self.possible[k]) for k in np.flatnonzero(inside))
        if not is_feasible(self._container, self._items, placements, self._workshop.gaps.parts):
            return None
        there = {placement.item for placement in placements}
        return Filling(placements, tuple(index for index in range(len(self._items)) if index not in there))
