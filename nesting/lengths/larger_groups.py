"""Why groups of more openings than are listed need not be looked at."""

from fractions import Fraction

import numpy as np

from .filling import Whole, fill_table
from .safe_bound import Proof
from .task import Task, openings_there

#: Numbers of openings, beyond those that are listed, for which the rooms that they can have together are gone through.
GONE_THROUGH = 8

#: Rooms (units, all openings together) beyond which that takes too long.
MOST_ROOM = 3_000_000

NEVER = np.int64(2**61)


def least_of_larger(task: Task, found: Proof, size: int, most: int) -> int:
    """Return a reduced cost, in whole units, that no group of more openings than ``size`` is below; -1 if not known.

    Groups have at most ``most`` openings.

    A group of s openings is worth at most what fills their room less s - 1 joints best. The least price of s
    openings for every room together shows how much it must cost, for so many s; and a rate bound for all above.
    """
    if most <= size:
        return 2**61
    last = min(most, size + GONE_THROUGH)
    if last * max(opening.room for opening in task.openings) > MOST_ROOM:
        return _by_rate(task, found, size)
    best, enough = _by_rooms(task, found, size, last)
    if last == most or enough:
        return best
    return min(best, _by_rate(task, found, last))


def most_openings(task: Task) -> int:
    """Return how many openings there can be in one group: one more than joints, and no more than there are."""
    joints = sum(max(m.most_joints, m.least_joints or 0) * m.quantity for m in task.members)
    there = 0
    for kinds, available in zip(task.stretch_kinds, task.available, strict=True):
        if available is None:
            return 1 + joints
        there += len(kinds) * available
    return min(1 + joints, there)


def _by_rooms(task: Task, found: Proof, size: int, last: int) -> tuple[int, bool]:
    """Return the least reduced cost for more than ``size`` openings up to ``last``, and whether it holds beyond.

    It does where the last openings hold all strips at once, however they are chosen: more of them only cost more.
    """
    rooms = [opening.room for opening in task.openings]
    whole, top = int(task.sizes @ task.demand), last * max(rooms)
    keeping = task.keeping(max(opening.offcut for opening in task.openings), found.scale)
    values, _ = fill_table(found.strips, task.sizes, task.demand, top if keeping.rate else min(whole, top))
    values = keeping.with_offcut(values)
    prices = _least_prices(task, found, last)
    least, enough = int(NEVER), False
    for count in range(size + 1, last + 1):
        reached = np.flatnonzero(prices[count] < NEVER)
        if not len(reached):
            return least, True
        net = reached - (count - 1) * task.lap
        worth = np.where(net > 0, values[np.clip(net, 0, len(values) - 1)], 0)
        joints = (count - 1) * task.joint_cents * found.scale
        least = min(least, int((prices[count][reached] - worth).min()) + joints)
        enough = not keeping.rate and bool(net.min() >= whole)
    return least, enough


def _least_prices(task: Task, found: Proof, last: int) -> Whole:
    """Return the least price of so many openings (rows) with so much room together (columns)."""
    top = last * max(opening.room for opening in task.openings)
    prices = np.full((last + 1, top + 1), NEVER)
    prices[0, 0] = 0
    for kind, opening in enumerate(task.openings):
        limit, room, price = openings_there(task, kind), opening.room, int(found.openings[kind])
        once = range(1, last + 1)  # rising, so that one opening can follow another of its kind
        for _ in range(1 if limit is None else min(limit, last)):
            for count in once if limit is None else reversed(once):
                more = prices[count - 1, : top + 1 - room] + price
                prices[count, room:] = np.minimum(prices[count, room:], more)
    return np.minimum(prices, NEVER)


def _by_rate(task: Task, found: Proof, size: int) -> int:
    """Return a bound for all numbers of openings above ``size`` from the best rate of any piece; -1 if there is none.

    With each opening and its joint comes a fixed gain at least; where that is below nought for openings without
    limit nothing is known.
    """
    offcut = task.keeping(max(opening.offcut for opening in task.openings), found.scale).rate
    pieces = [(int(p), int(size)) for p, size in zip(found.strips, task.sizes, strict=True)]
    worth, room = max([(offcut, 1), *pieces], key=lambda piece: Fraction(*piece))
    joint = task.joint_cents * found.scale * room + worth * task.lap
    total, others, gains = -joint, size + 1, []
    for kind, opening in enumerate(task.openings):
        gain, there = int(found.openings[kind]) * room - worth * opening.room + joint, openings_there(task, kind)
        if gain >= 0:
            gains.append(gain)
        elif there is None:
            return -1
        else:
            total += there * gain
            others -= there
    return max(-1, (total + max(0, others) * min(gains, default=0)) // room)
