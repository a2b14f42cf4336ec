"""The only room that starts a solver: one thread, deterministic limits, exact bounds."""

from .answer import Answer, Status
from .cp_sat import minimize
from .highs import GrowingMaster, WholeAnswer, minimize_whole
from .linear import maximize_linear
from .linear_programme import LinearProgramme, LinearSolver
from .programme import Columns, Programme, columns_from_dense
from .rebate import rebate
from .rigid import Arrangement, Body, Box, Lying, Way, arrange

__all__ = [
    "Answer",
    "Arrangement",
    "Body",
    "Box",
    "Columns",
    "GrowingMaster",
    "LinearProgramme",
    "LinearSolver",
    "Lying",
    "Programme",
    "Status",
    "Way",
    "WholeAnswer",
    "arrange",
    "columns_from_dense",
    "maximize_linear",
    "minimize",
    "minimize_whole",
    "rebate",
]
