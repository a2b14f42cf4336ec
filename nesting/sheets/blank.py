"""A blank: the sheets that it is made of, how they are cut for it, and its scarfs."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from shapely.geometry import Polygon

from nesting.outlines import moved

if TYPE_CHECKING:
    from .stock import Stock


@dataclass(frozen=True)
class Scarf:
    """A scarf of a blank: its middle at x = ``at`` right across it, or at y = ``at`` along one column of sheets.

    ``begins`` is where along its line it begins, ``width`` how long the line is; ``cost`` in cents.
    """

    runs: Literal["across", "along"]
    at: float
    begins: float
    width: float
    cost: int


@dataclass(frozen=True, eq=False)
class Cut:
    """A sheet, or the part of one, that goes into a blank or is left beside it.

    ``sheet`` is its place among the blank's sheets, ``shape`` where it lies on that sheet. A point of the sheet lies
    at the same point moved by ``x`` and ``y``: in the blank, or in the container beside it.
    """

    sheet: int
    shape: Polygon
    x: float
    y: float

    @property
    def there(self) -> Polygon:
        """Where it lies in the blank, or beside it."""
        return moved(self.shape, self.x, self.y)


@dataclass(frozen=True, eq=False)
class Blank:
    """How a blank is made: of which sheets, which members are cut from these, and the scarfs between them.

    Members stand column by column from the low end, in each from the low edge up; those of a column are scarfed to one
    another along their edges, and the columns then end to end. ``left`` is what remains of sheets that are not wholly
    in it: parts are cut from these too. ``room`` is where the lines of parts may lie within the blank.
    """

    joint: str
    sheets: tuple["Stock", ...]
    members: tuple[Cut, ...]
    slope: float
    lap: float
    scarfs: tuple[Scarf, ...]
    left: tuple[Cut, ...]
    room: Polygon

    @property
    def lines(self) -> tuple[float, ...]:
        """Middles of the laps across it, rising."""
        return tuple(scarf.at for scarf in self.scarfs if scarf.runs == "across")

    @property
    def seams(self) -> tuple[float, ...]:
        """Middles of the laps along it, rising; each runs over its whole length."""
        return tuple(sorted({scarf.at for scarf in self.scarfs if scarf.runs == "along"}))
