"""Jobs that cost least where one panel is divided and another cut from a blank."""

from decimal import Decimal

import pytest

from nesting.effort import Budget, Effort
from nesting.model import Job, Plan
from nesting.planner import plan
from tests.jobs import PLY, SCARF, job, panel

OFFCUT = {**PLY, "name": "offcut", "size": [820, 1070], "source": "rack", "available": 1, "price": "0.00"}


def asked(way: str) -> Job:
    """Return four sides of which a blank holds all, and a floor that nearly fills a sheet and hangs over its end."""
    return job(
        panel("side", 3600, 290, quantity=4, joint="scarf"),
        panel("floor", 3000, 1000, joint="scarf"),
        sheets=(PLY, OFFCUT),
        joints={"scarf": {**SCARF, "cost": {"each": "20.00", "per_m": "0.00"}}},
        workshop={"way": way, "longest_piece": 5000},
    )


def planned(way: str, work: int) -> Plan:
    """Return an audited plan."""
    return plan(asked(way), effort=Effort(Budget(work=work)))


def test_mixing_costs_less_than_either_way_alone() -> None:
    """By hand, sheets at 84, each joint or scarf 20 whatever its width; sheets leave 2420 x 1200, laps are 48.

    Sides: 2 x 2420 - 48 = 4792 holds one of 3600, and 4 x 290 + 3 x 3 = 1169 goes on 1200: a blank of two sheets and
    one scarf. By area (4 x 3.6 x 0.29 = 4.18 of 2 x 2.90 m2) they take two sheets in any way, and divided four joints.
    Floor: 2420 from a sheet and 3000 + 48 - 2420 = 628 from the free offcut of 800 x 1050, one joint. The offcut is no
    whole sheet and goes into no blank: that takes two sheets and a scarf, for beside the sides there is room for 4792 -
    3603 = 1189, and a third sheet would make that blank longer than can be handled.
    Divided 3 x 84 + 5 x 20 = 352, joined 4 x 84 + 2 x 20 = 376, mixed 3 x 84 + 2 x 20 = 292, which is proven.
    """
    made = planned("both", work=20_000)
    costs = {way.way: way.objective or Decimal("inf") for way in made.ways}
    assert costs.pop("mixed") == made.totals.objective == Decimal(292)
    assert costs["divided"] >= 352
    assert costs["joined"] >= 376
    assert made.totals.proven
    on_blanks = {piece.part for piece in made.pieces if piece.on in {blank.id for blank in made.blanks}}
    assert on_blanks == {"side"}
    assert {joint.part for joint in made.joints if joint.scarf is None} == {"floor"}
    assert {piece.on for piece in made.pieces} >= {used.id for used in made.used if used.stock == "offcut"}


@pytest.mark.parametrize(("way", "least"), [("divided", 352), ("joined", 376)])
def test_either_way_alone_costs_more(way: str, least: int) -> None:
    """The same sums, where the job allows but one way."""
    assert planned(way, work=4000).totals.objective == least
