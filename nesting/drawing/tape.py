"""What a tape shows: lengths rounded to its marks, and written as they are read off it."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from .lettering import millimetres

#: Millimetres in an inch, exactly, and the marks on a common tape in one inch.
INCH, MARKS = 25.4, 16


@dataclass(frozen=True, kw_only=True)
class Tape:
    """A tape.

    Attributes
    ----------
    unit : {"mm", "in"}
        Whether it shows millimetres, or feet and inches.
    mark : float
        Distance of its marks, millimetres.
    spacings : tuple of float
        Distances of stations that are round on it, millimetres, the usual one first.
    """

    unit: Literal["mm", "in"]
    mark: float
    spacings: tuple[float, ...]

    def marks(self, length: float) -> int:
        """Return the mark nearest to a length, counted from 0."""
        return round(length / self.mark)

    def shown(self, length: float) -> str:
        """Return the nearest mark as it is read: ``1219``, or ``4' 0 1/16"``."""
        return millimetres(self.marks(length) * self.mark) if self.unit == "mm" else _in_feet(self.marks(length))

    def rounding(self, length: float) -> float:
        """Return how far a length is from the nearest mark, millimetres."""
        return abs(length - self.marks(length) * self.mark)


MILLIMETRE_TAPE = Tape(unit="mm", mark=1.0, spacings=(300.0, 100.0, 50.0, 25.0))
INCH_TAPE = Tape(unit="in", mark=INCH / MARKS, spacings=(12 * INCH, 4 * INCH, 2 * INCH, INCH))


def tape_of(unit: Literal["mm", "in"]) -> Tape:
    """Return the tape that shows a unit: stations at every 300 mm or every foot, closer on short parts."""
    return INCH_TAPE if unit == "in" else MILLIMETRE_TAPE


def _in_feet(marks: int) -> str:
    """Return sixteenths of an inch as feet, inches and the fraction in lowest terms; no feet below one."""
    feet, rest = divmod(abs(marks), 12 * MARKS)
    inches, sixteenths = divmod(rest, MARKS)
    part = Fraction(sixteenths, MARKS)
    small = f"{inches} {part}" if inches and part else str(part if part else inches)
    written = f"{feet}' {inches} {part}\"" if feet and part else f"{feet}' {inches}\"" if feet else f'{small}"'
    return f"-{written}" if marks < 0 else written
