"""Long pieces reach over the middle of a sheet, and panels over a blank's scarf: only so many go abreast there."""

from decimal import Decimal

import numpy as np
import pytest
from shapely.geometry import Polygon, box

from nesting.bounds import sheets_bound
from nesting.bounds.middle import middle_of_whole, weight
from nesting.bounds.profile import profile_of
from nesting.bounds.resources import Line
from nesting.planner.resolving import resolved
from tests.jobs import PLY, job


def test_a_long_piece_reaches_over_the_middle_wherever_it_lies() -> None:
    """1500 on 2000: the middle meets it between 500 and 1000 from either end, where it is 80 wide, and a gap of 3."""
    waisted = Polygon([(0, 0), (1500, 0), (1500, 120), (1100, 120), (1000, 80), (500, 80), (400, 120), (0, 120)])
    assert middle_of_whole(profile_of(waisted), 3, 2000) == pytest.approx(83, abs=1e-4)


def test_a_piece_of_less_than_half_a_sheet_need_not_reach_there() -> None:
    """999 on 2000."""
    assert middle_of_whole(profile_of(box(0, 0, 999, 100)), 3, 2000) == 0


def test_chords_take_as_many_parts_of_a_line_as_they_exceed() -> None:
    """Of 1200 in three parts: 400 exceeds none, 401 one, 801 two, and two parts is all that there is."""
    line = Line(owner=0, height=1200, parts=3)
    assert weight(line, np.array([400.0, 401.0, 801.0])).tolist() == [0, 1, 2]
    assert line.gives == 2


def test_diamonds_wide_amidships_go_on_a_sheet_one_by_one() -> None:
    """A diamond 2000 long, 1100 wide amidships: only one goes over the middle of a sheet 1200 wide.

    The middle meets it within 210 of its own, as 2420 - 2000 = 420 is left, where it is 1100 x (1 - 210 / 1000) = 869.
    So three need three sheets, though by area, 3 x 1.1 m2 against 2.9 m2, it would be two.
    """
    diamond = {"points": [[0, 0], [1000, -550], [2000, 0], [1000, 550]]}
    table = {"name": "leaf", "material": "gaboon", "thickness": 6, "outline": diamond, "quantity": 3}
    assert sheets_bound(resolved(job(table))).amount == 3 * Decimal("84.00")


def test_five_panels_across_a_scarf_for_four_need_two_scarfs() -> None:
    """Five of 3600 x 290, none divided, four to a blank 1200 wide: the fifth from strips of a third (computed).

    The scarfs are 2 + 6 x 1.2 and, on strips (1200 - 2 x 3) / 3 wide, 2 + 6 x 0.398.
    """
    asked = job(
        {
            "name": "side",
            "material": "gaboon",
            "thickness": 6,
            "outline": {"rectangle": [3600, 290]},
            "quantity": 5,
            "joint": "scarf",
        },
        sheets=({**PLY, "price": "0.00"},),
        workshop={"way": "joined"},
    )
    assert sheets_bound(resolved(asked)).amount == Decimal("9.20") + Decimal("4.39")
