"""What the job would come to by each way of joining panels, and by which of them this plan joins."""

from nesting.model import Plan, Way

from .table import Cell, Column, Table

WORDS = {
    "joined": "Joined: sheets are scarfed into blanks, and panels cut from them.",
    "divided": "Divided: the pieces of each panel are cut, and then joined.",
    "mixed": "Mixed: some panels are joined, some divided.",
}


def chosen_way(plan: Plan) -> Way | None:
    """Return the way that this plan takes: of those told of, the first that comes to the same; None if none does."""
    return next((way for way in plan.ways if way.objective == plan.totals.objective), None)


def ways_table(plan: Plan) -> Table:
    """Return the ways that were tried; no row if none is told of."""
    columns = (
        Column("way", "Way"),
        Column("objective", f"Objective, {plan.job.currency}"),
        Column("chosen", "Chosen"),
        Column("told", "With"),
    )
    chosen = chosen_way(plan)
    rows = tuple(_row(way, way is chosen) for way in plan.ways)
    return Table(caption="Ways of joining panels, by the best plan found for each", columns=columns, rows=rows)


def ways_in_words(plan: Plan) -> str:
    """Return what the ways that are told of mean."""
    return " ".join(WORDS[way.way] for way in plan.ways)


def _row(way: Way, chosen: bool) -> tuple[Cell, ...]:
    objective: Cell = "no plan" if way.objective is None else way.objective
    return way.way, objective, "chosen" if chosen else "", way.told


PLANK_WORDS = {"ripped": "ripped first", "scarfed": "scarfed once, then ripped"}


def plank_ways_table(plan: Plan) -> Table:
    """Return what the timber of strips longer than planks would come to by each way of using these."""
    columns = (
        Column("strips", "Strips"),
        Column("way", "Planks"),
        Column("objective", f"Objective, {plan.job.currency}"),
        Column("told", "With"),
    )
    rows = tuple(
        (", ".join(way.strips), PLANK_WORDS[way.way], "no plan" if way.objective is None else way.objective, way.told)
        for way in plan.plank_ways
    )
    return Table(caption="Ways of using planks, the cheaper taken", columns=columns, rows=rows)
