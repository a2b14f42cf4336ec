"""Guided local search: moves the items that overlap, one by one, and weighs overlaps that stay ever more.

Voudouris and Tsang's guided local search, for overlap as by Egeblad, Nielsen and Odgaard 2007, "Fast neighborhood
search for two- and three-dimensional nesting problems" (from memory).
"""

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from nesting.effort import Effort

from .arrays import Around, Layout, Tables
from .first_fit import Placement
from .kernels import NONE, best_place, measure, measure_all, put, separate, settle
from .pushing import APART, FREE, Pull, Pusher

Array = NDArray[np.float64]

#: Depth of overlap that the search leaves to the linear programme, as a share of the root of the mean area.
TOLERANCE = 2e-4

#: Length at which the search for one item's place ends, as such a share.
FINE = 1e-4

#: Places that are drawn for an item that is to overlap nothing.
ANYWHERE_LOW = 150

#: By so much an item may be larger than its container and still be laid there: a rounding.
HAIR = 1e-6

#: Length at which sliding an item ends, as such a share.
SETTLED = 1e-9

#: Sum of depths below which the linear programme is tried, as such a share.
PROMISING = 0.4

#: Moves of single items in one burst at most: a burst takes well under a tenth of a second.
BURST = 150

#: Moves of single items, and rows of linear programmes, that count as one unit of work: about a millisecond or less.
MOVES_A_UNIT, ROWS_A_UNIT = 5, 8

#: Share of the work that linear programmes may take before an attempt is at its end.
PUSHING = 0.25


