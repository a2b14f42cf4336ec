"""Between a panel's own frame and the sheet on which its piece lies."""

import math

import shapely
from shapely import affinity
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from nesting.model import StrapPiece

from .datum import SheetPiece
from .remembering import once_for_a_piece

Affine = tuple[float, float, float, float, float, float]

_QUARTERS = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}


@once_for_a_piece
def shape_of(piece: SheetPiece) -> Polygon:
    """Return the piece as it lies on its sheet."""
    holes = () if isinstance(piece, StrapPiece) else piece.holes
    return Polygon(shapely.linearrings(piece.outline), holes)


def into_panel(shape: BaseGeometry, piece: SheetPiece) -> BaseGeometry:
    """Return a shape on the sheet in the panel's own frame."""
    return affinity.affine_transform(shape, way_back(piece))


def motion(piece: SheetPiece) -> Affine:
    """Return a b d e x0 y0: a point (x, y) of the panel's own frame lies at a x + b y + x0, d x + e y + y0."""
    cos, sin, flip = _attitude(piece)
    return cos, -sin * flip, sin, cos * flip, piece.x, piece.y


def way_back(piece: SheetPiece) -> Affine:
    """Return how the sheet lies in the panel's own frame, in the same figures."""
    cos, sin, flip = _attitude(piece)
    x, y = piece.x, piece.y
    return cos, sin, -sin * flip, cos * flip, -cos * x - sin * y, flip * (sin * x - cos * y)


@once_for_a_piece
def own_size(piece: SheetPiece) -> tuple[float, float]:
    """Return the length along the panel's x axis and the width across it, millimetres."""
    left, bottom, right, top = into_panel(shape_of(piece), piece).bounds
    return right - left, top - bottom


def _attitude(piece: SheetPiece) -> tuple[float, float, float]:
    """Return cosine, sine and -1 where mirrored; quarter turns are exact."""
    turn = math.radians(piece.angle)
    cos, sin = _QUARTERS.get(piece.angle % 360, (math.cos(turn), math.sin(turn)))
    return cos, sin, -1.0 if piece.mirrored else 1.0
