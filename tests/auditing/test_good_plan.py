"""What the audit says of a plan that is right."""

import math
from decimal import Decimal

import pytest

from nesting.auditing import audit
from nesting.model import Outline, SheetOffcut
from tests.auditing.good_plan import good_job, good_plan, moved, with_item, with_panel, with_sheet, with_totals


def codes(plan, job=None):
    """Return the codes of all findings."""
    return {finding.code for finding in audit(plan, job)}


def circle(radius, corners):
    """Return the corners of a polygon inscribed in a circle about (radius, 0)."""
    angles = [2 * math.pi * k / corners for k in range(corners)]
    return tuple((radius + radius * math.cos(a), radius * math.sin(a)) for a in angles)


def test_nothing_is_wrong_with_a_good_plan():
    """A plan that keeps every rule has no findings, with and without the job beside it."""
    assert audit(good_plan()) == ()
    assert audit(good_plan(), good_job()) == ()


def test_a_plan_read_back_from_its_file_is_still_good():
    """Nothing is lost through JSON."""
    plan = good_plan()
    assert audit(type(plan).model_validate_json(plan.model_dump_json()), good_job()) == ()


def test_stock_from_the_rack_may_have_been_added_to_the_job():
    """A plan's job has the rack merged in; the job as asked does not know of it."""
    job = good_job()
    asked = job.model_copy(update={"sheets": job.sheets[:1]})
    assert codes(good_plan(), asked) == set()


def test_what_is_bought_may_not_have_been_added_to_the_job():
    """A kind of sheet that was never offered can't be planned with."""
    job = good_job()
    asked = job.model_copy(update={"sheets": job.sheets[1:]})
    assert codes(good_plan(), asked) == {"another-job"}


def test_a_repeated_corner_of_the_asked_outline_does_no_harm():
    """The plan holds cleaned outlines: the same shape from other points is the same outline."""
    plan = good_plan()
    side = plan.job.panels[0]
    points = (*side.outline.points[:1], (1500.0, 0.0), *side.outline.points[1:])
    asked = with_panel(plan, "side", outline=Outline(points=points)).job
    assert codes(plan, asked) == set()


@pytest.mark.parametrize(("corners", "same"), [(64, True), (32, False)])
def test_arcs_may_become_chords_within_the_sag_of_the_contract(corners, same):
    """A disc 40 across: 64 chords are 0.024 from it, 32 chords 0.096, and 0.05 is allowed."""
    disc = Outline(points=((40.0, 0.0, 1.0), (0.0, 0.0, 1.0)))
    planned = with_panel(good_plan(), "transom", outline=Outline(points=circle(20, corners)))
    asked = with_panel(good_plan(), "transom", outline=disc).job
    assert ("another-job" not in codes(planned, asked)) is same


def test_grades_may_be_better_than_asked():
    """An exterior part may be cut from a marine sheet."""
    assert codes(with_sheet(good_plan(), "old", grade="marine")) == set()


def test_a_piece_may_touch_a_fault_and_the_edge():
    """The transom moved until it touches the knot on one side: to touch is no harm."""
    assert codes(moved(good_plan(), "transom-1-1", 140, 0)) == set()
    assert codes(moved(good_plan(), "transom-1-1", -10, -20)) == set()


def test_a_lap_may_touch_a_no_joint_zone():
    """The lap of the side runs from 1776 to 1824."""
    assert codes(with_panel(good_plan(), "side", no_joint=((1000, 1776), (1824, 2000)))) == set()


def test_a_part_of_any_grain_may_lie_as_it_likes():
    """The transom lies at 90 degrees."""
    assert codes(with_panel(good_plan(), "transom", grain="any")) == set()


def test_a_bound_that_meets_the_objective_is_a_proof():
    """Proven goes with a bound that is the objective."""
    assert codes(with_totals(good_plan(), bound=Decimal("208.72"), proven=True)) == set()


def test_a_width_may_be_rounded_to_a_hundredth():
    """The joint's width is told for the bench, not for arithmetic."""
    assert codes(with_item(good_plan(), "joints", "side-1/J1", width=260.004)) == set()


def test_scrap_may_be_told_as_it_lies():
    """What is not kept has to meet no rule, and counts for nothing."""
    scrap = SheetOffcut(on="S1", outline=((1840.0, 10.0), (1850.0, 10.0), (1850.0, 20.0)), kept=False, value=Decimal(5))
    plan = good_plan()
    assert codes(plan.model_copy(update={"offcuts": (*plan.offcuts, scrap)})) == set()
