"""What is filled."""

from dataclasses import dataclass

from shapely.geometry import Polygon


@dataclass(frozen=True, eq=False)
class Container:
    """An outline to be filled, and obstacles in it that nothing may overlap; compared by identity."""

    outline: Polygon
    obstacles: tuple[Polygon, ...] = ()
