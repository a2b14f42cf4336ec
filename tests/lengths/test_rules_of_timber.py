"""Faults, limits of joints and shifts, in cases that can be worked by hand. One unit is 100 mm."""

import pytest
from timber_jobs import job, length, planned, strip

from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.lengths import Cutting, Member, Shift, Stock, cheapest_cutting
from nesting.model import Job, NoPlanError
from nesting.planner import plan


def proven_cost(*args, **more):
    """Return the cost of a plan that is proven to be the least."""
    cost, _, bound = planned(job(*args, **more))
    assert bound.amount == cost
    return cost


def test_two_strips_lie_on_both_sides_of_a_fault():
    """4 and 5 are clear, and 4 and 5 are asked."""
    assert proven_cost([length(10, faults=[[400, 500]])], [strip(5), strip(4)]) == 100


def test_a_cheap_faulty_length_is_left_where_a_clean_one_holds_all():
    """6 fits no clear stretch of 4 and 5; 6 + 4 fill the clean length."""
    lengths = [length(10, 40, name="faulty", available=1, faults=[[400, 500]]), length(10)]
    assert proven_cost(lengths, [strip(6), strip(4)]) == 100


def test_pieces_from_both_sides_of_a_fault_can_be_scarfed():
    """The clear 4 and 5 of one length make a strip of 8 with a lap of 1."""
    lengths = [length(10, faults=[[400, 500]]), length(8, 150, name="clean")]
    cost, share, bound = planned(job(lengths, [strip(8, joint="scarf")], lap=1, least=2, cost=7))
    assert cost == bound.amount == 107
    assert sorted((piece.on, piece.start, piece.end) for piece in share.pieces) == [("L1", 0, 400), ("L1", 500, 1000)]


def test_a_length_that_is_one_long_fault_gives_nothing():
    """The strip is then longer than the longest piece."""
    with pytest.raises(NoPlanError, match="longest piece"):
        planned(job([length(10, faults=[[0, 1000]])], [strip(1)]))


def test_a_limit_of_joints_asks_for_longer_stock():
    """19 from lengths of 10 needs two joints; with one at most 12 + 10 - 2 = 20 does."""
    ask = {"lap": 2, "least": 3, "cost": 7}
    assert proven_cost([length(10)], [strip(19, joint="scarf", most_joints=2)], **ask) == 314
    lengths = [length(10), length(12, 280)]
    assert proven_cost(lengths, [strip(19, joint="scarf")], **ask) == 314
    assert proven_cost(lengths, [strip(19, joint="scarf", most_joints=1)], **ask) == 387
    with pytest.raises(NoPlanError, match="2 would do: raise most_joints"):
        planned(job([length(10)], [strip(19, joint="scarf", most_joints=1)], **ask))


def test_a_strip_can_ask_for_longer_pieces_than_its_joint():
    """From 8 and 8 a strip of 12 is joined in 5..7; with 6 as the least distance to both ends only in 6."""
    cost, share, _ = planned(job([length(8, 80)], [strip(12, joint="scarf", least_piece=600)], lap=2, least=3, cost=5))
    assert (cost, [joint.station for joint in share.joints]) == (165, [600])


def test_the_audit_finds_a_piece_on_a_fault_and_a_joint_too_many():
    """A plan that was sound is held against stock with a fault, and a strip with fewer joints."""
    sound = plan(job([length(10)], [strip(16, joint="scarf")], lap=2, least=3, cost=7))
    assert not audit(sound, sound.job)
    told = sound.job.model_dump(mode="json")
    told["lengths"][0]["faults"] = [[100, 150]]
    told["strips"][0]["most_joints"] = 0
    broken = sound.model_copy(update={"job": Job.model_validate(told)})
    assert {"on-fault", "too-many-joints", "wrong-stock"} <= {finding.code for finding in audit(broken, broken.job)}


def two_strips_of_12(distance, *stocks):
    """Plan two strips of 12 with a lap of 2, one joint each, whose joints keep a distance."""
    kinds = {index: Stock(index, ((0, size),), 0, cents, None) for index, (size, cents) in enumerate(stocks)}
    twelve = Member(
        index=0,
        length=12,
        quantity=2,
        joinable=True,
        half_lap=1,
        least_end=2,
        least_between=2,
        zones=(),
        joint_cents=5,
        longest=max(size for size, _ in stocks),
        stocks=frozenset(kinds),
        limit=1,
    )
    return cheapest_cutting(Cutting(0, None, (twelve,), kinds, (Shift(0, 0, distance),)), Effort(Budget()))


