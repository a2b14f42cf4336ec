"""All items in the fewest, or cheapest, of several containers."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.effort import Budget, Effort

from .container import Container
from .filling import fill
from .first_fit import Item, Placement
from .kernels import NONE
from .posing import Wanted
from .searching import Search
from .tiling import ROUNDING, can_tile, tile
from .verifying import TOLERANCE, is_feasible
from .wanting import pose_in, want
from .workshop import Gaps, Workshop

Array = NDArray[np.float64]

#: Sweeps without progress after which a share of the items is laid anew, how often, and which share.
PATIENCE, KICKS, KICKED = 200, 3, 1 / 8

#: How often the emptiest container is emptied, and not one drawn by chance.
EMPTIEST = 0.7

#: Share of the effort that goes into laying items of just the containers' area like a jigsaw.
TILING = 0.2


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

    Raises
    ------
    ValueError
        If an item has lines, or fits into no container in any way.
    """
    problem = _Problem(workshop, items, containers, effort, np.array(costs or [1.0] * len(containers)), tolerance)
    problem.refuse_what_fits_nowhere()
    layout = problem.tiled(seed) or problem.first(seed)
    yield layout
    chance = np.random.default_rng(seed)
    while not effort.over:
        aim = tuple(range(len(containers))) if layout.left_out else problem.cheaper(layout, chance)
        if aim is None:
            return
        better = problem.tried(layout, aim, chance)
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
        self._wanted = [want(workshop, item) for item in items]
        self._areas = np.array([item.area for item in self._wanted])
        self._free = np.array([container.free_area for container in containers])

    def refuse_what_fits_nowhere(self) -> None:
        """Raise an error that names the item and its least box."""
        for index, (item, wanted) in enumerate(zip(self._items, self._wanted, strict=True)):
            if item.lines:
                raise ValueError(f"item {index} has lines, which only a filling of one container heeds")
            if not any(_fits(wanted, container, self._workshop.gaps.edge) for container in self._containers):
                wide, high = min((_size(wanted, k) for k in range(len(wanted.options))), key=math.prod)
                raise ValueError(f"item {index}, {wide:g} x {high:g}, fits into no container")

    def tiled(self, seed: int) -> SeveralLayouts | None:
        """Fill the first containers to the last corner, if the items have just their area and a try finds how."""
        areas = np.cumsum(self._free)
        enough = self._containers[: int(np.searchsorted(areas, self._areas.sum() * (1 - ROUNDING))) + 1]
        if self._workshop.gaps != Gaps() or not can_tile(enough, self._items):
            return None
        places = tile(enough, self._items, self._effort.share_of_rest(TILING), seed) or ()
        laid = [Laid(k, tuple(place for at, place in places if at == k)) for k in range(len(enough))]
        return self._layout(laid, []) if places and self._feasible(laid) else None

    def first(self, seed: int) -> SeveralLayouts:
        """Fill container after container."""
        left, laid = list(range(len(self._items))), []
        for number, container in enumerate(self._containers):
            if not left:
                break
            effort = self._effort.part(Budget(work=0))  # each item is tried once, whatever there is to spend
            filling = fill(self._workshop, container, [self._items[k] for k in left], effort, seed=seed)
            if filling.placements:
                laid.append(Laid(number, tuple(_renamed(place, left[place.item]) for place in filling.placements)))
            left = [left[k] for k in filling.left_out]
        return self._layout(laid, left)

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
        search = self._pose(aim, int(chance.integers(2**31)))
        rank = {container: k for k, container in enumerate(aim)}
        for one in layout.laid:
            for place in one.placements:
                if one.container in rank:
                    search.lay(place.item, rank[one.container], place)
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

    def _pose(self, aim: tuple[int, ...], seed: int) -> Search:
        containers = [self._containers[k] for k in aim]
        return pose_in(self._workshop, containers, self._items, self._wanted, self._effort, seed)

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
        return self._layout(laid, []) if self._feasible(laid) else None

    def _feasible(self, laid: Sequence[Laid]) -> bool:
        gap = self._workshop.gaps.parts
        return all(
            is_feasible(self._containers[one.container], self._items, one.placements, gap, self._tolerance)
            for one in laid
        )

    def _layout(self, laid: Sequence[Laid], left: Sequence[int]) -> SeveralLayouts:
        cost = float(sum(self._costs[one.container] for one in laid))
        return SeveralLayouts(tuple(laid), cost, tuple(left))


def _lay_rest(search: Search, areas: Array) -> bool:
    """Lay all that lies nowhere, largest first, where it overlaps least; whether each has a place."""
    layout = search.layout
    rest = np.flatnonzero(layout.container[: layout.movable] < 0)
    return all(search.place(int(item)) < NONE for item in sorted(rest, key=lambda k: -areas[k]))


def _fits(wanted: Wanted, container: Container, edge: float) -> bool:
    west, south, east, north = container.outline.bounds
    room = (east - west - 2 * edge) * (1 + 1e-9), (north - south - 2 * edge) * (1 + 1e-9)
    sizes = (_size(wanted, k) for k in range(len(wanted.options)))
    return any(wide <= room[0] and high <= room[1] for wide, high in sizes)


def _size(wanted: Wanted, option: int) -> tuple[float, float]:
    box = wanted.options[option].look.edge_box
    return float(box[2] - box[0]), float(box[3] - box[1])


def _renamed(place: Placement, index: int) -> Placement:
    return Placement(index, place.angle, place.x, place.y)
