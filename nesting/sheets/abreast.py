"""How much of a sheet's width pieces take at its middle: those longer than half of it lie there, wherever they lie."""

import math

from .pieces import PieceKind
from .stock import LEFT, Stock


def taken_at_middle(kind: PieceKind, stock: Stock) -> float:
    """Return the least of a sheet's or blank's width that a piece takes at its middle; 0 if it may lie aside of it.

    The width of the piece is read at a number of stations, and not between them: this is a rough count, and no bound.
    """
    west, _, east, _ = kind.item.polygon.bounds
    reaches = stock.size[0] / 2 / (east - west)
    if reaches >= 1 or not _runs_along(kind, stock):
        return 0.0
    # The middle of the sheet is at most so far from either end of the piece, in shares of its length.
    last = len(kind.widths) - 1
    low, high = math.ceil((1 - reaches) * last), math.floor(reaches * last)
    return min(kind.widths[min(low, high) : max(low, high) + 1])


def _runs_along(kind: PieceKind, stock: Stock) -> bool:
    """Whether a piece can only lie along a sheet; on a blank only across its scarfs, not on what is left beside it."""
    beside = stock.blank is not None and LEFT not in kind.item.avoids
    return not beside and all(min(angle % 180, -angle % 180) < 45 for angle in kind.item.angles)
