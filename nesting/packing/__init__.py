"""The packing engine: outlines in, placements out. It knows nothing of plywood."""

from .attitude import Attitude
from .container import Container
from .filling import Filling, fill
from .first_fit import Item, Placement, Placer, Preference
from .impossible import Wanted, is_impossible
from .rectangles import PlacedRectangle, Rectangle, RectanglePacking, pack_rectangles
from .strip import StripLayout, pack_strip
from .verifying import is_feasible
from .workshop import Gaps, Workshop

__all__ = [
    "Attitude",
    "Container",
    "Filling",
    "Gaps",
    "Item",
    "PlacedRectangle",
    "Placement",
    "Placer",
    "Preference",
    "Rectangle",
    "RectanglePacking",
    "StripLayout",
    "Wanted",
    "Workshop",
    "fill",
    "is_feasible",
    "is_impossible",
    "pack_rectangles",
    "pack_strip",
]
