"""The joints of a piece: laps hatched, with thin edge, heel of the bevel and station; butts with the strap behind."""

from collections.abc import Sequence

import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from nesting.model import TOLERANCE, BlankScarf

from .canvas import Canvas, Points
from .datum import SheetPiece
from .hatching import hatched, line_points
from .joint_ends import Crossing, JointEnd
from .lettering import reading_angle, width_of, write_centred
from .placement import into_panel, onto_sheet, shape_of
from .styles import BEVEL, CLEARED, FEATHER, HATCH, HIDDEN, SMALL, STATION
from .tape import figure

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
        _write_along(canvas, _across(shape_of(piece), x), (at, crossing.code), 90.0)


def draw_scarf(canvas: Canvas, shape: Polygon, scarf: BlankScarf) -> None:
    """Draw a scarf of a blank within a shape that lies there, seen on the good face."""
    if scarf.runs == "along":
        _draw_seam(canvas, shape, scarf)
        return
    low, high = scarf.at - scarf.lap / 2, scarf.at + scarf.lap / 2
    canvas.lines(hatched(_stretch(shape, low, high), SPACING * canvas.scale, 45.0), HATCH)
    canvas.lines(_across(shape, scarf.at), STATION)
    canvas.lines(_across(shape, low), HIDDEN)
    canvas.lines(_across(shape, high), FEATHER)


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
    shape = into_panel(shape_of(piece), piece)
    at = f"{end.code} at {figure(end.joint.station)}"
    with canvas.group("butt", f"{end.code}: square, strap behind"):
        canvas.lines(_chords(shape, end.heel, piece), HIDDEN)
        _write_beside(canvas, shape, piece, end, (f"{at}, square, strap behind", f"{at}, square", at, end.code))


def _draw_lap(canvas: Canvas, piece: SheetPiece, end: JointEnd) -> None:
    shape = into_panel(shape_of(piece), piece)
    leaning = 135.0 if end.high_end else 45.0
    with canvas.group("lap", f"{end.code}: bevel {end.lies}"):
        canvas.lines(hatched(lap_band(piece, end), SPACING * canvas.scale, leaning), HATCH)
        canvas.lines(_chords(shape, end.joint.station, piece), STATION)
        canvas.lines(_chords(shape, end.heel, piece), HIDDEN if end.high_end else BEVEL)
        feather = _chords(shape, end.feather + _towards_heel(end) * TOLERANCE, piece)
        canvas.lines(feather, CLEARED)
        canvas.lines(feather, FEATHER)
        at = f"{end.code} at {figure(end.joint.station)}"
        _write_beside(canvas, shape, piece, end, (f"{at}, bevel {end.lies}", f"{at} {end.lies}", at, end.code))


def lap_band(piece: SheetPiece, end: JointEnd) -> BaseGeometry:
    """Return the lap as it lies on the sheet."""
    shape = into_panel(shape_of(piece), piece)
    return onto_sheet(_stretch(shape, end.heel, end.feather), piece)


def taken_by_end(piece: SheetPiece, end: JointEnd, scale: float) -> BaseGeometry:
    """Return the part of a piece that a joined end and the words beside it take up on the drawing."""
    shape = into_panel(shape_of(piece), piece)
    inner = end.heel + _towards_heel(end) * WORDS * scale
    return onto_sheet(_stretch(shape, inner, end.feather), piece)


def taken_by_crossing(piece: SheetPiece, crossing: Crossing, scale: float) -> BaseGeometry:
    """Return the part of a piece that a scarf across it and the words beside it take up on the drawing."""
    scarf = crossing.scarf
    return _stretch(shape_of(piece), scarf.at - scarf.lap / 2 - WORDS * scale, scarf.at + scarf.lap / 2)


def _towards_heel(end: JointEnd) -> float:
    return -1.0 if end.high_end else 1.0


def _stretch(shape: Polygon, one: float, other: float) -> BaseGeometry:
    _, low, _, high = shape.bounds
    return shape.intersection(shapely.box(min(one, other), low - 1, max(one, other), high + 1))


def _chords(shape: Polygon, station: float, piece: SheetPiece) -> list[Points]:
    """Return the line across the panel at a station, as it lies on the sheet."""
    _, low, _, high = shape.bounds
    across = shape.intersection(LineString([(station, low - 1), (station, high + 1)]))
    return line_points(onto_sheet(across, piece))


def _across(shape: Polygon, x: float) -> list[Points]:
    """Return the line across a shape at a place along the blank on which it lies."""
    _, low, _, high = shape.bounds
    return line_points(shape.intersection(LineString([(x, low - 1), (x, high + 1)])))


def _write_beside(canvas: Canvas, shape: Polygon, piece: SheetPiece, end: JointEnd, choices: Sequence[str]) -> None:
    """Write along a joint, beside it."""
    station = end.heel + _towards_heel(end) * WORDS / 2 * canvas.scale
    _write_along(canvas, _chords(shape, station, piece), choices, reading_angle(piece.angle + 90))


def _write_along(canvas: Canvas, lines: Sequence[Points], choices: Sequence[str], angle: float) -> None:
    """Write the first choice that the longest line has room for; nothing if it has room for none."""
    if not lines:
        return
    longest = max((LineString(points) for points in lines), key=lambda line: float(line.length))
    for words in choices:
        if width_of(words, SMALL) * canvas.scale <= longest.length:
            middle = longest.interpolate(0.5, normalized=True)
            write_centred(canvas, words, (middle.x, middle.y), SMALL, angle)
            return
