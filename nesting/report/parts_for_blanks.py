"""What of a sheet goes into blanks: cut from it before anything is scarfed."""

from nesting.drawing import Container, extents, parts_of_blanks, tape_in
from nesting.model import Plan

from .table import Column, LengthColumn, Table, on_tape

COLUMNS = (
    Column("part", "Part"),
    LengthColumn("length", "Length"),
    LengthColumn("width", "Width"),
    LengthColumn("from_left", "From left"),
    LengthColumn("from_bottom", "From bottom"),
)


def parts_table(plan: Plan, on: Container) -> Table:
    """Return the parts for blanks on a sheet, with their size and where they lie; no row on a blank."""
    rows = []
    for number, (blank, member) in enumerate(parts_of_blanks(plan, on.id), 1):
        place = extents(member.outline, on)
        rows.append((f"{number}, for blank {blank.id}", *place.size, place.left, place.bottom))
    return on_tape(Table(caption=f"Parts of {on.id} for blanks", columns=COLUMNS, rows=tuple(rows)), tape_in(plan))
