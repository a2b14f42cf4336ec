"""What a tape shows: lengths rounded to its marks, and written as they are read off it."""

import functools
from collections.abc import Callable
from contextvars import ContextVar
from dataclasses import dataclass
from fractions import Fraction
from typing import Concatenate, Literal, ParamSpec

from nesting.model import Plan

from .lettering import millimetres

Rest = ParamSpec("Rest")

#: Millimetres in an inch, exactly, and the marks on a common tape in one inch.
INCH, MARKS = 25.4, 16

#: Parts of an inch to which a thickness is told: a sixteenth is a third of thin plywood.
FINE = 64

#: How much longer than 2440.5 a figure such as 48 15/16 may be, on paper; a sheet of 2440 still goes at 1:10.
LONGER = 5.9


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
    round_to : float
        A length of which any multiple is easily found on it, millimetres.
    """

    unit: Literal["mm", "in"]
    mark: float
    spacings: tuple[float, ...]
    round_to: float

    @property
    def is_metric(self) -> bool:
        """Whether it shows millimetres."""
        return self.unit == "mm"

    def figure(self, length: float) -> str:
        """Return a length on a drawing or in a list: millimetres to a tenth, or inches to a sixteenth."""
        return millimetres(length) if self.is_metric else in_inches(self.marks(length))

    def figures(self, *lengths: float) -> str:
        """Return lengths as ``2440 × 1220``."""
        return " × ".join(map(self.figure, lengths))

    def thickness(self, length: float) -> str:
        """Return a thickness: millimetres to a hundredth, or inches to a sixty-fourth, as it is called out."""
        if self.is_metric:
            return f"{length:.2f}".rstrip("0").rstrip(".")
        return in_inches(round(length / INCH * FINE), FINE)

    def area(self, square_millimetres: float) -> str:
        """Return an area in square metres, or square feet."""
        if self.is_metric:
            return f"{square_millimetres / 1e6:.2f} m²"
        return f"{square_millimetres / (12 * INCH) ** 2:.1f} ft²"

    def marks(self, length: float) -> int:
        """Return the mark nearest to a length, counted from 0."""
        return round(length / self.mark)

    def shown(self, length: float) -> str:
        """Return the nearest mark as it is read: ``1219``, or ``4' 0 1/16"``."""
        return millimetres(self.marks(length) * self.mark) if self.unit == "mm" else _in_feet(self.marks(length))

    def rounding(self, length: float) -> float:
        """Return how far a length is from the nearest mark, millimetres."""
        return abs(length - self.marks(length) * self.mark)


MILLIMETRE_TAPE = Tape(unit="mm", mark=1.0, spacings=(300.0, 100.0, 50.0, 25.0), round_to=10.0)
INCH_TAPE = Tape(unit="in", mark=INCH / MARKS, spacings=(12 * INCH, 4 * INCH, 2 * INCH, INCH), round_to=INCH / 2)


def tape_in(plan: Plan) -> Tape:
    """Return the tape of a plan's workshop."""
    return tape_of(plan.job.workshop.tape)


def tape_of(unit: Literal["mm", "in"]) -> Tape:
    """Return the tape that shows a unit: stations at every 300 mm or every foot, closer on short parts."""
    return INCH_TAPE if unit == "in" else MILLIMETRE_TAPE


_tape: ContextVar[Tape] = ContextVar("tape", default=MILLIMETRE_TAPE)


def on_its_tape(draw: Callable[Concatenate[Plan, Rest], str]) -> Callable[Concatenate[Plan, Rest], str]:
    """Let a drawing of a plan write its lengths as the tape in that plan's workshop shows them."""

    @functools.wraps(draw)
    def drawn(plan: Plan, /, *args: Rest.args, **named: Rest.kwargs) -> str:
        token = _tape.set(tape_in(plan))
        try:
            return draw(plan, *args, **named)
        finally:
            _tape.reset(token)

    return drawn


def tape_at_hand() -> Tape:
    """Return the tape of the drawing at hand."""
    return _tape.get()


def figure(value: float) -> str:
    """Return a length on the drawing at hand."""
    return _tape.get().figure(value)


def figures(*lengths: float) -> str:
    """Return lengths on the drawing at hand."""
    return _tape.get().figures(*lengths)


def area(square_millimetres: float) -> str:
    """Return an area on the drawing at hand."""
    return _tape.get().area(square_millimetres)


def thickness(value: float) -> str:
    """Return a thickness on the drawing at hand."""
    return _tape.get().thickness(value)


def unit() -> str:
    """Return in what the lengths on the drawing at hand are."""
    return "mm" if _tape.get().unit == "mm" else "inches"


def figure_room() -> float:
    """Return how much longer than millimetres a figure may be on the drawing at hand, millimetres on paper."""
    return 0.0 if _tape.get().unit == "mm" else LONGER


def in_inches(marks: int, in_one: int = MARKS) -> str:
    """Return sixteenths, or other parts, of an inch as inches and the fraction in lowest terms, such as ``47 1/4``."""
    inches, over = divmod(abs(marks), in_one)
    part = Fraction(over, in_one)
    written = f"{inches} {part}" if inches and part else str(part or inches)
    return f"-{written}" if marks < 0 else written


def _in_feet(marks: int) -> str:
    """Return sixteenths of an inch as feet, inches and the fraction in lowest terms; no feet below one."""
    feet, rest = divmod(abs(marks), 12 * MARKS)
    inches, part = divmod(Fraction(rest, MARKS), 1)
    small = f"{inches} {part}" if part else str(inches)
    written = f"{feet}' {small}\"" if feet else f'{in_inches(rest)}"'
    return f"-{written}" if marks < 0 else written
