"""Panels across several scarfs of a blank: these lie a sheet apart, and neighbours share them."""

from decimal import Decimal
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from nesting.bounds import sheets_bound
from nesting.bounds.asked import asked_of
from nesting.bounds.divisible import Divisible, ways_of
from nesting.bounds.middle import middles_in_blank
from nesting.bounds.profile import profile_of
from nesting.bounds.resources import resources_of
from nesting.bounds.supply import supply_of
from nesting.model import Job
from nesting.planner.resolving import resolved
from tests.bounds.test_no_plan_below import cheapest
from tests.jobs import PLY, job, panel


def free_sheets(*panels: dict[str, Any], way: str = "joined") -> Job:
    """Return a job of panels from sheets that cost nothing, so that only scarfs do."""
    return resolved(job(*panels, sheets=({**PLY, "price": "0"},), workshop={"way": way, "kerf": 3}))


def from_whole_sheets(asked: Job) -> Divisible:
    """Return how the first panel of a job is cut from a blank of whole sheets."""
    resources = resources_of(asked, asked.panels, [supply_of(asked, sheet) for sheet in asked.sheets])
    ways = ways_of(asked_of(asked, asked.panels[0], resources))
    return next(way for way in ways if way.crossing is not None and resources.scarfs[way.crossing.kind].strips == 1)


def test_scarfs_next_to_one_another_lie_a_sheet_apart() -> None:
    """4900 over three sheets of 2420 with a lap of 48: stations are 2372 apart, the first from 450 on.

    The second lies 450 before the end at the latest, so the first at 4450 - 2372 = 2078 at the latest.
    """
    way = from_whole_sheets(free_sheets(panel("side", 4900, 290, joint="scarf")))
    low, high = np.array(way.cells).T
    _, first, second = np.nonzero(way.runs.between)
    assert ((low[second] - high[first] <= 2372.02) & (high[second] - low[first] >= 2371.98)).all()
    assert low[first].min() == pytest.approx(450, abs=1e-3)
    assert low[first].max() <= 2078 < high[first].max() + 50


def test_a_piece_ends_where_its_sheet_does() -> None:
    """A leaf 3000 long, 300 wide amidships, from sheets of 2000 with a lap of 40: with a joint at 1500 both pieces
    are 1520 long, and the middle of their sheets meets them 1000 from the joint's far end, at 520 and 2480.

    There it is 104 wide; with a gap of 3 that is 107. A cell of no length, so that all is exact.
    """
    leaf = profile_of(Polygon([(0, 0), (1500, 150), (3000, 0), (1500, -150)]))
    found = middles_in_blank(leaf, [(1500.0, 1500.0)], (20.0, 20.0), 3, [2000.0])
    assert found.first[0, 0] == pytest.approx(107, abs=0.01)
    assert found.last[0, 0] == pytest.approx(107, abs=0.01)


def test_a_piece_of_half_a_sheet_may_come_from_one_that_was_cut_across() -> None:
    """A piece of 1000 and a bit less, of sheets of 2000: it need not reach the middle of a whole one."""
    found = middles_in_blank(profile_of(box(0, 0, 2900, 100)), [(979.0, 979.0)], (20.0, 20.0), 3, [2000.0])
    assert found.first[0, 0] == 0
    assert found.last[0, 0] == pytest.approx(103, abs=0.01)


def test_panels_over_two_scarfs_share_the_middle_one_of_three() -> None:
    """Six of 4900 x 290, two scarfs each, four abreast on 1200: by sums three scarfs would do, 12 / 4.

    But of three scarfs in a row every panel crosses the second. So four go across two whole scarfs of 2 + 6 x 1.2, and
    two across two of half a sheet, (1200 - 3) / 2 = 598.5 mm: 2 + 6 x 0.5985 = 5.59 to the cent below.
    """
    asked = free_sheets(panel("side", 4900, 290, quantity=6, joint="scarf"))
    assert sheets_bound(asked).amount == 2 * Decimal("9.20") + 2 * Decimal("5.59")


def test_panels_wide_amidships_go_abreast_between_two_scarfs_as_well() -> None:
    """Leaves 4900 long, 700 wide amidships: over a whole sheet between two scarfs only two can go.

    The first scarf lies between 450 and 2078, so the middle of the sheet after it 1186 further on, at 1636 to 3264,
    where a leaf is 700 x (1 - 814 / 2450) = 467 wide or more. Three such don't go abreast on 1200, though at the
    scarfs, where they may be 128 wide, they would.
    """
    leaf = {"points": [[0, 0], [2450, 350], [4900, 0], [2450, -350]]}
    table = {"name": "leaf", "material": "gaboon", "thickness": 6, "outline": leaf, "joint": "scarf"}
    two, three = (sheets_bound(free_sheets({**table, "quantity": n})).amount for n in (2, 3))
    assert two == 2 * Decimal("9.20")
    assert three > two


@settings(max_examples=6)
@given(
    st.lists(
        st.tuples(st.integers(4000, 7300), st.integers(60, 420), st.integers(60, 420), st.integers(1, 3)),
        min_size=1,
        max_size=3,
    ),
    st.sampled_from(["joined", "both"]),
    st.sampled_from(["0", "20.00", "84.00"]),
)
def test_no_plan_of_panels_across_many_scarfs_is_below_the_bound(
    sizes: list[tuple[int, int, int, int]], way: str, price: str
) -> None:
    """Leaning panels, wide and narrow at their ends and amidships, of two lengths of sheet of one width."""
    panels = [
        panel(f"p{k}", 1, 1, quantity=count, joint="scarf")
        | {"outline": {"points": [[0, 0], [length / 2, 90], [length, 0], [length, ends], [length / 2, 90 + amidships]]}}
        for k, (length, ends, amidships, count) in enumerate(sizes)
    ]
    sheets = ({**PLY, "price": price}, {**PLY, "name": "long", "size": [3050, 1220], "price": "110.00"})
    asked = resolved(job(*panels, sheets=sheets, workshop={"way": way, "kerf": 3}))
    assert sheets_bound(asked).amount <= cheapest(asked, 40)
