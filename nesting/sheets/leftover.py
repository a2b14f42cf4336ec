"""What is left of a sheet that is worth keeping: straight rectangles along the grain."""

import math
from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from nesting.packing import Container

#: Rectangles kept of one sheet at most; more would be firewood.
MOST_OFFCUTS = 3

#: Cells along the longer and the shorter side of the grid on which rectangles are first sought.
CELLS = 48


def offcuts(
    container: Container, pieces: Sequence[Polygon], kerf: float, allowance: float, keep_from: tuple[float, float]
) -> Iterator[Polygon]:
    """Yield the largest rectangles left on a sheet, whole millimetres large, one kerf from every piece as it is cut.

    Parameters
    ----------
    pieces : sequence of Polygon
        As they lie on the sheet.
    allowance : float
        Wood left on around each piece.
    keep_from : (float, float)
        Least length along the grain and least width across it.
    """
    grown = [piece.buffer(kerf + allowance, join_style="mitre", mitre_limit=2.0) for piece in pieces]
    taken = shapely.union_all([*grown, *container.obstacles])
    for _ in range(MOST_OFFCUTS):
        found = _largest(container.outline, taken)
        if found is None or not _worth_keeping(found, keep_from):
            return
        yield found
        taken = taken.union(found.buffer(kerf, join_style="mitre"))


def _worth_keeping(rectangle: Polygon, keep_from: tuple[float, float]) -> bool:
    west, south, east, north = rectangle.bounds
    return bool(east - west >= keep_from[0] and north - south >= keep_from[1])


def _largest(outline: Polygon, taken: BaseGeometry) -> Polygon | None:
    """Return the largest rectangle on a grid, pushed out until it touches something."""
    free = outline.difference(taken)
    west, south, east, north = outline.bounds
    xs, ys = np.linspace(west, east, CELLS + 1), np.linspace(south, north, CELLS + 1)
    left, low = np.meshgrid(xs[:-1], ys[:-1], indexing="ij")
    right, top = np.meshgrid(xs[1:], ys[1:], indexing="ij")
    shapely.prepare(free)
    clear = shapely.covers(free, shapely.box(left, low, right, top))
    best = _largest_block(clear)
    if best is None:
        return None
    a, b, c, d = best
    block = (float(xs[a]), float(ys[b]), float(xs[c]), float(ys[d]))
    grown = (_whole(_pushed(_pushed(block, free, axis), free, 1 - axis)) for axis in (0, 1))
    return max(grown, key=lambda rectangle: float(rectangle.area))


def _largest_block(clear: NDArray[np.bool_]) -> tuple[int, int, int, int] | None:
    """Return the largest all-true block of cells as (first column, first row, end column, end row)."""
    heights = np.zeros(clear.shape[1], dtype=int)
    best, area = None, 0
    for column in range(clear.shape[0]):
        heights = np.where(clear[column], heights + 1, 0)
        for low, high, run in _rectangles_under(heights.tolist()):
            if (high - low) * run > area:
                best, area = (column + 1 - run, low, column + 1, high), (high - low) * run
    return best


def _rectangles_under(heights: list[int]) -> Iterator[tuple[int, int, int]]:
    """Yield (start, end, height) of the maximal rectangles under a skyline."""
    stack: list[tuple[int, int]] = []
    for index, height in enumerate([*heights, 0]):
        start = index
        while stack and stack[-1][1] >= height:
            start, tall = stack.pop()
            yield start, index, tall
        stack.append((start, height))


def _pushed(
    block: tuple[float, float, float, float], free: BaseGeometry, axis: int
) -> tuple[float, float, float, float]:
    """Move the two sides of a block that are square to an axis outwards until they touch what is not free."""
    far = 1e7
    band = [-far, -far, far, far]
    band[1 - axis], band[3 - axis] = block[1 - axis], block[3 - axis]
    blocked = shapely.get_parts(shapely.box(*band).difference(free))
    middle = (block[axis] + block[axis + 2]) / 2
    spans = [(part.bounds[axis], part.bounds[axis + 2]) for part in blocked if part.area > 0]
    result = list(block)
    result[axis] = max((end for _, end in spans if end <= middle), default=block[axis])
    result[axis + 2] = min((start for start, _ in spans if start >= middle), default=block[axis + 2])
    return result[0], result[1], result[2], result[3]


def _whole(block: tuple[float, float, float, float]) -> Polygon:
    """Return the block with its corners drawn in to whole millimetres."""
    west, south, east, north = block
    # Floats may miss a whole millimetre by a hair; that hair is far below the tolerance.
    low_corner = (math.ceil(west - 1e-6), math.ceil(south - 1e-6))
    return shapely.box(*low_corner, math.floor(east + 1e-6), math.floor(north + 1e-6))
