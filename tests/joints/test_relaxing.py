"""The least change that helps."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from nesting.joints import Reach, Relief, least_joints, reliefs
from tests.strategies import reaches

DECK = Reach(start=0, end=4150, lap=48, usable=2414, least_piece=1000, zones=((1000, 3200),))


def test_a_deck_with_a_wide_zone_is_told_each_single_change() -> None:
    """Worked by hand: one joint may lie from 4150 - 2414 + 24 = 1760 to 2414 - 24 = 2390.

    A zone that starts at 1784 leaves station 1760, one that ends at 2366 leaves 2390. A shorter piece than the whole
    4150 never serves, since a joint beyond 3224 is less than 1000 from the end. With pieces of 926 the joints lie at
    926 and at 3224.
    """
    assert reliefs(DECK) == (
        Relief("zone start", by=784, joints=1),
        Relief("zone end", by=834, joints=1),
        Relief("longest piece", by=4150 - 2414, joints=0),
        Relief("least piece", by=74, joints=2),
    )


def test_a_member_that_can_be_made_needs_no_relief() -> None:
    """Nothing is proposed then."""
    assert reliefs(Reach(start=0, end=3000, lap=48, usable=2420, least_piece=450)) == ()


def eased(reach: Reach, relief: Relief, by: float) -> Reach:
    """Return the member with the rule of a relief eased by so much."""
    start, end = reach.zones[relief.zone] if reach.zones else (0, 0)
    zone = (start + by, end) if relief.rule == "zone start" else (start, end - by)
    others = (*reach.zones[: relief.zone], *reach.zones[relief.zone + 1 :])
    changed = {
        "zone start": {"zones": (*others, zone) if zone[0] < zone[1] else others},
        "zone end": {"zones": (*others, zone) if zone[0] < zone[1] else others},
        "longest piece": {"usable": reach.usable + by},
        "least piece": {"least_piece": reach.least_piece - by},
        "most joints": {"most_joints": reach.most_joints + round(by)},
    }
    return replace(reach, **changed[relief.rule])


@given(reaches(), st.integers(0, 6))
def test_every_relief_is_no_larger_than_it_must_be(reach: Reach, most_joints: int) -> None:
    """With its rule eased by as much as is said the member can be made, with a millimetre or joint less it can't."""
    limited = replace(reach, most_joints=most_joints)
    for relief in reliefs(limited):
        assert least_joints(eased(limited, relief, relief.by)) == relief.joints
        assert least_joints(eased(limited, relief, relief.by - 1)) is None
