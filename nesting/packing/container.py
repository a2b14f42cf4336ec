"""What is filled."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely.geometry import Polygon

from .growing import grown


@dataclass(frozen=True, eq=False)
class Container:
    """What is filled; compared by identity.

    Attributes
    ----------
    obstacles : tuple of Polygon
        What nothing may overlap.
    marked : tuple of (mark, Polygon)
        What those items may not overlap that avoid the mark.
    lines : tuple of float
        Where lines run across it at right angles to x: an item that has lines of its own must lie on these with all of
        them, and on no further one.
    """

    outline: Polygon
    obstacles: tuple[Polygon, ...] = ()
    marked: tuple[tuple[str, Polygon], ...] = ()
    lines: tuple[float, ...] = ()

    def around(self, parts: Sequence[Polygon], gap: float) -> "Container":
        """Return the container with parts that lie there already as obstacles, grown by the gap to be kept to them.

        What is then laid keeps its gap to faults as well: hand over what the gap between parts is more than that.
        """
        return replace(self, obstacles=(*self.obstacles, *(grown(part, gap) for part in parts)))

    def in_the_way_of(self, avoids: frozenset[str]) -> tuple[Polygon, ...]:
        """Return what an item may not overlap that avoids these marks."""
        return (*self.obstacles, *(polygon for mark, polygon in self.marked if mark in avoids))

    @property
    def free_area(self) -> float:
        """Area of the outline that no obstacle covers; where obstacles overlap it may be larger than this."""
        blocked = sum(obstacle.intersection(self.outline).area for obstacle in self.obstacles)
        return float(self.outline.area - blocked)
