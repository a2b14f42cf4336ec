"""A blank as its rule and the stock of its members make it, whatever the plan says of its figures."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

import shapely
from shapely.geometry import Polygon

from nesting.model import Blank, JointRule, PanelPiece, Sheet

from .register import Register
from .rules import lap_of
from .stock import trim_of


@dataclass(frozen=True)
class TrueBlank:
    """What a blank must be.

    Attributes
    ----------
    told : Blank
        What the plan says of it.
    lengths : tuple of float
        Usable length of each member along the blank.
    width : float
        Usable width, that of the narrowest member.
    thickness : float
        As measured, of the thickest member.
    """

    told: Blank
    rule: JointRule
    lengths: tuple[float, ...]
    width: float
    thickness: float

    @property
    def lap(self) -> float:
        """By how much neighbouring members overlap."""
        return lap_of(self.rule, self.thickness)

    @property
    def starts(self) -> tuple[float, ...]:
        """Where each member begins: one lap before the end of the last."""
        return tuple(accumulate(self.lengths[:-1], lambda start, length: start + length - self.lap, initial=0.0))

    @property
    def length(self) -> float:
        """From end to end."""
        return self.starts[-1] + self.lengths[-1]

    @property
    def lines(self) -> tuple[float, ...]:
        """Middles of the scarfs."""
        return tuple(start + self.lap / 2 for start in self.starts[1:])

    @property
    def outline(self) -> Polygon:
        """Outline of the whole, its lower left corner at the origin."""
        return shapely.box(0, 0, self.length, self.width)


def true_blank(blank: Blank, register: Register) -> TrueBlank | None:
    """Return what a blank must be; None if its rule or stock can't make one, which the audit of blanks tells."""
    rule = register.job.joints.get(blank.joint)
    sheets = register.members(blank)
    if rule is None or rule.kind != "scarf" or len(sheets) < 2 or len(sheets) != len(blank.members):
        return None
    sizes = [usable_size(sheet, register) for sheet in sheets]
    thickness = max(true_thickness(sheet) for sheet in sheets)
    least = min(length for length, _ in sizes)
    if least <= lap_of(rule, thickness) or min(width for _, width in sizes) <= 0:
        return None
    lengths, widths = zip(*sizes, strict=True)
    return TrueBlank(blank, rule, lengths, min(widths), thickness)


def usable_size(sheet: Sheet, register: Register) -> tuple[float, float]:
    """Return length and width of a whole sheet less its trim; nothing of what is no whole sheet."""
    if sheet.size is None:
        return 0.0, 0.0
    trim = trim_of(sheet, register)
    return sheet.size[0] - 2 * trim, sheet.size[1] - 2 * trim


def true_thickness(sheet: Sheet) -> float:
    """Return what was measured, or else the label."""
    return sheet.measured or sheet.thickness


def is_from_blank(pieces: Sequence[PanelPiece], register: Register) -> bool:
    """Whether a copy of a panel is cut whole from a blank, and not from sheets, or divided."""
    return len(pieces) == 1 and pieces[0].on in register.blanks


def blank_under(pieces: Sequence[PanelPiece], register: Register) -> TrueBlank | None:
    """Return what the blank must be from which a copy is cut whole; None without one, or if that can't be told."""
    return true_blank(register.blanks[pieces[0].on], register) if is_from_blank(pieces, register) else None
