"""A plan of a panel wider than any sheet, made by the planner: four members from three sheets, scarfed both ways."""

from functools import cache

from nesting.effort import Budget, Effort
from nesting.model import Plan
from nesting.planner import plan
from tests.jobs import job, panel


@cache
def wide_plan() -> Plan:
    """Return a floor 4300 x 1500 from two whole sheets and two thirds of a third, of which a cleat gets the rest."""
    asked = job(panel("floor", 4300, 1500, joint="scarf"), panel("cleat", 2300, 200), workshop={"way": "joined"})
    made = plan(asked, effort=Effort(Budget(work=300)))
    assert [round(member.outline[0][0]) for member in made.blanks[0].members] == [2430] * 4
    return made
