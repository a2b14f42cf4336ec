"""Drawings of blanks, sheets and timber on one canvas in millimetres, and the codes that pieces and joints bear."""

from .blank import draw_blank, made_of
from .canvas import Canvas
from .codes import joint_codes, piece_codes
from .datum import Container, Extents, SheetPiece, container, containers, extents, sheet_pieces, used_sheet
from .joint_ends import Crossing, JointEnd, crossings, joint_ends, visible_line
from .lengths import draw_lengths, draw_some_lengths, strip_pieces
from .lettering import by, millimetres
from .members import bevels, reach, trimmed_size
from .pieces import named_pieces
from .placement import own_size
from .sheet import draw_sheet

__all__ = [
    "Canvas",
    "Container",
    "Crossing",
    "Extents",
    "JointEnd",
    "SheetPiece",
    "bevels",
    "by",
    "container",
    "containers",
    "crossings",
    "draw_blank",
    "draw_lengths",
    "draw_sheet",
    "draw_some_lengths",
    "extents",
    "joint_codes",
    "joint_ends",
    "made_of",
    "millimetres",
    "named_pieces",
    "own_size",
    "piece_codes",
    "reach",
    "sheet_pieces",
    "strip_pieces",
    "trimmed_size",
    "used_sheet",
    "visible_line",
]
