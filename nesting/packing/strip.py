"""All items on a strip of fixed width and the least length."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import box

from nesting.effort import Effort

from .container import Container
from .first_fit import Item, Placement
from .posing import Wanted, pose
from .pushing import SHORT
from .searching import Search
from .verifying import is_feasible
from .wanting import want
from .workshop import Workshop

Array = NDArray[np.float64]

#: Density of the first attempt.
FIRST_DENSITY = 0.72

#: Share of the budget in which new arrangements are looked for; in the rest the best one is pressed together.
EXPLORING = 0.8

#: By how much the strip is shortened at first and after a while, and at least, while exploring.
SHORTEN, SHORTEN_LATER, SHORTEN_LEAST = 0.01, 0.003, 0.001

#: By how much at first and at the end while pressing.
PRESS, PRESS_LEAST = 0.002, 0.0002

#: Sweeps without progress after which an attempt goes back to its best, and how often it may.
PATIENCE, STRIKES = 150, 2

#: Arrangements that are kept, best first, to start from again.
POOL = 40

#: With no more items than this, one attempt in ten starts from nothing.
FEW, FROM_NOTHING = 40, 0.1

#: Overlap that rounding may leave, as a share of the width.
ROUNDING = 1e-7


@dataclass(frozen=True)
class StripLayout:
    """All items on a strip from the origin, as long as ``length`` along x."""

    length: float
    placements: tuple[Placement, ...]


def pack_strip(
    workshop: Workshop, items: Sequence[Item], width: float, effort: Effort, seed: int = 0
) -> Iterator[StripLayout]:
    """Yield ever shorter layouts, each verified, until the effort is spent.

    Parameters
    ----------
    workshop : Workshop
        Its gaps apply.
    items : sequence of Item
        All are placed.
    width : float
        Along y.
    seed : int
        With work units alone, the same seed gives the same layouts.

    Raises
    ------
    ValueError
        If an item does not fit into the width in any way.
    """
    wanted = [want(workshop, item) for item in items]
    _refuse_too_wide(workshop, wanted, width)
    area = sum(item.area for item in wanted)
    search = pose(workshop, wanted, [box(0, 0, area / width / FIRST_DENSITY, width)], [], effort, seed)
    for length in _shorter(search, np.random.default_rng(seed)):
        layout = StripLayout(length + workshop.gaps.edge, tuple(search.placement(i, i) for i in range(len(items))))
        strip = Container(box(0, 0, layout.length, width))
        if is_feasible(strip, items, layout.placements, workshop.gaps.parts, ROUNDING * width):
            yield layout


def _refuse_too_wide(workshop: Workshop, wanted: Sequence[Wanted], width: float) -> None:
    room = width - 2 * workshop.gaps.edge
    for index, item in enumerate(wanted):
        least = min(option.look.edge_box[3] - option.look.edge_box[1] for option in item.options)
        if least > room * (1 + 1e-9):
            raise ValueError(f"item {index} is at least {least:g} wide, the strip {room:g}")


def _shorter(search: Search, chance: np.random.Generator) -> Iterator[float]:
    """Yield the length whenever a shorter arrangement is found; the search's layout is that arrangement then."""
    _first(search)
    best, length = search.places(), float(search.layout.room[0, 2])
    yield length
    pool: list[tuple[float, Array]] = []
    failures = 0
    while not search.effort.over:
        share = search.effort.share
        search.layout.room[0, 2] = length
        if share < EXPLORING:
            shorten = _exploring_step(share / EXPLORING, failures)
            search.restore(best if not pool else _from_pool(pool, chance))
            search.layout.room[0, 2] = length * (1 - shorten)
            _disturb(search, chance, fresh=not pool)
            found = search.separate(PATIENCE, SHORT, length, STRIKES)
        else:
            search.restore(best)
            _press(search, chance, length, _pressing_step((share - EXPLORING) / (1 - EXPLORING)))
            found = search.separate(PATIENCE, SHORT, length)
        if found:
            best, length, pool, failures = search.places(), float(search.layout.room[0, 2]), [], 0
            yield length
        elif share < EXPLORING:
            failures += 1
            pool = sorted([*pool, (search.least, search.places())], key=lambda one: one[0])[:POOL]


def _exploring_step(share: float, failures: int) -> float:
    return max((SHORTEN + (SHORTEN_LATER - SHORTEN) * share) * 0.9**failures, SHORTEN_LEAST)


def _pressing_step(share: float) -> float:
    return float(PRESS * (PRESS_LEAST / PRESS) ** share)


