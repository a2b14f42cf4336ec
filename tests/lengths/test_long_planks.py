"""Planks scarfed once and then ripped, in cases that can be worked by hand. Units of 100 mm; strips are 50 x 25."""

import json
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from timber_jobs import length, strip

from benchmarks.verification import faults
from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.files import plan_json
from nesting.lengths import plan_lengths, quick_lengths
from nesting.model import Bound, Job, NoPlanError, Share
from nesting.planner import plan
from nesting.planner.assembling import assembled
from nesting.planner.resolving import resolved


def job(lengths, strips, cost=5, per_m=0, shifts=(), crosscut=0, **more):
    """A job that is ripped with a kerf of 3; a lap is 200, joints keep 300 from one another and from the ends."""
    rule = {"slope": 8, "least_piece": 300, "cost": {"each": cost, "per_m": per_m}}
    return Job(
        workshop={"kerf": {"crosscut": crosscut, "rip": 3}, **more},
        joints={"scarf": rule, "other": {"slope": 8, "least_piece": 300, "cost": {"each": cost}}},
        lengths=lengths,
        strips=strips,
        neighbours=[{"between": [one, other], "shift": distance} for one, other, distance in shifts],
        grades=["common", "clear"],
    )


def plank(sticks, units=10, price=100, **more):
    """A plank 25 thick that gives just so many sticks."""
    width = 50 * sticks + 3 * (sticks - 1)
    return length(units, price, **{"name": f"plank of {sticks}", "section": (width, 25), **more})


@pytest.fixture
def planned(tmp_path):
    """Plan a job; neither the audit nor the verification of the file alone finds anything wrong."""

    def made(a_job, work=2000):
        a_plan = plan(a_job, effort=Effort(Budget(work=work)))
        assert audit(a_plan, a_job) == ()
        file = tmp_path / "plan.json"
        file.write_text(plan_json(a_plan), encoding="utf-8")
        assert faults(file) == []
        assert a_plan.totals.bound <= a_plan.totals.objective
        return a_plan

    return made


def ways(a_plan):
    """Return what each way of using planks is said to come to."""
    return {way.way: None if way.objective is None else float(way.objective) for way in a_plan.plank_ways}


def stations(a_plan, name):
    """Return the stations of the joints of each copy of a strip."""
    own = [joint for joint in a_plan.joints if joint.part == name]
    copies = sorted({joint.copy_number for joint in own})
    return [sorted(joint.station for joint in own if joint.copy_number == copy) for copy in copies]


def test_two_planks_scarfed_once_give_two_strips_with_one_scarf(planned):
    """10 + 10 - 2 = 18: two planks at 100 and one scarf at 5, where two strips by themselves have two joints."""
    made = planned(job([plank(2)], [strip(18, 2, "scarf")]))
    assert ways(made) == {"ripped": 210, "scarfed": 205}
    assert made.totals.objective == made.totals.bound == 205
    assert made.totals.proven
    (long,) = made.long_planks
    assert [(part.used, part.start, part.end) for part in long.members] == [("L1", 0, 1000), ("L2", 0, 1000)]
    assert [(scarf.at, scarf.lap, scarf.width) for scarf in long.scarfs] == [(900, 200, 103)]
    assert stations(made, "strip 18") == [[900], [900]]
    assert [joint.cost for joint in made.joints] == [0, 0]
    assert (made.totals.joints, made.totals.scarfs_of_planks, made.totals.lengths) == (2, 1, 2)


def test_a_scarf_that_costs_more_across_the_plank_than_in_all_strips_is_not_made(planned):
    """For each metre of width: 0.103 m across the plank is more than twice 0.05 m."""
    made = planned(job([plank(2)], [strip(18, 2, "scarf")], cost=0, per_m=100))
    assert ways(made) == {"ripped": 210, "scarfed": 210.3}
    assert made.long_planks == ()
    assert made.totals.proven


def test_a_long_plank_for_one_strip_is_dearer_than_that_strip_by_itself(planned):
    """One strip of 18 takes both sticks of one plank; scarfed once it would take two planks."""
    made = planned(job([plank(2)], [strip(18, 1, "scarf")]))
    assert ways(made) == {"ripped": 105, "scarfed": 205}
    assert made.long_planks == ()
    assert made.totals.proven


def test_turned_strips_keep_their_shift(planned):
    """Of 15 from 10 and 7: stations 6 to 9; with a shift of 2 the scarf is at 8.5 or beyond, mirrored 6.5 or below."""
    strips = [strip(15, 1, "scarf", name="inner"), strip(15, 1, "scarf", name="outer")]
    made = planned(job([plank(2, available=2)], strips, shifts=[("inner", "outer", 200)]))
    (long,) = made.long_planks
    assert [stick.turned for stick in long.sticks] == [False, True]
    (inner,), (outer,) = stations(made, "inner"), stations(made, "outer")
    assert inner[0] + outer[0] == 1500
    assert abs(inner[0] - outer[0]) >= 200
    assert made.totals.objective == 205


