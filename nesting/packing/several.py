"""All items in the fewest, or cheapest, of several containers."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from nesting.effort import Budget, Effort

from .accepting import accepted
from .container import Container
from .filling import fill
from .first_fit import Item, Placement
from .kernels import NONE
from .posing import Wanted
from .raster import fill_roughly
from .searching import Search
from .tiling import ROUNDING, tile_if_full
from .verifying import TOLERANCE, is_feasible
from .wanting import offered, pose_in, want
from .workshop import Workshop

Array = NDArray[np.float64]

#: Sweeps without progress after which a share of the items is laid anew, how often, and which share.
PATIENCE, KICKS, KICKED = 200, 3, 1 / 8

#: How often the emptiest container is emptied, and not one drawn by chance.
EMPTIEST = 0.7

#: More items than this are laid on a grid first and then searched for in parts; so many are in a part.
MANY = 300

#: With more looks than this, or more corners on all of them, there are too many pairs to prepare: a minute, and half a
#: gigabyte. The first layout is the last then.
MOST_LOOKS, MOST_CORNERS = 300, 6000


@dataclass(frozen=True)
class Laid:
    """What lies in the container of that index."""

    container: int
    placements: tuple[Placement, ...]


@dataclass(frozen=True)
class SeveralLayouts:
    """The used containers, what they cost, and the items that found no place in any."""

    laid: tuple[Laid, ...]
    cost: float
    left_out: tuple[int, ...] = ()


def pack_several(
    workshop: Workshop,
    items: Sequence[Item],
    containers: Sequence[Container],
    effort: Effort,
    *,
    seed: int = 0,
    costs: Sequence[float] | None = None,
    tolerance: float = TOLERANCE,
    start: SeveralLayouts | None = None,
) -> Iterator[SeveralLayouts]:
    """Yield ever cheaper layouts, each verified, until the effort is spent or nothing cheaper can hold all.

    Parameters
    ----------
    items : sequence of Item
        Without lines.
    containers : sequence of Container
        Each may be used once; earlier ones are filled first. Hand over the same object again for equal ones.
    costs : sequence of float or None
        What each container costs; None for one each.
    tolerance : float
        Within which a layout is verified.
    start : SeveralLayouts or None
        A feasible layout of the same items in these containers, to be bettered.

    Raises
    ------
    ValueError
        If an item has lines, fits into no container in any way, or has an outline that can't be worked with; or if
        there is no container, or the start is not feasible.
    """
    items = accepted(items, containers)
    problem = _Problem(workshop, items, containers, effort, np.array(costs or [1.0] * len(containers)), tolerance)
    problem.refuse_what_fits_nowhere()
    layout = problem.checked(start) if start else problem.tiled(seed) or problem.first(seed)
    yield layout
    chance = np.random.default_rng(seed)
    while not effort.over:
        aim = tuple(range(len(containers))) if layout.left_out else problem.cheaper(layout, chance)
        if aim is None or not problem.can_search:
            return
        better = problem.tried_in_part(layout, aim, chance) if problem.large else problem.tried(layout, aim, chance)
        if better is not None:
            layout = better
            yield layout


class _Problem:
    """What is asked for."""

    def __init__(
        self,
        workshop: Workshop,
        items: Sequence[Item],
        containers: Sequence[Container],
        effort: Effort,
        costs: Array,
        tolerance: float,
    ) -> None:
        self._workshop, self._items, self._containers = workshop, items, containers
        self._effort, self._costs, self._tolerance = effort, costs, tolerance
        self._areas = np.array([item.polygon.area for item in items])
        self._free = np.array([container.free_area for container in containers])

    @property
    def large(self) -> bool:
        """Whether there are too many items to search for all places at once."""
        return len(self._items) > MANY

    @property
    def can_search(self) -> bool:
        """Whether the looks are few enough for all their pairs to be prepared."""
        kinds = {(item.polygon.wkb, item.mirrored): item for item in self._items}.values()
        looks = sum(len(item.angles) for item in kinds)
        corners = sum(len(item.angles) * shapely.get_num_coordinates(item.polygon) for item in kinds)
        return looks <= MOST_LOOKS and corners <= MOST_CORNERS

    def refuse_what_fits_nowhere(self) -> None:
        """Raise an error that names the item and its least box."""
        rooms = {_room(container, self._workshop.gaps.edge) for container in self._containers}
        for index, item in enumerate(self._items):
            if item.lines:
                raise ValueError(f"item {index} has lines, which only a filling of one container heeds")
            sizes = [_size(item.attitude(angle).of(item.polygon)) for angle in item.angles]
            if not any(wide <= room[0] and high <= room[1] for wide, high in sizes for room in rooms):
                wide, high = min(sizes, key=math.prod)
                raise ValueError(f"item {index}, {wide:g} x {high:g}, fits into no container")

    def checked(self, start: SeveralLayouts) -> SeveralLayouts:
        """Return a layout that was handed over, with its cost, if it is feasible."""
        there = sorted([*(place.item for one in start.laid for place in one.placements), *start.left_out])
        if there != list(range(len(self._items))):
            raise ValueError("the start does not tell of each item once")
        if not self._feasible(start.laid, self._containers):
            raise ValueError("the start is not feasible")
        return self._layout(start.laid, start.left_out)

    def tiled(self, seed: int) -> SeveralLayouts | None:
        """Fill the first containers to the last corner, if the items have just their area and a try finds how."""
        areas = np.cumsum(self._free)
        enough = self._containers[: int(np.searchsorted(areas, self._areas.sum() * (1 - ROUNDING))) + 1]
        places = tile_if_full(self._workshop.gaps, enough, self._items, self._effort, seed) or ()
        laid = [Laid(k, tuple(place for at, place in places if at == k)) for k in range(len(enough))]
        return self._layout(laid, []) if places and self._feasible(laid, self._containers) else None

    def first(self, seed: int) -> SeveralLayouts:
        """Fill container after container."""
        left, laid = sorted(range(len(self._items)), key=lambda k: -self._areas[k]), []
        for number, container in enumerate(self._containers):
            if not left:
                break
            placements = self._filled(container, left, seed)
            if placements:
                laid.append(Laid(number, placements))
            gone = {place.item for place in placements}
            left = [index for index in left if index not in gone]
        return self._layout(laid, sorted(left))

    def _filled(self, container: Container, left: Sequence[int], seed: int) -> tuple[Placement, ...]:
        """Fill one container with what fits of some items; on a grid if they are many and what it finds is right."""
        if self.large:
            placements = fill_roughly(container, self._items, self._workshop.gaps, left, self._effort)
            if placements and self._feasible([Laid(0, placements)], [container]):
                return placements
            left = left[:MANY]
        effort = self._effort.part(Budget(work=0))  # each item is tried once, whatever there is to spend
        filling = fill(self._workshop, container, [self._items[k] for k in left], effort, seed=seed)
        return tuple(_renamed(place, left[place.item]) for place in filling.placements)

    def cheaper(self, layout: SeveralLayouts, chance: np.random.Generator) -> tuple[int, ...] | None:
        """Return the used containers without one, of enough area for all; None if there is no such set."""
        used = np.array([one.container for one in layout.laid])
        enough = [k for k in used if self._free[used].sum() - self._free[k] >= self._areas.sum() * (1 - 1e-9)]
        if not enough:
            return None
        empty = {one.container: self._areas[[p.item for p in one.placements]].sum() for one in layout.laid}
        emptiest = min(enough, key=lambda k: (empty[k] - self._costs[k] * 1e-9, k))
        gone = emptiest if chance.random() < EMPTIEST else chance.choice(enough)
        return tuple(int(k) for k in used if k != gone)

    def tried(self, layout: SeveralLayouts, aim: tuple[int, ...], chance: np.random.Generator) -> SeveralLayouts | None:
        """Try to lay all items into fewer containers; None if that was not found."""
        wanted = [want(self._workshop, item) for item in self._items]
        search = self._pose(aim, wanted, int(chance.integers(2**31)))
        rank = {container: k for k, container in enumerate(aim)}
        for one in layout.laid:
            for place in one.placements:
                if one.container in rank:
                    lies = offered(self._workshop, self._items[place.item], wanted[place.item], place)
                    search.lay(place.item, rank[one.container], lies)
        search.start_anew()
        for kick in range(KICKS + 1):
            if kick:
                self._take_some_off(search, chance)
            if not _lay_rest(search, self._areas):
                return None
            if search.separate(PATIENCE):
                return self._read(search, aim)
            if self._effort.over:
                break
        return None

    def tried_in_part(
        self, layout: SeveralLayouts, aim: tuple[int, ...], chance: np.random.Generator
    ) -> SeveralLayouts | None:
        """Try to do with one container less among a few of them, where area allows; None if that was not found."""
        areas = [self._areas[[place.item for place in one.placements]].sum() for one in layout.laid]
        order = np.argsort(areas * chance.uniform(0.5, 1.0, len(areas)))
        counts = np.cumsum([len(layout.laid[k].placements) for k in order])
        chosen = sorted(order[: max(2, int(np.searchsorted(counts, MANY)))])
        part = [layout.laid[k] for k in chosen]
        mine = [place.item for one in part for place in one.placements] + list(layout.left_out)
        items, containers = [self._items[k] for k in mine], [self._containers[one.container] for one in part]
        costs = self._costs[[one.container for one in part]]
        problem = _Problem(self._workshop, items, containers, self._effort, costs, self._tolerance)
        rank = {index: k for k, index in enumerate(mine)}
        inside = [Laid(k, tuple(_renamed(p, rank[p.item]) for p in one.placements)) for k, one in enumerate(part)]
        before = problem._layout(inside, [rank[index] for index in layout.left_out])
        fewer = tuple(range(len(part))) if layout.left_out else problem.cheaper(before, chance)
        if fewer is None:
            return self.tried(layout, aim, chance)
        better = problem.tried(before, fewer, chance)
        if better is None:
            return None
        laid = [one for k, one in enumerate(layout.laid) if k not in chosen]
        for one in better.laid:
            places = tuple(_renamed(place, mine[place.item]) for place in one.placements)
            laid.append(Laid(part[one.container].container, places))
        return self._layout(sorted(laid, key=lambda one: one.container), [])

    def _pose(self, aim: tuple[int, ...], wanted: Sequence[Wanted], seed: int) -> Search:
        containers = [self._containers[k] for k in aim]
        return pose_in(self._workshop, containers, self._items, wanted, self._effort, seed)

    def _take_some_off(self, search: Search, chance: np.random.Generator) -> None:
        n = len(self._items)
        for item in chance.choice(n, max(1, int(n * KICKED)), replace=False):
            search.take_off(int(item))

    def _read(self, search: Search, aim: tuple[int, ...]) -> SeveralLayouts | None:
        """Return what was found, or None if shapely finds fault with it."""
        laid = []
        for number, container in enumerate(aim):
            inside = np.flatnonzero(search.layout.container[: len(self._items)] == number)
            if len(inside):
                laid.append(Laid(container, tuple(search.placement(int(k), int(k)) for k in inside)))
        return self._layout(laid, []) if self._feasible(laid, self._containers) else None

    def _feasible(self, laid: Sequence[Laid], containers: Sequence[Container]) -> bool:
        gap = self._workshop.gaps.parts
        return all(
            is_feasible(containers[one.container], self._items, one.placements, gap, self._tolerance) for one in laid
        )

    def _layout(self, laid: Sequence[Laid], left: Sequence[int]) -> SeveralLayouts:
        cost = float(sum(self._costs[one.container] for one in laid))
        return SeveralLayouts(tuple(laid), cost, tuple(left))


def _lay_rest(search: Search, areas: Array) -> bool:
    """Lay all that lies nowhere, largest first, where it overlaps least; whether each has a place."""
    layout = search.layout
    rest = np.flatnonzero(layout.container[: layout.movable] < 0)
    return all(search.place(int(item)) < NONE for item in sorted(rest, key=lambda k: -areas[k]))


def _room(container: Container, edge: float) -> tuple[float, float]:
    wide, high = _size(container.outline)
    return (wide - 2 * edge) * (1 + 1e-9), (high - 2 * edge) * (1 + 1e-9)


def _size(shape: BaseGeometry) -> tuple[float, float]:
    west, south, east, north = shape.bounds
    return east - west, north - south


def _renamed(place: Placement, index: int) -> Placement:
    return Placement(index, place.angle, place.x, place.y)
