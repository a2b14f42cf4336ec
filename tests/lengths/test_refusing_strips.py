"""What is said about strips that can't be made."""

import pytest
from timber_jobs import job, length, planned, strip

from nesting.model import Job, NoPlanError


def problems(*args, **more):
    """Return the problems with which a job is refused."""
    with pytest.raises(NoPlanError) as refusal:
        planned(job(*args, **more))
    return refusal.value.problems


def problem(*args, **more):
    """Return the one problem with which a job is refused."""
    (found,) = problems(*args, **more)
    return found


def test_a_section_that_is_not_stocked_is_refused_with_the_nearest():
    """The nearest section of the same material is named."""
    lengths = [length(10, section=(50, 20)), length(9, section=(90, 20))]
    found = problem(lengths, [strip(5)])
    assert (found.code, found.path, found.where) == ("no-timber", ("strips", 0), 'strip "strip 5"')
    assert found.reason == "no length is of spruce 50 x 25"
    assert found.remedy.endswith('The nearest is "spruce 10": spruce 50 x 20.')


def test_a_section_turned_on_its_side_is_another_section():
    """Width and thickness are not exchanged: a lap depends on which is which."""
    assert problem([length(10, section=(25, 50))], [strip(5)]).code == "no-timber"


def test_a_material_that_is_not_stocked_is_refused_with_the_same_section_of_another():
    """Where the material is missing altogether, the same section is the nearest."""
    found = problem([length(10, material="larch")], [strip(5)])
    assert found.remedy.endswith('The nearest is "spruce 10": larch 50 x 25.')


def test_a_grade_that_is_not_stocked_is_refused_with_the_best_there_is():
    """Poorer stock can't serve."""
    found = problem([length(10, grade="common"), length(9)], [strip(5, grade="clear")])
    assert (found.code, found.reason) == ("no-grade", 'no length of spruce 50 x 25 is of grade "clear" or better')
    assert '"spruce 10" with grade "common"' in found.remedy


def test_a_better_grade_may_serve():
    """A strip of no grade is cut from clear stock."""
    cost, _, _ = planned(job([length(10, grade="clear")], [strip(5, grade="common"), strip(4)]))
    assert cost == 100


def test_a_strip_longer_than_all_stock_is_refused_by_name():
    """Without a joint it can't be made, and the message says by how much."""
    found = problem([length(10), length(8)], [strip(12)])
    assert (found.code, found.where) == ("too-long", 'strip "strip 12"')
    assert "1200 long, 200 longer than the longest piece that a length gives (1000)" in found.reason


def test_a_strip_longer_than_the_workshop_handles_is_refused():
    """The limit that binds is the one named."""
    found = problem([length(10)], [strip(8)], longest_piece=700)
    assert "100 longer than the longest piece that the workshop handles (700)" in found.reason


def test_a_zone_that_leaves_no_station_is_refused_with_its_numbers():
    """It is said that one joint would do without the zone."""
    found = problem([length(10)], [strip(15, joint="scarf", zones=[(2, 13)])], lap=2, least=3)
    assert found.code == "no-station"
    for figure in ("length 1500", "longest piece 1000", "lap 200", "ends 300", "zones 200 to 1300"):
        assert figure in found.reason
    assert found.remedy.startswith("Without the zones 1 joint would do")


def test_a_zone_that_forbids_one_joint_but_not_two_is_no_reason_to_refuse():
    """Length 3900 from 2414 with lap 48: one joint lies in 1510..2390, where the zone forbids all (worked by hand)."""
    timber = {"material": "spruce", "section": (45, 6)}
    lengths = [{"name": "stock", "length": 2414, "price": 5, **timber}]
    strips = [{"name": "long", "length": 3900, "joint": "scarf", "no_joint": [[1400, 2420]], **timber}]
    cost, share, bound = planned(Job(joints={"scarf": {"slope": 8}}, lengths=lengths, strips=strips))
    assert cost == bound.amount == 10
    assert len(share.joints) == 2


def test_a_least_piece_that_no_joint_can_keep_is_refused_even_without_zones():
    """Two joints would need four pieces' room."""
    found = problem([length(10)], [strip(15, joint="scarf")], lap=2, least=8)
    assert found.remedy.startswith("Even without no-joint zones")


def test_limited_stock_that_runs_out_is_refused_by_how_much():
    """3 x 5 from one length of 10."""
    found = problem([length(10, available=1)], [strip(5, 3)])
    assert found.code == "too-little-timber"
    assert found.reason == 'all there is of "spruce 10" is 500 mm too short, laps and saw cuts included'


def test_limited_stock_of_a_better_grade_runs_out_although_poorer_is_left():
    """The poorer length does not help the clear strip."""
    lengths = [length(10, grade="clear", available=1), length(11, grade="common")]
    found = problem(lengths, [strip(6, 2, grade="clear"), strip(3)])
    assert (found.code, found.where) == ("too-little-timber", 'strip "strip 6"')


def test_limited_stock_that_is_long_enough_in_sum_only_is_refused_as_proven():
    """18 of 20 are asked, yet no two strips of 6 fit one length of 10."""
    found = problem([length(10, available=2)], [strip(6, 3)])
    assert found.code == "no-plan"
    assert "that is proven" in found.reason
    assert found.remedy == '3 of "spruce 10" would do, 2 are there.'


def test_all_strips_that_cannot_be_made_are_named_at_once():
    """One run tells all that is wrong."""
    found = problems([length(10)], [strip(12), strip(5), strip(13), strip(4, material="larch")])
    assert [(one.code, one.path) for one in found] == [
        ("too-long", ("strips", 0)),
        ("too-long", ("strips", 2)),
        ("no-timber", ("strips", 3)),
    ]


def test_more_strips_than_a_plan_can_tell_are_refused_at_once():
    """Two times a hundred thousand, each piece of which would have to be listed."""
    found = problem([length(10)], [strip(3, 100_000), strip(4, 100_000)])
    assert found.code == "too-many-strips"
    assert "200000 strips are asked for" in found.reason
