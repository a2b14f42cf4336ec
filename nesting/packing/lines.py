"""Items that must lie with lines of their own on lines of the container."""

from collections.abc import Sequence
from typing import Protocol

from shapely.geometry import Polygon

#: Units of length within which two lines are the same.
SAME = 1e-6


class Lined(Protocol):
    """A polygon with lines across it."""

    @property
    def polygon(self) -> Polygon:
        """As drawn."""

    @property
    def lines(self) -> tuple[float, ...]:
        """Their x, as drawn."""


class Moved(Protocol):
    """How an item lies."""

    @property
    def angle(self) -> float:
        """0 or 180 degrees."""

    @property
    def x(self) -> float:
        """By how much it is moved along x."""


def moves_onto_lines(item: Lined, angle: float, lines: Sequence[float]) -> tuple[float, ...]:
    """Return the moves along x by which a turned item comes to lie on the container's lines."""
    own = _turned(item, angle)
    moves = (line - own[0] for line in lines)
    return tuple(move for move in moves if _agree(item, angle, move, lines))


def lies_on_lines(item: Lined, placement: Moved, lines: Sequence[float]) -> bool:
    """Whether the container's lines that cross the item are exactly the item's own."""
    return _agree(item, placement.angle, placement.x, lines)


def _agree(item: Lined, angle: float, move: float, lines: Sequence[float]) -> bool:
    west, _, east, _ = item.polygon.bounds
    low, high = sorted((west, east) if angle == 0 else (-west, -east))
    crossing = [line for line in sorted(lines) if low + move < line < high + move]
    own = [x + move for x in _turned(item, angle)]
    return len(own) == len(crossing) and all(abs(a - b) <= SAME for a, b in zip(own, crossing, strict=True))


def _turned(item: Lined, angle: float) -> list[float]:
    return sorted(item.lines if angle == 0 else (-x for x in item.lines))
