"""Offcuts that are worth something, in cases that can be worked by hand. One unit is 100 mm, values are of a metre."""

import pytest
from pydantic import ValidationError
from timber_jobs import job, length, planned, strip

from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.model import Length
from nesting.planner import plan


def test_a_longer_length_is_cheaper_for_what_is_left_of_it():
    """10 - 5 - 1 = 4 units are kept at 10 each: 100 - 40 < 62, and of 6 - 5 nothing is."""
    lengths = [length(10, 100, offcut_value=100), length(6, 62)]
    cost, share, bound = planned(job(lengths, [strip(5)], kerf=1, keep_length_from=400))
    assert cost == bound.amount == 60
    assert [(offcut.kept, offcut.value) for offcut in share.offcuts] == [(True, 40)]


def test_what_is_too_short_to_be_kept_is_worth_nothing():
    """Where 5 units are the least that is kept, the 4 that are left are worth nothing."""
    lengths = [length(10, 100, offcut_value=100), length(6, 62)]
    cost, _, bound = planned(job(lengths, [strip(5)], kerf=1, keep_length_from=500))
    assert cost == bound.amount == 62


def test_two_strips_are_cut_so_that_one_offcut_can_be_kept():
    """3 + 3 from one length leaves 4, which is kept; 3 from each of two would leave 7 twice, at 200 - 140."""
    cost, _, bound = planned(job([length(10, 100, offcut_value=100)], [strip(3, 2)], keep_length_from=400))
    assert cost == bound.amount == 60


def test_a_stretch_beyond_a_fault_is_kept_uncut():
    """The clear 4 beyond the fault are worth 40, whatever is cut from the 5 before it."""
    faulty = length(10, 100, offcut_value=100, faults=[[500, 600]])
    cost, share, bound = planned(job([faulty], [strip(5)], keep_length_from=400))
    assert cost == bound.amount == 60
    assert [(offcut.start, offcut.end) for offcut in share.offcuts] == [(600, 1000)]


def test_a_joint_leaves_one_long_offcut_rather_than_two_short_ones():
    """Two 10s make 14 with a lap of 2: 4 are left, all from one length if the joint stands right, or less than 4."""
    spruce = length(10, 100, offcut_value=50)
    cost, share, bound = planned(job([spruce], [strip(14, joint="scarf")], lap=2, least=3, keep_length_from=400))
    assert cost == bound.amount == 180
    assert sorted(piece.end - piece.start for piece in share.pieces) == [600, 1000]


def test_a_zone_that_forbids_the_one_long_offcut_costs_its_worth():
    """The joint must lie in 6..8: pieces of 7 to 9 leave no 4 in one, so nothing is kept and the bound knows it."""
    spruce = length(10, 100, offcut_value=50)
    asked = strip(14, joint="scarf", zones=[(3, 5.5), (8.5, 11)])
    cost, _, bound = planned(job([spruce], [asked], lap=2, least=3, keep_length_from=400))
    assert cost == bound.amount == 200


def test_each_offcut_is_worth_whole_cents_and_the_audit_works_them_out():
    """3.33 the metre: 700 mm are worth 2.33."""
    a_job = job([length(10, 100, offcut_value="3.33")], [strip(3)], keep_length_from=400)
    made = plan(a_job, effort=Effort(Budget(work=50)))
    assert str(made.offcuts[0].value) == "2.33"
    assert str(made.totals.objective) == str(made.totals.bound) == "97.67"
    assert audit(made, a_job) == ()
    (offcut,) = made.offcuts
    dearer = made.model_copy(update={"offcuts": (offcut.model_copy(update={"value": offcut.value + 1}),)})
    assert "offcut-value" in {finding.code for finding in audit(dearer, a_job)}


def test_a_plank_is_worth_no_more_in_sticks():
    """Both sticks of a plank keep half of its value: 6 and 10 units left at 5 each; the uncut stick is kept whole."""
    plank = length(10, 100, section=(103, 25), offcut_value=100)
    a_job = job([plank], [strip(4)], keep_length_from=400)
    workshop = a_job.workshop.model_copy(update={"kerf": a_job.workshop.kerf.model_copy(update={"rip": 3.0})})
    cost, share, bound = planned_without_check(a_job.model_copy(update={"workshop": workshop}))
    assert sorted(offcut.value for offcut in share.offcuts) == [30, 50]
    assert cost == bound.amount == 20


def planned_without_check(a_job):
    """Plan a job that is ripped, with the audit in place of the plain check."""
    made = plan(a_job, effort=Effort(Budget(work=50)))
    assert audit(made, a_job) == ()
    return made.totals.objective, made, type("Bound", (), {"amount": made.totals.bound})


def test_a_length_from_the_rack_costs_nothing_whatever_its_price():
    """It is not bought, so its price is not counted; 5 of 9 from the rack, 5 of 10 bought."""
    cost, _, bound = planned(job([length(10, 100), length(9, 80, source="rack", available=1)], [strip(5, 2)]))
    assert bound.amount == 100
    assert cost == 180  # the plain check counts all prices


@pytest.mark.parametrize(("more", "told"), [({"price": 1}, "more than its price"), ({"source": "rack"}, "leave")])
def test_offcuts_worth_more_than_their_length_are_refused(more, told):
    """Else lengths would be bought, or taken from the rack, for nothing but their offcuts."""
    with pytest.raises(ValidationError, match=told):
        Length(name="x", material="spruce", section=(50, 25), length=1000, offcut_value=2, **more)
