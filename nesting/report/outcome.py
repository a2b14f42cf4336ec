"""The plan in numbers: what it comes to, how good that is, and where the material went."""

from nesting.model import Plan

from .table import Cell, Column, Table

SCOPES = {
    "joined": "among plans that scarf sheets first and cut panels from the blanks",
    "divided": "among plans that cut each panel's pieces first and join them after",
    "any": "among all plans",
}


def verdict(plan: Plan) -> str:
    """Return what is proven about the plan, and by what."""
    totals, currency = plan.totals, plan.job.currency
    if totals.proven:
        return f"This is the proven minimum {SCOPES[totals.bound_scope]} ({totals.bound_reason})."
    return (
        f"It is not proven that this is the minimum: {SCOPES[totals.bound_scope]} none has an objective below "
        f"{totals.bound:.2f} {currency} ({totals.bound_reason}), and this one has {totals.objective:.2f} {currency}."
    )


def outcome_table(plan: Plan) -> Table:
    """Return counts and money."""
    totals, currency = plan.totals, plan.job.currency
    rows: list[tuple[Cell, ...]] = [
        ("Sheets used", totals.sheets),
        ("Lengths of timber used", totals.lengths),
        ("Joints in parts", totals.joints),
        *_blank_rows(plan),
        *_plank_rows(plan),
        (f"To pay, {currency}", totals.to_pay),
        (f"Joints, weighed in glue and time and not paid here, {currency}", totals.joint_cost),
        *_rack_rows(plan),
        (f"Value of kept offcuts, {currency}", totals.offcut_value),
        (f"Objective: to pay + joints {'+ rack ' if totals.rack_value else ''}- offcuts, {currency}", totals.objective),
        (f"Proven bound on the objective, {currency}", totals.bound),
    ]
    return Table(
        caption="Counts and money", columns=(Column("what", "What"), Column("figure", "Figure")), rows=tuple(rows)
    )


def _blank_rows(plan: Plan) -> list[tuple[Cell, ...]]:
    """Return counts of blanks, if there are any."""
    if not plan.blanks:
        return []
    return [("Blanks", len(plan.blanks)), ("Scarfs of blanks", plan.totals.scarfs_of_blanks)]


def _plank_rows(plan: Plan) -> list[tuple[Cell, ...]]:
    """Return counts of long planks, if there are any."""
    if not plan.long_planks:
        return []
    return [("Long planks", len(plan.long_planks)), ("Scarfs of long planks", plan.totals.scarfs_of_planks)]


def _rack_rows(plan: Plan) -> list[tuple[Cell, ...]]:
    """Return what is taken from the rack, if it is worth anything."""
    worth = plan.totals.rack_value
    return [(f"Worth of sheets from the rack, weighed and not paid, {plan.job.currency}", worth)] if worth else []


def area_table(plan: Plan) -> Table:
    """Return where the area of the used sheets went, square metres and percent."""
    areas = plan.totals.areas
    shares = [
        ("Parts", areas.parts),
        ("Laps of scarfs", areas.laps),
        *([("Straps behind butts", areas.straps)] if areas.straps else []),
        ("Trim", areas.trim),
        ("Kept offcuts", areas.offcuts),
        ("Rest: kerf (about), faults, scrap", areas.rest),
    ]
    return _share_table("Area of the used sheets", "Area, m²", shares, ("Used", areas.used), 1e6)


def timber_table(plan: Plan) -> Table:
    """Return where the length of the used timber went, metres and percent."""
    timber = plan.totals.timber
    shares = [
        ("Parts", timber.parts),
        ("Laps of scarfs", timber.laps),
        ("Kept offcuts", timber.offcuts),
        ("Rest: kerf and scrap", timber.rest),
    ]
    return _share_table("Length of the used timber", "Length, m", shares, ("Used", timber.used), 1e3)


def _share_table(
    caption: str, heading: str, shares: list[tuple[str, float]], whole: tuple[str, float], unit: float
) -> Table:
    columns = (Column("what", "What"), Column("amount", heading), Column("percent", "Percent"))
    rows = [
        (name, round(amount / unit, 3), round(100 * amount / whole[1], 1) if whole[1] else None)
        for name, amount in (*shares, whole)
    ]
    return Table(caption=caption, columns=columns, rows=tuple(rows))