def test_two_copies_of_a_strip_that_is_its_own_neighbour_lie_one_each_way(planned):
    """A laminated gunwale: joints in its two layers keep 3 apart."""
    made = planned(job([plank(2)], [strip(15, 2, "scarf")], shifts=[("strip 15", "strip 15", 300)]))
    one, other = stations(made, "strip 15")
    assert len(made.long_planks) == 1
    assert one[0] + other[0] == 1500
    assert abs(one[0] - other[0]) >= 300


def test_four_copies_that_are_their_own_neighbours_take_two_long_planks(planned):
    """All four stations keep 1 apart: two planks with scarfs at different places, each ripped in two."""
    made = planned(job([plank(2)], [strip(15, 4, "scarf")], shifts=[("strip 15", "strip 15", 100)]), work=6000)
    places = sorted(station for copy in stations(made, "strip 15") for station in copy)
    assert all(after - before >= 100 for before, after in pairwise(places))
    assert len(made.long_planks) == 2


def test_three_strips_that_keep_apart_can_not_come_from_one_long_plank(planned):
    """There are two ways to lie only; a long plank for each of them is dearer than ripping first."""
    strips = [strip(15, 1, "scarf", name=name) for name in "abc"]
    shifts = [("a", "b", 100), ("b", "c", 100), ("c", "a", 100)]
    made = planned(job([plank(3)], strips, shifts=shifts))
    assert ways(made)["ripped"] < ways(made)["scarfed"]
    assert made.long_planks == ()


def test_no_joint_zones_hold_in_the_turned_strip_too(planned):
    """A zone near one end only: of the turned strip it lies at the other end of the plank."""
    zones = [(7, 15)]
    strips = [strip(15, 1, "scarf", zones, name="inner"), strip(15, 1, "scarf", name="outer")]
    made = planned(job([plank(2)], strips, shifts=[("inner", "outer", 200)]))
    assert all(station <= 600 for copy in stations(made, "inner") for station in copy)


def test_a_shorter_strip_is_cut_to_length_from_the_end_of_its_stick(planned):
    """18 and 16 from one long plank of 18: the short one begins at the end from which it counts."""
    made = planned(job([plank(2)], [strip(18, 1, "scarf"), strip(16, 1, "scarf")]))
    (long,) = made.long_planks
    assert long.length == 1800
    spans = {piece.part: (piece.start, piece.end) for piece in made.pieces}
    assert spans["strip 18"] == (0, 1800)
    assert spans["strip 16"] in [(0, 1600), (200, 1800)]


def test_strips_that_a_plank_gives_whole_are_ripped_as_ever_beside_long_planks(planned):
    """Two of 18 from a long plank, and two of 9 from a plank that is ripped first."""
    made = planned(job([plank(2)], [strip(18, 2, "scarf"), strip(9, 2, "scarf")]))
    assert made.totals.objective == made.totals.bound == 305
    assert {piece.on for piece in made.pieces if piece.part == "strip 9"} == {"L1-1", "L1-2"}


def test_a_fault_is_kept_out_of_the_long_plank(planned):
    """Clear are 3 and 6 of each plank of 10: 6 + 6 - 2 = 10."""
    spoilt = plank(2, faults=[[300, 400]])
    made = planned(job([spoilt], [strip(10, 2, "scarf")]))
    assert made.totals.proven
    for long in made.long_planks:
        assert all(part.end <= 300 or part.start >= 400 for part in long.members)


def test_the_grade_of_a_strip_holds_for_its_planks(planned):
    """Planks of the poorer grade give no strip that asks for the better one, and so no long plank either."""
    stock = [plank(2, grade="common"), plank(2, name="clear plank", price=130, grade="clear")]
    made = planned(job(stock, [strip(18, 2, "scarf", grade="clear")]))
    assert {used.stock for used in made.used} == {"clear plank"}
    assert made.totals.objective == 265


def test_strips_scarfed_through_their_width_are_ripped_first(planned):
    """A bevel across a plank runs through its thickness."""
    narrow = {"section": (20, 25), "scarf_across": "width"}
    made = planned(job([plank(2, section=(43, 25))], [strip(18, 2, "scarf", **narrow)]))
    assert made.plank_ways == ()
    assert made.long_planks == ()


