"""Which part of its sheet a member of a blank is: the whole less its trim, or one of some equal parts."""

from nesting.model import Member, Sheet

from .register import Register
from .stock import trim_of

#: Sheets are ripped into so many equal strips at most for a blank, and cut across into so many equal lengths.
MOST_STRIPS, MOST_LENGTHS = 3, 2

Box = tuple[float, float, float, float]


def part_of_sheet(member: Member, sheet: Sheet, register: Register) -> Box | None:
    """Return the part of a whole sheet, in its own frame, that comes nearest to what a member is told to be.

    None if the sheet is not whole, or the member has no outline.
    """
    if sheet.size is None or not member.outline:
        return None
    trim, kerf = trim_of(sheet, register), register.job.workshop.kerf.sheet
    length, width = usable_size(sheet, register)
    xs, ys = zip(*member.outline, strict=True)
    west, east = _nearest(min(xs) - trim, max(xs) - trim, length, kerf, MOST_LENGTHS)
    south, north = _nearest(min(ys) - trim, max(ys) - trim, width, kerf, MOST_STRIPS)
    return trim + west, trim + south, trim + east, trim + north


def usable_size(sheet: Sheet, register: Register) -> tuple[float, float]:
    """Return length and width of a whole sheet less its trim; nothing of what is no whole sheet."""
    if sheet.size is None:
        return 0.0, 0.0
    trim = trim_of(sheet, register)
    return sheet.size[0] - 2 * trim, sheet.size[1] - 2 * trim


def _nearest(low: float, high: float, size: float, kerf: float, most: int) -> tuple[float, float]:
    """Return the stretch, of all equal parts of a size with a cut between every two, that is nearest to this."""
    parts = [(n, (size - (n - 1) * kerf) / n) for n in range(1, most + 1)]
    places = [(k * (part + kerf), k * (part + kerf) + part) for n, part in parts for k in range(n)]
    return min(places, key=lambda place: abs(place[0] - low) + abs(place[1] - high))
