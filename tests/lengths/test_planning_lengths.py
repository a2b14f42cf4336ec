"""What holds for every plan of timber, however large the job."""

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st
from timber_jobs import job, length, planned, strip

from nesting.effort import Budget, Effort
from nesting.lengths import plan_lengths
from nesting.model import Job

SPRUCE = {"material": "spruce", "section": (45, 20)}


@st.composite
def boats(draw):
    """A job as a boat asks it: gunwales with a zone, stringers, cleats in one piece; lengths in tenths."""
    sizes = [3600, 4800, draw(st.integers(27000, 54000)) / 10]
    lengths = [
        {"name": f"stock {i}", "length": size, "price": round(size / 350, 2), **SPRUCE} for i, size in enumerate(sizes)
    ]
    lengths.append({"name": "rest", "length": 2100, "available": 2, "source": "rack", **SPRUCE})
    ranges = ((44000, 62000), (30000, 45000), (4000, 15000))
    rail, stringer, cleat = (draw(st.integers(low, high)) / 10 for low, high in ranges)
    strips = [
        {"name": "gunwale", "length": rail, "quantity": 2, "joint": "scarf", "no_joint": [[rail * 0.4, rail * 0.6]]},
        {"name": "stringer", "length": stringer, "quantity": draw(st.integers(1, 4)), "joint": "scarf"},
        {"name": "cleat", "length": cleat, "quantity": draw(st.integers(1, 6))},
    ]
    return Job(
        workshop={"kerf": 2.5, "longest_piece": draw(st.sampled_from([None, 4000]))},
        joints={"scarf": {"slope": draw(st.sampled_from([8, 8.5, 12])), "cost": {"each": 2, "per_m": 10}}},
        lengths=lengths,
        strips=[{**one, **SPRUCE} for one in strips],
    )


@settings(max_examples=5, deadline=None)
@given(boats())
def test_every_rule_holds_in_plans_of_boats(a_job):
    """Sums, zones, least pieces, kerfs, availability and offcuts are right, and the bound is not above the cost."""
    cost, share, bound = planned(a_job, Effort(Budget(work=150)))
    assert 0 < bound.amount <= cost
    assert {used.source for used in share.used} <= {"buy", "rack"}


def test_a_job_of_many_strips_is_planned_by_all_rules():
    """Forty strips are too many for one exact search, but not for a plan and a bound."""
    strips = [strip(34, 10, "scarf"), strip(23, 10, "scarf", zones=[(8, 15)]), strip(11, 20)]
    cost, share, bound = planned(job([length(48, 139), length(36, 98)], strips, lap=2, least=3, cost=2))
    assert sum(piece.index == 1 for piece in share.pieces) == 40
    assert bound.amount <= cost <= bound.amount * Decimal("1.1")


def test_a_job_without_strips_needs_no_timber():
    """There is nothing to take, and nothing costs nothing."""
    panel = {"name": "seat", "material": "gaboon", "thickness": 6, "outline": {"rectangle": [300, 200]}}
    plywood = Job(panels=[panel])
    share, bound = plan_lengths(plywood, Effort(Budget()))
    assert (share.used, share.pieces, share.joints, share.offcuts) == ((), (), (), ())
    assert (bound.amount, bound.reason) == (0, "no timber is asked for")


def test_the_same_job_gives_the_same_plan():
    """Nothing in the search depends on time or chance."""
    a_job = job([length(10), length(7, 75)], [strip(6, 5, "scarf"), strip(13, 2, "scarf")], lap=1, least=2, cost=7)
    assert plan_lengths(a_job, Effort(Budget())) == plan_lengths(a_job, Effort(Budget()))


def test_a_search_that_was_stopped_still_gives_a_plan_and_a_true_bound():
    """A plan made one strip after the other is there before any exact search."""
    a_job = job([length(10), length(7, 75)], [strip(6, 5, "scarf"), strip(13, 2, "scarf")], lap=1, least=2, cost=7)
    best, _, _ = planned(a_job)
    stopped = Effort(Budget())
    stopped.stop()
    share, bound = plan_lengths(a_job, stopped)
    assert sum(piece.index == 1 for piece in share.pieces) == 7
    assert bound.amount <= best


