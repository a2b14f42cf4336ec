"""Planks that could be scarfed into long planks before they are ripped, and for which strips."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from nesting.model import Job, JointRule, Strip

from .cutting import Cutting, Stock, length_of
from .measure import cents


@dataclass(frozen=True)
class PlankUse:
    """Planks of one kind, and members by place that may be ripped from them and are joined by one rule.

    ``planks`` is the stock as it is bought, ``ripped`` the index of the same as it is ripped into ``sticks``.
    """

    planks: Stock
    ripped: int
    sticks: int
    joint: str
    joint_cents: int
    places: tuple[int, ...]

    @cached_property
    def longest(self) -> int:
        """The longest clear stretch of a plank."""
        return max(end - start for start, end in self.planks.stretches)

    def too_long(self, cutting: Cutting) -> tuple[int, ...]:
        """Return the members that no plank gives in one piece."""
        longest = min(self.longest, cutting.longest_piece or self.longest)
        return tuple(place for place in self.places if cutting.members[place].length > longest)


def plank_uses(job: Job, whole: Cutting, cutting: Cutting) -> tuple[PlankUse, ...]:
    """Return all such planks of strips that are planned together; ``whole`` holds all stock of the job.

    A bevel across a plank runs through its thickness, and so serves strips that are scarfed in that way only.
    """
    return tuple(_uses(job, whole, cutting))


def _uses(job: Job, whole: Cutting, cutting: Cutting) -> Iterator[PlankUse]:
    for ripped, stock in cutting.stocks.items():
        if stock.sticks is None or stock.sticks < 2:
            continue
        length = length_of(job, ripped)
        for joint, rule in job.joints.items():
            places = tuple(
                place
                for place, member in enumerate(cutting.members)
                if ripped in member.stocks and member.joinable and _serves(rule, joint, job.strips[member.index])
            )
            if places:
                scarf = cents(rule.cost.of(length.section[0]))
                planks = whole.stocks[ripped % len(job.lengths)]
                yield PlankUse(planks, ripped, stock.sticks, joint, scarf, places)


def _serves(rule: JointRule, joint: str, strip: Strip) -> bool:
    return strip.joint == joint and rule.kind == "scarf" and strip.scarf_across == "thickness"
