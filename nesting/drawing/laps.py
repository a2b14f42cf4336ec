"""The laps of a piece: hatched, with the thin edge, the heel of the bevel and the joint's station."""

import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from nesting.model import TOLERANCE, PanelPiece

from .canvas import Canvas, Points
from .hatching import hatched, line_points
from .joint_ends import JointEnd
from .lettering import millimetres, reading_angle, width_of, write_centred
from .placement import into_panel, onto_sheet, shape_of
from .styles import BEVEL, CLEARED, FEATHER, HATCH, HIDDEN, SMALL, STATION

#: Distance of hatch lines, and the strip beside a lap in which its words stand, millimetres on paper.
SPACING = 1.8
WORDS = SMALL + 2.0


def draw_lap(canvas: Canvas, piece: PanelPiece, end: JointEnd) -> None:
    """Draw one bevelled end of a piece on its sheet."""
    shape = into_panel(shape_of(piece), piece)
    leaning = 135.0 if end.high_end else 45.0
    with canvas.group("lap", f"{end.code}: bevel {end.lies}"):
        canvas.lines(hatched(lap_band(piece, end), SPACING * canvas.scale, leaning), HATCH)
        canvas.lines(_chords(shape, end.joint.station, piece), STATION)
        canvas.lines(_chords(shape, end.heel, piece), HIDDEN if end.high_end else BEVEL)
        feather = _chords(shape, end.feather + _towards_heel(end) * TOLERANCE, piece)
        canvas.lines(feather, CLEARED)
        canvas.lines(feather, FEATHER)
        _write_beside(canvas, shape, piece, end)


def lap_band(piece: PanelPiece, end: JointEnd) -> BaseGeometry:
    """Return the lap as it lies on the sheet."""
    shape = into_panel(shape_of(piece), piece)
    return onto_sheet(_stretch(shape, end.heel, end.feather), piece)


def taken_by_lap(piece: PanelPiece, end: JointEnd, scale: float) -> BaseGeometry:
    """Return the part of a piece that the lap and the words beside it take up on the drawing."""
    shape = into_panel(shape_of(piece), piece)
    inner = end.heel + _towards_heel(end) * WORDS * scale
    return onto_sheet(_stretch(shape, inner, end.feather), piece)


def _towards_heel(end: JointEnd) -> float:
    return -1.0 if end.high_end else 1.0


def _stretch(shape: Polygon, one: float, other: float) -> BaseGeometry:
    _, low, _, high = shape.bounds
    return shape.intersection(shapely.box(min(one, other), low - 1, max(one, other), high + 1))


def _chords(shape: Polygon, station: float, piece: PanelPiece) -> list[Points]:
    """Return the line across the panel at a station, as it lies on the sheet."""
    _, low, _, high = shape.bounds
    across = shape.intersection(LineString([(station, low - 1), (station, high + 1)]))
    return line_points(onto_sheet(across, piece))


def _write_beside(canvas: Canvas, shape: Polygon, piece: PanelPiece, end: JointEnd) -> None:
    """Write the joint's code, station and bevel along the lap, as much of it as there is room for."""
    station = end.heel + _towards_heel(end) * WORDS / 2 * canvas.scale
    lines = _chords(shape, station, piece)
    if not lines:
        return
    longest = max((LineString(points) for points in lines), key=lambda line: float(line.length))
    at = f"{end.code} at {millimetres(end.joint.station)}"
    for words in (f"{at}, bevel {end.lies}", f"{at} {end.lies}", at, end.code):
        if width_of(words, SMALL) * canvas.scale <= longest.length:
            middle = longest.interpolate(0.5, normalized=True)
            write_centred(canvas, words, (middle.x, middle.y), SMALL, reading_angle(piece.angle + 90))
            return
