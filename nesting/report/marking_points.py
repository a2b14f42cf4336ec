"""What of an outline is marked out, and where a line across the wood meets it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

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
    places: list[tuple[float, str]] = [(x, "station") for x in _stations(shape, tape)]
    places += [(x, f"{side} corner") for x, side in _sided(shape, _corners(shape))]
    places += _outermost(shape)
    places += [(float(x), "hole") for x, _ in _of_holes(shape)]
    places += [(x, why) for x, why in more if left - TOLERANCE <= x <= right + TOLERANCE]
    edges = edges_of(shape)
    return tuple(Line(at=at, why=why, crossings=crossings_at(edges, at)) for at, why in _merged(places))


def edges_of(shape: Polygon) -> Array:
    """Return the edges of all rings, one a row: x, y of the start, x, y of the end, x of the point before the start."""
    rings = [shapely.get_coordinates(ring)[:-1] for ring in (shape.exterior, *shape.interiors)]
    return np.vstack([np.column_stack([r, np.roll(r, -1, axis=0), np.roll(r, 1, axis=0)[:, 0]]) for r in rings])


def crossings_at(edges: Array, x: float) -> tuple[float, ...]:
    """Return where the outline meets the line across at x, rising; an edge that lies along it, by its two ends."""
    before, start, end = (_snapped(edges[:, column], x) for column in (4, 0, 2))
    touching = (start == x) & ~((before == x) & (end == x))
    running = (start - x) * (end - x) < 0
    ax, ay, bx, by = (edges[running, column] for column in range(4))
    between = ay + (x - ax) / (bx - ax) * (by - ay)
    return _distinct(np.sort(np.concatenate([edges[touching, 1], between])))


def _snapped(xs: Array, x: float) -> Array:
    return np.where(np.abs(xs - x) <= TOLERANCE, x, xs)


def _distinct(rising: Array) -> tuple[float, ...]:
    kept: list[float] = []
    for value in rising:
        if not kept or value - kept[-1] > TOLERANCE:
            kept.append(float(value))
    return tuple(kept)


def _stations(shape: Polygon, tape: Tape) -> list[float]:
    """Return the round places within a shape; closer ones on a short part with a curved edge."""
    left, _, right, _ = shape.bounds
    usual = tape.spacings[0]
    fitting = (space for space in tape.spacings if (right - left) >= LEAST_SPACES * space)
    spacing = next(fitting, tape.spacings[-1]) if is_curved(shape) else usual
    first, last = np.ceil(left / spacing), np.floor(right / spacing)
    return [float(step * spacing) for step in np.arange(first, last + 1)]


def is_curved(shape: Polygon) -> bool:
    """Whether some part of its outer ring is drawn along a batten: the ring turns where it has no corner."""
    points = shapely.get_coordinates(shape.exterior)[:-1]
    _, off = _turns(points)
    return bool(np.any(~_are_corners(points) & (off > TOLERANCE)))


def _corners(shape: Polygon) -> Array:
    """Return the corners of the outer ring, one a row."""
    points: Array = shapely.get_coordinates(shape.exterior)[:-1]
    return points[_are_corners(points)]


def _are_corners(points: Array) -> Flags:
    turn, off = _turns(points)
    before = np.hypot(*(points - np.roll(points, 1, axis=0)).T)
    longer = np.maximum(before, np.roll(before, -1))
    corners: Flags = (off > STANDS_OFF) | ((turn >= TURN) & (longer >= NEXT_TO))
    return corners


def _turns(points: Array) -> tuple[Array, Array]:
    """Return by how much a ring turns at each point, degrees, and how far each is off the line through its neighbours.

    Where a ring runs out and back on itself there is no such line, yet it turns.
    """
    before, after = points - np.roll(points, 1, axis=0), np.roll(points, -1, axis=0) - points
    cross = np.abs(before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0])
    along = np.maximum(np.hypot(*(before + after).T), TOLERANCE)
    return np.degrees(np.arctan2(cross, (before * after).sum(axis=1))), cross / along


def _outermost(shape: Polygon) -> Iterator[tuple[float, str]]:
    """Yield the outermost places of the outer ring that are no corners."""
    points = shapely.get_coordinates(shape.exterior)[:-1]
    are_corners = _are_corners(points)
    for index, name in zip(_extremes(points), ("start", "end", "lowest", "highest"), strict=True):
        if not are_corners[index]:
            yield float(points[index, 0]), name


def _of_holes(shape: Polygon) -> Array:
    """Return the corners of the holes, and their outermost places."""
    found = [_of_hole(shapely.get_coordinates(ring)[:-1]) for ring in shape.interiors]
    return np.vstack([*found, np.empty((0, 2))])


def _of_hole(points: Array) -> Array:
    wanted = _are_corners(points)
    wanted[list(_extremes(points))] = True
    return points[wanted]


def _extremes(points: Array) -> Iterator[int]:
    for axis in (0, 1):
        yield int(np.argmin(points[:, axis]))
        yield int(np.argmax(points[:, axis]))


def _sided(shape: Polygon, points: Array) -> Iterator[tuple[float, str]]:
    """Yield the x of each point, with which of the crossings there it is: lower, upper or between."""
    edges = edges_of(shape)
    for x, y in points:
        met = crossings_at(edges, float(x))
        low, high = abs(y - met[0]) <= TOLERANCE, abs(y - met[-1]) <= TOLERANCE
        yield float(x), "lower" if low else "upper" if high else "between"


def _merged(places: list[tuple[float, str]]) -> Iterator[tuple[float, tuple[str, ...]]]:
    """Yield each place once, rising, with all that is there; a round place before one that is nearly the same."""
    gathered: list[tuple[float, list[str]]] = []
    for at, why in sorted(places):
        if gathered and at - gathered[-1][0] <= TOLERANCE:
            gathered[-1][1].append(why)
        else:
            gathered.append((at, [why]))
    for at, reasons in gathered:
        yield at, tuple(dict.fromkeys(reasons))
