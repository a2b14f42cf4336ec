"""Offcuts that are kept, as they lie on the sheet or blank."""

import shapely
from shapely.geometry import Polygon

from nesting.model import SheetOffcut

from .canvas import Canvas, Point
from .datum import Container, extents
from .lettering import width_of, write_centred
from .styles import KEEP, MIDDLE, SMALL
from .tape import figures


def draw_offcut(canvas: Canvas, offcut: SheetOffcut, on: Container) -> None:
    """Outline a kept offcut, with its greatest size and the word "keep"."""
    shape = Polygon(offcut.outline)
    size = figures(*extents(offcut.outline, on).size)
    with canvas.group("offcut", f"keep {size}"):
        canvas.area([offcut.outline], KEEP)
        words, height, angle = _fitting(size, shape, canvas.scale)
        write_centred(canvas, words, _middle(shape), height, angle)


def _fitting(size: str, shape: Polygon, scale: float) -> tuple[str, float, float]:
    """Return words, their height and angle: with the size if that has room along the offcut or across it."""
    left, low, right, high = shape.bounds
    ways = ((0.0, (right - left) / scale), (90.0, (high - low) / scale))
    for height in (MIDDLE, SMALL):
        for angle, room in ways:
            if width_of(f"keep {size}", height) <= room:
                return f"keep {size}", height, angle
    return "keep", SMALL, 0.0


def _middle(shape: Polygon) -> Point:
    """Return the centroid, or where the shape is widest if the centroid lies beside it."""
    centroid = shape.centroid
    if not shape.contains(centroid):
        centroid = shapely.Point(shapely.maximum_inscribed_circle(shape, tolerance=1.0).coords[0])
    return float(centroid.x), float(centroid.y)
