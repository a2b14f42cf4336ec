"""The workshop's habits: what the saw takes, what is trimmed off, what is kept."""

from decimal import Decimal
from typing import Any, Literal

from pydantic import Field, model_validator

from .base import Gap, Size, Value


class Kerf(Value):
    """Width that a cut removes, in millimetres; one number in the job file stands for sheets and cutting to length.

    ``rip`` is that of the saw that rips planks into strips; None: nothing is ripped.
    """

    sheet: Gap = 3.0
    crosscut: Gap = 3.0
    rip: Gap | None = None

    @model_validator(mode="before")
    @classmethod
    def _from_one_number(cls, given: Any) -> Any:
        if isinstance(given, int | float | Decimal | str) and not isinstance(given, bool):
            return {"sheet": given, "crosscut": given}
        return given


class Workshop(Value):
    """How this workshop works.

    Attributes
    ----------
    kerf : Kerf
        Width of the cut, for sheets and for cutting timber to length. A common table saw takes 3.18 mm, track
        saws 1.8 to 2.2 (common practice).
    trim : float
        Taken off each factory edge of a whole sheet before use, its cut included. Usual is 5 to 10 (common
        practice).
    allowance : float
        Wood left outside every line, to be planed off; it is part of every gap.
    keep_from : (float, float)
        Smallest offcut of sheet worth keeping, length and width.
    keep_length_from : float
        Shortest offcut of timber worth keeping.
    longest_piece : float or None
        Longest piece, or blank, that can be handled.
    way : {"joined", "divided", "both"}
        How long panels are made: sheets are scarfed into a blank from which panels are cut, or a panel's pieces are cut
        and then scarfed, or whichever costs less.
    tape : {"mm", "in"}
        What the tape at the bench shows, and so drawings, lists and tables for marking out; of a job in inches or feet
        inches unless it says otherwise.
    """

    kerf: Kerf = Kerf()
    trim: Gap = 10.0
    allowance: Gap = 0.0
    keep_from: tuple[Size, Size] = (400.0, 200.0)
    keep_length_from: Size = 600.0
    longest_piece: Size | None = Field(default=None)
    way: Literal["joined", "divided", "both"] = "both"
    tape: Literal["mm", "in"] = "mm"

    @property
    def gap(self) -> float:
        """Least distance between the lines of two parts on a sheet: a cut, and the allowance of both."""
        return self.kerf.sheet + 2 * self.allowance
