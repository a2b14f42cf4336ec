"""The least change that helps."""

import re

from hypothesis import given

from nesting.joints import Reach, least_joints, reliefs
from tests.strategies import reaches

DECK = Reach(start=0, end=4150, lap=48, usable=2414, least_piece=1000, zones=((1000, 3200),))


def test_a_deck_with_a_wide_zone_is_told_each_single_change() -> None:
    """Worked by hand: one joint may lie from 4150 - 2414 + 24 = 1760 to 2414 - 24 = 2390.

    A zone that starts at 1784 leaves station 1760, one that ends at 2366 leaves 2390. A shorter piece than the whole
    4150 never serves, since a joint beyond 3224 is less than 1000 from the end. With pieces of 926 the joints lie at
    926 and at 3224.
    """
    assert [(relief.words, relief.joints) for relief in reliefs(DECK)] == [
        ("start the no-joint zone 1000 to 3200 784 later", 1),
        ("end the no-joint zone 1000 to 3200 834 earlier", 1),
        ("offer a piece of 4150 (now 2414.0)", 0),
        ("allow pieces of 926 (now 1000)", 2),
    ]


def test_a_member_that_can_be_made_needs_no_relief() -> None:
    """Nothing is proposed then."""
    assert reliefs(Reach(start=0, end=3000, lap=48, usable=2420, least_piece=450)) == ()


@given(reaches())
def test_every_relief_is_no_larger_than_it_must_be(reach: Reach) -> None:
    """With the zone eased by as much as is said the member can be made, with a millimetre less it can't."""
    for relief in reliefs(reach):
        found = re.match(r"(start|end) the no-joint zone (\S+) to (\S+) (\S+) (later|earlier)", relief.words)
        if found is None:
            continue
        zone, amount = (float(found[2]), float(found[3])), float(found[4])
        for change, possible in ((amount, True), (amount - 1, False)):
            eased = (zone[0] + change, zone[1]) if found[1] == "start" else (zone[0], zone[1] - change)
            zones = [other for other in reach.zones if other != zone] + ([eased] if eased[0] < eased[1] else [])
            if reach.zones.count(zone) == 1:  # type: ignore[attr-defined]
                changed = Reach(
                    start=reach.start,
                    end=reach.end,
                    lap=reach.lap,
                    strap=reach.strap,
                    usable=reach.usable,
                    least_piece=reach.least_piece,
                    zones=tuple(zones),
                )
                assert (least_joints(changed) is not None) is possible
