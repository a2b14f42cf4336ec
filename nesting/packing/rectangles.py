"""Sets of rectangles, exactly: places for all of them, or a proof that there are none."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from nesting.solving import Arrangement, Body, Box, Lying, Status, Way, arrange

#: Steps to a millimetre, tried one after another until all figures are whole; the last is taken in any case.
SCALES = (1, 10, 100, 1000)

#: Share of a step by which a figure may miss a whole one.
ROUNDING = 1e-6


@dataclass(frozen=True)
class Rectangle:
    """A rectangle along x and y; may it be turned by 90 degrees?"""

    width: float
    height: float
    may_turn: bool = False


@dataclass(frozen=True)
class PlacedRectangle:
    """Where the lower left corner of a rectangle lies, and whether it is turned by 90 degrees."""

    x: float
    y: float
    turned: bool


@dataclass(frozen=True)
class RectanglePacking:
    """Places in the order of the rectangles, if there are any; IMPOSSIBLE is a proof, UNKNOWN says nothing."""

    status: Status
    places: tuple[PlacedRectangle, ...] = ()


def pack_rectangles(
    room: tuple[float, float], rectangles: Sequence[Rectangle], gap: float = 0.0, *, effort: float = 0.5, seed: int = 0
) -> RectanglePacking:
    """Place all rectangles in a room (width, height), ``gap`` apart from one another; the edge may be touched.

    Figures in thousandths of a millimetre, or coarser, are taken exactly. Finer ones are rounded to the safe side:
    larger for an answer, smaller for a proof.

    Answers keep the gap along x or along y. A proof also covers layouts in which two corners are nearer to one
    another than the gap along either and still ``gap`` apart as the crow flies; where only those are left, UNKNOWN.

    Parameters
    ----------
    effort : float
        Deterministic time as in ``nesting.solving.minimize``, for an answer and for a proof each.
    """
    steps = _Steps.that_suit([*room, gap / 2, *(side for one in rectangles for side in (one.width, one.height))])
    found = _arranged(room, rectangles, gap, steps, effort, seed)
    if found.found:
        return RectanglePacking(found.status, tuple(map(steps.placed, found.places)))
    if steps.exact and gap == 0:
        return RectanglePacking(found.status)
    return RectanglePacking(_refuted(room, rectangles, gap, steps, effort, seed))


@dataclass(frozen=True)
class _Steps:
    """So many steps to a millimetre; ``exact`` if all figures are whole in them."""

    scale: int
    exact: bool

    @classmethod
    def that_suit(cls, figures: Sequence[float]) -> "_Steps":
        """Return the coarsest steps in which the figures are whole, or else the finest."""
        for scale in SCALES:
            if all(abs(x * scale - round(x * scale)) <= ROUNDING for x in figures):
                return cls(scale, exact=True)
        return cls(SCALES[-1], exact=False)

    def up(self, length: float) -> int:
        """Return a length in steps, rounded up."""
        return math.ceil(length * self.scale - ROUNDING)

    def down(self, length: float) -> int:
        """Return a length in steps, rounded down."""
        return math.floor(length * self.scale + ROUNDING)

    def placed(self, lying: Lying) -> PlacedRectangle:
        """Return a place in millimetres; the second way is the turned one."""
        return PlacedRectangle(lying.x / self.scale, lying.y / self.scale, lying.way == 1)


def _arranged(
    room: tuple[float, float], rectangles: Sequence[Rectangle], gap: float, steps: _Steps, effort: float, seed: int
) -> Arrangement:
    """Place rectangles that are longer and wider by the gap in a room that is so too."""
    width, height = (steps.down(side) + 2 * steps.down(gap / 2) for side in room)
    bodies = []
    for one in rectangles:
        boxes = [
            Box(0, 0, steps.up(w) + 2 * steps.up(gap / 2), steps.up(h) + 2 * steps.up(gap / 2)) for w, h in _ways(one)
        ]
        bodies.append(Body(tuple(Way(box, (box,)) for box in boxes)))
    return arrange(Box(0, 0, width, height), bodies, effort=effort, seed=seed)


def _refuted(
    room: tuple[float, float], rectangles: Sequence[Rectangle], gap: float, steps: _Steps, effort: float, seed: int
) -> Status:
    """Return IMPOSSIBLE if that is so even for boxes inside the rectangles grown by half the gap, else UNKNOWN."""
    half = steps.down(gap / 2)
    bodies = [
        Body(tuple(_with_cut_corners(steps.down(w), steps.down(h), half) for w, h in _ways(one))) for one in rectangles
    ]
    found = arrange(Box(0, 0, steps.up(room[0]), steps.up(room[1])), bodies, effort=effort, seed=seed)
    return Status.IMPOSSIBLE if found.status is Status.IMPOSSIBLE else Status.UNKNOWN


def _ways(rectangle: Rectangle) -> list[tuple[float, float]]:
    """Return width and height as it may lie: as drawn, and turned."""
    as_drawn, turned = (rectangle.width, rectangle.height), (rectangle.height, rectangle.width)
    return [as_drawn, turned] if rectangle.may_turn and as_drawn != turned else [as_drawn]


def _with_cut_corners(width: int, height: int, half: int) -> Way:
    """Return a rectangle grown by half the gap on each side, but not at its corners."""
    boxes = (Box(-half, 0, half, height), Box(0, -half, width, height + 2 * half), Box(width, 0, half, height))
    return Way(Box(0, 0, width, height), tuple(box for box in boxes if box.width and box.height))
