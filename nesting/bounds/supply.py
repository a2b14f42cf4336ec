"""What a sheet can give at the most."""

from dataclasses import dataclass

from shapely.geometry import Polygon

from nesting.model import TOLERANCE, Job, Sheet
from nesting.outlines import grown_outside, polygon, shrunk


@dataclass(frozen=True)
class Supply:
    """The most that one sheet of a kind can give: area, with half a kerf beyond its edges, and longest pieces.

    ``usable`` is what trimming leaves of it, its faults among it.
    """

    sheet: Sheet
    rank: int
    area: float
    length: float
    width: float
    usable: Polygon


def supply_of(job: Job, sheet: Sheet) -> Supply:
    """Return the most that a sheet can give: its faults are not even taken off.

    The outlines of parts, grown by half a gap, stay within the usable sheet grown by half a kerf, since they lie an
    allowance inside it.
    """
    if sheet.size is not None:
        length, width = sheet.size
        usable = shrunk(Polygon([(0, 0), (length, 0), (length, width), (0, width)]), job.workshop.trim)
    elif sheet.outline is not None:
        usable = polygon(sheet.outline)
    west, south, east, north = usable.bounds
    # The last thousandth is the tolerance by which a layout may overhang.
    area = grown_outside(usable, job.workshop.kerf.sheet / 2 + TOLERANCE).area
    spared = 2 * job.workshop.allowance - TOLERANCE
    return Supply(sheet, job.rank(sheet.grade), float(area), east - west - spared, north - south - spared, usable)
