"""When a member can't be made: the least change of each single rule that helps."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from .reaching import MOST_JOINTS, Reach, least_joints

#: Finest change worth proposing, in millimetres.
STEP = 1.0


@dataclass(frozen=True)
class Relief:
    """One change after which the member can be made, and with how many joints; in words for the builder."""

    words: str
    joints: int


def reliefs(reach: Reach) -> tuple[Relief, ...]:
    """Return, for each rule that alone can be eased enough, the least change that helps, in whole millimetres.

    Each way of easing a rule only ever adds stations, so bisection finds the least. Empty if the member can be
    made as it is, or if no single change helps.
    """
    if least_joints(reach) is not None:
        return ()
    return tuple(relief for ease in _easings(reach) if (relief := _least(*ease)) is not None)


def _easings(reach: Reach) -> Iterator[tuple[Callable[[float], Reach], float, Callable[[float], str]]]:
    """Yield each way of easing a rule: the eased member for an amount, the most, and the words for an amount."""
    for index, (start, end) in enumerate(reach.zones):
        span = end - start
        zone = f"the no-joint zone {start:g} to {end:g}"
        yield _zone_eased(reach, index, from_start=True), span, _words(f"start {zone} {{:g}} later")
        yield _zone_eased(reach, index, from_start=False), span, _words(f"end {zone} {{:g}} earlier")
    length = reach.end - reach.start
    yield (
        lambda more: replace(reach, usable=reach.usable + more),
        length - reach.usable,
        lambda more: f"offer a piece of {math.ceil(reach.usable + more):g} (now {reach.usable:.1f})",
    )
    yield (
        lambda less: replace(reach, least_piece=reach.least_piece - less),
        reach.least_piece - reach.band,
        lambda less: f"allow pieces of {math.floor(reach.least_piece - less):g} (now {reach.least_piece:g})",
    )
    yield (
        lambda more: replace(reach, most_joints=reach.most_joints + round(more)),
        MOST_JOINTS - reach.most_joints,
        lambda more: f"allow {reach.most_joints + round(more)} joints (now {reach.most_joints})",
    )


def _words(pattern: str) -> Callable[[float], str]:
    return lambda amount: pattern.format(amount)


def _zone_eased(reach: Reach, index: int, *, from_start: bool) -> Callable[[float], Reach]:
    def eased(amount: float) -> Reach:
        zones = list(reach.zones)
        start, end = zones[index]
        zones[index] = (start + amount, end) if from_start else (start, end - amount)
        return replace(reach, zones=tuple(zone for zone in zones if zone[0] < zone[1]))

    return eased


def _least(ease: Callable[[float], Reach], most: float, words: Callable[[float], str]) -> Relief | None:
    """Return the least easing, in steps, that helps; None if even the most does not."""
    steps = math.ceil(most / STEP)
    if steps < 1 or least_joints(ease(steps * STEP)) is None:
        return None
    low, high = 0, steps
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if least_joints(ease(middle * STEP)) is not None else (middle, high)
    return Relief(words(high * STEP), least_joints(ease(high * STEP)) or 0)
