"""The cut list of some sheets or lengths, as a screen shows it."""

from nesting.model import Plan

from .cut_list import cut_pieces, cut_table
from .screen import Listing
from .table import filled, led_by, without


def cuts_from(plan: Plan, *names: str, hidden: tuple[str, ...] = ()) -> Listing:
    """Return the cut list of some sheets or lengths with a box for each piece."""
    table = filled(led_by(without(cut_table(plan, *names), "order", *hidden), "code"))
    return Listing(table=table, ticks=tuple(f"piece {piece}" for piece in cut_pieces(plan, *names)))
