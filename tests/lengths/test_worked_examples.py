"""Small cases whose best plan can be found with pencil and paper. One unit is 100 mm; worked by hand."""

from decimal import Decimal

from timber_jobs import job, length, planned, strip

from nesting.model import Job


def proven_cost(*args, **more):
    """Return the cost of a plan that is proven to be the least."""
    cost, _, bound = planned(job(*args, **more))
    assert bound.amount == cost
    return cost


def test_three_strips_that_are_longer_than_one_length_need_two():
    """5 + 5 + 3 = 13 > 10."""
    assert proven_cost([length(10)], [strip(5, 2), strip(3)]) == 200


def test_the_kerf_between_two_halves_counts():
    """5 + 1 + 5 = 11 > 10."""
    assert proven_cost([length(10)], [strip(5, 2)], kerf=1) == 200


def test_the_last_cut_is_not_needed_where_pieces_end_flush():
    """5 + 1 + 5 = 11."""
    assert proven_cost([length(11)], [strip(5, 2)], kerf=1) == 100


def test_a_single_short_length_is_used_beside_long_ones():
    """5 + 5 from the long one, 5 from the short."""
    assert proven_cost([length(10), length(6, 50, available=1)], [strip(5, 3)]) == 150


def test_two_lengths_make_one_long_strip():
    """10 + 8 = 16 + 2: two lengths and a joint."""
    cost = proven_cost([length(10)], [strip(16, joint="scarf")], lap=2, least=3, cost=7)
    assert cost == 207


def test_a_strip_just_too_long_for_two_lengths_needs_three_and_two_joints():
    """20 - 2 < 19."""
    cost = proven_cost([length(10)], [strip(19, joint="scarf")], lap=2, least=3, cost=7)
    assert cost == 314


def test_a_third_strip_is_joined_from_what_two_lengths_leave():
    """3 x 6 + 1 = 19 <= 20."""
    assert proven_cost([length(10)], [strip(6, 3, joint="scarf")], lap=1, least=2, cost=7) == 207


def test_a_joint_dearer_than_a_length_is_not_made():
    """300 < 200 + 150."""
    cost, share, bound = planned(job([length(10)], [strip(6, 3, joint="scarf")], lap=1, least=2, cost=150))
    assert cost == bound.amount == 300
    assert not share.joints


def test_a_zone_puts_the_joint_where_a_longer_length_is_needed():
    """8 + 8 would put the lap at 6..8, within the zone; 5 + 11 ends it at 5."""
    lengths = [length(8, 80), length(11, 130)]
    cost = proven_cost(lengths, [strip(14, joint="scarf", zones=[(5, 9)])], lap=2, least=3, cost=5)
    assert cost == 215


def test_the_kerf_can_make_joining_rests_impossible():
    """3 x 7 + (1 + 1) = 23 > 22."""
    assert proven_cost([length(10)], [strip(6, 3, joint="scarf")], kerf=1, lap=1, least=2, cost=7) == 300


def test_gunwales_and_chines_of_a_rowing_boat():
    """Five long lengths and two short ones with three joints beat seven long ones (97.30) by 2.20."""
    timber = {"material": "spruce", "section": (45, 20)}
    lengths = [
        {"name": "3.6 m", "length": 3600, "price": "9.80", **timber},
        {"name": "4.8 m", "length": 4800, "price": "13.90", **timber},
    ]
    strips = [
        {"name": "gunwale", "length": 4350, "quantity": 4, "joint": "scarf", **timber},
        {"name": "chine", "length": 4100, "quantity": 3, "joint": "scarf", **timber},
    ]
    rowing = Job(joints={"scarf": {"slope": 8, "cost": {"each": 2}}}, lengths=lengths, strips=strips)
    cost, share, bound = planned(rowing)
    assert cost == bound.amount == Decimal("95.10")
    assert len(share.joints) == 3
