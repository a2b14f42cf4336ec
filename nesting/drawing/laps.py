"""The joints of a piece: laps hatched, with thin edge, heel of the bevel and station; butts with the strap behind."""

import math
from collections.abc import Sequence

import shapely
from shapely.geometry import LineString, Polygon

from nesting.model import TOLERANCE, BlankScarf, PlankScarf

from .canvas import Canvas, Points
from .datum import SheetPiece
from .hatching import hatched, line_points
from .joint_ends import Crossing, JointEnd
from .lettering import reading_angle, width_of, write_centred
from .own_frame import across, all_placed, hatching, lines_on_sheet, own_rings, stretch
from .placement import into_panel, shape_of
from .register_marks import draw_marks_of_end
from .styles import BEVEL, CLEARED, FEATHER, HATCH, HIDDEN, SMALL, STATION
from .tape import figure

#: Left, lower, right and upper limit.
Box = tuple[float, float, float, float]

#: Distance of hatch lines, and the strip beside a lap in which its words stand, millimetres on paper.
SPACING = 1.8
WORDS = SMALL + 2.0


def draw_end(canvas: Canvas, piece: SheetPiece, end: JointEnd) -> None:
    """Draw one joined end of a piece on its sheet."""
    if end.joint.kind == "butt":
        _draw_butt(canvas, piece, end)
    else:
        _draw_lap(canvas, piece, end)


def draw_crossing(canvas: Canvas, piece: SheetPiece, crossing: Crossing) -> None:
    """Draw a scarf of the blank where it runs across a piece."""
    scarf = crossing.scarf
    with canvas.group("lap", f"{crossing.code}: scarf {scarf.id}"):
        draw_scarf(canvas, shape_of(piece), scarf)
        at = f"{crossing.code} at {figure(crossing.joint.station)}"
        x = scarf.at - scarf.lap / 2 - WORDS / 2 * canvas.scale
        _write_along(canvas, across(shape_of(piece), x), (at, crossing.code), 90.0)


def draw_scarf(canvas: Canvas, shape: Polygon, scarf: BlankScarf | PlankScarf) -> None:
    """Draw a scarf of a blank or long plank within a shape that lies there, seen on the good face."""
    if isinstance(scarf, BlankScarf) and scarf.runs == "along":
        _draw_seam(canvas, shape, scarf)
        return
    low, high = scarf.at - scarf.lap / 2, scarf.at + scarf.lap / 2
    canvas.lines(hatched(stretch(shape, low, high), SPACING * canvas.scale, 45.0), HATCH)
    canvas.lines(across(shape, scarf.at), STATION)
    canvas.lines(across(shape, low), HIDDEN)
    canvas.lines(across(shape, high), FEATHER)


def _draw_seam(canvas: Canvas, shape: Polygon, scarf: BlankScarf) -> None:
    """Draw a scarf that runs along its blank, and write at its left end what it is."""
    low, high = scarf.at - scarf.lap / 2, scarf.at + scarf.lap / 2
    begins, ends = scarf.begins, scarf.begins + scarf.width
    band = shape.intersection(shapely.box(begins, low, ends, high))
    canvas.lines(hatched(band, SPACING * canvas.scale, 45.0), HATCH)
    for y, line in ((scarf.at, STATION), (low, HIDDEN), (high, FEATHER)):
        canvas.lines(line_points(shape.intersection(LineString([(begins, y), (ends, y)]))), line)
    words = f"{scarf.id}: middle {figure(scarf.at)} up, line on good face {figure(high)}"
    canvas.text(words, (begins + scarf.lap + canvas.scale, high + canvas.scale), SMALL)


def _draw_butt(canvas: Canvas, piece: SheetPiece, end: JointEnd) -> None:
    at = f"{end.code} at {figure(end.joint.station)}"
    with canvas.group("butt", f"{end.code}: square, strap behind"):
        canvas.lines(lines_on_sheet(piece, end.heel), HIDDEN)
        draw_marks_of_end(canvas, piece, end)
        _write_beside(canvas, piece, end, (f"{at}, square, strap behind", f"{at}, square", at, end.code))


def _draw_lap(canvas: Canvas, piece: SheetPiece, end: JointEnd) -> None:
    leaning = 135.0 if end.high_end else 45.0
    hatch = hatching(own_rings(piece), end.heel, end.feather, SPACING * canvas.scale, leaning)
    with canvas.group("lap", f"{end.code}: bevel {end.lies}"):
        canvas.lines(all_placed(hatch, piece), HATCH)
        canvas.lines(lines_on_sheet(piece, end.joint.station), STATION)
        canvas.lines(lines_on_sheet(piece, end.heel), HIDDEN if end.high_end else BEVEL)
        feather = lines_on_sheet(piece, end.feather + _towards_heel(end) * TOLERANCE)
        canvas.lines(feather, CLEARED)
        canvas.lines(feather, FEATHER)
        draw_marks_of_end(canvas, piece, end)
        at = f"{end.code} at {figure(end.joint.station)}"
        _write_beside(canvas, piece, end, (f"{at}, bevel {end.lies}", f"{at} {end.lies}", at, end.code))


def taken_by_end(end: JointEnd, scale: float) -> Box:
    """Return what a joined end and the words beside it take up on the drawing, in the panel's own frame."""
    inner = end.heel + _towards_heel(end) * WORDS * scale
    return min(inner, end.feather), -math.inf, max(inner, end.feather), math.inf


def taken_by_crossing(piece: SheetPiece, crossing: Crossing, scale: float) -> Box:
    """Return what a scarf across a piece and the words beside it take up on the drawing, in the panel's own frame."""
    scarf = crossing.scarf
    band = stretch(shape_of(piece), scarf.at - scarf.lap / 2 - WORDS * scale, scarf.at + scarf.lap / 2)
    left, low, right, high = into_panel(band, piece).bounds
    return left, low, right, high


def _towards_heel(end: JointEnd) -> float:
    return -1.0 if end.high_end else 1.0


def _write_beside(canvas: Canvas, piece: SheetPiece, end: JointEnd, choices: Sequence[str]) -> None:
    """Write along a joint, beside it."""
    station = end.heel + _towards_heel(end) * WORDS / 2 * canvas.scale
    _write_along(canvas, lines_on_sheet(piece, station), choices, reading_angle(piece.angle + 90))


def _write_along(canvas: Canvas, lines: Sequence[Points], choices: Sequence[str], angle: float) -> None:
    """Write the first choice that the longest line has room for; nothing if it has room for none."""
    if not lines:
        return
    start, end = max(((line[0], line[-1]) for line in lines), key=lambda ends: math.dist(*ends))
    for words in choices:
        if width_of(words, SMALL) * canvas.scale <= math.dist(start, end):
            write_centred(canvas, words, ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2), SMALL, angle)
            return
