"""When a member can't be made: the least change of each single rule that helps."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from .reaching import MOST_JOINTS, Reach, least_joints

#: Finest change worth proposing, in millimetres.
STEP = 1.0

#: What can be eased: where a zone starts and ends, the longest and the least piece, the number of joints.
Rule = Literal["zone start", "zone end", "longest piece", "least piece", "most joints"]


@dataclass(frozen=True)
class Relief:
    """One change after which the member can be made, and with how many joints.

    Attributes
    ----------
    rule : str
        What is eased.
    by : float
        By how much, in millimetres or joints.
    joints : int
        With how many joints the member can then be made.
    zone : int
        Which zone, counted from 0; 0 for the other rules.
    """

    rule: Rule
    by: float
    joints: int
    zone: int = 0


#: A way of easing a rule: which, the eased member for an amount, the most that it can be eased by, and which zone.
_Easing = tuple[Rule, Callable[[float], Reach], float, int]


def reliefs(reach: Reach) -> tuple[Relief, ...]:
    """Return, for each rule that alone can be eased enough, the least change that helps, in whole millimetres.

    Each way of easing a rule only ever adds stations, so bisection finds the least. Empty if the member can be
    made as it is, or if no single change helps.
    """
    if least_joints(reach) is not None:
        return ()
    return tuple(relief for easing in _easings(reach) if (relief := _least(*easing)) is not None)


def _easings(reach: Reach) -> Iterator[_Easing]:
    """Yield each way of easing a rule."""
    for index, (start, end) in enumerate(reach.zones):
        yield "zone start", _zone_eased(reach, index, from_start=True), end - start, index
        yield "zone end", _zone_eased(reach, index, from_start=False), end - start, index
    length = reach.length
    yield "longest piece", lambda more: replace(reach, usable=reach.usable + more), length - reach.usable, 0
    shorter = reach.least_piece - reach.band
    yield "least piece", lambda less: replace(reach, least_piece=reach.least_piece - less), shorter, 0
    more_joints = MOST_JOINTS - reach.most_joints
    yield "most joints", lambda more: replace(reach, most_joints=reach.most_joints + round(more)), more_joints, 0


def _zone_eased(reach: Reach, index: int, *, from_start: bool) -> Callable[[float], Reach]:
    def eased(amount: float) -> Reach:
        zones = list(reach.zones)
        start, end = zones[index]
        zones[index] = (start + amount, end) if from_start else (start, end - amount)
        return replace(reach, zones=tuple(zone for zone in zones if zone[0] < zone[1]))

    return eased


def _least(rule: Rule, ease: Callable[[float], Reach], most: float, zone: int) -> Relief | None:
    """Return the least easing, in steps, that helps; None if even the most does not."""
    steps = math.ceil(most / STEP)
    if steps < 1 or least_joints(ease(steps * STEP)) is None:
        return None
    low, high = 0, steps
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if least_joints(ease(middle * STEP)) is not None else (middle, high)
    return Relief(rule, high * STEP, least_joints(ease(high * STEP)) or 0, zone)
