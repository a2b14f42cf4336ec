"""The packing engine: outlines in, placements out. It knows nothing of plywood."""

from .attitude import Attitude
from .container import Container
from .filling import Filling, fill
from .first_fit import Item, Placement, Placer, Preference
from .impossible import Wanted, is_impossible
from .readiness import compiled, wait_until_compiled
from .rectangles import PlacedRectangle, Rectangle, RectanglePacking, pack_rectangles
from .several import Laid, SeveralLayouts, pack_several
from .strip import StripLayout, pack_strip
from .together import Places, pack_together
from .verifying import is_feasible
from .warming import warm_up
from .workshop import Gaps, Workshop

__all__ = [
    "Attitude",
    "Container",
    "Filling",
    "Gaps",
    "Item",
    "Laid",
    "PlacedRectangle",
    "Placement",
    "Placer",
    "Places",
    "Preference",
    "Rectangle",
    "RectanglePacking",
    "SeveralLayouts",
    "StripLayout",
    "Wanted",
    "Workshop",
    "compiled",
    "fill",
    "is_feasible",
    "is_impossible",
    "pack_rectangles",
    "pack_several",
    "pack_strip",
    "pack_together",
    "wait_until_compiled",
    "warm_up",
]
