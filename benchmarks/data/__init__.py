"""Open instances and the values published for them, read from a folder that the user names."""

from .folder import MissingDataError, data_folder
from .irregular import BinInstance, IrregularItem, StripInstance, irregular_bins, irregular_strips
from .one_dimensional import CuttingInstance, one_dimensional
from .panels import Panel, PanelsInstance, SmallPart, StockSheet, panels_study
from .rectangular import Bin, Rectangle, RectangularInstance, rectangular_bins
from .references import Reference, References, references
from .splices import SpliceInstance, SpliceShift, SpliceStock, SpliceStrip, splices_study
from .spread import spread, spread_of_each

__all__ = [
    "Bin",
    "BinInstance",
    "CuttingInstance",
    "IrregularItem",
    "MissingDataError",
    "Panel",
    "PanelsInstance",
    "Rectangle",
    "RectangularInstance",
    "Reference",
    "References",
    "SmallPart",
    "SpliceInstance",
    "SpliceShift",
    "SpliceStock",
    "SpliceStrip",
    "StockSheet",
    "StripInstance",
    "data_folder",
    "irregular_bins",
    "irregular_strips",
    "one_dimensional",
    "panels_study",
    "rectangular_bins",
    "references",
    "splices_study",
    "spread",
    "spread_of_each",
]
