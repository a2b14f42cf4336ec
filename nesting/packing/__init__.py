"""The packing engine: outlines in, placements out. It knows nothing of plywood."""

from typing import TYPE_CHECKING

from nesting.doors import opened_when_used

if TYPE_CHECKING:
    from .attitude import Attitude
    from .container import Container
    from .filling import Filling, fill
    from .first_fit import Item, Placement, Placer, Preference
    from .gathering import gather_across, gather_along
    from .impossible import Wanted, is_impossible
    from .readiness import compiled, wait_until_compiled
    from .rectangles import PlacedRectangle, Rectangle, RectanglePacking, pack_rectangles
    from .several import Laid, SeveralLayouts, pack_several
    from .strip import StripLayout, pack_strip, pack_strip_in_rounds
    from .together import Arrangement, Places, arrange_together
    from .turns import every_turn, turns_within
    from .verifying import is_feasible
    from .warming import warm_up
    from .workshop import Gaps, Workshop

#: In which module each name is. A first plan takes a few of them, and need not wait for the kernels.
_MODULES = {
    "Attitude": "attitude",
    "Container": "container",
    "Filling": "filling",
    "fill": "filling",
    "Item": "first_fit",
    "Placement": "first_fit",
    "Placer": "first_fit",
    "Preference": "first_fit",
    "gather_across": "gathering",
    "gather_along": "gathering",
    "Wanted": "impossible",
    "is_impossible": "impossible",
    "compiled": "readiness",
    "wait_until_compiled": "readiness",
    "PlacedRectangle": "rectangles",
    "Rectangle": "rectangles",
    "RectanglePacking": "rectangles",
    "pack_rectangles": "rectangles",
    "Laid": "several",
    "SeveralLayouts": "several",
    "pack_several": "several",
    "StripLayout": "strip",
    "pack_strip": "strip",
    "pack_strip_in_rounds": "strip",
    "Arrangement": "together",
    "Places": "together",
    "arrange_together": "together",
    "every_turn": "turns",
    "turns_within": "turns",
    "is_feasible": "verifying",
    "warm_up": "warming",
    "Gaps": "workshop",
    "Workshop": "workshop",
}

__all__ = [
    "Arrangement",
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
    "arrange_together",
    "compiled",
    "every_turn",
    "fill",
    "gather_across",
    "gather_along",
    "is_feasible",
    "is_impossible",
    "pack_rectangles",
    "pack_several",
    "pack_strip",
    "pack_strip_in_rounds",
    "turns_within",
    "wait_until_compiled",
    "warm_up",
]

if not TYPE_CHECKING:  # a checker that saw it would take any name to be there
    __getattr__ = opened_when_used(__name__, _MODULES)
