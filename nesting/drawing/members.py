"""The sheets that a blank is made of: above it their lengths, and where they are scarfed."""

import math
from collections.abc import Sequence
from itertools import pairwise

from nesting.model import TOLERANCE, Blank, BlankScarf, Member, Plan

from .arrows import draw_double_arrow
from .canvas import Canvas, Point
from .datum import used_sheet
from .lettering import width_of, write_centred
from .sheet_frame import SheetFrame
from .styles import DIMENSION, SMALL
from .tape import figure

#: Millimetres on paper above the blank: the row of the scarfs, and the two rows in which sheets take turns.
SCARF_ROW, ROWS = 1.5, (6.0, 11.5)
ABOVE = ROWS[-1] + SMALL + 2.0


def draw_members(canvas: Canvas, plan: Plan, blank: Blank, frame: SheetFrame) -> None:
    """Draw above a blank how far each of its sheets reaches, and name its scarfs."""
    with canvas.group("members"):
        rows = rows_of(blank)
        for number in range(0, len(blank.members), rows):
            _draw_column(canvas, plan, blank, number, frame)
        _name_scarfs(canvas, blank, frame)


def reach(member: Member) -> tuple[float, float]:
    """Return from where to where along its blank a member lies."""
    xs = [_in_blank(point, member)[0] for point in member.outline]
    return min(xs), max(xs)


def trimmed_size(member: Member) -> tuple[float, float]:
    """Return length and width of a sheet as it goes into its blank, trimmed and with its bevels."""
    xs, ys = [x for x, _ in member.outline], [y for _, y in member.outline]
    return max(xs) - min(xs), max(ys) - min(ys)


def rows_of(blank: Blank) -> int:
    """Return how many members stand in each column of a blank, one above another."""
    return max(1, len(blank.members) // (1 + sum(scarf.runs == "across" for scarf in blank.scarfs)))


def bevels(blank: Blank, number: int) -> tuple[str, str]:
    """Return on which face the left and the right end of a member are bevelled, empty for an end of the blank.

    Members count from 0; faces and ends are those of the blank as it lies good face up: of each scarf the left sheet is
    bevelled on its back, the right one on its good face.
    """
    rows = rows_of(blank)
    column, columns = number // rows, len(blank.members) // rows
    return "good face" if column else "", "back" if column < columns - 1 else ""


def edge_bevels(blank: Blank, number: int) -> tuple[str, str]:
    """Return on which face the lower and the upper edge of a member are bevelled, empty for an edge of the blank."""
    rows = rows_of(blank)
    row = number % rows
    return "good face" if row else "", "back" if row < rows - 1 else ""


def height(member: Member) -> tuple[float, float]:
    """Return from where to where across its blank a member lies."""
    ys = [_in_blank(point, member)[1] for point in member.outline]
    return min(ys), max(ys)


def as_glued(blank: Blank) -> tuple[BlankScarf, ...]:
    """Return the scarfs of a blank in the order in which they are glued: columns first, then these end to end."""
    return tuple(sorted(blank.scarfs, key=lambda scarf: scarf.runs == "across"))


def beside(blank: Blank, scarf: BlankScarf) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the sheets that end at a scarf of a blank, and those that begin there."""
    half = scarf.lap / 2
    ends: tuple[list[str], list[str]] = ([], [])
    for member in blank.members:
        low, high = reach(member)
        if scarf.runs == "along":
            if abs(low - scarf.begins) > TOLERANCE:
                continue
            low, high = height(member)
        for place, side, at in ((high, 0, scarf.at + half), (low, 1, scarf.at - half)):
            if abs(place - at) <= TOLERANCE:
                ends[side].append(member.used)
    return tuple(ends[0]), tuple(ends[1])


def _in_blank(point: Point, member: Member) -> Point:
    """Return a point of the sheet in the frame of its blank."""
    cos, sin = math.cos(math.radians(member.angle)), math.sin(math.radians(member.angle))
    x, y = point[0], -point[1] if member.turned_over else point[1]
    return cos * x - sin * y + member.x, sin * x + cos * y + member.y


def _draw_column(canvas: Canvas, plan: Plan, blank: Blank, number: int, frame: SheetFrame) -> None:
    """Draw how far the members of a column reach; ``number`` is that of the lowest."""
    rows = rows_of(blank)
    member, above = blank.members[number], blank.members[number + 1 : number + rows]
    left, right = reach(member)
    y = frame.top + frame.paper(ROWS[number // rows % 2])
    canvas.lines([[(x, frame.top), (x, y + frame.paper(1.0))] for x in (left, right)], DIMENSION)
    draw_double_arrow(canvas, (left, y), (right, y))
    middle = ((left + right) / 2, y + frame.paper(1.0 + SMALL / 2))
    choices = _member_words(plan, blank, number, member)
    if above:
        names = ", ".join(other.used for other in above)
        choices = (*(f"{words}; above it {names}" for words in choices), f"{member.used}, {names}")
    write_centred(canvas, _fitting(choices, right - left, canvas), middle, SMALL)


def _member_words(plan: Plan, blank: Blank, number: int, member: Member) -> tuple[str, ...]:
    """Return what may be said of a member, the fullest first."""
    stock = used_sheet(plan, member.used).stock
    length = figure(trimmed_size(member)[0])
    ends = zip(("left", "right"), bevels(blank, number), strict=True)
    said = ", ".join(f"{end} bevel on {face}" for end, face in ends if face)
    named = f"{member.used} ({stock}): {length}"
    return f"{named}, {said}", f"{member.used}: {length}, {said}", named, f"{member.used}: {length}", member.used


def _name_scarfs(canvas: Canvas, blank: Blank, frame: SheetFrame) -> None:
    """Write what each scarf across is, to the right of its line on the good face and clear of the next."""
    scarfs = [scarf for scarf in blank.scarfs if scarf.runs == "across"]
    lines = [*(scarf.at + scarf.lap / 2 for scarf in scarfs), frame.right]
    gaps = [after - before for before, after in pairwise(lines)]
    room = min(gaps, default=0.0) - blank.scarfs[0].lap - frame.paper(2.0)
    for scarf, line in zip(scarfs, lines, strict=False):
        at = (line + frame.paper(1.0), frame.top + frame.paper(SCARF_ROW))
        canvas.text(_fitting(_scarf_words(scarf), room, canvas), at, SMALL)


def _scarf_words(scarf: BlankScarf) -> tuple[str, ...]:
    middle = f"{scarf.id}: middle {figure(scarf.at)}"
    line = figure(scarf.at + scarf.lap / 2)
    return f"{middle}, line on good face {line}", middle, f"{scarf.id} {figure(scarf.at)}", scarf.id


def _fitting(choices: Sequence[str], room: float, canvas: Canvas) -> str:
    """Return the first choice that has room, or the last."""
    fit = (words for words in choices if width_of(words, SMALL) * canvas.scale <= room)
    return next(fit, choices[-1])
