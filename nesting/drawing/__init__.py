"""Drawings of sheets and timber on one canvas in millimetres, and the codes that pieces and joints bear on them."""

from .canvas import Canvas
from .codes import joint_codes, piece_codes
from .datum import Extents, extents, panel_pieces, used_sheet
from .joint_ends import JointEnd, joint_ends, visible_line
from .lengths import draw_lengths, draw_some_lengths, strip_pieces
from .lettering import by, millimetres
from .placement import own_size
from .sheet import draw_sheet

__all__ = [
    "Canvas",
    "Extents",
    "JointEnd",
    "by",
    "draw_lengths",
    "draw_sheet",
    "draw_some_lengths",
    "extents",
    "joint_codes",
    "joint_ends",
    "millimetres",
    "own_size",
    "panel_pieces",
    "piece_codes",
    "strip_pieces",
    "used_sheet",
    "visible_line",
]
