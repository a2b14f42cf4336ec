"""A blank as its rule and its members make it, whatever the plan says of its own figures."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

import shapely
from shapely.geometry import Polygon

from nesting.model import Blank, JointRule, PanelPiece, Sheet

from .member_parts import Box, part_of_sheet
from .register import Register
from .rules import lap_of

#: Millimetres above the foot of the first member at which another would stand in a second row, and not beside it.
ROW = 50.0


@dataclass(frozen=True)
class TrueScarf:
    """A scarf between members: at x = ``at`` right across the blank, or at y = ``at`` along one column of it."""

    runs: str
    at: float
    begins: float
    width: float


@dataclass(frozen=True)
class TrueBlank:
    """What a blank must be.

    Attributes
    ----------
    told : Blank
        What the plan says of it.
    parts : tuple of (west, south, east, north)
        What each member is of its sheet, in the sheet's own frame.
    rows : int
        Members in each column.
    thickness : float
        As measured, of the thickest member.
    """

    told: Blank
    rule: JointRule
    parts: tuple[Box, ...]
    rows: int
    thickness: float

    @property
    def lengths(self) -> tuple[float, ...]:
        """Length of each column along the blank, that of its lowest member."""
        return tuple(east - west for west, _, east, _ in self.parts[:: self.rows])

    @property
    def widths(self) -> tuple[float, ...]:
        """Width of each row across the blank, that of its narrowest member."""
        rows = (self.parts[row :: self.rows] for row in range(self.rows))
        return tuple(min(north - south for _, south, _, north in parts) for parts in rows)

    @property
    def lap(self) -> float:
        """By how much neighbouring members overlap."""
        return lap_of(self.rule, self.thickness)

    @property
    def corners(self) -> tuple[tuple[float, float], ...]:
        """Where each member's lower left corner lies: one lap before the end of the last column, or row."""
        rows = _starts(self.widths, self.lap)
        return tuple((x, y) for x in _starts(self.lengths, self.lap) for y in rows)

    @property
    def length(self) -> float:
        """From end to end."""
        return sum(self.lengths) - (len(self.lengths) - 1) * self.lap

    @property
    def width(self) -> float:
        """From edge to edge."""
        return sum(self.widths) - (len(self.widths) - 1) * self.lap

    @property
    def scarfs(self) -> tuple[TrueScarf, ...]:
        """The scarfs across, from the low end up, then those along, column by column."""
        half = self.lap / 2
        begins, low = _starts(self.lengths, self.lap), _starts(self.widths, self.lap)
        across = (TrueScarf("across", start + half, 0.0, self.width) for start in begins[1:])
        columns = zip(begins, self.lengths, strict=True)
        along = (TrueScarf("along", y + half, start, length) for start, length in columns for y in low[1:])
        return (*across, *along)

    @property
    def outline(self) -> Polygon:
        """Outline of the whole, its lower left corner at the origin."""
        return shapely.box(0, 0, self.length, self.width)


def true_blank(blank: Blank, register: Register) -> TrueBlank | None:
    """Return what a blank must be; None if its rule or stock can't make one, which the audit of blanks tells.

    Its first column ends before the next member that stands at its low edge; the other columns have as many.
    """
    rule = register.job.joints.get(blank.joint)
    sheets = register.members(blank)
    if rule is None or rule.kind != "scarf" or len(sheets) < 2 or len(sheets) != len(blank.members):
        return None
    found = [part_of_sheet(member, sheet, register) for member, sheet in zip(blank.members, sheets, strict=True)]
    parts = tuple(part for part in found if part is not None)
    thickness = max(true_thickness(sheet) for sheet in sheets)
    if len(parts) < len(found) or min(map(_least_side, parts)) <= lap_of(rule, thickness):
        return None
    feet = [part[1] + member.y for part, member in zip(parts, blank.members, strict=True)]
    rows = next((k for k, foot in enumerate(feet) if k and foot < feet[0] + ROW), len(feet))
    return None if len(parts) % rows else TrueBlank(blank, rule, parts, rows, thickness)


def _least_side(part: Box) -> float:
    west, south, east, north = part
    return min(east - west, north - south)


def _starts(sizes: Sequence[float], lap: float) -> tuple[float, ...]:
    """Return where each begins: one lap before the end of the last."""
    return tuple(accumulate(sizes[:-1], lambda start, size: start + size - lap, initial=0.0))


def true_thickness(sheet: Sheet) -> float:
    """Return what was measured, or else the label."""
    return sheet.measured or sheet.thickness


def is_from_blank(pieces: Sequence[PanelPiece], register: Register) -> bool:
    """Whether a copy of a panel is cut whole from a blank, and not from sheets, or divided."""
    return len(pieces) == 1 and pieces[0].on in register.blanks


def blank_under(pieces: Sequence[PanelPiece], register: Register) -> TrueBlank | None:
    """Return what the blank must be from which a copy is cut whole; None without one, or if that can't be told."""
    return true_blank(register.blanks[pieces[0].on], register) if is_from_blank(pieces, register) else None
