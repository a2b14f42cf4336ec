"""Lower bounds for sheet goods; nothing here is shared with the search."""

from typing import TYPE_CHECKING

from nesting.doors import opened_when_used

if TYPE_CHECKING:
    from .sheet_goods import sheets_bound
    from .shortage import shortages

#: In which module each name is. What is short is told without a solver.
_MODULES = {
    "sheets_bound": "sheet_goods",
    "shortages": "shortage",
}

__all__ = [
    "sheets_bound",
    "shortages",
]

if not TYPE_CHECKING:  # a checker that saw it would take any name to be there
    __getattr__ = opened_when_used(__name__, _MODULES)
