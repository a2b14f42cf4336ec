"""What of an outline is marked out, and where a line across the wood meets it."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LinearRing, Polygon

from nesting.drawing import Tape
from nesting.model import TOLERANCE

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

#: A point of an outline is a corner if it stands this far off the line through its neighbours, millimetres: points of
#: a curve that was flattened within 0.05 mm stand off by 0.2 at most.
STANDS_OFF = 0.5

#: It is one too if the outline turns there by so much, degrees, next to an edge of at least so many millimetres: so a
#: square end is found whose next point on a curved edge is near.
TURN, NEXT_TO = 10.0, 5.0

#: A curved part is long enough for the usual stations if it holds so many spaces between them.
LEAST_SPACES = 4


@dataclass(frozen=True, kw_only=True)
class Line:
    """A line square to the datum edge: where it starts on the datum edge, why it is drawn, and where it meets the part.

    ``crossings`` are distances from the datum edge, rising.
    """

    at: float
    why: tuple[str, ...]
    crossings: tuple[float, ...]


def lines_across(shape: Polygon, tape: Tape, more: Iterable[tuple[float, str]] = ()) -> tuple[Line, ...]:
    """Return the lines by which a shape is marked out, rising: stations, corners, outermost places of curves and holes.

    Parameters
    ----------
    shape : Polygon
        As it lies, with the datum edge along y = 0 and its end at x = 0; millimetres.
    more : iterable of (x, why)
        Further lines, drawn where the shape reaches them.
    """
    left, _, right, _ = shape.bounds
    outer = _Ring(shapely.get_coordinates(shape.exterior)[:-1])
    places = [_Place(x, "station") for x in _stations(left, right, tape, outer.is_curved)]
    places += [_Place(float(x), "corner", float(y)) for x, y in outer.points[outer.are_corners]]
    places += [_Place(x, why) for x, why in outer.outermost()]
    places += [_Place(float(x), "hole") for ring in shape.interiors for x in _of_hole(ring)]
    places += [_Place(x, why) for x, why in more if left - TOLERANCE <= x <= right + TOLERANCE]
    merged = _merged(places)
    met = all_crossings(edges_of(shape), [there[0].at for there in merged])
    return tuple(
        Line(at=there[0].at, why=_reasons(there, crossings), crossings=crossings)
        for there, crossings in zip(merged, met, strict=True)
    )


def edges_of(shape: Polygon) -> Array:
    """Return the edges of all rings, one a row: x, y of the start, x, y of the end, x of the point before the start."""
    rings = [shapely.get_coordinates(ring)[:-1] for ring in (shape.exterior, *shape.interiors)]
    return np.vstack([np.column_stack([r, np.roll(r, -1, axis=0), np.roll(r, 1, axis=0)[:, 0]]) for r in rings])


def all_crossings(edges: Array, xs: Sequence[float]) -> list[tuple[float, ...]]:
    """Return where the outline meets lines across, rising; an edge that lies along one, by its two ends."""
    at = np.array(xs)[:, np.newaxis]
    start, start_y, end, end_y, before = (edges[:, column] for column in range(5))
    before_side, start_side, end_side = (_side(column, at) for column in (before, start, end))
    touching = (start_side == 0) & ~((before_side == 0) & (end_side == 0))
    running = start_side * end_side < 0
    found: list[tuple[float, ...]] = []
    for x, touched, run in zip(xs, touching, running, strict=True):
        share = (x - start[run]) / (end[run] - start[run])
        between = start_y[run] + share * (end_y[run] - start_y[run])
        found.append(_distinct(np.sort(np.concatenate([start_y[touched], between]))))
    return found


def _side(values: Array, at: Array) -> Array:
    """Return on which side of each line values lie, one row a line: -1, 0 or 1."""
    off = values - at
    return np.where(np.abs(off) <= TOLERANCE, 0.0, np.sign(off))


def _distinct(rising: Array) -> tuple[float, ...]:
    kept: list[float] = []
    for value in rising:
        if not kept or value - kept[-1] > TOLERANCE:
            kept.append(float(value))
    return tuple(kept)


def corners_of(shape: Polygon) -> list[tuple[float, float]]:
    """Return the corners of an outline, its holes apart; all its points if a batten runs round the whole of it."""
    ring = _Ring(np.array(shape.exterior.coords[:-1])[:, :2])
    found = ring.points[ring.are_corners] if ring.are_corners.sum() > 2 else ring.points
    return [(float(x), float(y)) for x, y in found]


@dataclass(frozen=True)
class _Place:
    """A place along the datum edge, why a line is drawn there, and of a corner its distance from the edge."""

    at: float
    why: str
    y: float | None = None


class _Ring:
    """The points of a ring, which of them are corners, and whether a batten is needed to draw it."""

    def __init__(self, points: Array) -> None:
        self.points = points
        self.are_corners, self.is_curved = _corners((np.round(points - points[0], 6) + 0.0).tobytes())

    @property
    def extremes(self) -> tuple[int, int, int, int]:
        """Indices of its leftmost, rightmost, lowest and highest point."""
        xs, ys = self.points.T
        return int(np.argmin(xs)), int(np.argmax(xs)), int(np.argmin(ys)), int(np.argmax(ys))

    def outermost(self) -> Iterator[tuple[float, str]]:
        """Yield its outermost places that are no corners."""
        for index, name in zip(self.extremes, ("start", "end", "lowest", "highest"), strict=True):
            if not self.are_corners[index]:
                yield float(self.points[index, 0]), name


@lru_cache(maxsize=1000)
def _corners(ring: bytes) -> tuple[Flags, bool]:
    """Return which points of a ring, told from its first, are corners, and whether it turns where it has none.

    A batch has the same few rings on many sheets.
    """
    points = np.frombuffer(ring).reshape(-1, 2)
    turn, off = _turns(points)
    before = np.hypot(*(points - np.roll(points, 1, axis=0)).T)
    longer = np.maximum(before, np.roll(before, -1))
    are_corners: Flags = (off > STANDS_OFF) | ((turn >= TURN) & (longer >= NEXT_TO))
    return are_corners, bool(np.any(~are_corners & (off > TOLERANCE)))


def _turns(points: Array) -> tuple[Array, Array]:
    """Return by how much a ring turns at each point, degrees, and how far each is off the line through its neighbours.

    Where a ring runs out and back on itself there is no such line, yet it turns.
    """
    before, after = points - np.roll(points, 1, axis=0), np.roll(points, -1, axis=0) - points
    cross = np.abs(before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0])
    along = np.maximum(np.hypot(*(before + after).T), TOLERANCE)
    return np.degrees(np.arctan2(cross, (before * after).sum(axis=1))), cross / along


def _stations(left: float, right: float, tape: Tape, is_curved: bool) -> list[float]:
    """Return the round places from left to right; closer ones on a short part with a curved edge."""
    fitting = (space for space in tape.spacings if (right - left) >= LEAST_SPACES * space)
    spacing = next(fitting, tape.spacings[-1]) if is_curved else tape.spacings[0]
    first, last = math.ceil(left / spacing), math.floor(right / spacing)
    return [step * spacing for step in range(first, last + 1)]


def _of_hole(ring: LinearRing) -> Array:
    """Return the x of the corners of a hole, and of its outermost places."""
    hole = _Ring(shapely.get_coordinates(ring)[:-1])
    wanted = hole.are_corners.copy()
    wanted[list(hole.extremes)] = True
    xs: Array = hole.points[wanted, 0]
    return xs


def _merged(places: list[_Place]) -> list[list[_Place]]:
    """Return what is at each place, rising."""
    gathered: list[list[_Place]] = []
    for place in sorted(places, key=lambda place: (place.at, place.why)):
        if gathered and place.at - gathered[-1][0].at <= TOLERANCE:
            gathered[-1].append(place)
        else:
            gathered.append([place])
    return gathered


def _reasons(there: Sequence[_Place], crossings: Sequence[float]) -> tuple[str, ...]:
    """Return why a line is drawn, each reason once; of a corner also which of the crossings it is."""
    return tuple(sorted({place.why if place.y is None else _named(place.y, crossings) for place in there}))


def _named(y: float, crossings: Sequence[float]) -> str:
    low, high = abs(y - crossings[0]) <= TOLERANCE, abs(y - crossings[-1]) <= TOLERANCE
    return f"{'lower' if low else 'upper' if high else 'middle'} corner"
