"""The only room that starts a solver: one thread, deterministic limits, exact bounds."""

from .answer import Answer, Status
from .cp_sat import minimize
from .linear_programme import LinearProgramme, LinearSolver

__all__ = ["Answer", "LinearProgramme", "LinearSolver", "Status", "minimize"]
