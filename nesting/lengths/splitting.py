"""Groups that need not be looked at, since the same strips in two smaller groups cost no more."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations_with_replacement

from .cutting import Cutting
from .joined_groups import Group, Strips

#: Strips that are split off a group at a time: more find a few more such groups, and take longer.
SPLIT_OFF = 4

#: Strips with the limited stock that they take, and the group's cents and joints.
Costs = Mapping[tuple[Strips, tuple[int, ...]], tuple[int, int]]


def without_splittable(cutting: Cutting, groups: Sequence[Group]) -> tuple[Group, ...]:
    """Return the groups without those that two smaller ones of the same list can stand in for.

    The two take the same limited stock, cost no more and have no more joints; so leaving the group out changes
    neither the least cost nor the fewest joints at it. A smaller one may be left out in turn, for still smaller.
    """
    limited = tuple(index for index, stock in cutting.stocks.items() if stock.available is not None)
    keys = [(group.strips, tuple(group.bars[index] for index in limited)) for group in groups]
    costs = {key: (group.cents, group.joints) for key, group in zip(keys, groups, strict=True)}
    nothing = (0,) * len(limited)
    few = tuple(strips for strips in _few_strips(len(cutting.members)) if (strips, nothing) in costs)
    return tuple(
        group
        for (strips, taken), group in zip(keys, groups, strict=True)
        if not any(_stands_in(part, nothing, strips, taken, costs) for part in few)
    )


def _few_strips(members: int) -> Iterator[Strips]:
    for count in range(1, SPLIT_OFF + 1):
        for chosen in combinations_with_replacement(range(members), count):
            yield tuple(chosen.count(member) for member in range(members))


def _stands_in(part: Strips, nothing: tuple[int, ...], strips: Strips, taken: tuple[int, ...], costs: Costs) -> bool:
    """Whether a part without limited stock and the rest of the strips can stand in for all of them."""
    rest = tuple(count - less for count, less in zip(strips, part, strict=True))
    if min(rest) < 0 or (rest, taken) not in costs:
        return False
    cents, joints = (a + b for a, b in zip(costs[part, nothing], costs[rest, taken], strict=True))
    return cents <= costs[strips, taken][0] and joints <= costs[strips, taken][1]
