"""Register marks: a line across each side of a joint, a known distance from its end, to set the two sides by."""

import math
from collections.abc import Iterable

from shapely.geometry import Polygon

from nesting.model import BlankScarf, Joint, PlankScarf

from .canvas import Canvas, Point, Points
from .datum import SheetPiece
from .joint_ends import JointEnd
from .key import Entry
from .own_frame import across, lines_on_sheet
from .styles import REGISTER, TICK
from .tape import Tape, figure, tape_at_hand

#: A register mark lies at least so far behind the bevel or strap, clear of squeezed-out glue (common practice).
CLEAR_OF_GLUE = 50.0


def mark_from_end(joint: Joint | BlankScarf | PlankScarf, tape: Tape) -> float:
    """Return how far from its end each side of a joint is marked: clear of bevel, strap and glue, and round."""
    reach = joint.strap / 2 if isinstance(joint, Joint) and joint.strap else joint.lap
    return math.ceil((reach + CLEAR_OF_GLUE) / tape.round_to) * tape.round_to


def marks_apart(joint: Joint | BlankScarf | PlankScarf, tape: Tape) -> float:
    """Return how far apart both marks are when the ends overlap by just the lap, or meet in a butt."""
    return 2 * mark_from_end(joint, tape) - joint.lap


def key_of_marks(joints: Iterable[Joint | BlankScarf | PlankScarf]) -> tuple[Entry, ...]:
    """Return what the marks of some joints mean; nothing without a joint."""
    distances = " or ".join(figure(mark) for mark in sorted({mark_from_end(joint, tape_at_hand()) for joint in joints}))
    return ((REGISTER, f"register mark, {distances} from end"),) if distances else ()


def draw_marks_of_end(canvas: Canvas, piece: SheetPiece, end: JointEnd) -> None:
    """Draw the mark of a joined end of a piece on its sheet."""
    station = end.feather + (-1.0 if end.high_end else 1.0) * mark_from_end(end.joint, tape_at_hand())
    canvas.lines(ticks(lines_on_sheet(piece, station), canvas.scale), REGISTER)


def draw_marks_of_scarf(canvas: Canvas, shape: Polygon, scarf: BlankScarf) -> None:
    """Draw both marks of a scarf of a blank, at the edges of the sheets that it joins."""
    for place in marks_of(scarf, scarf.at, tape_at_hand()):
        begins, ends = scarf.begins, scarf.begins + scarf.width
        runs = across(shape, place) if scarf.runs == "across" else [[(begins, place), (ends, place)]]
        canvas.lines(ticks(runs, canvas.scale), REGISTER)


def marks_of(joint: Joint | BlankScarf | PlankScarf, middle: float, tape: Tape) -> tuple[float, float]:
    """Return where both marks of a joint lie along the finished part or blank; ``middle`` is that of its lap."""
    half = marks_apart(joint, tape) / 2
    return middle - half, middle + half


def ticks(lines: Iterable[Points], scale: float) -> list[Points]:
    """Return both ends of each line, short; all of a line that is short itself."""
    return [run for line in lines for run in _ends(line[0], line[-1], TICK * scale)]


def _ends(start: Point, end: Point, tick: float) -> list[Points]:
    length = math.dist(start, end)
    if length <= 2.5 * tick:
        return [[start, end]]
    x, y = (end[0] - start[0]) * tick / length, (end[1] - start[1]) * tick / length
    return [[start, (start[0] + x, start[1] + y)], [(end[0] - x, end[1] - y), end]]
