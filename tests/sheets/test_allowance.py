"""Wood left outside the line, and laps from the thickness as measured."""

import itertools

import pytest
from shapely.geometry import Polygon, box

from nesting.auditing import audit
from nesting.bounds import sheets_bound
from nesting.effort import Budget, Effort
from nesting.model import PanelPiece
from nesting.planner import plan
from tests.jobs import PLY, job, panel


def test_an_allowance_is_part_of_every_gap() -> None:
    """Two allowances of 2 and a kerf of 3 between parts, one to the trimmed edge and to the fault."""
    faulty = {**PLY, "faults": [{"points": [[1200, 600], [1300, 600], [1300, 700], [1200, 700]]}]}
    asked = job(panel("shelf", 700, 280, quantity=8), sheets=(faulty,), workshop={"allowance": 2})
    made = plan(asked, effort=Effort(Budget(work=0)))
    shapes = [Polygon(piece.outline) for piece in made.pieces if isinstance(piece, PanelPiece)]
    assert min(a.distance(b) for a, b in itertools.combinations(shapes, 2)) >= 7 - 0.001
    assert all(box(12, 12, 2428, 1208).buffer(0.001).covers(shape) for shape in shapes)
    assert all(shape.distance(box(1200, 600, 1300, 700)) >= 2 - 0.001 for shape in shapes)
    assert audit(made, asked) == ()


def test_an_audit_finds_parts_that_leave_no_allowance() -> None:
    """The same layout is sound without an allowance and not with one."""
    made = plan(job(panel("shelf", 700, 280, quantity=8)), effort=Effort(Budget(work=0)))
    workshop = made.job.workshop.model_copy(update={"allowance": 2.0})
    damaged = made.model_copy(update={"job": made.job.model_copy(update={"workshop": workshop})})
    assert {"kerf-too-small", "outside-sheet"} <= {finding.code for finding in audit(damaged)}


def test_an_allowance_shortens_the_longest_piece_and_can_cost_a_joint() -> None:
    """4780 with laps of 48 from 2420 takes one joint: 2 x 2420 - 48 = 4792; an allowance of 5 leaves 2410: 4772."""
    side = panel("side", 4780, 200, joint="scarf")
    assert plan(job(side), effort=Effort(Budget(work=0))).totals.joints == 1
    assert plan(job(side, workshop={"allowance": 5}), effort=Effort(Budget(work=0))).totals.joints == 2


@pytest.mark.parametrize(("measured", "lap"), [(None, 48.0), (5.6, 44.8)])
def test_laps_follow_the_measured_thickness(measured: float | None, lap: float) -> None:
    """8 x 5.6 = 44.8, not 48 (the rule of taking the lap from the measured value: a merchant's report)."""
    asked = job(panel("side", 3600, 200, joint="scarf"), sheets=({**PLY, "measured": measured},))
    made = plan(asked, effort=Effort(Budget(work=0)))
    assert made.joints[0].lap == pytest.approx(lap)
    assert made.joints[0].thickness == (measured or 6)
    assert audit(made, asked) == ()


def test_a_panel_that_several_sheets_may_serve_takes_the_lap_of_the_thickest() -> None:
    """A lap long enough on all; the bound reckons with the shortest."""
    thin = {**PLY, "name": "thin", "measured": 5.5}
    asked = job(panel("side", 3600, 200, quantity=2, joint="scarf"), sheets=(PLY, thin))
    made = plan(asked, effort=Effort(Budget(work=0)))
    assert {joint.lap for joint in made.joints} == {48.0}
    assert sheets_bound(asked).amount <= made.totals.objective
    assert audit(made, asked) == ()
