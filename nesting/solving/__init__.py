"""The only room that starts a solver: one thread, deterministic limits, exact bounds."""

from .answer import Answer, Status
from .cp_sat import minimize
from .linear_programme import LinearProgramme, LinearSolver
from .rigid import Arrangement, Body, Box, Lying, Way, arrange

__all__ = [
    "Answer",
    "Arrangement",
    "Body",
    "Box",
    "LinearProgramme",
    "LinearSolver",
    "Lying",
    "Status",
    "Way",
    "arrange",
    "minimize",
]
