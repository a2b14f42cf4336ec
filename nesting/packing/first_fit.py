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
from shapely.geometry import Polygon

from nesting.effort import Effort

from .container import Container
from .no_fit import NoFitStore
from .shapes import HAIR, Shape, ShapeStore


@dataclass(frozen=True)
class Item:
    """A shape, and the angles by which it may be turned about the origin: 0, 90, 180, 270 degrees."""

    polygon: Polygon
    angles: tuple[int, ...] = (0,)


@dataclass(frozen=True)
class Placement:
    """The item of that index lies turned by ``angle`` about the origin, then moved by (x, y)."""

    item: int
    angle: int
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
        Counts one unit for each item tried at one angle.
    """

    def __init__(self, gap: float, effort: Effort) -> None:
        self._gap = gap
        self._effort = effort
        self._shapes = ShapeStore(gap)
        self._no_fits = NoFitStore()

    def fill(
        self, container: Container, items: Sequence[Item], preference: Preference = Preference()
    ) -> tuple[Placement, ...]:
        """Place as many items as fit, each in turn at its best place; those that don't fit are passed over.

        Polygons are told apart by identity, so hand over the same objects again to profit from what is known.
        """
        placements: list[Placement] = []
        taken: list[tuple[Shape, Placement]] = []
        room = container.outline.area - sum(o.intersection(container.outline).area for o in container.obstacles)
        for index, item in enumerate(items):
            if item.polygon.area > room:
                continue
            best = self._best(container, item, index, taken, preference)
            if best is not None:
                taken.append((self._shapes.with_gap(item.polygon), best))
                placements.append(best)
                room -= item.polygon.area
        return tuple(placements)

    def _best(
        self,
        container: Container,
        item: Item,
        index: int,
        taken: list[tuple[Shape, Placement]],
        preference: Preference,
    ) -> Placement | None:
        """Return the best place over all angles."""
        best, least = None, np.inf
        for angle in item.angles:
            self._effort.spend(1)
            places = self._places(container, item.polygon, angle, taken)
            if len(places) == 0:
                continue
            _, _, right, top = self._shapes.turned(item.polygon, angle).bounds
            scores = preference.x * (places[:, 0] + right) + preference.y * (places[:, 1] + top)
            at = int(np.argmin(scores))
            if scores[at] < least - HAIR:
                best, least = Placement(index, angle, float(places[at, 0]), float(places[at, 1])), float(scores[at])
        return best

    def _places(
        self, container: Container, polygon: Polygon, angle: int, taken: list[tuple[Shape, Placement]]
    ) -> NDArray[np.float64]:
        """Return the corners of the region of moves that keep the polygon inside and off all others."""
        inner = _inner_fit(container.outline, self._shapes.turned(polygon, angle))
        if inner is None:
            return np.empty((0, 2))
        bare, wide = self._shapes.bare(polygon), self._shapes.with_gap(polygon)
        forbidden = [self._no_fits.get(around, 0, bare, angle) for around in self._shapes.around(container)]
        for shape, place in taken:
            region = self._no_fits.get(shape, place.angle, wide, angle)
            forbidden.append(affinity.translate(region, place.x, place.y))
        free = inner.difference(shapely.union_all(forbidden)) if forbidden else inner
        corners: NDArray[np.float64] = shapely.get_coordinates(free)
        return corners


def _inner_fit(outline: Polygon, polygon: Polygon) -> Polygon | None:
    """Return the moves that keep the polygon's box in the outline's box, a hair wider; None if there are none."""
    west, south, east, north = outline.bounds
    left, low, right, top = polygon.bounds
    a, b, c, d = west - left - HAIR, south - low - HAIR, east - right + HAIR, north - top + HAIR
    return shapely.box(a, b, c, d) if a <= c and b <= d else None
