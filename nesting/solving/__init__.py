"""The only room that starts a solver: one thread, deterministic limits, exact bounds."""

from .answer import Answer, Status
from .cp_sat import minimize

__all__ = ["Answer", "Status", "minimize"]
