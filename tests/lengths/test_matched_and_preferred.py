"""Matched strips, better places for joints, long offcuts: cases that can be worked by hand. One unit is 100 mm."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from timber_jobs import check, job, length, planned, strip

from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.lengths import plan_lengths
from nesting.model import JobError, NoPlanError
from nesting.planner import plan

LAPPED = {"lap": 2, "least": 2, "cost": 5}


def stations(share):
    """Return the stations of each copy's joints."""
    copies = sorted({(joint.part, joint.copy_number) for joint in share.joints})
    return {
        copy: sorted(joint.station for joint in share.joints if (joint.part, joint.copy_number) == copy)
        for copy in copies
    }


def test_matched_strips_have_their_joints_at_the_same_stations():
    """Two of 14 from 8s and 10s: two 8s and a joint for each hand, or unlike ones; the joints agree."""
    lengths = [length(8, 80), length(10, 96, available=1)]
    cost, share, bound = planned(job(lengths, [strip(14, 2, "scarf", matched=True)], **LAPPED))
    one, other = stations(share).values()
    assert one == other
    assert cost == bound.amount == 330


def test_both_hands_may_share_a_length():
    """12 and 12 are 10 + 4 and 10 + 4, both 4s from one 8: matched, and as cheap as if they were not."""
    lengths = [length(10, 100), length(8, 80)]
    cost, share, bound = planned(job(lengths, [strip(12, 2, "scarf", matched=True)], **LAPPED))
    assert cost == bound.amount == 290
    one, other = stations(share).values()
    assert one == other


def test_four_copies_make_two_pairs():
    """The first goes with the second and the third with the fourth, whatever the stations of each pair."""
    cost, share, bound = planned(job([length(10)], [strip(14, 4, "scarf", matched=True)], **LAPPED))
    first, second, third, fourth = stations(share).values()
    assert (first, third) == (second, fourth)
    assert bound.amount <= cost


def test_matched_strips_keep_their_shift_from_others():
    """An inwale and an outwale, both matched, whose joints keep 2 apart."""
    strips = [strip(14, 2, "scarf", matched=True), strip(14, 2, "scarf", matched=True, name="outwale")]
    a_job = job([length(10)], strips, shifts=[("strip 14", "outwale", 2)], **LAPPED)
    _, share, _ = planned(a_job, Effort(Budget(work=2000)))
    places = stations(share)
    assert places["outwale", 1] == places["outwale", 2]
    assert places["strip 14", 1] == places["strip 14", 2]


def test_the_audit_finds_hands_that_do_not_match():
    """A sound plan, held against itself with one joint moved."""
    a_job = job([length(10)], [strip(14, 2, "scarf", matched=True)], **LAPPED)
    made = plan(a_job, effort=Effort(Budget(work=100)))
    assert audit(made, a_job) == ()
    first, *others = made.joints
    moved = made.model_copy(update={"joints": (first.model_copy(update={"station": first.station + 50}), *others)})
    assert "not-matched" in {finding.code for finding in audit(moved, a_job)}


def test_an_odd_number_of_matched_strips_is_refused():
    """There is no other hand for the third."""
    with pytest.raises(JobError, match="matched port and starboard, yet its quantity is 3"):
        job([length(10)], [strip(5, 3, matched=True)])


def test_matched_strips_that_are_to_keep_apart_are_refused():
    """Joints at the same station can't be apart."""
    with pytest.raises(JobError, match="matched-apart"):
        job([length(10)], [strip(14, 2, "scarf", matched=True)], lap=2, shifts=[("strip 14", "strip 14", 2)])


def test_a_joint_lies_where_it_is_better_if_that_costs_nothing():
    """14 from two 10s: the lap lies anywhere in 4..10, so it is laid between 4 and 6, or between 8 and 10."""
    for start in (4, 5, 8):
        asked = strip(14, joint="scarf", prefer=[[start * 100, (start + 2) * 100]])
        cost, share, bound = planned(job([length(10)], [asked], **LAPPED))
        assert cost == bound.amount == 205
        assert stations(share) == {("strip 14", 1): [(start + 1) * 100]}


def test_a_better_place_is_no_reason_to_pay_more():
    """18 from two 10s is joined in 8..10 and nowhere else."""
    asked = strip(18, joint="scarf", prefer=[[300, 500]])
    cost, share, _ = planned(job([length(10), length(12, 130)], [asked], **LAPPED))
    assert (cost, [joint.station for joint in share.joints]) == (205, [900])


def test_a_better_place_that_runs_backwards_is_refused():
    """It is told like a zone."""
    with pytest.raises(JobError, match="where joints are better does not run forward"):
        job([length(10)], [strip(14, joint="scarf", prefer=[[500, 300]])], lap=2)


def test_what_is_left_is_left_in_one_piece():
    """4 + 3 + 3 fill one 10 and 4 is cut from the other: 6 are kept, where 4 + 4 and 3 + 3 leave 2 and 4."""
    cost, share, _ = planned(job([length(10)], [strip(4, 2), strip(3, 2)], keep_length_from=500))
    assert cost == 200
    assert [offcut.end - offcut.start for offcut in share.offcuts if offcut.kept] == [600]


@st.composite
def matched_jobs(draw):
    """Pairs of strips with joints, zones and perhaps a shift, and others, from limited and unlimited lengths."""
    lengths = [length(draw(st.integers(7, 12)), draw(st.integers(5, 12)) * 10)]
    lengths.append(length(6, 30, name="rest", available=draw(st.integers(1, 3))))
    start = draw(st.integers(2, 10))
    zones = draw(st.sampled_from([[], [(start, start + 2)]]))
    rails = strip(draw(st.integers(5, 16)), draw(st.sampled_from([2, 2, 4])), "scarf", zones, matched=True)
    others = strip(draw(st.integers(2, 12)), draw(st.integers(1, 3)), "scarf", name="other", prefer=[[100, 900]])
    shifts = draw(st.sampled_from([[], [(rails["name"], "other", 2)]]))
    return job(lengths, [rails, others], draw(st.integers(0, 1)), 2, 3, draw(st.sampled_from([0, 5])), shifts)


@settings(max_examples=40, deadline=None)
@given(matched_jobs())
def test_matched_strips_are_matched_in_every_plan(a_job):
    """Matching keeps every other rule, and never goes below the bound."""
    try:
        share, _ = plan_lengths(a_job, Effort(Budget(work=600)))
    except NoPlanError:
        return
    check(a_job, share)
    rails = a_job.strips[0]
    places = [stations(share).get((rails.name, copy), []) for copy in range(1, rails.quantity + 1)]
    assert places[::2] == places[1::2]
