"""What is written inside a piece: as much as fits, the code before all else."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from nesting.model import StrapPiece

from .arrows import draw_arrow
from .canvas import Canvas, Point
from .datum import SheetPiece
from .hatching import line_points
from .laps import Box
from .lettering import reading_angle, width_of, write_centred
from .own_frame import Rings, own_rings, own_shape, placed
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


def draw_label(canvas: Canvas, piece: SheetPiece, code: str, taken: Sequence[Box], forward: Forward = None) -> None:
    """Write the fullest label that fits, along the piece's own axis.

    Its arrow shows where stations rise, or where the bow is if that is known.

    Parameters
    ----------
    taken : sequence of (left, lower, right, upper)
        What joints take up on the drawing, in the panel's own frame.
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


def _fitting(piece: SheetPiece, labels: Sequence[Label], taken: Sequence[Box], scale: float) -> tuple[Label, Point]:
    """Return the fullest label with a place for it; if none fits, the barest at the widest place."""
    sizes = tuple((width * scale, height * scale) for width, height in map(_size, labels))
    upright = tuple((height, width) for width, height in sizes) if isinstance(piece, StrapPiece) else sizes
    chosen, place = _best_place(own_rings(piece), tuple(taken), upright, scale)
    return labels[chosen], placed([place], piece)[0]


@lru_cache(maxsize=4000)
def _best_place(
    rings: Rings, taken: tuple[Box, ...], sizes: tuple[tuple[float, float], ...], scale: float
) -> tuple[int, Point]:
    """Return which of several boxes, the best first, has room in a piece, and the middle of its place.

    All is in the panel's own frame, millimetres; if no box has room it is the last, where the piece is widest.
    """
    room = _room(own_shape(rings), taken, scale)
    places = _places(room, scale)
    shapely.prepare(room)
    for number, (length, height) in enumerate(sizes):
        x, y = places[:, 0], places[:, 1]
        boxes = shapely.box(x - length / 2, y - height / 2, x + length / 2, y + height / 2)
        fits = shapely.covers(room, boxes)
        if fits.any():
            return number, tuple(places[fits.argmax()].tolist())
    return len(sizes) - 1, tuple(places[-1].tolist())


def _room(whole: Polygon, taken: Sequence[Box], scale: float) -> BaseGeometry:
    """Return where in a piece words may stand: off its edges and its joints."""
    left, low, right, high = whole.bounds
    room = whole.buffer(-0.6 * scale)
    for a, b, c, d in taken:
        room = room.difference(shapely.box(max(a, left), max(b, low), min(c, right), min(d, high)))
    return whole if room.is_empty else room


def _places(room: BaseGeometry, scale: float) -> NDArray[np.float64]:
    """Return places in a piece's room: the middles of lines across it, the longest first, and its widest place."""
    left, low, right, high = room.bounds
    stations = (left + share * (right - left) for share in SHARES)
    rulers = shapely.linestrings([[(station, low - 1), (station, high + 1)] for station in stations])
    middles: list[Point] = []
    for chord in shapely.intersection(room, rulers):
        runs = sorted(line_points(chord), key=lambda run: -abs(run[-1][1] - run[0][1]))
        middles += [(run[0][0], (run[0][1] + run[-1][1]) / 2) for run in runs]
    middles.append(shapely.maximum_inscribed_circle(room, tolerance=scale).coords[0])
    return np.array(middles)


def _size(label: Label) -> tuple[float, float]:
    width = max(row.width for row in label)
    return width, sum(row.height for row in label) + GAP * (len(label) - 1)
