"""What is left over and worth keeping."""

from nesting.drawing import container, extents, tape_in
from nesting.model import LengthOffcut, Plan, SheetOffcut

from .table import Cell, Column, LengthColumn, Table, on_tape


def leftover_table(plan: Plan) -> Table:
    """Return the offcuts that are kept, with where they lie and what they are held to be worth."""
    columns = (
        Column("on", "On"),
        LengthColumn("size", "Greatest size"),
        LengthColumn("from_left", "From left"),
        LengthColumn("from_bottom", "From bottom"),
        Column("value", f"Value, {plan.job.currency}"),
    )
    rows = tuple(_row(plan, offcut) for offcut in plan.offcuts if offcut.kept)
    return on_tape(Table(caption="Offcuts to keep", columns=columns, rows=rows), tape_in(plan))


def _row(plan: Plan, offcut: SheetOffcut | LengthOffcut) -> tuple[Cell, ...]:
    if isinstance(offcut, LengthOffcut):
        return (offcut.on, tape_in(plan).figure(offcut.end - offcut.start), offcut.start, None, offcut.value)
    place = extents(offcut.outline, container(plan, offcut.on))
    return (offcut.on, tape_in(plan).figures(*place.size), place.left, place.bottom, offcut.value)
