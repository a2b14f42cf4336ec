"""What the stock of a plan is: looked up by name, and by the piece that is cut from it."""

from nesting.drawing import SheetPiece, once_for_a_plan
from nesting.model import Length, Plan, Sheet, StripPiece


def stock_of(plan: Plan, name: str) -> Sheet | Length:
    """Return a kind of sheet or timber by its name."""
    stocks: list[Sheet | Length] = [*plan.job.sheets, *plan.job.lengths]
    return next(stock for stock in stocks if stock.name == name)


def sheets_under(plan: Plan, piece: SheetPiece) -> tuple[Sheet, ...]:
    """Return the kinds of sheet that a piece is cut from: one, or those of the blank that it lies on."""
    members = [member.used for blank in plan.blanks if blank.id == piece.on for member in blank.members]
    found = (stock_of(plan, _stocks(plan)[name]) for name in members or [piece.on])
    return tuple(stock for stock in found if isinstance(stock, Sheet))


def length_of(plan: Plan, name: str) -> Length:
    """Return a kind of timber by its name."""
    return next(length for length in plan.job.lengths if length.name == name)


def length_under(plan: Plan, piece: StripPiece) -> Length:
    """Return the kind of timber that a piece of a strip is cut from."""
    return length_of(plan, _stocks(plan)[piece.on])


@once_for_a_plan
def _stocks(plan: Plan) -> dict[str, str]:
    """Return the name of the stock of each sheet, length and stick of a long plank by its id."""
    stocks = {used.id: used.stock for used in plan.used}
    of_sticks = {s.id: stocks[plank.members[0].used] for plank in plan.long_planks for s in plank.sticks}
    return stocks | of_sticks