def test_matched_copies_lie_the_same_way(planned):
    """Four copies of 15 in two pairs, from planks of four sticks."""
    made = planned(job([plank(4)], [strip(15, 4, "scarf", matched=True)]))
    first, second, third, fourth = stations(made, "strip 15")
    assert (first, third) == (second, fourth)
    assert len(made.long_planks) == 1


def test_a_long_plank_is_no_longer_than_can_be_handled(planned):
    """Strips of 18 may be glued up in the boat, a plank of 18 not carried."""
    made = planned(job([plank(2)], [strip(18, 2, "scarf")], longest_piece=1200))
    assert ways(made) == {"ripped": 210, "scarfed": None}


def test_a_kept_offcut_is_worth_something_on_plank_and_stick(planned):
    """What is left of the second plank is kept over its whole width, at its price for the metre."""
    made = planned(job([plank(2, offcut_value=10)], [strip(11, 2, "scarf")], keep_length_from=300))
    kept = [offcut for offcut in made.offcuts if offcut.kept]
    assert made.totals.offcut_value == sum(offcut.value for offcut in kept) > 0


def test_too_few_planks_for_either_way_are_refused():
    """One plank gives 20 in all, and two strips of 18 need 32 and laps."""
    with pytest.raises(NoPlanError):
        plan(job([plank(2, available=1)], [strip(18, 2, "scarf")]), effort=Effort(Budget(work=300)))


def test_the_same_work_gives_the_same_bytes(planned):
    """With long planks too."""
    a_job = job([plank(3)], [strip(18, 5, "scarf"), strip(7, 2)])
    assert plan_json(planned(a_job)) == plan_json(planned(a_job))
    assert json.loads(plan_json(planned(a_job)))["long_planks"]


def test_a_first_plan_of_strips_that_keep_a_shift_comes_from_long_planks():
    """Ripped first they would have to be searched for; scarfed once they lie two ways, and that is soon found."""
    strips = [strip(15, 4, "scarf", name="inner"), strip(15, 4, "scarf", name="outer")]
    a_job = job([plank(4)], strips, shifts=[("inner", "outer", 200)])
    share = quick_lengths(a_job, Effort(Budget()))
    assert share is not None
    assert len(share.long_planks) == 2
    made = assembled(resolved(a_job), Share(), share, Bound(amount=0, reason="none"), 0, Effort(Budget()))
    assert audit(made, a_job) == ()


#: Length in units, copies, zones, whether matched.
STRIPS = st.tuples(
    st.sampled_from([7, 11, 13, 16, 18, 23]),
    st.integers(1, 4),
    st.sampled_from([(), ((2, 4),), ((6, 9),)]),
    st.booleans(),
)


@settings(max_examples=12)
@given(st.lists(STRIPS, min_size=1, max_size=3), st.integers(2, 5), st.sampled_from([0, 200, 350]), st.booleans())
def test_whatever_is_made_of_planks_keeps_all_rules(asked, sticks, shift, faulty):
    """Pieces and scarfs add up, turned strips have mirrored stations, neighbours keep their shift; or it is refused."""
    strips = [
        strip(units, 2 * count if matched else count, "scarf", zones, name=f"s{k}", matched=matched)
        for k, (units, count, zones, matched) in enumerate(asked)
    ]
    shifts = [("s0", "s1", shift)] if shift and len(strips) > 1 else []
    stock = plank(sticks, faults=[[400, 430]] if faulty else [], offcut_value=3)
    a_job = job([stock], strips, shifts=shifts, crosscut=3)
    try:
        share, bound = plan_lengths(a_job, Effort(Budget(work=800, seconds=4)))
    except NoPlanError:
        return
    for a_strip in a_job.strips:
        pieces = [piece for piece in share.pieces if piece.part == a_strip.name]
        assert len({piece.copy_number for piece in pieces}) == a_strip.quantity
    for long in share.long_planks:
        laps = sum(scarf.lap for scarf in long.scarfs)
        assert sum(part.end - part.start for part in long.members) - laps == pytest.approx(long.length)
        turned = {stick.id: stick.turned for stick in long.sticks}
        places = {scarf.id: scarf.at for scarf in long.scarfs}
        for piece in (piece for piece in share.pieces if piece.on in turned):
            own = [joint for joint in share.joints if joint.pieces == (piece.id,)]
            end = [piece.end - j.station if turned[piece.on] else piece.start + j.station for j in own]
            assert end == pytest.approx([places[joint.scarf] for joint in own])
    quick = Effort(Budget(work=0))
    made = assembled(resolved(a_job), Share(), share, bound, 0, quick)
    assert audit(made, a_job) == ()
    assert made.totals.bound <= made.totals.objective
