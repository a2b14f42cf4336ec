"""The packing engine: outlines in, placements out. It knows nothing of plywood."""

from .container import Container
from .filling import Filling, fill
from .first_fit import Item, Placement, Placer, Preference
from .several import Laid, SeveralLayouts, pack_several
from .strip import StripLayout, pack_strip
from .verifying import is_feasible
from .warming import warm_up
from .workshop import Gaps, Workshop

__all__ = [
    "Container",
    "Filling",
    "Gaps",
    "Item",
    "Laid",
    "Placement",
    "Placer",
    "Preference",
    "SeveralLayouts",
    "StripLayout",
    "Workshop",
    "fill",
    "is_feasible",
    "pack_several",
    "pack_strip",
    "warm_up",
]
