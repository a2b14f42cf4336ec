"""A chain of attempts at ever shorter strips, each from where earlier ones came to.

The attempts follow Gardeyn, Vanden Berghe and Wauters 2025, "An open-source heuristic to reboot 2D nesting research":
explore first, then press together.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from .pushing import SHORT
from .searching import Search

Array = NDArray[np.float64]

#: Share of the effort in which new arrangements are looked for; in the rest the best one is pressed together.
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


@dataclass(frozen=True)
class Chain:
    """How short the strip is and where the items lie; what later attempts may start from, and how many failed.

    Attributes
    ----------
    end : float
        Where the strip ends, less the gap to the edge.
    places : (items, 4)
        As ``Search.places`` has them.
    pool : sequence of (loss, places)
        Arrangements on shorter strips that still overlap, least loss first.
    """

    end: float
    places: Array
    pool: tuple[tuple[float, Array], ...] = ()
    failures: int = 0


def begin(search: Search) -> Chain:
    """Find a first arrangement: at the length that the search was posed with, and at ever easier ones if need be."""
    longest = 0.0
    while True:
        _place_all(search)
        room = search.layout.room
        longest = max(longest, float(room[0, 2]))
        if search.separate(PATIENCE, SHORT):
            break
        if search.effort.over:
            _in_a_row(search)
            break
        room[0, 2] = 1.1 * longest
    return Chain(float(search.layout.room[0, 2]), search.places())


def attempt(search: Search, chain: Chain, share: float, chance: np.random.Generator) -> Chain:
    """Try once to be shorter, at that share of the effort; return the chain with what came of it."""
    if share < EXPLORING:
        return _explore(search, chain, share / EXPLORING, chance)
    return _press(search, chain, (share - EXPLORING) / (1 - EXPLORING), chance)


def _explore(search: Search, chain: Chain, share: float, chance: np.random.Generator) -> Chain:
    """Look for another arrangement on a shorter strip."""
    shorten = max((SHORTEN + (SHORTEN_LATER - SHORTEN) * share) * 0.9**chain.failures, SHORTEN_LEAST)
    search.restore(_from_pool(chain.pool, chance) if chain.pool else chain.places)
    search.layout.room[0, 2] = chain.end - shorten * _length(search, chain)
    if chain.pool:
        _disturb(search, chance)
    _clip(search)
    search.start_anew()
    if search.separate(PATIENCE, SHORT, chain.end, STRIKES):
        return _shorter(search)
    pool = sorted([*chain.pool, (search.least, search.places())], key=lambda one: one[0])[:POOL]
    return replace(chain, pool=tuple(pool), failures=chain.failures + 1)


def _press(search: Search, chain: Chain, share: float, chance: np.random.Generator) -> Chain:
    """Shorten the strip a little, with all that lies beyond a cut drawn by chance pushed to the left by as much."""
    step = float(PRESS * (PRESS_LEAST / PRESS) ** share)
    search.restore(chain.places)
    layout, n = search.layout, search.layout.movable
    move = step * _length(search, chain)
    cut = chain.end - chance.random() * _length(search, chain)
    layout.room[0, 2] = chain.end - move
    boxes = search.tables.edge_box[layout.look[:n]]
    beyond = layout.x[:n] + (boxes[:, 0] + boxes[:, 2]) / 2 > cut
    layout.x[:n] -= np.where(beyond, move, 0.0)
    _clip(search)
    search.start_anew()
    return _shorter(search) if search.separate(PATIENCE, SHORT, chain.end) else chain


def _length(search: Search, chain: Chain) -> float:
    return float(chain.end - search.layout.room[0, 0])


def _shorter(search: Search) -> Chain:
    return Chain(float(search.layout.room[0, 2]), search.places())


def _from_pool(pool: tuple[tuple[float, Array], ...], chance: np.random.Generator) -> Array:
    at = int(abs(chance.normal()) * len(pool) / 4)
    return pool[min(at, len(pool) - 1)][1]


def _disturb(search: Search, chance: np.random.Generator) -> None:
    """Begin from nothing where there are few items, now and then; else exchange two items."""
    few = search.layout.movable <= FEW
    if search.layout.movable == 1 or (few and chance.random() < FROM_NOTHING):
        _place_all(search)
    else:
        _exchange(search, chance)


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


def _clip(search: Search) -> None:
    """Bring all items back within the strip."""
    layout, n = search.layout, search.layout.movable
    boxes, room = search.tables.edge_box[layout.look[:n]], layout.room[0]
    layout.x[:n] = np.maximum(np.minimum(layout.x[:n], room[2] - boxes[:, 2]), room[0] - boxes[:, 0])
    layout.y[:n] = np.maximum(np.minimum(layout.y[:n], room[3] - boxes[:, 3]), room[1] - boxes[:, 1])
