"""Planks that are scarfed into one long plank before it is ripped."""

from typing import Literal

from pydantic import Field

from .base import Money, Value


class PlankPart(Value):
    """What of a used plank goes into a long plank, from one cut to the other, over its whole width."""

    used: str
    start: float = Field(alias="from")
    end: float = Field(alias="to")


class PlankScarf(Value):
    """A scarf right across a long plank: the middle of its lap lies at ``at``; it is paid for once.

    As in all timber the part on the low side is bevelled on its back, the other on its good face.
    """

    id: str
    at: float
    lap: float
    slope: float
    thickness: float
    width: float
    cost: Money


class LongStick(Value):
    """A stick that is ripped from a long plank.

    What is cut from a ``turned`` one is turned end over end: its stations count from the high end of the plank, and
    its other face comes up, so that its scarfs slope as all others do.
    """

    id: str
    turned: bool = False


class LongPlank(Value):
    """Planks scarfed end to end, and the sticks into which the long plank is then ripped, from one edge to the other.

    Places on the sticks are those of the long plank, from its low end. ``joint`` names the rule of its scarfs, and
    ``section`` is that of a stick. Strips cut from a stick are in one piece; their joints are the plank's scarfs.
    """

    id: str
    joint: str
    members: tuple[PlankPart, ...] = Field(min_length=2)
    scarfs: tuple[PlankScarf, ...] = Field(min_length=1)
    length: float
    section: tuple[float, float]
    sticks: tuple[LongStick, ...] = Field(min_length=1)


class PlankWay(Value):
    """What the timber of some strips would come to if planks were used in this way, by the best plan found for it.

    ``ripped``: planks are ripped first, and strips scarfed one by one; ``scarfed``: planks are scarfed once and ripped
    then, where a strip is longer than a plank. ``objective`` is None where no plan was found.
    """

    strips: tuple[str, ...]
    way: Literal["ripped", "scarfed"]
    objective: Money | None
    told: str
