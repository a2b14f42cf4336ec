"""Where joints may lie, cut into short cells: within one, a joint is nowhere in particular."""

import math
from collections.abc import Sequence
from itertools import pairwise

from nesting.joints import Reach
from nesting.model import TOLERANCE

#: Millimetres; the finer the cells, the better the bound and the longer it takes.
CELL = 50.0

Cells = list[tuple[float, float]]


def cells_of(reach: Reach, longest: Sequence[float]) -> Cells:
    """Return cells that together hold every station at which a joint may lie, rising.

    They also end where a first or last piece becomes too long for a kind of sheet.

    Parameters
    ----------
    longest : sequence of float
        Longest piece that each kind of sheet gives.
    """
    half = reach.lap / 2
    edges = [station for most in longest for station in (reach.start + most - half, reach.end - most + half)]
    spans = _free(reach)
    for edge in edges:
        spans = [part for span in spans for part in _split(span, edge)]
    return [cell for span in spans for cell in _short(span)]


def _free(reach: Reach) -> Cells:
    """Return the stations that keep off both ends and every zone."""
    low, high = reach.start + reach.spacing - TOLERANCE, reach.end - reach.spacing + TOLERANCE
    spans = [(low, high)] if low <= high else []
    for start, end in reach.zones:
        shut, opened = start - reach.band / 2 + TOLERANCE, end + reach.band / 2 - TOLERANCE
        spans = [part for a, b in spans for part in ((a, min(b, shut)), (max(a, opened), b)) if part[0] <= part[1]]
    return spans


def _split(span: tuple[float, float], at: float) -> Cells:
    return [(span[0], at), (at, span[1])] if span[0] < at < span[1] else [span]


def _short(span: tuple[float, float]) -> Cells:
    low, high = span
    count = max(1, math.ceil((high - low) / CELL))
    ends = [low + (high - low) * k / count for k in range(count)] + [high]
    return list(pairwise(ends))
