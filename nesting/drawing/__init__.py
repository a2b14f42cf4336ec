"""Drawings of blanks, sheets and timber on one canvas in millimetres, and the codes that pieces and joints bear."""

from .blank import draw_blank, made_of
from .canvas import Canvas
from .codes import joint_codes, part_letters, piece_codes
from .datum import (
    Container,
    Extents,
    SheetPiece,
    container,
    containers,
    datum_corner,
    extents,
    parts_of_blanks,
    sheet_pieces,
    used_sheet,
)
from .joint_ends import Crossing, JointEnd, crossings, joint_ends, visible_line
from .labels import FORWARD
from .lengths import draw_lengths, strip_pieces
from .long_plank import draw_long_plank, sticks_alike
from .members import as_glued, beside, bevels, edge_bevels, height, reach, trimmed_size
from .numbering import lengths_by_drawing, plan_mark
from .own_frame import lines_on_sheet
from .panel import draw_panel
from .pieces import named_pieces
from .placement import own_size, shape_of
from .register_marks import mark_from_end, marks_apart
from .remembering import once_for_a_plan
from .sheet import draw_sheet
from .tape import Tape, tape_in, tape_of
from .whole_part import jointed_parts

__all__ = [
    "FORWARD",
    "Canvas",
    "Container",
    "Crossing",
    "Extents",
    "JointEnd",
    "SheetPiece",
    "Tape",
    "as_glued",
    "beside",
    "bevels",
    "container",
    "containers",
    "crossings",
    "datum_corner",
    "draw_blank",
    "draw_lengths",
    "draw_long_plank",
    "draw_panel",
    "draw_sheet",
    "edge_bevels",
    "extents",
    "height",
    "joint_codes",
    "joint_ends",
    "jointed_parts",
    "lengths_by_drawing",
    "lines_on_sheet",
    "made_of",
    "mark_from_end",
    "marks_apart",
    "named_pieces",
    "once_for_a_plan",
    "own_size",
    "part_letters",
    "parts_of_blanks",
    "piece_codes",
    "plan_mark",
    "reach",
    "shape_of",
    "sheet_pieces",
    "sticks_alike",
    "strip_pieces",
    "tape_in",
    "tape_of",
    "trimmed_size",
    "used_sheet",
    "visible_line",
]
