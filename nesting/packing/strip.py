"""All items on a strip of fixed width and the least length."""

from collections.abc import Iterator, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass

import numpy as np
from shapely.geometry import box

from nesting.effort import Effort, in_rounds

from .accepting import accepted_within
from .container import Container
from .first_fit import Item, Placement
from .posing import Wanted, pose
from .searching import Search
from .strip_chain import EXPLORING, FEW, Chain, attempt, begin
from .verifying import is_feasible
from .wanting import offered, want
from .workshop import Gaps, Workshop

#: Density of the first attempt.
FIRST_DENSITY = 0.72

#: Overlap that rounding may leave, as a share of the width.
ROUNDING = 1e-7

#: A chain whose strip is longer than the shortest by more than this share goes on from the shortest.
BEHIND = 0.003


@dataclass(frozen=True)
class StripLayout:
    """All items on a strip from the origin, as long as ``length`` along x."""

    length: float
    placements: tuple[Placement, ...]


def pack_strip(
    workshop: Workshop,
    items: Sequence[Item],
    width: float,
    effort: Effort,
    seed: int = 0,
    *,
    start: StripLayout | None = None,
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
    start : StripLayout or None
        A feasible layout of the same items, to be bettered.

    Raises
    ------
    ValueError
        If an item does not fit into the width in any way, or has an outline that can't be worked with; or if the
        start is not feasible.
    """
    strip = _strip(workshop, items, width)
    search, chance = strip.pose(workshop, effort, seed), np.random.default_rng(seed)
    chain = begin(search) if start is None else strip.chain_from(start, workshop, search)
    yield from strip.verified(search, chain)
    while not effort.over:
        after = attempt(search, chain, effort.share, chance)
        if after.end < chain.end:
            yield from strip.verified(search, after)
        chain = after


def pack_strip_in_rounds(
    workshop: Workshop,
    items: Sequence[Item],
    width: float,
    effort: Effort,
    seed: int = 0,
    *,
    chains: int = 2,
    executor: Executor | None = None,
) -> Iterator[StripLayout]:
    """Yield ever shorter layouts like ``pack_strip``, of several chains of attempts at once.

    In each round all chains go on for the same work; then those that fell behind take over what the best one has.

    Parameters
    ----------
    workshop : Workshop
        Its gaps and coarseness apply; each worker makes one of its own.
    chains : int
        How many. With work units alone, the same seed and number give the same layouts whatever the executor.
    executor : Executor or None
        Where the chains run, with a process each at best; None for one after another, here.

    Raises
    ------
    ValueError
        If an item does not fit into the width in any way, or has an outline that can't be worked with.
    """
    strip = _strip(workshop, items, width)
    search, shortest = strip.pose(workshop, effort, seed), np.inf
    for state in in_rounds(strip.advanced, strip.merged, [None] * chains, effort, seed, executor):
        best = min((chain for chain in state if chain is not None), key=lambda chain: chain.end)
        if best.end < shortest:
            shortest = best.end
            yield from strip.verified(search, best)


def _strip(workshop: Workshop, items: Sequence[Item], width: float) -> "_Strip":
    """Return what is asked for, if it makes sense."""
    if not items:
        raise ValueError("there are no items")
    if not 0 < width < np.inf:
        raise ValueError(f"a strip can't be {width:g} wide")
    return _Strip(accepted_within(items, width), width, workshop.gaps, workshop.coarseness)


@dataclass(frozen=True)
class _Strip:
    """What is asked for; may be sent to another process."""

    items: tuple[Item, ...]
    width: float
    gaps: Gaps
    coarseness: float

    def pose(self, workshop: Workshop, effort: Effort, seed: int) -> Search:
        """Return a search in which nothing is placed yet."""
        wanted = [want(workshop, item) for item in self.items]
        room = self.width - 2 * self.gaps.edge
        for index, item in enumerate(wanted):
            least = min(option.look.edge_box[3] - option.look.edge_box[1] for option in item.options)
            if least > room * (1 + 1e-9):
                raise ValueError(f"item {index} is at least {least:g} wide, the strip {room:g}")
        shortest = max(min(_lengths(item, room)) for item in wanted) + 2 * self.gaps.edge
        length = max(shortest, sum(item.area for item in wanted) / self.width / FIRST_DENSITY)
        return pose(workshop, wanted, [box(0, 0, length, self.width)], [], effort, seed)

    def chain_from(self, start: StripLayout, workshop: Workshop, search: Search) -> Chain:
        """Return a chain that begins with a layout."""
        if sorted(place.item for place in start.placements) != list(range(len(self.items))):
            raise ValueError("the start does not place each item once")
        if not self._is_feasible(start):
            raise ValueError("the start is not feasible")
        search.layout.room[0, 2] = start.length - self.gaps.edge
        for place in start.placements:
            item = self.items[place.item]
            search.lay(place.item, 0, offered(workshop, item, want(workshop, item), place))
        search.start_anew()
        return Chain(search.reach(), search.places())

    def advanced(self, chain: Chain | None, share: float, work: int, effort: Effort, seed: int) -> Chain:
        """Return what a chain comes to, from that share of the whole effort on, with so much work or a little more."""
        search, chance = self.pose(_workshop_of(self), effort, seed), np.random.default_rng(seed)
        chain = chain or begin(search)
        while effort.spent < work and not effort.over:
            chain = attempt(search, chain, share, chance)
        return chain

    def merged(self, chains: Sequence[Chain], share: float) -> list[Chain]:
        """Return the chains for the next round: few items are searched for apart until it comes to pressing."""
        best = min(chains, key=lambda chain: chain.end)
        if share >= EXPLORING:
            return [best] * len(chains)
        if len(self.items) <= FEW:
            return list(chains)
        return [best if chain.end > best.end * (1 + BEHIND) else chain for chain in chains]

    def verified(self, search: Search, chain: Chain) -> Iterator[StripLayout]:
        """Yield the layout of a chain, if shapely finds no fault with it."""
        search.restore(chain.places)
        placements = tuple(search.placement(k, k) for k in range(len(self.items)))
        layout = StripLayout(chain.end + self.gaps.edge, placements)
        if self._is_feasible(layout):
            yield layout

    def _is_feasible(self, layout: StripLayout) -> bool:
        strip = Container(box(0, 0, layout.length, self.width))
        return is_feasible(strip, self.items, layout.placements, self.gaps.parts, ROUNDING * self.width)


def _lengths(item: Wanted, room: float) -> list[float]:
    """Return how long an item is along the strip in each way in which it fits across."""
    boxes = [option.look.edge_box for option in item.options]
    return [float(box[2] - box[0]) for box in boxes if box[3] - box[1] <= room * (1 + 1e-9)]


#: What a process has prepared for the last strip that it worked on.
_PREPARED: list[tuple[_Strip, Workshop]] = []


def _workshop_of(strip: _Strip) -> Workshop:
    if not _PREPARED or _PREPARED[0][0] != strip:
        _PREPARED[:] = [(strip, Workshop(strip.gaps, strip.coarseness))]
    return _PREPARED[0][1]
