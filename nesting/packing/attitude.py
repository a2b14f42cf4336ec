"""How a shape lies: mirrored about its x axis or not, then turned."""

import math
from dataclasses import dataclass

from shapely import affinity
from shapely.geometry.base import BaseGeometry

#: Cosine and sine of quarter turns, exact.
QUARTERS = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}

#: Decimals of a degree to which turns are told apart. What is rounded away moves nothing by a millionth of a
#: millimetre, and without it the same turn, reached by different sums, would be worked out again and again.
DECIMALS = 12


@dataclass(frozen=True)
class Attitude:
    """Mirrored about the x axis first, if at all, then turned anticlockwise by ``angle`` degrees."""

    angle: float = 0
    mirrored: bool = False

    def of(self, shape: BaseGeometry) -> BaseGeometry:
        """Return the shape in this attitude."""
        if self == AS_DRAWN:
            return shape
        (cos, sin), flip = cosine_and_sine(self.angle), -1.0 if self.mirrored else 1.0
        return affinity.affine_transform(shape, (cos, -sin * flip, sin, cos * flip, 0, 0))

    def seen_from(self, other: "Attitude") -> "Attitude":
        """Return this attitude as it looks when the other is made the one as drawn."""
        turn = self.angle - other.angle
        return Attitude(whole_turns_off(-turn if other.mirrored else turn), self.mirrored != other.mirrored)


AS_DRAWN = Attitude()


def cosine_and_sine(angle: float) -> tuple[float, float]:
    """Return cosine and sine of an angle in degrees; of quarter turns exactly."""
    turn = math.radians(angle)
    return QUARTERS.get(angle) or (math.cos(turn), math.sin(turn))


def whole_turns_off(angle: float) -> float:
    """Return the same turn as an angle from 0 to below 360 degrees."""
    # Once more after rounding: the remainder of a hair below zero is 360.
    return round(angle % 360, DECIMALS) % 360
