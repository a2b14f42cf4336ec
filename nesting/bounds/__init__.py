"""Lower bounds for sheet goods; nothing here is shared with the search."""

from .sheet_goods import sheets_bound
from .shortage import shortages

__all__ = ["sheets_bound", "shortages"]
