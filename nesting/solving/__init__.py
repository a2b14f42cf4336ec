"""The only room that starts a solver: one thread, deterministic limits, exact bounds."""

from .answer import Answer, Status
from .cp_sat import minimize
from .highs import GrowingMaster, WholeAnswer, minimize_whole
from .programme import Columns, Programme, columns_from_dense

__all__ = [
    "Answer",
    "Columns",
    "GrowingMaster",
    "Programme",
    "Status",
    "WholeAnswer",
    "columns_from_dense",
    "minimize",
    "minimize_whole",
]
