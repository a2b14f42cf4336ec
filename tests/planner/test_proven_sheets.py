"""Long panels whose number of sheets is proven: bound and plan meet."""

from typing import Any

import pytest

from nesting.effort import Budget, Effort
from nesting.model import Job, Plan
from nesting.planner import plan
from tests.jobs import PLY, job

#: Glue costs nothing, so that the objective is sheets alone: then bound and plan can meet to the cent.
FREE = {"slope": 8, "least_piece": 450}


def tapering(name: str, length: float, widths: tuple[float, float], quantity: int) -> dict[str, Any]:
    """Return a panel with a straight edge and one that narrows evenly."""
    first, last = widths
    points = [(0, 0), (length, 0), (length, last), (0, first)]
    made = {"material": "gaboon", "thickness": 6, "quantity": quantity, "joint": "scarf"}
    return {"name": name, "outline": {"points": points}, **made}


def planned(panel: dict[str, Any]) -> Plan:
    """Return an audited plan, divided, of sheets at 100 each sawn with a kerf of 6."""
    asked: Job = job(
        panel, sheets=({**PLY, "price": "100.00"},), workshop={"kerf": 6, "way": "divided"}, joints={"scarf": FREE}
    )
    return plan(asked, effort=Effort(Budget(work=2500)))


@pytest.mark.parametrize(
    "panel",
    [tapering("bottom", 3600, (640, 612), 2), tapering("side", 4100, (432, 415), 4)],
    ids=["two bottoms", "four sides"],
)
def test_the_sheets_of_wide_panels_are_proven(panel: dict[str, Any]) -> None:
    """Of bottoms one goes abreast, of sides two: four sheets, where area alone asks for two and three (computed)."""
    totals = planned(panel).totals
    assert (totals.sheets, totals.bound, totals.proven) == (4, 400, True)
