"""What is filled."""

from dataclasses import dataclass

from shapely.geometry import Polygon


@dataclass(frozen=True, eq=False)
class Container:
    """What is filled; compared by identity.

    Attributes
    ----------
    obstacles : tuple of Polygon
        What nothing may overlap.
    marked : tuple of (mark, Polygon)
        What those items may not overlap that avoid the mark.
    """

    outline: Polygon
    obstacles: tuple[Polygon, ...] = ()
    marked: tuple[tuple[str, Polygon], ...] = ()

    def in_the_way_of(self, avoids: frozenset[str]) -> tuple[Polygon, ...]:
        """Return what an item may not overlap that avoids these marks."""
        return (*self.obstacles, *(polygon for mark, polygon in self.marked if mark in avoids))
