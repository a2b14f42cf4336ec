"""What to buy."""

from nesting.drawing import by
from nesting.model import Plan, Purchase, Sheet, UsedLength, UsedSheet

from .table import Cell, Column, Table, as_csv

COLUMNS = (
    Column("stock", "Stock"),
    Column("kind", "Kind"),
    Column("size", "Size, mm"),
    Column("count", "Count"),
    Column("price", "Price each"),
    Column("cost", "Cost"),
)


def shopping_list(plan: Plan) -> str:
    """Return the purchases as CSV, their total in the last row."""
    return as_csv(shopping_table(plan))


def shopping_table(plan: Plan) -> Table:
    """Return the purchases with their total; money in the job's currency."""
    rows = [_row(plan, purchase) for purchase in plan.purchases]
    count = sum(purchase.count for purchase in plan.purchases)
    total: tuple[Cell, ...] = ("total", "", "", count, None, plan.totals.to_pay)
    return Table(caption=f"Shopping list, prices in {plan.job.currency}", columns=COLUMNS, rows=(*rows, total))


def from_the_rack(plan: Plan) -> tuple[str, ...]:
    """Return what is used but not bought, such as ``"S2: offcut of the last boat"``."""
    return tuple(f"{_name(used)}: {used.stock}" for used in plan.used if used.source == "rack" and _counts(used))


def _counts(used: UsedSheet | UsedLength) -> bool:
    return isinstance(used, UsedSheet) or used.is_first


def _name(used: UsedSheet | UsedLength) -> str:
    return used.id if isinstance(used, UsedSheet) else used.plank or used.id


def _row(plan: Plan, purchase: Purchase) -> tuple[Cell, ...]:
    kind, size = _kind_and_size(plan, purchase.stock)
    return (purchase.stock, kind, size, purchase.count, purchase.price, purchase.cost)


def _kind_and_size(plan: Plan, stock: str) -> tuple[str, str]:
    """Return what a stock is, and its size: of a sheet its thickness last, of timber its length last."""
    for sheet in plan.job.sheets:
        if sheet.name == stock:
            return "sheet", by(*_length_and_width(sheet), sheet.thickness)
    for length in plan.job.lengths:
        if length.name == stock:
            return "length", by(*length.section, length.length)
    return "", ""


def _length_and_width(sheet: Sheet) -> tuple[float, float]:
    """Return the size of a whole sheet, or of the rectangle round an offcut."""
    if sheet.outline is None:
        return sheet.size or (0.0, 0.0)
    xs, ys = [point[0] for point in sheet.outline.points], [point[1] for point in sheet.outline.points]
    return max(xs) - min(xs), max(ys) - min(ys)
