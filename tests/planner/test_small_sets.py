"""Few panels that don't lie on one sheet together, though their area does, are proven to need two."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting import plan
from nesting.bounds import sheets_bound
from nesting.effort import Budget, Effort
from nesting.model import Job
from nesting.planner import resolved
from nesting.planner.small_sets import refuted
from tests.jobs import PLY, job, panel


def shelves(quantity: int, **more: object) -> Job:
    """Return a job of shelves of 1000 x 370, of which seven fill 89 % of a sheet of 2420 x 1200."""
    return job(panel("shelf", 1000, 370, quantity=quantity, **more))


@pytest.mark.parametrize(("quantity", "sheets"), [(6, 1), (7, 2)])
def test_seven_shelves_need_a_second_sheet_and_six_do_not(quantity: int, sheets: int) -> None:
    """Three go abreast, with the kerf 1116 of 1200, and two end to end, 2003 of 2420: six; by area eight would do."""
    made = plan(shelves(quantity), effort=Effort(Budget(work=3000)))
    assert (made.totals.sheets, made.totals.bound, made.totals.proven) == (sheets, sheets * Decimal(84), True)
    assert ("no single sheet holds" in made.totals.bound_reason) == (sheets == 2)


def test_nothing_is_refuted_where_panels_may_lean_or_be_joined_or_are_many() -> None:
    """What is looked at then is not all that a plan may do, or would take long; nor if nobody looks."""
    for more in ({"grain_tolerance": 5}, {"joint": "scarf"}, {"grain": "any"}):
        assert sheets_bound(resolved(shelves(7, **more)), refuted).amount == 84
    assert sheets_bound(resolved(shelves(7))).amount == 84
    many = job(panel("shelf", 1000, 370, quantity=7), panel("cleat", 100, 50, quantity=4))
    assert sheets_bound(resolved(many), refuted).amount == 84


def test_a_dearer_sheet_that_holds_all_is_still_chosen() -> None:
    """Of one larger sheet at 130 or two at 84 the one is less, and it is proven."""
    large = {"name": "large", "material": "gaboon", "thickness": 6, "size": [3100, 1530], "price": 130}
    made = plan(job(panel("shelf", 1000, 370, quantity=7), sheets=(PLY, large)), effort=Effort(Budget(work=3000)))
    assert (made.totals.objective, made.totals.proven) == (130, True)


@settings(max_examples=15, deadline=None)
@given(
    sizes=st.lists(st.tuples(st.integers(5, 24), st.integers(2, 12), st.integers(1, 2)), min_size=1, max_size=4),
    grain=st.sampled_from(["along", "across"]),
)
def test_no_plan_for_few_panels_is_below_what_is_refuted(sizes: list[tuple[int, int, int]], grain: str) -> None:
    """Rectangles in hundreds of millimetres; what lies on one sheet is never refuted to."""
    panels = [
        panel(f"p{k}", 100.0 * min(length, 12 if grain == "across" else 24) - 10, 100.0 * width - 10, quantity=quantity)
        | {"grain": grain}
        for k, (length, width, quantity) in enumerate(sizes)
    ]
    asked = job(*panels)
    made = plan(asked, effort=Effort(Budget(work=300)))
    assert sheets_bound(resolved(asked), refuted).amount <= made.totals.objective
