"""What no plan is below if planks may be scarfed before they are ripped too."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from math import lcm

from nesting.effort import Effort

from .cutting import Cutting, Member
from .plank_uses import PlankUse
from .proven import Proven

#: What is proven of a cutting.
Bounding = Callable[[Cutting, Effort], Proven]

#: More joints than these are not reckoned one by one.
MOST_JOINTS = 100_000


def bound_both_ways(
    cutting: Cutting, uses: Sequence[PlankUse], ripped: Proven, bounded: Bounding, effort: Effort
) -> Proven:
    """Return a bound on plans with planks scarfed once, ripped first, or both, from one on planks ripped first.

    Whatever is cut from a long plank can be laid out on the sticks of its planks, piece by piece, with no more stock:
    only its scarfs are paid for once, where each stick that they run across has a joint. So no plan is below

    - the least with a joint that costs no more than its share of the cheapest scarf, that of one stick among all, and
    - the least without paying for joints, and the least cost of as many joints as there must be.

    ``bounded`` tells what is proven of a cutting. Money is counted in parts of a cent, so many that all shares are
    whole. Where no share is cheaper than a joint of a strip by itself, planks ripped first are below all others, and
    nothing need be searched.
    """
    if ripped.impossible or not pays(cutting, uses):
        return ripped
    parts = _parts(uses)
    shares = [_cheapest_share(place, member, uses, parts) for place, member in enumerate(cutting.members)]
    joints = least_of_joints(cutting, uses)
    least = [
        bounded(_with_joints(cutting, shares, parts), effort.share_of_rest(0.5)).cents,
        bounded(_with_joints(cutting, [0] * len(shares), parts), effort).cents + parts * joints,
    ]
    cents = -(-max(least) // parts)
    return Proven(cents, f"{ripped.reason}, each scarf of a plank shared by all its sticks")


def pays(cutting: Cutting, uses: Sequence[PlankUse]) -> bool:
    """Whether for some strip its share of a scarf can cost less than a joint of its own."""
    parts = _parts(uses)
    return any(
        member.most_joints and _cheapest_share(place, member, uses, parts) < member.joint_cents * parts
        for place, member in enumerate(cutting.members)
    )


def least_of_joints(cutting: Cutting, uses: Sequence[PlankUse]) -> int:
    """Return the cents that the joints which strips must have cost at least, one by one or by scarfs of planks.

    One scarf serves as many joints as its plank has sticks, but of one rule only.
    """
    must = [(member.least_joints or 0) * member.quantity for member in cutting.members]
    total, served = 0, set[int]()
    for joint in dict.fromkeys(use.joint for use in uses):
        own = [use for use in uses if use.joint == joint]
        places = set[int]().union(*(use.places for use in own))
        alone = min(cutting.members[place].joint_cents for place in places)
        scarfs = {(use.sticks, use.joint_cents) for use in own}
        total += _cheapest(sum(must[place] for place in places), alone, scarfs)
        served |= places
    others = (k for k in range(len(must)) if k not in served)
    return total + sum(must[place] * cutting.members[place].joint_cents for place in others)


def _parts(uses: Sequence[PlankUse]) -> int:
    """Return the least number of which all numbers of sticks are divisors."""
    return lcm(*(use.sticks for use in uses))


def _cheapest(joints: int, alone: int, scarfs: Iterable[tuple[int, int]]) -> int:
    """Return the least cost of so many joints, each alone or some at once by a scarf of so many sticks."""
    ways = [(1, alone), *scarfs]
    if joints > MOST_JOINTS:
        return -int(-joints * min(Fraction(cents, count) for count, cents in ways) // 1)
    least = [0]
    for made in range(1, joints + 1):
        least.append(min(least[max(0, made - count)] + cents for count, cents in ways))
    return least[joints]


def _cheapest_share(place: int, member: Member, uses: Sequence[PlankUse], parts: int) -> int:
    """Return what a joint of a member costs at least, in parts of a cent: alone, or sharing a scarf with all sticks."""
    shares = (use.joint_cents * parts // use.sticks for use in uses if place in use.places)
    return min((member.joint_cents * parts, *shares))


def _with_joints(cutting: Cutting, costs: Sequence[int], parts: int) -> Cutting:
    """Return the cutting with money in parts of a cent, and other costs of joints.

    What ties copies to one another is left out: a bound without that holds with it, and is soon there.
    """
    members = (replace(m, joint_cents=cost, matched=False) for m, cost in zip(cutting.members, costs, strict=True))
    stocks = {
        index: replace(stock, cents=stock.cents * parts, offcut=stock.offcut * parts)
        for index, stock in cutting.stocks.items()
    }
    return replace(cutting, members=tuple(members), stocks=stocks, shifts=())