def test_lengths_from_the_rack_are_taken_first_and_marked_as_such():
    """What costs nothing is used up before anything is bought."""
    rack = length(6, 0, available=1, source="rack")
    cost, share, bound = planned(job([length(10), rack], [strip(5, 3)]))
    assert cost == bound.amount == 100
    assert sorted(used.source for used in share.used) == ["buy", "rack"]


def test_what_is_left_beyond_the_last_cut_is_an_offcut():
    """10 - 3 - 1 = 6 units are kept; 4 - 3 - 1 leaves nothing."""
    _, share, _ = planned(job([length(10)], [strip(3)], kerf=1))
    (offcut,) = share.offcuts
    assert (offcut.on, offcut.start, offcut.end, offcut.kept) == ("L1", 400.0, 1000.0, True)
    _, share, _ = planned(job([length(4)], [strip(3)], kerf=1))
    assert share.offcuts == ()


def test_an_offcut_shorter_than_is_worth_keeping_is_not_kept():
    """6 units are left where 7 would be worth it."""
    _, share, _ = planned(job([length(10)], [strip(3)], kerf=1, keep_length_from=700))
    assert not share.offcuts[0].kept


def test_ids_tell_strip_copy_and_piece():
    """Pieces count from the low stations; a joint names the two that it joins."""
    _, share, _ = planned(job([length(10)], [strip(16, joint="scarf")], lap=2, least=3, cost=7))
    assert [used.id for used in share.used] == ["L1", "L2"]
    assert sorted(piece.id for piece in share.pieces) == ["strip 16-1-1", "strip 16-1-2"]
    (joint,) = share.joints
    assert (joint.id, joint.pieces) == ("strip 16-1/J1", ("strip 16-1-1", "strip 16-1-2"))
    assert (joint.lap, joint.slope, joint.thickness, joint.width, joint.cost) == (200, 8, 25, 50, 7)


def test_inches_come_out_exactly():
    """Two 10 ft lengths 3/8 in thick at 8:1 make 19 ft 9 in and no more: 240 - 3 = 237 in (worked by hand)."""
    timber = {"material": "ash", "section": (38.1, 9.525)}
    lengths = [{"name": "10 ft", "length": 3048, "price": 12, **timber}]
    for inches, count in ((237, 2), (237.0625, 3)):
        strips = [{"name": "gunwale", "length": inches * 25.4, "joint": "scarf", **timber}]
        workshop = {"kerf": 3.175}
        a_job = Job(workshop=workshop, joints={"scarf": {"slope": 8}}, lengths=lengths, strips=strips)
        cost, share, bound = planned(a_job)
        assert cost == bound.amount == 12 * count
        assert len(share.joints) == count - 1


def test_strips_of_different_timber_are_planned_apart():
    """The bound is the sum, and each strip is cut from its own material."""
    lengths = [length(10), length(10, 40, name="larch 10", material="larch")]
    strips = [strip(6, 2), strip(4, name="rubbing strake", material="larch")]
    cost, share, bound = planned(job(lengths, strips))
    assert cost == bound.amount == 240
    assert [used.stock for used in share.used] == ["spruce 10", "spruce 10", "larch 10"]


def test_two_joint_rules_in_one_section_keep_their_own_laps():
    """Each joint has the lap of its strip's rule."""
    timber = {"material": "spruce", "section": (50, 25)}
    a_job = Job(
        workshop={"kerf": 0},
        joints={"short": {"slope": 4, "cost": {"each": 9}}, "long": {"slope": 12, "cost": {"each": 1}}},
        lengths=[{"name": "stock", "length": 1000, "price": 100, **timber}],
        strips=[
            {"name": "rail", "length": 1900, "joint": "short", **timber},
            {"name": "keelson", "length": 1700, "joint": "long", **timber},
        ],
    )
    cost, share, bound = planned(a_job)
    assert cost == bound.amount == 410
    assert {joint.part: joint.lap for joint in share.joints} == {"rail": 100, "keelson": 300}
