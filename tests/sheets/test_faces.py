"""Faults on one face do no harm to parts that don't show it."""

import pytest
from shapely.geometry import Polygon, box

from nesting.auditing import audit
from nesting.drawing import draw_sheet
from nesting.effort import Budget, Effort
from nesting.model import Job, PanelPiece, Plan
from nesting.planner import plan
from tests.jobs import PLY, job, panel

SPOT = [[600, 400], [800, 400], [800, 700], [600, 700]]


def spotted(side: str, shows: str) -> Job:
    """Return a job of one part as large as a trimmed sheet, whose sheet has a fault in its middle."""
    sheets = (
        {**PLY, "faults": [{"points": SPOT, "side": side}], "available": 1},
        {**PLY, "name": "clean", "price": 99},
    )
    return job(panel("bulkhead", 2420, 1200, shows=shows), sheets=sheets)


def made(asked: Job) -> Plan:
    """Return an audited plan."""
    found = plan(asked, effort=Effort(Budget(work=0)))
    assert audit(found, asked) == ()
    return found


@pytest.mark.parametrize(
    ("side", "shows", "harm"),
    [
        ("both", "none", True),
        ("both", "both", True),
        ("good", "good", True),
        ("good", "both", True),
        ("good", "none", False),
        ("back", "both", True),
        ("back", "good", False),
        ("back", "none", False),
    ],
)
def test_a_fault_harms_a_part_that_shows_its_face(side: str, shows: str, harm: bool) -> None:
    """Then the clean and dearer sheet is taken; else the part lies over the fault."""
    found = made(spotted(side, shows))
    assert [used.stock for used in found.used] == (["clean"] if harm else ["ply"])


def test_the_audit_tells_a_part_that_lies_over_a_fault_that_is_seen() -> None:
    """A plan made for a hidden back is wrong if the back is seen after all."""
    found = made(spotted("back", "good"))
    panels = (found.job.panels[0].model_copy(update={"shows": "both"}),)
    seen = found.model_copy(update={"job": found.job.model_copy(update={"panels": panels})})
    assert "on-fault" in {finding.code for finding in audit(seen)}


def test_parts_on_one_sheet_each_keep_off_what_they_show() -> None:
    """The part that shows its back lies beside the fault, the other may lie over it."""
    sheets = ({**PLY, "faults": [{"points": SPOT, "side": "back"}]},)
    asked = job(panel("seen", 1000, 500, quantity=2), panel("hidden", 1000, 400, shows="good"), sheets=sheets)
    pieces = [piece for piece in made(asked).pieces if isinstance(piece, PanelPiece)]
    spot = box(600, 400, 800, 700)
    assert all(Polygon(p.outline).intersection(spot).area < 1 for p in pieces if p.part == "seen")


def test_a_drawing_says_on_which_face_a_fault_is() -> None:
    """So that the sheet is laid the right way up; kept offcuts keep off every fault."""
    asked = job(panel("shelf", 500, 300), sheets=({**PLY, "faults": [{"points": SPOT, "side": "back"}]},))
    found = made(asked)
    assert "fault, back" in draw_sheet(found, "S1")
    assert all(Polygon(rest.outline).intersection(box(600, 400, 800, 700)).area == 0 for rest in found.offcuts)
