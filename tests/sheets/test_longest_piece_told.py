"""Where what can be handled is in the way, that is told, with the least ``longest_piece`` that helps."""

import re
from typing import Any

import pytest

from nesting.effort import Budget, Effort
from nesting.model import Job, NoPlanError, Plan
from nesting.planner import plan
from tests.jobs import SCARF, job, panel


def side(longest: float, way: str, length: float = 3600, width: float = 300, **more: Any) -> Job:
    """Return a job of one side from sheets of which each leaves 2420 x 1200, where so much can be handled."""
    own = panel("side", length, width, joint="scarf", **more)
    return job(own, workshop={"way": way, "longest_piece": longest})


def neighbours(longest: float, shift: float = 250) -> Job:
    """Return a job of two panels from blanks, each with its joint from 2304 to 2396 on one of two sheets."""
    panels = [panel(name, 4700, 200, joint="scarf") for name in ("bilge", "sheer")]
    pair = [{"between": ["bilge", "sheer"], "shift": shift}]
    return job(*panels, neighbours=pair, workshop={"way": "joined", "longest_piece": longest})


def planned(asked: Job) -> Plan:
    """Return an audited plan within a small budget."""
    return plan(asked, effort=Effort(Budget(work=50)))


def told(asked: Job) -> str:
    """Return why there is no plan."""
    with pytest.raises(NoPlanError) as error:
        planned(asked)
    return str(error.value)


def longest_told(message: str) -> int:
    """Return the ``longest_piece`` that is said to help."""
    (told,) = re.findall(r"raise longest_piece to (\d+) ", message, re.IGNORECASE)
    return int(told)


def test_a_blank_that_cannot_be_handled_is_told_with_its_length() -> None:
    """By hand: 3600 on one and a half sheets, 2420 + (2420 - 3) / 2 - 48 = 3580.5, falls short; two: 4792."""
    assert "Or raise longest_piece to 4792 (now 4700)." in told(side(4700, "joined"))
    assert planned(side(4792, "joined")).blanks
    assert "raise longest_piece to 4792" in told(side(4791, "joined"))


def test_of_sheets_cut_across_a_shorter_blank_may_do() -> None:
    """By hand: 3500 lies on 2420 + 1208.5 - 48 = 3580.5."""
    assert longest_told(told(side(3000, "joined", length=3500))) == 3581
    assert planned(side(3581, "joined", length=3500)).blanks


def test_where_no_longer_blank_helps_none_is_told() -> None:
    """A zone over all but the ends, and pieces of 4000 can be handled: no blank would do, however long."""
    assert "longest_piece" not in told(side(4000, "joined", no_joint=[[400, 3200]]))


def test_a_panel_wider_than_any_sheet_is_told_how_long_its_blank_is() -> None:
    """3000 x 1500 needs two rows, and one and a half sheets in each."""
    message = told(side(2900, "both", length=3000, width=1500))
    assert "Add a wider sheet, or raise longest_piece to 3581 (now 2900)." in message
    assert planned(side(3581, "both", length=3000, width=1500)).blanks


def test_a_panel_in_one_piece_is_told_its_own_length() -> None:
    """2100 where 2000 can be handled."""
    message = told(job(panel("shelf", 2100, 300), workshop={"longest_piece": 2000}))
    assert "or raise longest_piece to 2100." in message


@pytest.mark.parametrize(
    ("longest", "says"),
    [
        (1500, "raise longest_piece to 2310 (now 1500), with 1 joint"),
        (2200, "raise longest_piece to 2310 (now 2200), with 1 joint"),
    ],
)
def test_a_divided_panel_is_told_what_has_to_be_handled(longest: float, says: str) -> None:
    """By hand: 4000 with one joint, none from 1700 to 2262: at 2286 or 1676, so pieces of 2310 or 2348 with the lap."""
    message = told(side(longest, "divided", length=4000, most_joints=1, no_joint=[[1700, 2262]]))
    assert says in message
    assert planned(side(2310, "divided", length=4000, most_joints=1, no_joint=[[1700, 2262]])).joints


def test_where_sheets_are_too_short_as_well_both_are_told() -> None:
    """By hand: 4900 with one joint amidships takes two pieces of 2474, sheets give 2420, and 2000 can be handled."""
    message = told(side(2000, "divided", length=4900, most_joints=1))
    assert "offer a sheet that gives a piece of 2474 (now 2420) and raise longest_piece to 2474 (now 2000)" in message


def test_neighbours_on_blanks_too_short_for_their_shift_are_told_a_length() -> None:
    """By hand: on 2 x 2420 + 1208.5 - 2 x 48 = 5952.5 one may lie across both scarfs; that length does, no less."""
    message = told(neighbours(5000))
    assert longest_told(message) == 5953
    assert planned(neighbours(5953)).blanks
    assert longest_told(told(neighbours(5952))) == 5953


def test_neighbours_that_are_divided_are_told_what_has_to_be_handled() -> None:
    """By hand: either joint lies from 2384 to 2396; at 2384 + 250 = 2634 it takes a piece of 2634 + 24."""
    panels = [panel(name, 4780, 300, joint="scarf") for name in ("bilge", "sheer")]
    asked = job(
        *panels,
        neighbours=[{"between": ["bilge", "sheer"], "shift": 250}],
        joints={"scarf": {**SCARF, "least_piece": 1600}},
        workshop={"way": "divided", "longest_piece": 2420},
    )
    message = told(asked)
    for name in ("bilge", "sheer"):
        sheet = "offer a sheet that gives a piece of 2658 (now 2420)"
        assert f'{sheet} and raise longest_piece to 2658 (now 2420) for "{name}"' in message
