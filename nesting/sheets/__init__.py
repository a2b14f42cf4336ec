"""Sheet goods: which sheets, which pieces of which panels, and where each lies."""

from .searching import sheet_plans

__all__ = ["sheet_plans"]
