"""Places shapes one after another, each at the lowest place where it fits: sound, plain, and soon done.

Bottom-left placing over no-fit polygons (the idea of Art 1966 and of Gomes and Oliveira 2002, both from memory):
the places where a shape touches but does not overlap are the boundary of what the no-fit polygons leave of the
rectangle in which it fits, and the best of them is a corner of that boundary.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import affinity
from shapely.geometry import MultiLineString, Polygon
from shapely.geometry.base import BaseGeometry

from nesting.effort import Effort

from .attitude import AS_DRAWN, Attitude
from .container import Container
from .lines import moves_onto_lines
from .no_fit import NoFitStore
from .shapes import HAIR, Shape, ShapeStore


@dataclass(frozen=True)
class Item:
    """A shape, mirrored about the x axis if so asked, and the angles by which it may then be turned.

    Angles are degrees anticlockwise about the origin; quarter turns are exact. Hand over the same polygon for a part
    and its mirror image: what is known of the one then serves the other. ``avoids`` are the marks of obstacles that
    bother it.
    ``lines`` are its own x at which the container's lines must run; such an item is turned by 0 or 180 degrees only.
    """

    polygon: Polygon
    angles: tuple[float, ...] = (0,)
    mirrored: bool = False
    avoids: frozenset[str] = frozenset()
    lines: tuple[float, ...] = ()

    def attitude(self, angle: float) -> Attitude:
        """Return how it lies at one of its angles."""
        return Attitude(angle, self.mirrored)


@dataclass(frozen=True)
class Placement:
    """The item of that index, mirrored if the item is, lies turned by ``angle``, then moved by (x, y)."""

    item: int
    angle: float
    x: float
    y: float


@dataclass(frozen=True)
class Preference:
    """Which place is best: least ``x`` x right edge + ``y`` x upper edge of what is placed."""

    x: float = 0.01
    y: float = 1.0


class Placer:
    """Fills containers, remembering no-fit polygons from one fill to the next.

    Parameters
    ----------
    gap : float
        Least distance between two placed shapes; edge and obstacles may be touched.
    effort : Effort
        Counts two units for each item tried at one angle.
    coarseness : float
        Millimetres by which curves may be taken for larger than they are: more is faster and less dense.
    """

    def __init__(self, gap: float, effort: Effort, coarseness: float = 1.5) -> None:
        self._effort = effort
        self._shapes = ShapeStore(gap, coarseness)
        self._no_fits = NoFitStore()

    def fill(
        self, container: Container, items: Sequence[Item], preference: Preference = Preference()
    ) -> tuple[Placement, ...]:
        """Place as many items as fit, each in turn at its best place; those that don't fit are passed over.

        Polygons are told apart by identity, so hand over the same objects again to profit from what is known.
        """
        room = Room(container, self._shapes, self._no_fits)
        placements: list[Placement] = []
        hopeless: set[tuple[object, ...]] = set()  # what found no place finds none later, when there is less room
        for index, item in enumerate(items):
            looks = (id(item.polygon), item.angles, item.mirrored, item.avoids, item.lines)
            if looks in hopeless or item.polygon.area > room.area:
                continue
            best = self._best(room, item, index, preference)
            if best is None:
                hopeless.add(looks)
            else:
                room.take(item, best)
                placements.append(best)
        return tuple(placements)

    def _best(self, room: "Room", item: Item, index: int, preference: Preference) -> Placement | None:
        """Return the best place over all angles."""
        best, least = None, np.inf
        for angle in item.angles:
            self._effort.spend(2)
            places = room.places(item, angle)
            if len(places) == 0:
                continue
            _, _, right, top = self._shapes.lying(item.polygon, item.attitude(angle)).bounds
            scores = preference.x * (places[:, 0] + right) + preference.y * (places[:, 1] + top)
            at = int(np.argmin(scores))
            if scores[at] < least - HAIR:
                best, least = Placement(index, angle, float(places[at, 0]), float(places[at, 1])), float(scores[at])
        return best


class Room:
    """What is still free in one container while it is filled."""

    def __init__(self, container: Container, shapes: ShapeStore, no_fits: NoFitStore) -> None:
        self._container, self._shapes, self._no_fits = container, shapes, no_fits
        self._taken: list[tuple[Shape, Attitude, Placement]] = []
        self._free: dict[tuple[int, Attitude, frozenset[str]], tuple[BaseGeometry, int]] = {}
        blocked = sum(obstacle.intersection(container.outline).area for obstacle in container.obstacles)
        self.area = float(container.outline.area - blocked)

    def take(self, item: Item, placement: Placement) -> None:
        """Note that an item lies there now."""
        self._taken.append((self._shapes.with_gap(item.polygon), item.attitude(placement.angle), placement))
        self.area -= item.polygon.area

    def places(self, item: Item, angle: float) -> NDArray[np.float64]:
        """Return the corners of the region of moves that keep the polygon inside and off all others."""
        polygon, attitude = item.polygon, item.attitude(angle)
        key = (id(polygon), attitude, item.avoids)
        free, known = self._free.get(key) or (self._free_of_all(item, attitude), 0)
        wide = self._shapes.with_gap(polygon)
        forbidden = [
            affinity.translate(self._no_fits.get(shape, lying, wide, attitude), place.x, place.y)
            for shape, lying, place in self._taken[known:]
        ]
        if forbidden:
            free = free.difference(shapely.union_all(forbidden))
        self._free[key] = (free, len(self._taken))
        if item.lines:
            free = _on(moves_onto_lines(item, angle, self._container.lines), free)
        corners: NDArray[np.float64] = shapely.get_coordinates(free)
        return corners

    def _free_of_all(self, item: Item, attitude: Attitude) -> BaseGeometry:
        """Return the moves that keep the polygon inside while nothing is placed."""
        inner = _inner_fit(self._container.outline, self._shapes.lying(item.polygon, attitude))
        around = self._shapes.around(self._container, item.avoids)
        if inner.is_empty or not around:
            return inner
        bare = self._shapes.bare(item.polygon)
        regions = [self._no_fits.get(shape, AS_DRAWN, bare, attitude) for shape in around]
        return inner.difference(shapely.union_all(regions))


def _on(moves: Sequence[float], free: BaseGeometry) -> BaseGeometry:
    """Return what of a region of moves has one of these x."""
    if free.is_empty:
        return free
    _, south, _, north = free.bounds
    return free.intersection(MultiLineString([((x, south - 1), (x, north + 1)) for x in moves]))


def _inner_fit(outline: Polygon, polygon: BaseGeometry) -> Polygon:
    """Return the moves that keep the polygon's box in the outline's box, a hair wider; may be empty."""
    west, south, east, north = outline.bounds
    left, low, right, top = polygon.bounds
    a, b, c, d = west - left - HAIR, south - low - HAIR, east - right + HAIR, north - top + HAIR
    return shapely.box(a, b, c, d) if a <= c and b <= d else Polygon()
