"""Timber: which lengths to use, and where each cut and scarf goes, with its own proven bound."""

from .cutting import Cutting, Member, Shift, Stock
from .layout import Cut, Layout
from .outcome import Outcome
from .planning import cheapest_cutting, plan_lengths

__all__ = ["Cut", "Cutting", "Layout", "Member", "Outcome", "Shift", "Stock", "cheapest_cutting", "plan_lengths"]
