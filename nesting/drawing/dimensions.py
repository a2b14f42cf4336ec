"""Dimensions: the overall size, and running distances from the datum corner along two edges."""

from collections.abc import Sequence

import shapely
from shapely.geometry import Polygon

from .canvas import Canvas
from .lettering import write_centred
from .sheet_frame import SheetFrame
from .styles import BLACK, DIMENSION, SMALL
from .tape import figure, unit

#: Millimetres on paper: from the stock to the overall dimension lines, and to the running figures.
OFF, FIGURES_OFF = 4.0, 5.0
TICK = 1.5

#: Least distance between running figures on paper.
PITCH = SMALL + 1.0


def dimensions_in_words() -> str:
    """Return in what dimensions are, and from where."""
    return "dimensions in mm from ringed corner" if unit() == "mm" else f"{unit()} from the ringed corner"


def draw_datum(canvas: Canvas, frame: SheetFrame) -> None:
    """Draw the datum corner, from which all running distances are taken, as a ringed dot."""
    at = (frame.left, frame.bottom)
    canvas.circle(at, 2.0, DIMENSION)
    canvas.circle(at, 0.8, None, tint=BLACK)


def draw_overall(canvas: Canvas, frame: SheetFrame) -> None:
    """Draw the length above the sheet or blank and the width to its right."""
    off, tick = frame.paper(frame.above + OFF), frame.paper(TICK)
    y, x = frame.top + off, frame.right + frame.paper(2.0)
    length, width = frame.right - frame.left, frame.top - frame.bottom
    canvas.lines([[(frame.left, y), (frame.right, y)], [(x, frame.bottom), (x, frame.top)]], DIMENSION)
    canvas.lines([[(end, frame.top + tick / 2), (end, y + tick)] for end in (frame.left, frame.right)], DIMENSION)
    canvas.lines([[(frame.right + tick / 3, end), (x + tick / 2, end)] for end in (frame.bottom, frame.top)], DIMENSION)
    middle = ((frame.left + frame.right) / 2, y + frame.paper(1.0 + SMALL / 2))
    write_centred(canvas, figure(length), middle, SMALL)
    beside = (x + frame.paper(1.0 + SMALL / 2), (frame.bottom + frame.top) / 2)
    write_centred(canvas, figure(width), beside, SMALL, 90.0)


def draw_running(canvas: Canvas, frame: SheetFrame, marks: Sequence[tuple[float, float]]) -> None:
    """Draw where the lower left extents of pieces lie, along the bottom and the left edge.

    Parameters
    ----------
    marks : sequence of (from left, from bottom)
        Distances from the datum corner.
    """
    _draw_along(canvas, frame, sorted({round(x, 1) for x, _ in marks}))
    _draw_up(canvas, frame, sorted({round(y, 1) for _, y in marks}))


def draw_corners(canvas: Canvas, pieces: Sequence[Polygon]) -> None:
    """Mark the lower left extents of each piece, unless the mark would fall on another."""
    arm = 2.5 * canvas.scale
    corners = shapely.bounds(pieces)[:, :2]
    for number, (x, y) in enumerate(corners.tolist()):
        there = shapely.intersects_xy(pieces, x, y)
        there[number] = False
        if not there.any():
            canvas.lines([[(x, y + arm), (x, y), (x + arm, y)]], DIMENSION)


def spread(wanted: Sequence[float], gap: float) -> list[float]:
    """Return places at least ``gap`` apart in the given order and as near as can be (least squares).

    Places less their rank times the gap must not fall; pooling neighbours that do gives the nearest such row.
    """
    pools: list[tuple[float, int]] = []
    for rank, place in enumerate(wanted):
        total, count = place - rank * gap, 1
        while pools and pools[-1][0] / pools[-1][1] > total / count:
            before = pools.pop()
            total, count = total + before[0], count + before[1]
        pools.append((total, count))
    levels = [total / count for total, count in pools for _ in range(count)]
    return [level + rank * gap for rank, level in enumerate(levels)]


def _draw_along(canvas: Canvas, frame: SheetFrame, distances: list[float]) -> None:
    tick, off = frame.paper(TICK), frame.paper(FIGURES_OFF)
    for distance, place in zip(distances, spread(distances, frame.paper(PITCH)), strict=True):
        x, to = frame.left + distance, frame.left + place
        leader = [(x, frame.bottom), (x, frame.bottom - tick), (to, frame.bottom - off + frame.paper(0.5))]
        canvas.lines([leader], DIMENSION)
        at = (to + frame.paper(SMALL / 2), frame.bottom - off)
        canvas.text(figure(distance), at, SMALL, anchor="end", angle=90.0)


def _draw_up(canvas: Canvas, frame: SheetFrame, distances: list[float]) -> None:
    tick, off = frame.paper(TICK), frame.paper(2.4)
    for distance, place in zip(distances, spread(distances, frame.paper(PITCH)), strict=True):
        y, to = frame.bottom + distance, frame.bottom + place
        leader = [(frame.left, y), (frame.left - tick, y), (frame.left - off + frame.paper(0.3), to)]
        canvas.lines([leader], DIMENSION)
        at = (frame.left - off, to - frame.paper(SMALL / 2))
        canvas.text(figure(distance), at, SMALL, anchor="end")
