"""A polygon prepared for the kernels, in every attitude that is asked for."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from .attitude import Attitude, cosine_and_sine
from .cover import convex_cover
from .discs import inner_discs
from .growing import grown
from .shapes import simplified_outwards

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Pieces:
    """Convex pieces: all their corners, shape (corners, 2), and where those of each piece begin."""

    corners: Array
    start: NDArray[np.int64]

    @classmethod
    def of(cls, pieces: list[Array]) -> "Pieces":
        """Pack a list of pieces."""
        return cls(np.concatenate(pieces), np.cumsum([0, *map(len, pieces)]))

    def turned(self, attitude: Attitude) -> "Pieces":
        """Return the pieces in an attitude, anticlockwise again."""
        corners = turned(self.corners, attitude)
        if attitude.mirrored:
            corners = np.concatenate([corners[a:b][::-1] for a, b in zip(self.start[:-1], self.start[1:], strict=True)])
        return Pieces(np.ascontiguousarray(corners), self.start)


class PreparedShape:
    """What the engine needs to know of a polygon as drawn; each thing worked out when first asked for.

    Parameters
    ----------
    polygon : Polygon
        Valid, of some area.
    margin : float
        By how much it is grown: half the gap between parts, or the whole gap to a fault.
    coarseness : float
        By how much curves may be taken for larger than they are.
    number : int
        Its place among all shapes of a workshop.
    """

    def __init__(self, polygon: Polygon, margin: float, coarseness: float, number: int) -> None:
        self.number = number
        self.polygon, self._margin, self._coarseness = polygon, margin, coarseness
        self.area = float(polygon.area)
        self._turned: dict[tuple[bool, Attitude], Pieces] = {}

    def pieces(self, attitude: Attitude, *, with_margin: bool) -> Pieces:
        """Return ``wide`` or ``bare`` in an attitude."""
        key = with_margin, attitude
        if key not in self._turned:
            self._turned[key] = (self.wide if with_margin else self.bare).turned(attitude)
        return self._turned[key]

    @cached_property
    def bare(self) -> Pieces:
        """The polygon itself."""
        return Pieces.of(convex_cover(simplified_outwards(self.polygon, self._coarseness)))

    @cached_property
    def wide(self) -> Pieces:
        """The polygon with the margin around it."""
        if self._margin == 0:
            return self.bare
        return Pieces.of(convex_cover(simplified_outwards(grown(self.polygon, self._margin), self._coarseness)))

    @cached_property
    def discs(self) -> Array:
        """Discs in the polygon, rows x, y, radius."""
        return inner_discs(self.polygon)

    @cached_property
    def corners(self) -> Array:
        """All corners of the polygon's rings."""
        corners: Array = shapely.get_coordinates(self.polygon)
        return corners


@dataclass(frozen=True, eq=False)
class Look:
    """A shape in an attitude; compared by identity.

    Attributes
    ----------
    box, edge_box : (4,)
        West, south, east, north: with the margin, and of the polygon itself.
    """

    shape: PreparedShape
    attitude: Attitude
    box: Array
    edge_box: Array
    discs: Array

    @classmethod
    def of(cls, shape: PreparedShape, attitude: Attitude) -> "Look":
        """Turn a shape."""
        discs = shape.discs.copy()
        discs[:2] = turned(discs[:2].T, attitude).T
        return cls(
            shape,
            attitude,
            _box(turned(shape.wide.corners, attitude)),
            _box(turned(shape.corners, attitude)),
            discs,
        )

    def same_but_moved(self, other: "Look") -> bool:
        """Whether another look is this one, moved."""
        one, two = _from_corner(self), _from_corner(other)
        return one.shape == two.shape and bool(np.all(np.abs(one - two) <= 1e-9 * max(1.0, np.abs(one).max())))


def turned(points: Array, attitude: Attitude) -> Array:
    """Return points, shape (n, 2), in an attitude."""
    cos, sin = cosine_and_sine(attitude.angle)
    flip = -1.0 if attitude.mirrored else 1.0
    return np.column_stack(
        [cos * points[:, 0] - sin * flip * points[:, 1], sin * points[:, 0] + cos * flip * points[:, 1]]
    )


def _box(points: Array) -> Array:
    return np.concatenate([points.min(axis=0), points.max(axis=0)])


def _from_corner(look: Look) -> Array:
    """Return the corners, seen from the box's lower left one, in a fixed order."""
    seen = turned(look.shape.corners, look.attitude) - look.edge_box[:2]
    rounded = np.round(seen / max(np.abs(seen).max(), 1e-300), 7)
    order = np.lexsort((rounded[:, 1], rounded[:, 0]))
    return np.unique(rounded[order], axis=0)
