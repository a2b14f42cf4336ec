"""The packing engine: outlines in, placements out. It knows nothing of plywood."""

from .attitude import Attitude
from .container import Container
from .first_fit import Item, Placement, Placer, Preference
from .impossible import Wanted, is_impossible
from .rectangles import PlacedRectangle, Rectangle, RectanglePacking, pack_rectangles
from .verifying import is_feasible

__all__ = [
    "Attitude",
    "Container",
    "Item",
    "PlacedRectangle",
    "Placement",
    "Placer",
    "Preference",
    "Rectangle",
    "RectanglePacking",
    "Wanted",
    "is_feasible",
    "is_impossible",
    "pack_rectangles",
]
