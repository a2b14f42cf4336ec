"""The shapes that have to be cut."""

from collections.abc import Sequence
from dataclasses import dataclass

from shapely.geometry import Polygon

from nesting.model import Hand
from nesting.outlines import moved, turned
from nesting.packing import Item

from .parts import Part

#: Angles at which a panel's x axis may lie to the face grain of the sheet.
ANGLES = {"along": (0, 180), "across": (90, 270), "any": (0, 90, 180, 270)}


@dataclass(frozen=True, eq=False)
class PieceKind:
    """One shape, cut once for each copy of its hand; compared by identity.

    ``item`` holds the piece in the panel's own frame, mirrored about the x axis for the starboard hand;
    ``stocks`` are the indices of the kinds of sheet whose box it fits.
    """

    panel: int
    hand: Hand
    index: int
    of: int
    rank: int
    item: Item
    stocks: frozenset[int]

    @property
    def area(self) -> float:
        """Area in square millimetres."""
        return float(self.item.polygon.area)


def pieces_of(part: Part, shapes: Sequence[Polygon], rank: int) -> tuple[PieceKind, ...]:
    """Return the piece kinds of a panel cut into ``shapes``, for each hand in turn."""
    return tuple(
        _piece(part, hand, index, len(shapes), shape, rank)
        for hand in part.hands
        for index, shape in enumerate(shapes, 1)
    )


def _piece(part: Part, hand: Hand, index: int, of: int, shape: Polygon, rank: int) -> PieceKind:
    lying = turned(shape, 0, mirrored=hand == "starboard")
    angles = _distinct(lying, ANGLES[part.panel.grain])
    fitting = (s.index for s in part.stocks if any(s.holds_box(turned(lying, angle)) for angle in angles))
    return PieceKind(part.index, hand, index, of, rank, Item(lying, angles), frozenset(fitting))


def _distinct(shape: Polygon, angles: Sequence[int]) -> tuple[int, ...]:
    """Drop angles at which the shape looks the same as at an earlier one."""
    seen: dict[int, Polygon] = {}
    for angle in angles:
        lying = _at_origin(turned(shape, angle))
        if not any(lying.equals_exact(other, 1e-6) for other in seen.values()):
            seen[angle] = lying
    return tuple(seen)


def _at_origin(shape: Polygon) -> Polygon:
    west, south, *_ = shape.bounds
    return moved(shape, -west, -south).normalize()
