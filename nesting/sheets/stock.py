"""The sheets of a job as containers to be filled."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely.geometry import Polygon

from nesting.model import TOLERANCE, Job, Panel, Sheet, sheet_serves
from nesting.outlines import grown_outside, polygon, ring_points, shrunk
from nesting.packing import Container

#: The mark of the laps of a blank, which parts avoid that have no joint there.
LAP = "lap"


@dataclass(frozen=True, eq=False)
class Blank:
    """How a blank is made: the sheets from its low end up, and the scarfs between them.

    ``scarfs`` are the middles of the laps in the blank's own x; each costs ``scarf_cost`` cents in glue and time.
    """

    joint: str
    members: tuple["Stock", ...]
    slope: float
    lap: float
    scarfs: tuple[float, ...]
    scarf_cost: int


@dataclass(frozen=True, eq=False)
class Stock:
    """One kind of sheet, or of blank made from several.

    Attributes
    ----------
    sheet : Sheet
        Of a blank: its first.
    usable : Polygon
        What is left when the factory edges are trimmed off.
    container : Container
        Where the lines of parts may lie: an allowance inside ``usable``, and off the faults.
    """

    index: int
    sheet: Sheet
    whole: Polygon
    trim: float
    usable: Polygon
    faults: tuple[Polygon, ...]
    container: Container
    rank: int
    blank: Blank | None = None

    @cached_property
    def price(self) -> int:
        """What it costs in cents; of a blank its sheets, and the glue and time of its scarfs."""
        if self.blank is None:
            return int(self.sheet.price * 100)
        return sum(member.price for member in self.members) + len(self.blank.scarfs) * self.blank.scarf_cost

    @property
    def members(self) -> tuple["Stock", ...]:
        """The sheets that it takes: itself, or those of the blank."""
        return (self,) if self.blank is None else self.blank.members

    @cached_property
    def takes(self) -> Counter[int]:
        """How many sheets of each kind it takes."""
        return Counter(member.index for member in self.members)

    @property
    def lines(self) -> tuple[float, ...]:
        """Middles of its laps, counted from where the lines of parts may begin."""
        low = self.container.outline.bounds[0]
        return tuple(x - low for x in self.container.lines)

    @cached_property
    def size(self) -> tuple[float, float]:
        """Usable length along the grain and width across it, of the bounding box."""
        west, south, east, north = self.container.outline.bounds
        return east - west, north - south

    @property
    def size_usable(self) -> tuple[float, float]:
        """Length and width, of the bounding box, of what is left within the trimmed edges."""
        west, south, east, north = self.usable.bounds
        return east - west, north - south

    @cached_property
    def area(self) -> float:
        """Usable area, faults taken off."""
        faults = shapely.union_all(self.container.obstacles)
        return float(self.container.outline.difference(faults).area)

    @cached_property
    def longest_clear(self) -> float:
        """Longest stretch along the grain without a lap."""
        west, _, east, _ = self.container.outline.bounds
        laps = sorted(lap.bounds for mark, lap in self.container.marked if mark == LAP)
        begins, ends = [west, *(lap[2] for lap in laps)], [*(lap[0] for lap in laps), east]
        return float(max(end - begin for begin, end in zip(begins, ends, strict=True)))

    def holds_box(self, shape: Polygon) -> bool:
        """Whether a shape's box, as it is turned, fits into the usable box without touching a lap."""
        west, south, east, north = shape.bounds
        length, width = self.longest_clear, self.size[1]
        return bool(east - west <= length + TOLERANCE and north - south <= width + TOLERANCE)


def stock_of(job: Job) -> tuple[Stock, ...]:
    """Return every kind of sheet of a resolved job."""
    return tuple(_stock(job, index, sheet) for index, sheet in enumerate(job.sheets))


def _stock(job: Job, index: int, sheet: Sheet) -> Stock:
    whole, trim = _outline(sheet, job.workshop.trim)
    usable, inner = shrunk(whole, trim), shrunk(whole, trim + job.workshop.allowance)
    faults = tuple(Polygon(fault.points) for fault in sheet.faults)
    sides = [fault.side for fault in sheet.faults]
    wide = list(zip(sides, (grown_outside(fault, job.workshop.allowance) for fault in faults), strict=True))
    through = tuple(shape for side, shape in wide if side == "both")
    container = Container(inner, through, tuple((side, shape) for side, shape in wide if side != "both"))
    return Stock(index, sheet, whole, trim, usable, faults, container, job.rank(sheet.grade))


def serving(stocks: Sequence[Stock], job: Job, panel: Panel) -> tuple[Stock, ...]:
    """Return the kinds of sheet from which a panel may be cut."""
    return tuple(stock for stock in stocks if sheet_serves(job, stock.sheet, panel))


def sheet_rings(stock: Stock) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Return the outline and the holes of a whole sheet."""
    return tuple(ring_points(ring) for ring in (stock.whole.exterior, *stock.whole.interiors))


def _outline(sheet: Sheet, trim: float) -> tuple[Polygon, float]:
    """Return the outline and what is trimmed off it: an offcut has no factory edge."""
    if sheet.outline is not None:
        return polygon(sheet.outline), 0.0
    length, width = sheet.size or (0.0, 0.0)
    return Polygon([(0, 0), (length, 0), (length, width), (0, width)]), trim
