"""Sheets and offcuts on the rack compete with new sheets at what they are worth."""

from decimal import Decimal
from pathlib import Path

import pytest

from benchmarks.verification import faults
from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.model import Plan
from nesting.planner import plan
from nesting.report import report_files
from tests.jobs import PLY, job, panel

#: Sold for 15: a third of a sheet.
THIRD = {**PLY, "name": "third", "size": [1220, 800], "price": "15.00"}


def planned(worth: str) -> Plan:
    """Return a plan of a seat from a new third of a sheet, or from one offcut of so much worth."""
    corners = [[0, 0], [1300, 0], [1300, 500], [500, 700], [0, 700]]
    offcut = {**PLY, "name": "offcut", "outline": {"points": corners}, "source": "rack", "available": 1, "price": worth}
    del offcut["size"]
    return plan(job(panel("seat", 900, 300), sheets=(THIRD, offcut)), effort=Effort(Budget(work=200)))


@pytest.mark.parametrize(("worth", "stock"), [("0.00", "offcut"), ("14.99", "offcut"), ("15.01", "third")])
def test_the_offcut_is_taken_where_it_is_worth_less_than_the_sheet(worth: str, stock: str, tmp_path: Path) -> None:
    """What is weighed is not paid, and the bound holds for both together."""
    made = planned(worth)
    assert [used.stock for used in made.used] == [stock]
    assert made.totals.to_pay == (0 if stock == "offcut" else 15)
    assert made.totals.rack_value == (Decimal(worth) if stock == "offcut" else 0)
    assert made.totals.objective == made.totals.to_pay + made.totals.rack_value == made.totals.bound
    (tmp_path / "plan.json").write_text(made.model_dump_json())
    assert not faults(tmp_path / "plan.json")


def test_the_page_tells_what_the_offcut_is_worth() -> None:
    """Beside what is to pay."""
    page = report_files(planned("14.99"))["index.html"]
    assert "Worth of sheets from the rack, weighed and not paid, EUR" in page
    assert "Objective: to pay + joints + rack - offcuts, EUR" in page


def test_the_audit_adds_up_what_comes_from_the_rack(tmp_path: Path) -> None:
    """A plan that forgets it is found out twice."""
    made = planned("14.99")
    totals = made.totals.model_copy(update={"rack_value": Decimal(0), "objective": Decimal(0), "bound": Decimal(0)})
    wrong = made.model_copy(update={"totals": totals})
    assert {finding.where for finding in audit(wrong, made.job)} >= {"totals, rack_value", "totals, objective"}
    (tmp_path / "plan.json").write_text(wrong.model_dump_json())
    assert "the objective does not add up" in faults(tmp_path / "plan.json")
