"""What the parts weigh, as far as the job tells the density of their stock."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field

from shapely.geometry import Polygon

from nesting.drawing import JointEnd, SheetPiece, joint_ends
from nesting.model import Plan, StrapPiece, StripPiece

from .consumables import glued_area
from .glue import glue_grams
from .stock import length_under, sheets_under
from .table import Cell, Column, Table, as_csv

COLUMNS = (
    Column("part", "Part"),
    Column("count", "Finished parts"),
    Column("each_kg", "Each, kg"),
    Column("all_kg", "All, kg"),
    Column("note", "Note"),
)

#: Cubic millimetres in a cubic metre.
MM3 = 1e9

UNKNOWN = "not weighed: the job gives its stock no density"


@dataclass
class Weighed:
    """What is known of the weight of one part: of all its copies together."""

    kilograms: float = 0.0
    copies: set[int] = field(default_factory=set)
    known: bool = True


def weights(plan: Plan) -> str:
    """Return the weights of parts as CSV."""
    return as_csv(weight_table(plan))


def weight_table(plan: Plan) -> Table:
    """Return the weight of each part and of them all with their glue; coatings, paint and fastenings are left out.

    A part weighs what its finished volume does: a bevel takes off half of its lap. A piece of a blank counts at the
    mean density and thickness of the blank's sheets.
    """
    parts = weighed_parts(plan)
    glue = glue_grams(glued_area(plan)) / 1000
    whole = sum(part.kilograms for part in parts.values()) + glue
    some_missing = not all(part.known for part in parts.values())
    rows = [_row(name, part) for name, part in parts.items()]
    rows += [("glue in the joints", None, None, round(glue, 2), "")] * (glue > 0)
    rows += [("all", None, None, round(whole, 2), "without the parts not weighed" if some_missing else "")]
    return Table(caption="Weights", columns=COLUMNS, rows=tuple(rows))


def weighed_parts(plan: Plan) -> dict[str, Weighed]:
    """Return what is known of the weight of each part by its name, in the order of the plan."""
    parts: defaultdict[str, Weighed] = defaultdict(Weighed)
    ends = joint_ends(plan)
    for piece in plan.pieces:
        part, weight = parts[piece.part], kilograms(plan, piece, ends[piece.id])
        part.copies.add(piece.copy_number)
        part.kilograms += weight or 0.0
        part.known &= weight is not None
    return dict(parts)


def kilograms(plan: Plan, piece: SheetPiece | StripPiece, ends: Sequence[JointEnd] = ()) -> float | None:
    """Return what a piece weighs with its ends bevelled, or None if the density of its stock is not told."""
    off = sum(end.joint.lap * end.joint.width * end.joint.thickness / 2 for end in ends)
    if isinstance(piece, StripPiece):
        density, (width, thickness) = length_under(plan, piece).density, plan.job.strip(piece.part).section
        volume = width * thickness * (piece.end - piece.start) - off
        return None if density is None else density * volume / MM3
    sheets = sheets_under(plan, piece)
    densities = [sheet.density for sheet in sheets if sheet.density is not None]
    if len(densities) < len(sheets):
        return None
    holes = () if isinstance(piece, StrapPiece) else piece.holes
    thickness = sum(sheet.true_thickness for sheet in sheets) / len(sheets)
    area: float = Polygon(piece.outline, holes).area
    return sum(densities) / len(densities) * (area * thickness - off) / MM3


def _row(name: str, part: Weighed) -> tuple[Cell, ...]:
    count = len(part.copies)
    if not part.known:
        return name, count, None, None, UNKNOWN
    return name, count, round(part.kilograms / count, 2), round(part.kilograms, 2), ""
