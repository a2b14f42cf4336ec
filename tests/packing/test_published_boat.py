"""A small boat that was published as cut from one sheet comes out on one sheet."""

import shapely
from shapely.geometry import Polygon

from nesting.effort import Budget, Effort
from nesting.packing import Container, Gaps, Item, Workshop, fill

#: Inches on a sheet of 96 x 48: Atkin, Barnacle Bill Magazine, January 2016, p. 88-89; the second side is the first
#: one mirrored.
SIDE = [(0, 0), (23.75, 0), (47.25, 0), (70.875, 0), (94.75, 0), (94.75, 3), (70.875, 7.125), (47.25, 9.125)]
SIDE += [(23.75, 8.375), (0, 4.75)]
BOTTOM = [(0, 14.125), (23.75, 10.875), (47.25, 10.125), (70.875, 11.875), (94.75, 16), (94.75, 31.875)]
BOTTOM += [(70.875, 36.125), (47.375, 37.875), (23.75, 37.125), (0, 34)]
BOW = [(0, 8), (15.875, 8), (15.875, 11), (0, 11)]
STERN = [(76.25, 36.25), (96, 36.25), (96, 41), (76.25, 41)]

#: Width of a saw cut, in inches: 3 mm.
KERF = 0.12


def test_the_published_one_sheet_boat_comes_out_on_one_sheet() -> None:
    """Two sides, bottom, bow and stern transom: 81.7 % of the sheet, with a saw cut between them."""
    items = [
        Item(Polygon(SIDE), (0.0, 180.0)),
        Item(Polygon(SIDE), (0.0, 180.0), mirrored=True),
        Item(Polygon(BOTTOM), (0.0, 180.0)),
        Item(Polygon(BOW), (0.0, 90.0)),
        Item(Polygon(STERN), (0.0, 90.0)),
    ]
    area = sum(item.polygon.area for item in items)
    assert abs(area / (96 * 48) - 0.8172) < 0.0001  # as worked out from the published figures
    sheet = Container(shapely.box(0, 0, 96, 48))
    assert fill(Workshop(Gaps(parts=KERF)), sheet, items, Effort(Budget(work=10_000))).complete