@dataclass
class Search:
    """One problem in search: its tables, where the items lie now, and what has been spent.

    Attributes
    ----------
    side : float
        Root of the mean area of the items.
    angles : tuple of float
        Degrees by which each option is turned.
    moves : int
        Items moved one by one so far.
    least : float
        Least loss of the last search that failed.
    """

    tables: Tables
    layout: Layout
    around: Around
    pusher: Pusher
    side: float
    effort: Effort
    angles: tuple[float, ...]
    moves: int = 0
    least: float = NONE
    _best: Array = field(init=False)
    _outcome: Array = field(init=False)

    def __post_init__(self) -> None:
        self._best, self._outcome = np.empty((2, len(self.layout.x), 4)), np.empty(5)

    def start_anew(self) -> None:
        """Weigh all pairs alike and work out all overlaps."""
        weight = self.layout.weight
        weight[weight > 0] = 1.0
        measure_all(self.tables, self.layout, self.around)

    def place(self, item: int, anywhere: int = 60) -> float:
        """Lay one item where it overlaps least; return the loss, ``NONE`` if it fits nowhere at all."""
        place = np.empty(5)
        best_place(self.tables, self.layout, self.around, item, anywhere, 15, FINE * self.side, place)
        self._spend(1)
        if place[0] < NONE:
            put(self.tables, self.layout, self.around, item, place)
        return float(place[0])

    def separate(self, patience: int, pull: Pull = APART, shorter_than: float = NONE, strikes: int = 1) -> bool:
        """Search until no items overlap; whether that came about. The layout is then free to the last bit.

        Parameters
        ----------
        patience : int
            Sweeps without a loss 2 % lower after which the search goes back to the best layout, or gives up.
        pull : Pull
            What the linear programmes aim at.
        shorter_than : float
            Where the last one has to end for it to count.
        strikes : int
            How often patience may run out.
        """
        least, waited, kept = NONE, 0.0, self.places()
        while True:
            self._burst()
            sweeps, _, _, least_depth, loss = self._outcome
            free = self._no_collision()
            if (free or least_depth < PROMISING * self.side) and (free or self._may_push()):
                if self._pushed(self._best[0], pull, shorter_than):
                    return True
                if free:
                    return False
            if loss < 0.98 * least:
                least, waited, kept = loss, 0.0, self._best[1].copy()
            else:
                waited += sweeps
            if self.effort.over:
                break
            if waited >= patience:
                strikes -= 1
                if strikes == 0:
                    break
                waited = 0.0
                self.restore(kept)
        self.restore(kept)
        self.least = least
        return False

    def places(self) -> Array:
        """Return container, option, x, y of all items."""
        layout = self.layout
        return np.column_stack([layout.container, layout.choice, layout.x, layout.y]).astype(np.float64)

    def losses(self) -> Array:
        """Return what each item loses by overlapping others, unweighted."""
        losses: Array = self.layout.loss[: self.layout.movable].sum(axis=1)
        return losses

    def reach(self) -> float:
        """Return how far along x the items reach."""
        layout, n = self.layout, self.layout.movable
        return float((layout.x[:n] + self.tables.edge_box[layout.look[:n], 2]).max())

    def restore(self, places: Array) -> None:
        """Lay all items as they lay."""
        layout, n = self.layout, self.layout.movable
        layout.container[:] = places[:, 0]
        layout.choice[:] = places[:, 1]
        layout.look[:n] = self.tables.option_look[layout.choice[:n]]
        layout.x[:], layout.y[:] = places[:, 2], places[:, 3]
        measure_all(self.tables, layout, self.around)

    def place_low(self, item: int) -> bool:
        """Lay one item where it overlaps nothing, as far left and down as it slides; whether that was found."""
        place = np.empty(5)
        best_place(self.tables, self.layout, self.around, item, ANYWHERE_LOW, 0, FINE * self.side, place)
        self._spend(1)
        if place[0] > 0.0:
            return False
        settle(self.tables, self.layout, self.around, item, place, SETTLED * self.side)
        put(self.tables, self.layout, self.around, item, place)
        return True

    def placement(self, item: int, index: int) -> Placement:
        """Return where an item lies, told by another index."""
        layout = self.layout
        return Placement(index, self.angles[layout.choice[item]], float(layout.x[item]), float(layout.y[item]))

    def lay(self, item: int, container: int, placement: Placement) -> None:
        """Lay an item as said, or as near as it fits into the container, if that is one of its options.

        Overlaps are not worked out.
        """
        layout = self.layout
        for option in range(self.tables.option[item], self.tables.option[item + 1]):
            look = self.tables.option_look[option]
            west, south, east, north = layout.room[container] - self.tables.edge_box[look]
            if self.angles[option] == placement.angle and west <= east + HAIR and south <= north + HAIR:
                layout.container[item], layout.choice[item], layout.look[item] = container, option, look
                layout.x[item] = self._allowed_x(option, min(max(placement.x, west), east))
                layout.y[item] = min(max(placement.y, south), north)

    def _allowed_x(self, option: int, x: float) -> float:
        """Return the nearest x that an option allows."""
        allowed = self.tables.allowed_x[self.tables.option_x[option] : self.tables.option_x[option + 1]]
        return float(allowed[np.abs(allowed - x).argmin()]) if len(allowed) else x

    def take_off(self, item: int) -> None:
        """Lay an item aside."""
        self.layout.container[item] = -1
        measure(self.tables, self.layout, self.around, item)

    @property
    def free_depth(self) -> float:
        """Depth of overlap that is taken for none."""
        return FREE * self.pusher.unit

    def push(self, pull: Pull) -> bool:
        """Move all items at once; whether they are apart in the end."""
        before = self.pusher.rows
        free = self.pusher.push(self.layout, pull)
        self.effort.spend(math.ceil((self.pusher.rows - before) / ROWS_A_UNIT))
        return free

    def _burst(self) -> None:
        """Let the kernel move some items."""
        moves = max(20, min(BURST, 20_000 // self.layout.movable))
        made = separate(
            self.tables,
            self.layout,
            self.around,
            moves,
            TOLERANCE * self.side,
            FINE * self.side,
            np.empty(self.layout.movable, np.int64),
            np.empty(5),
            self._best,
            self._outcome,
        )
        self._spend(max(made, MOVES_A_UNIT))

    def _spend(self, moves: int) -> None:
        """Count moves; some are not spent until there are enough for one unit."""
        before, self.moves = self.moves, self.moves + moves
        self.effort.spend(self.moves // MOVES_A_UNIT - before // MOVES_A_UNIT)

    def _no_collision(self) -> bool:
        return bool(self.layout.depth[: self.layout.movable].max() <= TOLERANCE * self.side)

    def _may_push(self) -> bool:
        return self.pusher.rows / ROWS_A_UNIT < PUSHING * self.moves / MOVES_A_UNIT

    def _pushed(self, places: Array, pull: Pull, shorter_than: float) -> bool:
        """Try the linear programme on a layout; go back to where the search is if it fails."""
        here, end = self.places(), self.layout.room[0, 2]
        self.restore(places)
        if self.push(pull) and self.layout.room[0, 2] < shorter_than:
            return True
        self.layout.room[0, 2] = end
        self.restore(here)
        return False
