"""Pieces in their panel's own frame: what is worked out there for one serves all that are like it.

A batch has the same few pieces dozens of times, each somewhere else; where a label has room, or how a lap is hatched,
does not depend on where.
"""

from collections.abc import Iterable
from functools import lru_cache

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from nesting.model import StrapPiece

from .canvas import Point, Points
from .datum import SheetPiece
from .hatching import hatched, line_points
from .placement import motion, way_back
from .remembering import once_for_a_piece

#: Rings of a piece in its own frame, the outer one first, to a thousandth of a millimetre.
Rings = tuple[tuple[Point, ...], ...]


@once_for_a_piece
def own_rings(piece: SheetPiece) -> Rings:
    """Return the outline and the holes of a piece in its panel's own frame."""
    rings = (piece.outline, *(() if isinstance(piece, StrapPiece) else piece.holes))
    a, b, d, e, x, y = way_back(piece)
    matrix = np.array([[a, d], [b, e]])
    return tuple(tuple(map(tuple, (np.round(np.array(ring) @ matrix + (x, y), 3) + 0.0).tolist())) for ring in rings)


@lru_cache(maxsize=1000)
def own_shape(rings: Rings) -> Polygon:
    """Return the piece that has these rings."""
    return Polygon(rings[0], rings[1:])


def stretch(shape: Polygon, one: float, other: float) -> BaseGeometry:
    """Return what of a shape lies between two places along it."""
    _, low, _, high = shape.bounds
    return shape.intersection(shapely.box(min(one, other), low - 1, max(one, other), high + 1))


def across(shape: Polygon, station: float) -> list[Points]:
    """Return the line across a shape at a place along it."""
    _, low, _, high = shape.bounds
    return line_points(shape.intersection(LineString([(station, low - 1), (station, high + 1)])))


@lru_cache(maxsize=4000)
def chords(rings: Rings, station: float) -> tuple[Points, ...]:
    """Return the line across a piece at a station."""
    return tuple(across(own_shape(rings), station))


@lru_cache(maxsize=1000)
def hatching(rings: Rings, one: float, other: float, spacing: float, angle: float) -> tuple[Points, ...]:
    """Return the hatching of a piece between two stations."""
    return tuple(hatched(stretch(own_shape(rings), one, other), spacing, angle))


def placed(points: Points, piece: SheetPiece) -> list[Point]:
    """Return points of the panel's own frame as they lie on the sheet."""
    a, b, d, e, x0, y0 = motion(piece)
    return [(a * x + b * y + x0, d * x + e * y + y0) for x, y in points]


def lines_on_sheet(piece: SheetPiece, station: float) -> list[Points]:
    """Return the line across a piece at a station, as it lies on the sheet."""
    return all_placed(chords(own_rings(piece), station), piece)


def all_placed(runs: Iterable[Points], piece: SheetPiece) -> list[Points]:
    """Return lines of the panel's own frame as they lie on the sheet."""
    return [placed(run, piece) for run in runs]