def test_joints_of_two_strips_keep_a_shift_of_two():
    """From lengths of 8 the laps start in 4..6: they can be 2 apart."""
    outcome = two_strips_of_12(2, (8, 80))
    assert (len(outcome.layout.bars), outcome.proven.cents) == (4, 330)


def test_joints_of_two_strips_can_not_keep_a_shift_of_three_from_equal_lengths():
    """4..6 is too narrow, which is proven; with one length of 9 it can be done for 345."""
    outcome = two_strips_of_12(3, (8, 80))
    assert (outcome.layout, outcome.proven.impossible) == (None, True)
    assert two_strips_of_12(3, (8, 80), (9, 95)).proven.cents == 345


@pytest.mark.parametrize(("across", "lap", "longest"), [("thickness", 200, 18), ("width", 400, 16)])
def test_a_lap_is_taken_from_what_the_bevel_runs_through(across, lap, longest):
    """Of 50 x 25 at 8:1 it is 200 or 400: two lengths of 10 give 20 - 2 or 20 - 4, and one more unit needs a third."""
    a_job = job([length(10)], [strip(longest, joint="scarf", scarf_across=across)], lap=2)
    cost, share, bound = planned(a_job)
    assert cost == bound.amount == 200
    (joint,) = share.joints
    assert (joint.lap, joint.across) == (lap, across)
    assert proven_cost([length(10)], [strip(longest + 1, joint="scarf", scarf_across=across)], lap=2) == 300


def test_a_scarf_through_the_width_is_as_wide_as_the_strip_is_thick():
    """Its glue line is 25 long, its bevel runs through 50; it costs 10 a metre of 25 mm, and the plan is sound."""
    a_job = Job(
        joints={"scarf": {"slope": 8, "cost": {"per_m": 10}}},
        lengths=[length(10)],
        strips=[strip(12, joint="scarf", scarf_across="width")],
    )
    made = plan(a_job, effort=Effort(Budget(work=50)))
    (joint,) = made.joints
    assert (joint.thickness, joint.width, str(joint.cost)) == (50, 25, "0.25")
    assert audit(made, a_job) == ()
    turned = made.model_copy(update={"joints": (joint.model_copy(update={"across": "thickness"}),)})
    assert [finding.code for finding in audit(turned, a_job)] == ["joint-rule"]


TWELVES = {"lengths": [length(8, 80)], "strips": [strip(12, 2, "scarf", most_joints=1)]}


def test_a_strip_that_is_its_own_neighbour_keeps_its_copies_apart():
    """As above, asked in the job: from lengths of 8 the laps start in 4..6, so their middles can be 2 apart."""
    a_job = job(**TWELVES, lap=2, least=2, cost=5, shifts=[("strip 12", "strip 12", 2)])
    made = plan(a_job, effort=Effort(Budget(work=200)))
    assert made.totals.objective == made.totals.bound == 330
    one, other = made.joints
    assert abs(one.station - other.station) == 200
    assert audit(made, a_job) == ()
    nearer = made.model_copy(update={"joints": (one, other.model_copy(update={"station": one.station + 100}))})
    assert "shift-too-small" in {finding.code for finding in audit(nearer, a_job)}


def test_a_shift_that_can_not_be_kept_is_named_in_the_refusal():
    """3 apart is more than 4..6 allows, which is proven wherever the cuts may lie."""
    with pytest.raises(NoPlanError) as refusal:
        planned(job(**TWELVES, lap=2, least=2, shifts=[("strip 12", "strip 12", 3)]))
    (found,) = refusal.value.problems
    assert 'joints apart as asked (those of "strip 12" and "strip 12" 300): that is proven' in found.reason
    assert found.remedy.startswith('A shift of 200 for "strip 12" can be kept')


def test_strips_of_different_timber_keep_their_shift():
    """An outwale of 14 from ash and an inwale of 14 from spruce: each lap starts in 6..6 or, from a 10, in 4..8."""
    lengths = [length(8, 80), length(10, 100, name="ash 10", material="ash")]
    strips = [strip(14, joint="scarf", most_joints=1), strip(14, joint="scarf", name="outwale", material="ash")]
    a_job = job(lengths, strips, lap=2, least=2, shifts=[("strip 14", "outwale", 2)])
    cost, share, bound = planned(a_job)
    assert cost == bound.amount == 360
    assert len(share.joints) == 2


def test_a_shift_between_strips_that_are_never_joined_asks_for_nothing():
    """Both are cut in one piece, as they have no joint."""
    strips = [strip(6), strip(5)]
    assert proven_cost([length(11)], strips, shifts=[("strip 6", "strip 5", 20)]) == 100