def _from_pool(pool: list[tuple[float, Array]], chance: np.random.Generator) -> Array:
    at = int(abs(chance.normal()) * len(pool) / 4)
    return pool[min(at, len(pool) - 1)][1]


def _first(search: Search) -> None:
    """Find a first arrangement: at an easy length, and at ever easier ones if need be."""
    longest = 0.0
    while True:
        _place_all(search)
        room = search.layout.room
        longest = max(longest, float(room[0, 2]))
        if search.separate(PATIENCE, SHORT):
            return
        if search.effort.over:
            _in_a_row(search)
            return
        room[0, 2] = 1.1 * longest


def _place_all(search: Search) -> None:
    """Place all items anew, largest first, each where it overlaps least."""
    n = search.layout.movable
    search.layout.container[:n] = -1
    search.start_anew()
    for item in np.argsort(-search.layout.factor[:n], kind="stable"):
        search.place(int(item))


def _in_a_row(search: Search) -> None:
    """Lay all items behind one another: always an arrangement, if no good one."""
    layout, tables = search.layout, search.tables
    at = float(layout.room[0, 0])
    for item in range(layout.movable):
        options = range(tables.option[item], tables.option[item + 1])
        option = next(option for option in options if _fits_across(search, option))
        look = tables.option_look[option]
        layout.container[item], layout.choice[item], layout.look[item] = 0, option, look
        layout.x[item] = at - min(tables.box[look, 0], tables.edge_box[look, 0])
        layout.y[item] = layout.room[0, 1] - tables.edge_box[look, 1]
        at = layout.x[item] + tables.box[look, 2]
    layout.room[0, 2] = at
    search.start_anew()


def _fits_across(search: Search, option: int) -> bool:
    box_, room = search.tables.edge_box[search.tables.option_look[option]], search.layout.room[0]
    return bool(box_[3] - box_[1] <= (room[3] - room[1]) * (1 + 1e-9))


def _disturb(search: Search, chance: np.random.Generator, *, fresh: bool) -> None:
    """Start an attempt: from the best arrangement, from one of the pool with two items exchanged, or from nothing."""
    n = search.layout.movable
    if not fresh and n <= FEW and chance.random() < FROM_NOTHING:
        _place_all(search)
    elif not fresh:
        _exchange(search, chance)
    _clip(search)
    search.start_anew()


def _exchange(search: Search, chance: np.random.Generator) -> None:
    """Exchange two large items of different looks; what lies under the one goes where the other was."""
    layout, n = search.layout, search.layout.movable
    large = np.argsort(-layout.factor[:n], kind="stable")[: max(2, int(0.7 * n))]
    one, other = (int(k) for k in chance.choice(large, 2, replace=False))
    boxes = search.tables.edge_box[layout.look[:n]]
    middle = np.column_stack([layout.x[:n], layout.y[:n]]) + (boxes[:, :2] + boxes[:, 2:]) / 2
    larger = one if layout.factor[one] >= layout.factor[other] else other
    smaller = other if larger == one else one
    inside = np.all(np.abs(middle - middle[smaller]) < (boxes[larger, 2:] - boxes[larger, :2]) / 2, axis=1)
    move = middle[smaller] - middle[larger]
    under = [int(k) for k in np.flatnonzero(inside) if k not in (one, other)]
    layout.x[larger] += move[0]
    layout.y[larger] += move[1]
    for k in (smaller, *under):
        layout.x[k] -= move[0]
        layout.y[k] -= move[1]


def _press(search: Search, chance: np.random.Generator, length: float, step: float) -> None:
    """Shorten the strip and push all that lies beyond a cut drawn by chance to the left by as much."""
    layout, n = search.layout, search.layout.movable
    cut = chance.random() * length
    layout.room[0, 2] = length * (1 - step)
    boxes = search.tables.edge_box[layout.look[:n]]
    beyond = layout.x[:n] + (boxes[:, 0] + boxes[:, 2]) / 2 > cut
    layout.x[:n] -= np.where(beyond, length * step, 0.0)
    _clip(search)
    search.start_anew()


def _clip(search: Search) -> None:
    """Bring all items back within the strip."""
    layout, n = search.layout, search.layout.movable
    boxes, room = search.tables.edge_box[layout.look[:n]], layout.room[0]
    layout.x[:n] = np.maximum(np.minimum(layout.x[:n], room[2] - boxes[:, 2]), room[0] - boxes[:, 0])
    layout.y[:n] = np.maximum(np.minimum(layout.y[:n], room[3] - boxes[:, 3]), room[1] - boxes[:, 1])
