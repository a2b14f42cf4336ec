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

from .blank import Blank

#: The mark of the laps across a blank, which parts avoid that have no joint there.
LAP = "lap"

#: The mark of the laps along a blank, which all parts avoid but those that are wider than any sheet.
SEAM = "seam"

#: The mark of what is left of sheets that are not wholly in a blank, which parts avoid that lie across its scarfs.
LEFT = "left"


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
        return sum(member.price for member in self.members) + sum(scarf.cost for scarf in self.blank.scarfs)

    @property
    def members(self) -> tuple["Stock", ...]:
        """The sheets that it takes: itself, or those of the blank."""
        return (self,) if self.blank is None else self.blank.sheets

    @cached_property
    def takes(self) -> Counter[int]:
        """How many sheets of each kind it takes."""
        return Counter(member.index for member in self.members)

    @property
    def _room(self) -> Polygon:
        """Where the lines of parts may lie, of a blank without what is left beside it."""
        return self.container.outline if self.blank is None else self.blank.room

    @property
    def lines(self) -> tuple[float, ...]:
        """Middles of the laps across it, counted from where the lines of parts may begin."""
        low = self._room.bounds[0]
        return tuple(x - low for x in self.container.lines)

    @cached_property
    def size(self) -> tuple[float, float]:
        """Usable length along the grain and width across it, of the bounding box."""
        return _size(self._room)

    @property
    def size_usable(self) -> tuple[float, float]:
        """Length and width, of the bounding box, of what is left within the trimmed edges."""
        return _size(self.usable)

    @cached_property
    def area(self) -> float:
        """Usable area, faults taken off."""
        faults = shapely.union_all(self.container.obstacles)
        return float(self.container.outline.difference(faults).area)

    @cached_property
    def clear_boxes(self) -> tuple[tuple[float, float], ...]:
        """Length and width of the boxes in which a part may lie that touches no lap."""
        if self.blank is None:
            return (self.size,)
        west, south, east, north = self.blank.room.bounds
        lengths = _clear(west, east, self.blank.lines, self.blank.lap)
        widths = _clear(south, north, self.blank.seams, self.blank.lap)
        left = (box for mark, box in self.container.marked if mark == LEFT)
        return (*((length, width) for length in lengths for width in widths), *map(_size, left))

    def holds_box(self, shape: Polygon) -> bool:
        """Whether a shape's box, as it is turned, fits into the usable box without touching a lap."""
        length, width = _size(shape)
        return any(length <= x + TOLERANCE and width <= y + TOLERANCE for x, y in self.clear_boxes)


def _size(shape: Polygon) -> tuple[float, float]:
    west, south, east, north = shape.bounds
    return east - west, north - south


def _clear(low: float, high: float, middles: Sequence[float], lap: float) -> list[float]:
    """Return how long the stretches between laps are."""
    begins, ends = [low, *(at + lap / 2 for at in middles)], [*(at - lap / 2 for at in middles), high]
    return [end - begin for begin, end in zip(begins, ends, strict=True)]


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
