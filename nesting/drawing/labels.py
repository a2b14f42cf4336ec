"""What is written inside a piece: as much as fits, the code before all else."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from nesting.model import StrapPiece

from .arrows import draw_arrow
from .canvas import Canvas, Point
from .datum import SheetPiece
from .hatching import line_points
from .lettering import reading_angle, width_of, write_centred
from .placement import into_panel, onto_sheet, shape_of
from .styles import LARGE, MIDDLE, SMALL

#: Between rows, and between a code and its arrow, millimetres on paper.
GAP = 1.2

#: Where along a piece a label may stand, as shares of its length, the best first.
SHARES = (0.5, 0.4, 0.6, 0.25, 0.75, 0.15, 0.85)


@dataclass(frozen=True, kw_only=True)
class Row:
    """One line of words, with an arrow of a given length after it, and what that points to; millimetres on paper."""

    words: str
    height: float
    arrow: float = 0.0
    points_to: str = ""

    @property
    def width(self) -> float:
        """Words, gap, arrow and what it points to together."""
        told = GAP + width_of(self.points_to, SMALL) if self.points_to else 0.0
        return width_of(self.words, self.height) + (GAP + self.arrow + told if self.arrow else 0.0)


Label = tuple[Row, ...]

#: Which end of a panel looks to the bow.
Forward = Literal["low", "high"] | None

#: What stands behind an arrow that points to the bow.
FORWARD = "fwd"


def draw_label(
    canvas: Canvas, piece: SheetPiece, code: str, taken: Sequence[BaseGeometry], forward: Forward = None
) -> None:
    """Write the fullest label that fits, along the piece's own axis.

    Its arrow shows where stations rise, or where the bow is if that is known.

    Parameters
    ----------
    taken : sequence of shapely geometries
        The parts of the piece that joints take up on the drawing.
    forward : {"low", "high"} or None
        Which end of its panel looks to the bow.
    """
    label, centre = _fitting(piece, _labels(piece, code, forward), taken, canvas.scale)
    rising = forward != "low"
    angle = reading_angle(_axis(piece))
    width, height = _size(label)
    left, top = -width / 2, height / 2
    for row in label:
        place = (left + (width - row.width) / 2, top)
        _draw_row(canvas, row, _Frame(centre, angle, canvas.scale), place, _leads(piece, angle) == rising)
        top -= row.height + GAP


def described(piece: SheetPiece) -> str:
    """Return hand and share, such as ``port, piece 1 of 2``."""
    share = _share(piece) or "whole"
    share = f"piece {share}" if " of " in share else share
    return f"{piece.hand}, {share}" if piece.hand else share


@dataclass(frozen=True)
class _Frame:
    """A frame on the drawing about ``centre``, turned, with paper millimetres along its axes."""

    centre: Point
    angle: float
    scale: float

    def at(self, along: float, up: float) -> Point:
        cos, sin = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        x, y = along * self.scale, up * self.scale
        return self.centre[0] + x * cos - y * sin, self.centre[1] + x * sin + y * cos


def _leads(piece: SheetPiece, angle: float) -> bool:
    """Whether the stations of a piece rise as words at an angle run."""
    return math.cos(math.radians(piece.angle - angle)) > 0


def _draw_row(canvas: Canvas, row: Row, frame: _Frame, top_left: Point, ahead: bool) -> None:
    """Draw one row; its arrow points ahead, as the words run, or back."""
    left, top = top_left
    words = width_of(row.words, row.height)
    middle = top - row.height / 2
    write_centred(canvas, row.words, frame.at(left + words / 2, middle), row.height, frame.angle)
    if row.arrow:
        start, end = frame.at(left + words + GAP, middle), frame.at(left + words + GAP + row.arrow, middle)
        draw_arrow(canvas, *((start, end) if ahead else (end, start)))
        along = left + words + GAP + row.arrow + GAP + width_of(row.points_to, SMALL) / 2
        if row.points_to:
            write_centred(canvas, row.points_to, frame.at(along, middle), SMALL, frame.angle)


def _labels(piece: SheetPiece, code: str, forward: Forward = None) -> tuple[Label, ...]:
    """Return all labels from the fullest to the barest; an arrow that points forward is always told to."""
    labels = _plain_labels(piece, code)
    return tuple(map(_told, labels)) if forward else labels


def _told(label: Label) -> Label:
    """Return a label whose arrow is told to point to the bow."""
    return tuple(replace(row, points_to=FORWARD) if row.arrow else row for row in label)


def _plain_labels(piece: SheetPiece, code: str) -> tuple[Label, ...]:
    if isinstance(piece, StrapPiece):
        return _strap_labels(piece, code)
    share = _share(piece)
    short = " ".join(word for word in (piece.hand, share) if word)
    full = Row(words=described(piece), height=SMALL)
    name = Row(words=piece.part, height=MIDDLE)
    small_name = Row(words=piece.part, height=SMALL)
    one_row = Row(words=", ".join(word for word in (piece.part, short) if word), height=SMALL)
    brief = (Row(words=short, height=SMALL),) if short else ()
    return (
        (Row(words=code, height=LARGE, arrow=18.0), name, full),
        (Row(words=code, height=LARGE, arrow=10.0), small_name, full),
        (Row(words=code, height=LARGE, arrow=10.0), one_row),
        (Row(words=code, height=LARGE, arrow=10.0), *brief),
        (Row(words=f"{code} {short}".strip(), height=SMALL, arrow=10.0),),
        (Row(words=code, height=MIDDLE, arrow=8.0),),
        (Row(words=code, height=SMALL, arrow=4.5),),
        (Row(words=code, height=MIDDLE),),
        (Row(words=code, height=SMALL),),
    )


def _strap_labels(piece: StrapPiece, code: str) -> tuple[Label, ...]:
    of = Row(words=" ".join(word for word in (piece.part, piece.hand) if word), height=SMALL)
    return (
        (Row(words=code, height=MIDDLE), of),
        (Row(words=code, height=SMALL), of),
        (Row(words=code, height=MIDDLE),),
        (Row(words=code, height=SMALL),),
    )


def _axis(piece: SheetPiece) -> float:
    """Return the angle along which a piece is long: a strap across its panel."""
    return piece.angle + 90.0 if isinstance(piece, StrapPiece) else piece.angle


def _share(piece: SheetPiece) -> str:
    """Return which piece of its part it is, if not the whole of it."""
    if isinstance(piece, StrapPiece):
        return "strap"
    return f"{piece.index} of {piece.of}" if piece.of > 1 else ""


def _fitting(
    piece: SheetPiece, labels: Sequence[Label], taken: Sequence[BaseGeometry], scale: float
) -> tuple[Label, Point]:
    """Return the fullest label with a place for it; if none fits, the barest at the widest place."""
    room = _room(piece, taken, scale)
    places = _places(piece, room, scale)
    shapely.prepare(room)
    for label in labels:
        fits = shapely.covers(room, _boxes(label, places, _axis(piece), scale))
        if fits.any():
            return label, places[int(fits.argmax())]
    return labels[-1], places[-1]


def _room(piece: SheetPiece, taken: Sequence[BaseGeometry], scale: float) -> BaseGeometry:
    """Return where in the piece words may stand: off its edges and its laps."""
    whole = shape_of(piece)
    room = whole.buffer(-0.6 * scale)
    for joint in taken:
        room = room.difference(joint)
    return whole if room.is_empty else room


def _places(piece: SheetPiece, room: BaseGeometry, scale: float) -> list[Point]:
    """Return places in a piece's room: the middles of lines across it, the longest first, and its widest place."""
    own = into_panel(room, piece)
    left, low, right, high = own.bounds
    stations = (left + share * (right - left) for share in SHARES)
    rulers = shapely.linestrings([[(station, low - 1), (station, high + 1)] for station in stations])
    middles: list[Point] = []
    for chord in shapely.intersection(own, rulers):
        runs = sorted(line_points(chord), key=lambda run: -abs(run[-1][1] - run[0][1]))
        middles += [(run[0][0], (run[0][1] + run[-1][1]) / 2) for run in runs]
    middles.append(shapely.maximum_inscribed_circle(own, tolerance=scale).coords[0])
    there = onto_sheet(shapely.MultiPoint(middles), piece)
    return [(float(point.x), float(point.y)) for point in there.geoms]


def _size(label: Label) -> tuple[float, float]:
    width = max(row.width for row in label)
    return width, sum(row.height for row in label) + GAP * (len(label) - 1)


def _boxes(label: Label, centres: Sequence[Point], angle: float, scale: float) -> Any:
    """Return the rectangles that a label takes about some places, as an array of polygons."""
    width, height = _size(label)
    frame = _Frame((0.0, 0.0), angle, scale)
    corners = [frame.at(along * width / 2, up * height / 2) for along, up in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    return shapely.polygons(np.array(centres)[:, np.newaxis, :] + np.array(corners)[np.newaxis, :, :])
