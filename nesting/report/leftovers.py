"""What is left over and worth keeping."""

from nesting.drawing import by, container, extents
from nesting.model import LengthOffcut, Plan, SheetOffcut

from .table import Cell, Column, Table


def leftover_table(plan: Plan) -> Table:
    """Return the offcuts that are kept, with where they lie and what they are held to be worth."""
    columns = (
        Column("on", "On"),
        Column("size", "Greatest size, mm"),
        Column("from_left", "From left, mm"),
        Column("from_bottom", "From bottom, mm"),
        Column("value", f"Value, {plan.job.currency}"),
    )
    rows = tuple(_row(plan, offcut) for offcut in plan.offcuts if offcut.kept)
    return Table(caption="Offcuts to keep", columns=columns, rows=rows)


def _row(plan: Plan, offcut: SheetOffcut | LengthOffcut) -> tuple[Cell, ...]:
    if isinstance(offcut, LengthOffcut):
        return (offcut.on, by(offcut.end - offcut.start), round(offcut.start, 1), None, offcut.value)
    place = extents(offcut.outline, container(plan, offcut.on))
    return (offcut.on, by(*place.size), round(place.left, 1), round(place.bottom, 1), offcut.value)
