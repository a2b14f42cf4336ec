"""Where a piece that lies on a blank runs across the blank's scarfs: worked out from lines and placement."""

from collections.abc import Iterator
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon

from nesting.model import TOLERANCE, PanelPiece

from .geometry import laid_shape, reaches_into, turn
from .true_blank import TrueBlank, TrueScarf

#: Degrees; over a hundred metres such a turn moves nothing by more than the tolerance.
ANGLE_TOLERANCE = 1e-7


@dataclass(frozen=True)
class Crossing:
    """A scarf of a blank that touches a piece.

    Attributes
    ----------
    scarf : str
        Its id.
    runs : str
        Whether it runs across the blank or along it.
    station : float or None
        Where the middle of one that runs across lies on the panel; None if the piece does not lie along the blank.
    whole : bool
        Whether the piece reaches over the whole lap.
    """

    scarf: str
    runs: str
    station: float | None
    whole: bool


def crossings(piece: PanelPiece, blank: TrueBlank) -> Iterator[Crossing]:
    """Yield the scarfs of a blank that a piece on it meets by more than the tolerance: their laps reach into it."""
    shape = laid_shape(piece)
    if shape is None:
        return
    west, south, east, north = shape.bounds
    for scarf, must in zip(blank.told.scarfs, blank.scarfs, strict=False):
        low, high = must.at - blank.lap / 2, must.at + blank.lap / 2
        start, end = (west, east) if must.runs == "across" else (south, north)
        if min(end, high) - max(start, low) <= TOLERANCE or not _meets(shape, must, low, high):
            continue
        whole = start <= low + TOLERANCE and end >= high - TOLERANCE
        yield Crossing(scarf.id, must.runs, _station(piece, must.at) if must.runs == "across" else None, whole)


def _meets(shape: Polygon, scarf: TrueScarf, low: float, high: float) -> bool:
    """Whether a shape reaches into the stretch of the lap along its line."""
    begins, ends = scarf.begins, scarf.begins + scarf.width
    lap = (low, begins, high, ends) if scarf.runs == "across" else (begins, low, ends, high)
    return reaches_into(shape, shapely.box(*lap))


def _station(piece: PanelPiece, line: float) -> float | None:
    """Return the panel's station under a line of the blank: mirrored it is the same, turned about it runs back."""
    if abs(turn(piece.angle)) <= ANGLE_TOLERANCE:
        return line - piece.x
    if abs(turn(piece.angle - 180)) <= ANGLE_TOLERANCE:
        return piece.x - line
    return None
