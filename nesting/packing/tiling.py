"""Items that fill containers to the last corner, laid like the pieces of a jigsaw.

Where no area is to spare, the leftmost free corner, the lowest of these if there are several, must be covered by an
item whose own such corner lies there with its lower edge along the free region's. That leaves few items to try at each
step, and a search in depth tries them one after another. (So are perfect rectangles of squares told by machine;
Duijvestijn 1962, from memory.)
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from nesting.effort import Effort

from .container import Container
from .corners import Corner, leftmost_corner
from .first_fit import Item, Placement
from .workshop import Gaps

#: Width of the slivers that rounding may leave or take, as a share of the largest container's side.
SLIVER = 1e-6

#: Share of the containers' area by which the items' may differ from it.
ROUNDING = 1e-6

#: Steps after which the search begins anew with ties broken otherwise, and how many times more each time.
STEPS, MORE_STEPS = 300, 1.5

#: How far a corner may stick out, told as the limit of a mitre, for the search to keep it as sharp as it is.
MITRE = 1e4

#: Share of the effort that goes into a tiling where there may be one.
SHARE = 0.2

#: Container and place of each item, in no order.
Tiling = tuple[tuple[int, Placement], ...]

Region = tuple[Polygon, ...]


def can_tile(containers: Sequence[Container], items: Sequence[Item]) -> bool:
    """Whether the items have the very area of the containers, and neither has lines or marks to be heeded."""
    if any(item.lines or item.avoids for item in items):
        return False
    free = sum(container.free_area for container in containers)
    return bool(abs(sum(item.polygon.area for item in items) - free) <= ROUNDING * free)


def tile_if_full(
    gaps: Gaps, containers: Sequence[Container], items: Sequence[Item], effort: Effort, seed: int = 0
) -> Tiling | None:
    """Return a place for every item if they fill the containers and a share of the effort finds how; else None."""
    if gaps != Gaps() or not can_tile(containers, items):
        return None
    return tile(containers, items, effort.share_of_rest(SHARE), seed)


def tile(containers: Sequence[Container], items: Sequence[Item], effort: Effort, seed: int = 0) -> Tiling | None:
    """Return a place for every item, or None if none was found: that proves nothing.

    Places are right within rounding: verify them. Counts one unit of work for each item that is laid.

    Parameters
    ----------
    containers, items
        Of one area: see ``can_tile``. No gaps are kept.
    """
    puzzle, steps = _Puzzle(containers, items, np.random.default_rng(seed)), float(STEPS)
    while not effort.over:
        found = puzzle.solve(int(steps), effort)
        if found is not None or puzzle.all_tried:
            return found
        steps *= MORE_STEPS
    return None


@dataclass(frozen=True)
class _Tile:
    """Items of a kind in one attitude, turned by that angle."""

    kind: int
    angle: float
    polygon: Polygon
    corner: Corner


@dataclass(frozen=True)
class _Step:
    """A tile that was moved by (x, y), and what is free then."""

    tile: _Tile
    x: float
    y: float
    region: Region


class _Puzzle:
    """The items by kind, and the free regions of all containers beside one another."""

    def __init__(self, containers: Sequence[Container], items: Sequence[Item], chance: np.random.Generator) -> None:
        bounds = np.array([container.outline.bounds for container in containers])
        self._size = float((bounds[:, 2:] - bounds[:, :2]).max())
        self._chance, self._sliver, self.all_tried = chance, SLIVER * self._size, False
        self._moved = np.arange(len(bounds)) * 2 * self._size - bounds[:, 0]
        free = [self._free(container, x) for container, x in zip(containers, self._moved, strict=True)]
        self._region: Region = tuple(part for parts in free for part in parts)
        kinds: dict[tuple[bytes, tuple[float, ...], bool], list[int]] = {}
        for index, item in enumerate(items):
            kinds.setdefault((item.polygon.wkb, item.angles, item.mirrored), []).append(index)
        self._kinds = list(kinds.values())
        self._tiles = [t for kind, owners in enumerate(self._kinds) for t in self._tiles_of(kind, items[owners[0]])]

    def solve(self, steps: int, effort: Effort) -> Tiling | None:
        """Search in depth for so many steps; ``all_tried`` says that there is nothing else to try."""
        left = [len(owners) for owners in self._kinds]
        laid: list[_Step] = []
        ways = [self._steps(self._region, left)]
        while ways:
            step = next(ways[-1], None)
            if step is None:
                ways.pop()
                if laid:
                    left[laid.pop().tile.kind] += 1
                continue
            laid.append(step)
            left[step.tile.kind] -= 1
            if not any(left):
                return self._read(laid)
            effort.spend(1)
            steps -= 1
            if steps <= 0 or effort.over:
                return None
            ways.append(self._steps(step.region, left))
        self.all_tried = True
        return None

    def _steps(self, region: Region, left: Sequence[int]) -> Iterator[_Step]:
        """Yield each tile that may lie in the leftmost corner, and what is free then; first those that match best."""
        if not region:
            return
        corners = [leftmost_corner(part, self._sliver) for part in region]
        at = min(range(len(region)), key=lambda k: (corners[k].x, corners[k].y))
        corner = corners[at]
        fitting = [tile for tile in self._tiles if left[tile.kind] and self._fits(tile.corner, corner)]
        matches = {id(tile): (-self._matches(tile.corner, corner), self._chance.random()) for tile in fitting}
        for tile in sorted(fitting, key=lambda tile: matches[id(tile)]):
            x, y = corner.x - tile.corner.x, corner.y - tile.corner.y
            rest = self._without(region[at], affinity.translate(tile.polygon, x, y))
            if rest is not None:
                yield _Step(tile, x, y, (*region[:at], *rest, *region[at + 1 :]))

    def _fits(self, tile: Corner, corner: Corner) -> bool:
        """Whether the corner of a tile lies along the lower edge of another corner, and within it."""
        hair = 3 * self._sliver
        return abs(corner.lower.strays(tile.lower)) < hair and corner.upper.strays(tile.upper) < hair

    def _matches(self, tile: Corner, corner: Corner) -> int:
        """Return in how many ways two corners are the same: their angle, and the lengths of their edges."""
        hair = 3 * self._sliver
        upper = abs(corner.upper.strays(tile.upper)) < hair
        lengths = abs(tile.lower.length - corner.lower.length), abs(tile.upper.length - corner.upper.length)
        return upper + (lengths[0] < hair) + (upper and lengths[1] < hair)

    def _without(self, region: Polygon, tile: Polygon) -> Region | None:
        """Return what of a region a tile leaves free; None if the tile does not lie within."""
        rest = region.difference(tile)
        if abs(region.area - tile.area - rest.area) > self._sliver * tile.length:
            return None
        return self._opened(rest)

    def _opened(self, region: BaseGeometry) -> Region:
        """Return the parts of a region without slivers and spikes."""
        narrow = region.buffer(-self._sliver, join_style="mitre", mitre_limit=MITRE)
        parts = shapely.get_parts(narrow.buffer(self._sliver, join_style="mitre", mitre_limit=MITRE))
        return tuple(part for part in parts if not part.is_empty)

    def _free(self, container: Container, x: float) -> Region:
        """Return what is free in a container that is moved along x."""
        free = container.outline.difference(shapely.union_all(container.obstacles))
        return self._opened(affinity.translate(free, x, 0))

    def _tiles_of(self, kind: int, item: Item) -> Iterator[_Tile]:
        """Yield an item in those of its attitudes that differ by more than a move."""
        seen: list[Polygon] = []
        for angle in item.angles:
            polygon = item.attitude(angle).of(item.polygon)
            corner = leftmost_corner(polygon, self._sliver)
            at_origin = affinity.translate(polygon, -corner.x, -corner.y)
            if all(at_origin.symmetric_difference(one).area > self._sliver * one.length for one in seen):
                seen.append(at_origin)
                yield _Tile(kind, angle, polygon, corner)

    def _read(self, laid: Sequence[_Step]) -> Tiling:
        """Return the places, each in its container."""
        owners, places = [list(kind) for kind in self._kinds], []
        for step in laid:
            container = int((step.x + step.tile.corner.x) / (2 * self._size) + 0.25)
            x = step.x - float(self._moved[container])
            places.append((container, Placement(owners[step.tile.kind].pop(), step.tile.angle, x, step.y)))
        return tuple(places)
