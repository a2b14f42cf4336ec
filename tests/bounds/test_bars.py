"""Panels too wide to lie abreast need more sheets than their area: proven, with layouts by hand that attain it."""

from decimal import Decimal
from typing import Any

import pytest

from nesting.bounds import sheets_bound
from nesting.model import Job
from nesting.planner.resolving import resolved
from tests.jobs import PLY, job, panel

WAYS = ("divided", "joined", "both")
INCH = 25.4


def tapering(name: str, length: float, aft: float, forward: float, quantity: int) -> dict[str, Any]:
    """Return a panel wider aft than forward."""
    outline = {"points": [[0, 0], [length, 0], [length, forward], [0, aft]]}
    return {**panel(name, 1, 1, quantity=quantity, joint="scarf"), "outline": outline}


def sheets_needed(asked: Job) -> int:
    """Return the sheets that the bound asks for, at a price of 100 each; joints are for less than that in all."""
    return int(sheets_bound(resolved(asked)).amount // 100)


@pytest.mark.parametrize("way", WAYS)
def test_two_bottoms_need_four_sheets(way: str) -> None:
    """Of 3600 x 640 to 612 only one goes abreast on 1220: 2 x (3606 + 48) = 7308 is more than 3 x 2426 = 7278.

    By area it would be two. Four do: pieces of 2414 and 1234 of each, one to a sheet (worked out by hand).
    """
    asked = job(
        tapering("bottom", 3600, 640, 612, 2),
        sheets=({**PLY, "price": "100.00"},),
        workshop={"kerf": 6, "way": way},
    )
    assert sheets_needed(asked) == 4


@pytest.mark.parametrize("way", WAYS)
def test_four_sides_need_four_sheets(way: str) -> None:
    """Of 4100 x 432 to 415 two go abreast, so half of 4 x 4154 = 8308 is more than 3 x 2426 = 7278.

    By area it would be three. Four do: two pieces abreast on each of two sheets, and their other halves on two more.
    """
    asked = job(
        tapering("side", 4100, 432, 415, 4), sheets=({**PLY, "price": "100.00"},), workshop={"kerf": 6, "way": way}
    )
    assert sheets_needed(asked) == 4


def test_rough_blanks_of_a_kayak_need_four_sheets() -> None:
    """Strosaker, "Notes on the building of a kayak" (2007): four sheets 98 1/2 x 48 in; by area it would be three.

    Eight strips of 11 leave 56 in of the width of three sheets, and the other long parts need 63 (computed).
    """
    strips = [(98.5, 11, 8), (75, 12, 2), (84, 22, 1), (66, 17, 1), (30, 11, 2)]
    asked = job(
        *(panel(f"{k}", length * INCH, width * INCH, quantity=n) for k, (length, width, n) in enumerate(strips)),
        sheets=({**PLY, "size": [98.5 * INCH, 48 * INCH], "price": "100.00"},),
        workshop={"kerf": 0, "trim": 0},
    )
    assert sheets_needed(asked) == 4


def test_parts_that_may_be_turned_are_not_counted_as_wide() -> None:
    """Three parts 1100 x 650, grain at will, lie on one sheet: two abreast turned, one beside them.

    By hand: 2 x 650 + 3 = 1303 along, 1100 across; then 1100 x 650 in the 1117 that are left. Grain along, none of the
    three goes abreast and two go one behind the other: two sheets.
    """
    free = job(panel("seat", 1100, 650, quantity=3, grain="any"))
    along = job(panel("seat", 1100, 650, quantity=3, grain="along"))
    assert sheets_bound(resolved(free)).amount == Decimal("84.00")
    assert sheets_bound(resolved(along)).amount == Decimal("168.00")


def test_parts_across_the_grain_are_seen_by_their_length() -> None:
    """Two parts 700 long, 1300 wide, lying across: 700 each across the sheet's width of 1200, 2606 of its 2420 long."""
    asked = job(panel("frame", 700, 1300, quantity=2, grain="across"))
    assert sheets_bound(resolved(asked)).amount == Decimal("168.00")
