"""Where a piece that lies on a blank runs across the blank's scarfs: worked out from lines and placement."""

from collections.abc import Iterator
from dataclasses import dataclass

from nesting.model import TOLERANCE, PanelPiece

from .geometry import laid_shape, turn
from .true_blank import TrueBlank

#: Degrees; over a hundred metres such a turn moves nothing by more than the tolerance.
ANGLE_TOLERANCE = 1e-7


@dataclass(frozen=True)
class Crossing:
    """A scarf of a blank that touches a piece.

    Attributes
    ----------
    scarf : str
        Its id.
    station : float or None
        Where its middle lies on the panel; None if the piece does not lie along the blank.
    whole : bool
        Whether the piece reaches over the whole lap.
    """

    scarf: str
    station: float | None
    whole: bool


def crossings(piece: PanelPiece, blank: TrueBlank) -> Iterator[Crossing]:
    """Yield the scarfs of a blank that a piece on it meets by more than the tolerance, along the blank."""
    shape = laid_shape(piece)
    if shape is None:
        return
    west, _, east, _ = shape.bounds
    for scarf, line in zip(blank.told.scarfs, blank.lines, strict=False):
        low, high = line - blank.lap / 2, line + blank.lap / 2
        if min(east, high) - max(west, low) > TOLERANCE:
            whole = west <= low + TOLERANCE and east >= high - TOLERANCE
            yield Crossing(scarf.id, _station(piece, line), whole)


def _station(piece: PanelPiece, line: float) -> float | None:
    """Return the panel's station under a line of the blank: mirrored it is the same, turned about it runs back."""
    if abs(turn(piece.angle)) <= ANGLE_TOLERANCE:
        return line - piece.x
    if abs(turn(piece.angle - 180)) <= ANGLE_TOLERANCE:
        return piece.x - line
    return None
