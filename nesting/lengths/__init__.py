"""Timber: which lengths to use, and where each cut and scarf goes, with its own proven bound."""

from typing import TYPE_CHECKING

from nesting.doors import opened_when_used

if TYPE_CHECKING:
    from .cutting import Cutting, Member, Shift, Stock
    from .layout import Cut, Layout
    from .outcome import Outcome
    from .planning import cheapest_cutting, plan_lengths
    from .quick import quick_lengths

#: In which module each name is. A first plan takes a few of them, and no solver.
_MODULES = {
    "Cutting": "cutting",
    "Member": "cutting",
    "Shift": "cutting",
    "Stock": "cutting",
    "Cut": "layout",
    "Layout": "layout",
    "Outcome": "outcome",
    "cheapest_cutting": "planning",
    "plan_lengths": "planning",
    "quick_lengths": "quick",
}

__all__ = [
    "Cut",
    "Cutting",
    "Layout",
    "Member",
    "Outcome",
    "Shift",
    "Stock",
    "cheapest_cutting",
    "plan_lengths",
    "quick_lengths",
]

if not TYPE_CHECKING:  # a checker that saw it would take any name to be there
    __getattr__ = opened_when_used(__name__, _MODULES)
