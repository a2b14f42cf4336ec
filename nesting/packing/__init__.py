"""The packing engine: outlines in, placements out. It knows nothing of plywood."""

from .container import Container
from .first_fit import Item, Placement, Placer, Preference
from .verifying import is_feasible

__all__ = ["Container", "Item", "Placement", "Placer", "Preference", "is_feasible"]
