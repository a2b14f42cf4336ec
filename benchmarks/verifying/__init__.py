"""Checks of what the benchmarks produce, with shapely and plain arithmetic: nothing of the library is imported."""

from .bins import bins_faults
from .cutting import Pattern, cutting_faults
from .layout import Laid, as_laid
from .panels import JoinedAt, PanelPiece, PanelsPlan, panels_faults, plan_from_file
from .rectangles import LaidRectangle, rectangles_faults
from .splicing import CutPiece, SplicedLength, splicing_cost, splicing_faults
from .strip import strip_density, strip_faults, strip_length

__all__ = [
    "CutPiece",
    "JoinedAt",
    "Laid",
    "LaidRectangle",
    "PanelPiece",
    "PanelsPlan",
    "Pattern",
    "SplicedLength",
    "as_laid",
    "bins_faults",
    "cutting_faults",
    "panels_faults",
    "plan_from_file",
    "rectangles_faults",
    "splicing_cost",
    "splicing_faults",
    "strip_density",
    "strip_faults",
    "strip_length",
]
