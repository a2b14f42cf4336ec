"""A named way of joining, as the job file's ``[joints.NAME]`` states it."""

from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, SerializerFunctionWrapHandler, model_serializer, model_validator

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
    """A scarf of given slope, or a butt with a strap behind it.

    Attributes
    ----------
    kind : {"scarf", "butt"}
        A scarf's bevelled ends lie one over the other; a butt's square ends meet, and a strap is glued behind them.
    slope : float
        Of a scarf: length of the bevel over the thickness. 8 is the least slope for plywood (common practice); planks
        at least 4 (Souppez, "The Strength of Scarf Joints"), so nothing below 4 is taken.
    strap : float
        Of a butt: length of the strap, along the part, over the thickness. 15 is usual, some take 21 (common
        practice).
    cost : JointCost
        Notional cost of one joint.
    least_piece : float
        Least distance between joints, and between a joint and the part's ends, to the middle of the lap.
    """

    kind: Literal["scarf", "butt"] = "scarf"
    slope: Annotated[float, BeforeValidator(_plain_number), Field(ge=4, le=50)] = 8.0
    strap: Annotated[float, BeforeValidator(_plain_number), Field(ge=4, le=60)] = 15.0
    cost: JointCost = JointCost()
    least_piece: Size = Field(default=300.0, le=LONGEST)

    @model_validator(mode="after")
    def _only_its_own(self) -> "JointRule":
        if self._foreign in self.model_fields_set:
            other = "butt" if self.kind == "scarf" else "scarf"
            raise ValueError(f'a {self.kind} has no {self._foreign}: leave it out, or write kind = "{other}"')
        return self

    @model_serializer(mode="wrap")
    def _without_foreign(self, handler: SerializerFunctionWrapHandler) -> dict[str, Any]:
        written: dict[str, Any] = handler(self)
        del written[self._foreign]
        return written

    @property
    def _foreign(self) -> str:
        """The measure that belongs to the other kind."""
        return "strap" if self.kind == "scarf" else "slope"

    def lap(self, thickness: float) -> float:
        """Return by how much the pieces overlap along the member: slope x thickness for a scarf, nothing for a butt."""
        return self.slope * thickness if self.kind == "scarf" else 0.0

    def strap_length(self, thickness: float) -> float:
        """Return the length of the strap along the member: strap x thickness for a butt, nothing for a scarf."""
        return self.strap * thickness if self.kind == "butt" else 0.0

    def band(self, thickness: float) -> float:
        """Return the length of the member, middle at the joint's station, that no zone may touch: lap or strap."""
        return max(self.lap(thickness), self.strap_length(thickness))
