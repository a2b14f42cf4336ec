"""A named way of joining, as the job file's ``[joints.NAME]`` states it."""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from .base import LONGEST, Money, Size, Value, _plain_number


class JointCost(Value):
    """What a joint costs in glue and time: weighed against material, never part of what is paid."""

    each: Money = Decimal("0")
    per_m: Money = Decimal("0")

    def of(self, width: float) -> Decimal:
        """Return the cost of one joint ``width`` millimetres wide, rounded to the cent.

        It never falls as the width grows, so the cost of a least width is a lower bound.
        """
        return (self.each + self.per_m * Decimal(repr(width)) / 1000).quantize(Decimal("0.01"))


class JointRule(Value):
    """A scarf of given slope.

    Attributes
    ----------
    slope : float
        Length of the bevel over the thickness. 8 is the least slope for plywood (common practice); planks at
        least 4 (Souppez, "The Strength of Scarf Joints"), so nothing below 4 is taken.
    cost : JointCost
        Notional cost of one joint.
    least_piece : float
        Least distance between joints, and between a joint and the part's ends, to the middle of the lap.
    """

    kind: Literal["scarf"] = "scarf"
    slope: Annotated[float, BeforeValidator(_plain_number), Field(ge=4, le=50)] = 8.0
    cost: JointCost = JointCost()
    least_piece: Size = Field(default=300.0, le=LONGEST)

    def lap(self, thickness: float) -> float:
        """Return slope x thickness, measured along the member."""
        return self.slope * thickness
