"""Fills containers on a grid of cells: rough, but a thousand different items are soon laid.

Whether an item overlaps anything is told for all places at once by one convolution (the idea of Milenkovic's raster
methods and of Bennell and Oliveira's 2008 tutorial, both from memory).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from nesting.effort import Effort

from .container import Container
from .first_fit import Item, Placement
from .growing import grown
from .workshop import Gaps

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

#: Cells of a container, about.
CELLS = 30_000

#: An item is not tried where one was refused that is not so much larger.
HARDLY_SMALLER = 0.9


@dataclass(frozen=True)
class _Stencil:
    """The cells that an item touches in one attitude, the gap to others included; (west, south) is their corner."""

    angle: float
    cells: Mask
    west: float
    south: float


def fill_roughly(
    container: Container, items: Sequence[Item], gaps: Gaps, order: Sequence[int], effort: Effort
) -> tuple[Placement, ...]:
    """Lay items in that order, largest first, each as far left as there is room for it on the grid.

    Items without lines or marks to be heeded; what is hardly smaller than one that found no room is not tried. Ends
    early if the effort was asked to stop.
    """
    grid = _Grid(container, gaps)
    refused, placements = math.inf, []
    for index in order:
        if effort.stopped:
            break
        area = items[index].polygon.area
        if area > HARDLY_SMALLER * refused or area > grid.free_area:
            continue
        placement = grid.laid(items[index], index)
        if placement is None:
            refused = area
        else:
            placements.append(placement)
    return tuple(placements)


class _Grid:
    """Which cells of a container are free."""

    def __init__(self, container: Container, gaps: Gaps) -> None:
        # An item carries half the gap to the next one around it; the container is larger by as much.
        beyond = gaps.parts / 2 - gaps.edge
        west, south, east, north = container.outline.buffer(beyond, join_style="mitre").bounds
        side = math.sqrt((east - west) * (north - south) / CELLS)
        shape = math.ceil((east - west) / side), math.ceil((north - south) / side)
        self._cell = (east - west) / shape[0], (north - south) / shape[1]
        self._half_gap, self._west, self._south = gaps.parts / 2, west, south
        free = container.outline.buffer(beyond, join_style="mitre")
        for obstacle in container.obstacles:
            free = free.difference(obstacle.buffer(gaps.faults - gaps.parts / 2, join_style="mitre"))
        outside = shapely.box(west, south, east, north).difference(free)
        self._taken = _touched(outside, west, south, shape, self._cell) if outside.area > 0 else np.zeros(shape, bool)
        self._padded = _smooth(shape[0]), _smooth(shape[1])
        self._spectrum = self._transformed(self._taken)
        self.free_area = container.free_area

    def laid(self, item: Item, index: int) -> Placement | None:
        """Lay an item as far left as it goes; None if there is no room."""
        best: tuple[int, int, _Stencil] | None = None
        for angle in item.angles:
            stencil = self._stencil(item, angle)
            at = self._leftmost(stencil.cells)
            if at is not None and (best is None or at[0] + len(stencil.cells) < best[0] + len(best[2].cells)):
                best = (*at, stencil)
        if best is None:
            return None
        column, row, stencil = best
        wide, high = stencil.cells.shape
        self._taken[column : column + wide, row : row + high] |= stencil.cells
        self._spectrum = self._transformed(self._taken)
        self.free_area -= item.polygon.area
        x, y = self._west + column * self._cell[0], self._south + row * self._cell[1]
        return Placement(index, stencil.angle, x - stencil.west, y - stencil.south)

    def _leftmost(self, cells: Mask) -> tuple[int, int] | None:
        """Return column and row of the leftmost place where no taken cell is touched."""
        wide, high = self._taken.shape
        places = wide - len(cells) + 1, high - cells.shape[1] + 1
        if min(places) <= 0:
            return None
        touching = np.fft.irfft2(self._spectrum * np.conj(self._transformed(cells)), self._padded)
        free = touching[: places[0], : places[1]] < 0.5
        at = int(free.argmax())
        return divmod(at, places[1]) if free.flat[at] else None

    def _transformed(self, cells: Mask) -> NDArray[np.complexfloating]:
        return np.fft.rfft2(cells.astype(np.float32), self._padded)

    def _stencil(self, item: Item, angle: float) -> _Stencil:
        polygon = item.attitude(angle).of(grown(item.polygon, self._half_gap))
        west, south, east, north = polygon.bounds
        wide, high = self._cell
        cells = max(1, math.ceil((east - west) / wide - 1e-9)), max(1, math.ceil((north - south) / high - 1e-9))
        return _Stencil(angle, _touched(polygon, west, south, cells, self._cell), west, south)


def _smooth(count: int) -> int:
    """Return the least number that is no less and has no prime factors beyond five, which are soon transformed."""
    while True:
        rest = count
        for prime in (2, 3, 5):
            while rest % prime == 0:
                rest //= prime
        if rest == 1:
            return count
        count += 1


def _touched(shape: Polygon, west: float, south: float, cells: tuple[int, int], cell: tuple[float, float]) -> Mask:
    """Return which cells from a corner on a shape touches, and a few more that it hardly misses."""
    wide = shape.buffer(math.hypot(*cell) / 2, quad_segs=4)
    shapely.prepare(wide)
    x, y = west + cell[0] * (np.arange(cells[0]) + 0.5), south + cell[1] * (np.arange(cells[1]) + 0.5)
    touched: Mask = shapely.contains_xy(wide, *np.meshgrid(x, y, indexing="ij"))
    return touched
