"""The search for sheet goods, from a job to shares of plans."""

from decimal import Decimal

import pytest

from nesting.effort import Budget, Effort
from nesting.model import Job, NoPlanError, Share
from nesting.sheets import sheet_plans
from tests.jobs import PLY, job, panel


def shares(asked: Job, work: int = 200, seed: int = 0) -> list[Share]:
    """Return all shares that a search yields."""
    return list(sheet_plans(asked, seed=seed, effort=Effort(Budget(work=work))))


def refusal(asked: Job) -> str:
    """Return what a job that can't be planned is told."""
    with pytest.raises(NoPlanError) as error:
        shares(asked)
    return str(error.value)


def test_a_job_without_panels_needs_no_sheet() -> None:
    """An empty share, at once."""
    strip = {"name": "keel", "material": "spruce", "section": [45, 20], "length": 900}
    assert shares(job(strips=[strip])) == [Share()]


def test_the_same_seed_and_work_give_the_same_share() -> None:
    """To the last digit."""
    asked = job(
        panel("a", 900, 400, quantity=5), panel("b", 700, 333, quantity=4), panel("c", 3000, 250, joint="scarf")
    )
    assert shares(asked, work=600, seed=3) == shares(asked, work=600, seed=3)


def test_eight_quarters_take_two_sheets() -> None:
    """Four 1208 x 598 fit a trimmed sheet with one kerf each way: 2 x 1208 + 3 <= 2420, 2 x 598 + 3 <= 1200."""
    (share, *_) = shares(job(panel("quarter", 1208, 598, quantity=8)))
    assert len(share.used) == 2


def test_a_divided_panel_has_a_joint_for_each_copy() -> None:
    """Two copies of one joint each; the pieces are named low station first."""
    *_, share = shares(job(panel("side", 3600, 300, quantity=2, joint="scarf", handed=True)))
    assert [(j.part, j.copy_number, j.pieces) for j in share.joints] == [
        ("side", 1, ("side-1-1", "side-1-2")),
        ("side", 2, ("side-2-1", "side-2-2")),
    ]
    assert {piece.hand for piece in share.pieces} == {"port", "starboard"}
    assert share.joints[0].cost == Decimal("3.80")


def test_an_offcut_on_the_rack_is_used_before_anything_is_bought() -> None:
    """It costs nothing."""
    offcut = {
        "name": "rest",
        "material": "gaboon",
        "thickness": 6,
        "outline": {"rectangle": [800, 500]},
        "available": 1,
        "source": "rack",
    }
    (share, *_) = shares(job(panel("seat", 700, 400), sheets=(PLY, offcut)))
    assert [used.stock for used in share.used] == ["rest"]


def test_no_sheet_of_that_thickness_names_what_is_there() -> None:
    """The nearest sheets of the job are listed."""
    told = refusal(job({**panel("shelf", 300, 200), "thickness": 9}))
    assert 'panel "shelf": there is no sheet of gaboon 9 mm' in told
    assert "gaboon 6 mm" in told


def test_no_sheet_of_that_grade_names_the_grades_there_are() -> None:
    """Poorer ones do not serve."""
    asked = job(
        panel("side", 300, 200, grade="marine"), sheets=({**PLY, "grade": "exterior"},), grades=["exterior", "marine"]
    )
    assert 'grade "marine" or better' in refusal(asked)
    assert "exterior" in refusal(asked)


def test_a_part_larger_than_any_sheet_with_no_joint_is_refused_with_its_size() -> None:
    """And with what the sheet leaves after trimming."""
    told = refusal(job(panel("side", 3000, 300)))
    assert "3000.0 x 300.0" in told
    assert "2420 x 1200" in told
    assert "Give it a joint" in told


def test_zones_that_leave_no_station_say_what_would_help() -> None:
    """3900 long, 2420 usable, zone 1400 to 2420 and a least piece of 1200: no one joint, no two (computed)."""
    asked = job(
        panel("deck", 3900, 300, joint="scarf", no_joint=[[1400, 2450]]),
        joints={"scarf": {"slope": 8, "least_piece": 1400}},
    )
    told = refusal(asked)
    assert "leave no station for a joint" in told
    assert "Any one of these helps: " in told
    assert "offer a sheet that gives a piece of 2498 (now 2420), with 1 joint" in told


def test_a_panel_wider_than_any_sheet_is_refused_with_its_width() -> None:
    """Joints across it don't make it narrower; only blanks may be joined along."""
    divided = {"way": "divided"}
    told = refusal(job(panel("floor", 3000, 1300, joint="scarf"), workshop=divided))
    assert "1300.0 high over all" in told
    assert 'write way = "both"' in told
    assert 'kind = "scarf"' in refusal(job(panel("floor", 3000, 1300, joint="butt")))


def test_shifts_that_cannot_be_kept_are_named() -> None:
    """Two panels whose only window is narrower than the shift."""
    asked = job(
        panel("bilge", 4700, 300, joint="scarf"),
        panel("sheer", 4700, 300, joint="scarf"),
        neighbours=[{"between": ["bilge", "sheer"], "shift": 1500}],
        joints={"scarf": {"slope": 8, "least_piece": 1500}},
    )
    assert 'joints of "bilge" and "sheer" are 1500 apart' in refusal(asked)


def test_stock_that_runs_out_says_which_part_has_no_room() -> None:
    """Nine quarters on two sheets: one is left over."""
    told = refusal(job(panel("quarter", 1208, 598, quantity=9), sheets=({**PLY, "available": 2},)))
    assert 'panel "quarter": stock ran out: 1 of its pieces' in told
