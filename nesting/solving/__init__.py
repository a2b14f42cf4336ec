"""The only room that starts a solver: one thread, deterministic limits, exact bounds."""

from .answer import Answer, Status
from .cp_sat import minimize
from .linear import maximize_linear
from .rigid import Arrangement, Body, Box, Lying, Way, arrange

__all__ = ["Answer", "Arrangement", "Body", "Box", "Lying", "Status", "Way", "arrange", "maximize_linear", "minimize"]
