"""How a shape lies: mirrored about its x axis or not, then turned by quarter turns."""

from dataclasses import dataclass

from shapely import affinity
from shapely.geometry.base import BaseGeometry

#: Cosine and sine of quarter turns, exact.
QUARTERS = {0: (1.0, 0.0), 90: (0.0, 1.0), 180: (-1.0, 0.0), 270: (0.0, -1.0)}


@dataclass(frozen=True)
class Attitude:
    """Mirrored about the x axis first, if at all, then turned anticlockwise by ``angle``: 0, 90, 180 or 270."""

    angle: int = 0
    mirrored: bool = False

    def of(self, shape: BaseGeometry) -> BaseGeometry:
        """Return the shape in this attitude."""
        if self == AS_DRAWN:
            return shape
        (cos, sin), flip = QUARTERS[self.angle], -1.0 if self.mirrored else 1.0
        return affinity.affine_transform(shape, (cos, -sin * flip, sin, cos * flip, 0, 0))

    def seen_from(self, other: "Attitude") -> "Attitude":
        """Return this attitude as it looks when the other is made the one as drawn."""
        turn = self.angle - other.angle
        return Attitude((-turn if other.mirrored else turn) % 360, self.mirrored != other.mirrored)


AS_DRAWN = Attitude()
