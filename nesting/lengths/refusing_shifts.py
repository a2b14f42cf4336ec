"""Shifts that contradict the lengths of strips and stock, told before anything is searched.

A strip longer than its longest piece has a joint within one piece of either end, and joints no further apart than a
piece less a lap. So joints of a neighbour that keep a shift of more than half of that from them can't lie on both sides
of one: they lie nearer to the one end than its first joint, or nearer to the other than its last.
"""

from collections.abc import Iterator
from dataclasses import replace

from nesting.model import Job, Problem

from .cutting import Cutting, Member, Shift
from .measure import Measure


def contradictory_shifts(job: Job, whole: Cutting, measure: Measure) -> Iterator[Problem]:
    """Yield a problem for each shift that no joints of its two strips can keep, whatever is cut from what."""
    for shift in whole.shifts:
        if _contradicts(whole, shift):
            most = measure.millimetres(_most_not_refuted(whole, shift))
            names = dict.fromkeys(job.strips[whole.members[place].index].name for place in (shift.one, shift.other))
            told = " and ".join(f'"{name}"' for name in names)
            yield Problem(
                code="shift-too-wide",
                where=f"{'strips' if len(names) > 1 else 'strip'} {told}",
                path=("strips", whole.members[shift.one].index),
                reason=f"joints are to keep {measure.millimetres(shift.distance):g} from one another; more than "
                f"{most:g} can't be kept with these lengths, longest pieces, zones and least pieces: that is proven",
                remedy="Ask for a smaller shift, make the strips from longer stock, or ask for fewer copies.",
            )


def _contradicts(whole: Cutting, shift: Shift) -> bool:
    one, other = whole.members[shift.one], whole.members[shift.other]
    if not one.least_joints or not other.least_joints or (shift.one == shift.other and one.quantity < 2):
        return False
    if shift.one == shift.other and (one.quantity - 1) * shift.distance > one.length - 2 * one.least_end:
        return True  # there is no room for one joint of each copy
    return _without_station(one, other, shift.distance) or _without_station(other, one, shift.distance)


def _without_station(member: Member, beside: Member, distance: int) -> bool:
    """Whether a member has no stations left that keep a distance from the joints of another.

    What is forbidden reaches from the furthest place of the other's first joint, less the distance, to the nearest
    place of its last, and the distance.
    """
    if 2 * distance <= beside.longest - beside.lap:
        return False
    low = beside.longest - beside.half_lap - distance
    high = beside.length - beside.longest + beside.half_lap + distance
    zone = max(0, low + member.half_lap), min(member.length, high - member.half_lap)
    if zone[0] >= zone[1]:
        return False
    return replace(member, zones=(*member.zones, zone)).least_joints is None


def _most_not_refuted(whole: Cutting, shift: Shift) -> int:
    """Return the largest distance that this does not refute."""
    least, most = 0, shift.distance
    while least + 1 < most:
        middle = (least + most) // 2
        if _contradicts(whole, replace(shift, distance=middle)):
            most = middle
        else:
            least = middle
    return least
