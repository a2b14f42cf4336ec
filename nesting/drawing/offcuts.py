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
    left, _, right, _ = shape.bounds
    room = (right - left) / canvas.scale
    size = figures(*extents(offcut.outline, on).size)
    middle = _middle(shape)
    with canvas.group("offcut", f"keep {size}"):
        canvas.area([offcut.outline], KEEP)
        for words, height in ((f"keep {size}", MIDDLE), (f"keep {size}", SMALL), ("keep", SMALL)):
            if width_of(words, height) <= room or words == "keep":
                write_centred(canvas, words, middle, height)
                return


def _middle(shape: Polygon) -> Point:
    """Return the centroid, or where the shape is widest if the centroid lies beside it."""
    centroid = shape.centroid
    if not shape.contains(centroid):
        centroid = shapely.Point(shapely.maximum_inscribed_circle(shape, tolerance=1.0).coords[0])
    return float(centroid.x), float(centroid.y)
