"""Sheet goods: which sheets, which pieces of which panels, and where each lies."""

from .searching import panel_problems, sheet_plans

__all__ = ["panel_problems", "sheet_plans"]
