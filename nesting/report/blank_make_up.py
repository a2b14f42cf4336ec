"""What each blank is made of: its sheets in order, which ends are bevelled on which face, and its scarfs."""

import math
from collections.abc import Iterator, Sequence

from nesting.drawing import beside, bevels, edge_bevels, extents, height, reach, tape_in, trimmed_size, used_sheet
from nesting.joints import bevel_angle, glue_area
from nesting.model import Blank, BlankScarf, Plan

from .table import Cell, Column, LengthColumn, Table, as_csv, on_tape

MEMBER_COLUMNS = (
    Column("blank", "Blank"),
    Column("order", "Order"),
    Column("sheet", "Sheet"),
    Column("stock", "Stock"),
    LengthColumn("trimmed_length", "Trimmed length"),
    LengthColumn("trimmed_width", "Trimmed width"),
    LengthColumn("from_left", "From"),
    LengthColumn("to", "To"),
    LengthColumn("from_bottom", "Up from"),
    Column("left_end_bevel", "Left end bevel on"),
    Column("right_end_bevel", "Right end bevel on"),
    Column("lower_edge_bevel", "Lower edge bevel on"),
    Column("upper_edge_bevel", "Upper edge bevel on"),
    LengthColumn("finished_length", "Finished length"),
    LengthColumn("finished_width", "Finished width"),
    LengthColumn("diagonal", "Finished diagonal"),
)

SCARF_COLUMNS = (
    Column("scarf", "Scarf"),
    Column("runs", "Runs"),
    Column("left_sheet", "Left or lower sheet"),
    Column("right_sheet", "Right or upper sheet"),
    LengthColumn("middle", "Middle of lap at"),
    LengthColumn("line_on_good_face", "Line on good face at"),
    LengthColumn("line_on_back", "Line on back at"),
    LengthColumn("lap", "Lap"),
    Column("slope", "Slope, to 1"),
    Column("bevel_angle", "Bevel, degrees"),
    LengthColumn("width", "Width"),
    Column("glue_area_cm2", "Glue area, cm²"),
)


def blank_make_up(plan: Plan) -> str:
    """Return the sheets of all blanks as CSV."""
    return as_csv(make_up_table(plan.blanks, plan))


def blank_scarfs(plan: Plan) -> str:
    """Return the scarfs of all blanks as CSV."""
    return as_csv(scarf_table(plan.blanks, plan))


def make_up_table(blanks: Sequence[Blank], plan: Plan) -> Table:
    """Return the sheets of blanks, each blank's from its left end, good faces up."""
    rows = tuple(row for blank in blanks for row in _member_rows(blank, plan))
    return on_tape(Table(caption=f"Make-up of {_named(blanks)}", columns=MEMBER_COLUMNS, rows=rows), tape_in(plan))


def scarf_table(blanks: Sequence[Blank], plan: Plan) -> Table:
    """Return where the scarfs of blanks lie, from the left end of each, or up from its lower edge if they run along."""
    rows = tuple(_scarf_row(blank, scarf) for blank in blanks for scarf in blank.scarfs)
    return on_tape(Table(caption=f"Scarfs of {_named(blanks)}", columns=SCARF_COLUMNS, rows=rows), tape_in(plan))


def finished(blank: Blank, plan: Plan) -> str:
    """Return the size of a blank when it is glued, and the diagonal by which to check that it is square."""
    size, tape = extents(blank.outline, blank).size, tape_in(plan)
    diagonal = tape.figure(math.hypot(*size))
    return f"{tape.figures(*size)} {tape.unit} when glued; both diagonals {diagonal} {tape.unit} if it is square"


def _named(blanks: Sequence[Blank]) -> str:
    return ", ".join(blank.id for blank in blanks) or "blanks"


def _member_rows(blank: Blank, plan: Plan) -> Iterator[tuple[Cell, ...]]:
    size = extents(blank.outline, blank).size
    for number, member in enumerate(blank.members):
        measures = (*trimmed_size(member), *reach(member), height(member)[0])
        yield (
            blank.id,
            number + 1,
            member.used,
            used_sheet(plan, member.used).stock,
            *measures,
            *bevels(blank, number),
            *edge_bevels(blank, number),
            *size,
            math.hypot(*size),
        )


def _scarf_row(blank: Blank, scarf: BlankScarf) -> tuple[Cell, ...]:
    half, (before, after) = scarf.lap / 2, beside(blank, scarf)
    places = (scarf.at, scarf.at + half, scarf.at - half, scarf.lap)
    return (
        scarf.id,
        scarf.runs,
        ", ".join(before),
        ", ".join(after),
        *places,
        scarf.slope,
        round(bevel_angle(scarf.slope), 3),
        scarf.width,
        round(glue_area(scarf.width, scarf.thickness, scarf.slope) / 100, 1),
    )
