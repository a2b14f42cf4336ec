"""How much there is to saw, to bevel and to glue."""

import math

from nesting.model import Plan, Polygon, StripPiece

from .bevels import all_bevels
from .gluing import glue_ups
from .table import Column, Table, as_csv

COLUMNS = (Column("what", "What"), Column("amount", "Amount"), Column("unit", "Unit"))


def workload(plan: Plan) -> str:
    """Return metres of cut, of bevel and of glue line as CSV."""
    return as_csv(workload_table(plan))


def workload_table(plan: Plan) -> Table:
    """Return what there is to saw, bevel and glue.

    Cuts are the outlines of all pieces and their holes, an edge that falls on the sheet's own too; cross-cuts in timber
    are counted at both ends of each piece. Each scarf has two bevels.
    """
    rows = (
        ("Sawing along outlines", round(metres_of_cut(plan), 1), "m"),
        ("Cross-cuts in timber", 2 * sum(isinstance(piece, StripPiece) for piece in plan.pieces), "cuts"),
        ("Bevels", len(all_bevels(plan)), "ends"),
        ("Bevel", round(metres_of_bevel(plan), 2), "m"),
        ("Glue lines", round(metres_of_glue_line(plan), 2), "m"),
        ("Glue-ups", len(glue_ups(plan)), "times"),
    )
    return Table(caption="The work in figures", columns=COLUMNS, rows=tuple(row for row in rows if row[1]))


def metres_of_cut(plan: Plan) -> float:
    """Return the length of the outlines of all pieces cut from sheets, holes included."""
    rings = [
        ring
        for piece in plan.pieces
        if not isinstance(piece, StripPiece)
        for ring in (piece.outline, *(piece.holes if piece.kind == "panel" else ()))
    ]
    return sum(_girth(ring) for ring in rings) / 1000


def metres_of_bevel(plan: Plan) -> float:
    """Return the width of all bevelled ends together."""
    return sum(bevel.width for bevel in all_bevels(plan)) / 1000


def metres_of_glue_line(plan: Plan) -> float:
    """Return the width of all joints that are glued: those at scarfs of blanks and long planks count with these."""
    scarfs = sum(scarf.width for blank in plan.blanks for scarf in blank.scarfs)
    scarfs += sum(scarf.width for plank in plan.long_planks for scarf in plank.scarfs)
    return (scarfs + sum(joint.width for joint in plan.joints if not joint.scarf)) / 1000


def _girth(ring: Polygon) -> float:
    return sum(math.dist(one, other) for one, other in zip(ring, (*ring[1:], ring[0]), strict=True))
