"""The sheets that a blank is made of: above it their lengths, and where they are scarfed."""

import math
from collections.abc import Sequence
from itertools import pairwise

from nesting.model import Blank, BlankScarf, Member, Plan

from .arrows import draw_double_arrow
from .canvas import Canvas, Point
from .datum import used_sheet
from .lettering import millimetres, width_of, write_centred
from .sheet_frame import SheetFrame
from .styles import DIMENSION, SMALL

#: Millimetres on paper above the blank: the row of the scarfs, and the two rows in which sheets take turns.
SCARF_ROW, ROWS = 1.5, (6.0, 11.5)
ABOVE = ROWS[-1] + SMALL + 2.0


def draw_members(canvas: Canvas, plan: Plan, blank: Blank, frame: SheetFrame) -> None:
    """Draw above a blank how far each of its sheets reaches, and name its scarfs."""
    with canvas.group("members"):
        for number, member in enumerate(blank.members):
            _draw_member(canvas, plan, blank, number, member, frame)
        _name_scarfs(canvas, blank, frame)


def reach(member: Member) -> tuple[float, float]:
    """Return from where to where along its blank a member lies."""
    xs = [_in_blank(point, member)[0] for point in member.outline]
    return min(xs), max(xs)


def trimmed_size(member: Member) -> tuple[float, float]:
    """Return length and width of a sheet as it goes into its blank, trimmed and with its bevels."""
    xs, ys = [x for x, _ in member.outline], [y for _, y in member.outline]
    return max(xs) - min(xs), max(ys) - min(ys)


def bevels(blank: Blank, number: int) -> tuple[str, str]:
    """Return on which face the left and the right end of a member are bevelled, empty for an end of the blank.

    Members count from 0; faces and ends are those of the blank as it lies good face up: of each scarf the left sheet is
    bevelled on its back, the right one on its good face.
    """
    return "good face" if number else "", "back" if number < len(blank.members) - 1 else ""


def _in_blank(point: Point, member: Member) -> Point:
    """Return a point of the sheet in the frame of its blank."""
    cos, sin = math.cos(math.radians(member.angle)), math.sin(math.radians(member.angle))
    x, y = point[0], -point[1] if member.turned_over else point[1]
    return cos * x - sin * y + member.x, sin * x + cos * y + member.y


def _draw_member(canvas: Canvas, plan: Plan, blank: Blank, number: int, member: Member, frame: SheetFrame) -> None:
    left, right = reach(member)
    y = frame.top + frame.paper(ROWS[number % 2])
    canvas.lines([[(x, frame.top), (x, y + frame.paper(1.0))] for x in (left, right)], DIMENSION)
    draw_double_arrow(canvas, (left, y), (right, y))
    middle = ((left + right) / 2, y + frame.paper(1.0 + SMALL / 2))
    write_centred(canvas, _fitting(_member_words(plan, blank, number, member), right - left, canvas), middle, SMALL)


def _member_words(plan: Plan, blank: Blank, number: int, member: Member) -> tuple[str, ...]:
    """Return what may be said of a member, the fullest first."""
    stock = used_sheet(plan, member.used).stock
    length = millimetres(trimmed_size(member)[0])
    ends = zip(("left", "right"), bevels(blank, number), strict=True)
    said = ", ".join(f"{end} bevel on {face}" for end, face in ends if face)
    named = f"{member.used} ({stock}): {length}"
    return f"{named}, {said}", f"{member.used}: {length}, {said}", named, f"{member.used}: {length}", member.used


def _name_scarfs(canvas: Canvas, blank: Blank, frame: SheetFrame) -> None:
    """Write what each scarf is, to the right of its line on the good face and clear of the next."""
    lines = [*(scarf.at + scarf.lap / 2 for scarf in blank.scarfs), frame.right]
    room = min(after - before for before, after in pairwise(lines)) - blank.scarfs[0].lap - frame.paper(2.0)
    for scarf, line in zip(blank.scarfs, lines, strict=False):
        at = (line + frame.paper(1.0), frame.top + frame.paper(SCARF_ROW))
        canvas.text(_fitting(_scarf_words(scarf), room, canvas), at, SMALL)


def _scarf_words(scarf: BlankScarf) -> tuple[str, ...]:
    middle = f"{scarf.id}: middle {millimetres(scarf.at)}"
    line = millimetres(scarf.at + scarf.lap / 2)
    return f"{middle}, line on good face {line}", middle, f"{scarf.id} {millimetres(scarf.at)}", scarf.id


def _fitting(choices: Sequence[str], room: float, canvas: Canvas) -> str:
    """Return the first choice that has room, or the last."""
    fit = (words for words in choices if width_of(words, SMALL) * canvas.scale <= room)
    return next(fit, choices[-1])
