"""What to buy."""

from decimal import Decimal

from nesting.drawing import Tape, tape_in
from nesting.model import Length, Plan, Purchase, Sheet, UsedLength, UsedSheet

from .stock import stock_of
from .table import Cell, Column, LengthColumn, Table, as_csv, on_tape

COLUMNS = (
    Column("stock", "Stock"),
    Column("supplier", "Supplier"),
    Column("kind", "Kind"),
    LengthColumn("size", "Size"),
    Column("count", "Count"),
    Column("spare", "Spare"),
    Column("price", "Price each"),
    Column("cost", "Cost"),
)


def shopping_list(plan: Plan) -> str:
    """Return the purchases as CSV, their total in the last row."""
    return as_csv(shopping_table(plan))


def shopping_table(plan: Plan) -> Table:
    """Return the purchases by supplier and kind with their total; money in the job's currency, spares not counted."""
    rows = sorted((_row(plan, purchase) for purchase in plan.purchases), key=_supplier_and_kind)
    count = sum(purchase.count for purchase in plan.purchases)
    total: tuple[Cell, ...] = ("total", "", "", "", count, None, None, plan.totals.to_pay)
    caption = f"Shopping list, prices in {plan.job.currency}"
    return on_tape(Table(caption=caption, columns=COLUMNS, rows=(*rows, total)), tape_in(plan))


def cost_of_spares(plan: Plan) -> Decimal:
    """Return what the spares that the job asks for cost beyond what is to pay."""
    with_spares = (_with_spares(plan, purchase) for purchase in plan.purchases)
    return sum((count * price for count, price in with_spares), Decimal(0)) - sum(p.cost for p in plan.purchases)


def spares(plan: Plan, purchase: Purchase) -> int:
    """Return how many of a stock to buy beyond what is paid for: as the job says, as far as there are any."""
    return _with_spares(plan, purchase)[0] - purchase.count


def more_than_used(plan: Plan) -> tuple[str, ...]:
    """Return where more is bought than is used, as in ``'5 of "ply" cost 260.00, the 4 used would cost 272.00'``."""
    return tuple(
        f'{purchase.count} of "{sheet.name}" cost {purchase.cost:.2f}, '
        f"the {used} used would cost {used * sheet.price_of_each(used):.2f}"
        for purchase, used in ((purchase, _used(plan, purchase)) for purchase in plan.purchases)
        if used < purchase.count and isinstance(sheet := stock_of(plan, purchase.stock), Sheet)
    )


def _with_spares(plan: Plan, purchase: Purchase) -> tuple[int, Decimal]:
    """Return how many to buy with the spares, and what each of them then costs."""
    stock = stock_of(plan, purchase.stock)
    wanted = _used(plan, purchase) + stock.spare
    return stock.bought_for(wanted if stock.available is None else min(wanted, stock.available))


def _used(plan: Plan, purchase: Purchase) -> int:
    """Return how many of what is bought are used."""
    return sum(used.stock == purchase.stock and _counts(used) for used in plan.used)


def from_the_rack(plan: Plan) -> tuple[str, ...]:
    """Return what is used but not bought, such as ``"S2: offcut of the last boat"``."""
    return tuple(f"{_name(used)}: {used.stock}" for used in plan.used if used.source == "rack" and _counts(used))


def _counts(used: UsedSheet | UsedLength) -> bool:
    return isinstance(used, UsedSheet) or used.is_first


def _name(used: UsedSheet | UsedLength) -> str:
    return used.id if isinstance(used, UsedSheet) else used.plank or used.id


def _row(plan: Plan, purchase: Purchase) -> tuple[Cell, ...]:
    stock = stock_of(plan, purchase.stock)
    kind, size = _kind_and_size(stock, tape_in(plan))
    spare = spares(plan, purchase) or None
    return (stock.name, stock.supplier or "", kind, size, purchase.count, spare, purchase.price, purchase.cost)


def _supplier_and_kind(row: tuple[Cell, ...]) -> tuple[str, bool]:
    return str(row[1]), row[2] != "sheet"


def _kind_and_size(stock: Sheet | Length, tape: Tape) -> tuple[str, str]:
    """Return what a stock is, and its size: of a sheet its thickness last, of timber its length last."""
    if isinstance(stock, Sheet):
        return "sheet", f"{tape.figures(*_length_and_width(stock))} × {tape.thickness(stock.thickness)}"
    return "length", tape.figures(*stock.section, stock.length)


def _length_and_width(sheet: Sheet) -> tuple[float, float]:
    """Return the size of a whole sheet, or of the rectangle round an offcut."""
    if sheet.outline is None:
        return sheet.size or (0.0, 0.0)
    xs, ys = [point[0] for point in sheet.outline.points], [point[1] for point in sheet.outline.points]
    return max(xs) - min(xs), max(ys) - min(ys)
