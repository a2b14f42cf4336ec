"""No plan of any job, made in any way, is below the bound; and more or cheaper stock never raises it."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st

from nesting.bounds import sheets_bound
from nesting.effort import Budget, Effort
from nesting.model import Job, JointCost, NoPlanError
from nesting.planner.adding_up import money_of
from nesting.planner.resolving import resolved
from nesting.sheets import sheet_plans
from tests.jobs import PLY, job, panel
from tests.planner.random_jobs import Table, job_of, jobs

WAYS = ("joined", "divided", "both")


def in_way(table: Table, way: str) -> Job:
    """Return the job with its panels to be joined in one way."""
    return resolved(job_of({**table, "workshop": {**table["workshop"], "way": way}}))


def cheapest(asked: Job, work: int) -> Decimal:
    """Return the objective of the best plan found."""
    try:
        return min(
            money_of(asked, share).objective for share in sheet_plans(asked, seed=0, effort=Effort(Budget(work=work)))
        )
    except NoPlanError:
        reject()


@settings(max_examples=8)
@given(jobs(limited=False, timber=False), st.sampled_from(WAYS))
def test_no_plan_of_a_random_job_is_below_the_bound(table: Table, way: str) -> None:
    """Panels of all shapes, zones, grades, grains, faults, offcuts, in each way."""
    asked = in_way(table, way)
    assert sheets_bound(asked).amount <= cheapest(asked, 20)


@settings(max_examples=8)
@given(
    st.lists(st.tuples(st.integers(2000, 6000), st.integers(80, 500), st.integers(1, 4)), min_size=1, max_size=3),
    st.sampled_from(WAYS),
    st.sampled_from(["0", "1.00", "9.00"]),
)
def test_no_plan_of_long_panels_is_below_the_bound(sizes: list[tuple[int, int, int]], way: str, each: str) -> None:
    """Many joints, cheap and dear, of three sizes of sheet."""
    asked = long_job(sizes, way, each)
    assert sheets_bound(asked).amount <= cheapest(asked, 40)


@settings(max_examples=5)
@given(
    st.lists(st.tuples(st.integers(2000, 6000), st.integers(80, 500), st.integers(1, 4)), min_size=1, max_size=3),
    st.sampled_from(WAYS),
)
def test_more_or_cheaper_stock_never_raises_the_bound(sizes: list[tuple[int, int, int]], way: str) -> None:
    """One kind of sheet left out, and one cheaper by ten.

    Each amount is that of an integer programme to which cuts were added until none was missing by more than half a
    cent, so a cent is allowed for.
    """
    asked = long_job(sizes, way, "2.00")
    fewer = asked.model_copy(update={"sheets": asked.sheets[:2]})
    cheaper = tuple(sheet.model_copy(update={"price": sheet.price - 10}) for sheet in asked.sheets)
    bound = sheets_bound(asked).amount
    assert bound <= sheets_bound(fewer).amount + Decimal("0.05")
    assert sheets_bound(asked.model_copy(update={"sheets": cheaper})).amount <= bound + Decimal("0.05")


def long_job(sizes: list[tuple[int, int, int]], way: str, each: str) -> Job:
    """Return a job of long panels from three sizes of sheet, zones amidships."""
    panels: list[dict[str, Any]] = [
        panel(f"p{k}", length, width, quantity=count, joint="scarf", no_joint=[[length / 2 - 150, length / 2 + 100]])
        for k, (length, width, count) in enumerate(sizes)
    ]
    sheets = (
        PLY,
        {**PLY, "name": "wide", "size": [2500, 1250], "price": "88.00"},
        {**PLY, "name": "large", "size": [3100, 1530], "price": "139.00"},
    )
    scarf = {"slope": 8, "least_piece": 450, "cost": {"each": each, "per_m": "6.00"}}
    return resolved(job(*panels, sheets=sheets, joints={"scarf": scarf}, workshop={"way": way}))


def test_a_longer_sheet_that_spares_joints_has_to_be_bought() -> None:
    """4900 with no joint allowed amidships: one joint with a piece of 3100, two without.

    By hand: a 3100 (139) and two joints of 2 + 1.2 in two panels 200 wide, all within its 4.7 m2; or a 2440 (84) and
    four joints, 6.4 more. Area 2 x 1.02 m2 fits either.
    """
    sheets = (PLY, {**PLY, "name": "large", "size": [3100, 1530], "price": "139.00"})
    asked = job(
        panel("side", 4900, 200, quantity=2, joint="scarf", no_joint=[[2000, 2600]]),
        sheets=sheets,
        workshop={"way": "divided"},
    )
    assert sheets_bound(resolved(asked)).amount == Decimal("84.00") + 4 * Decimal("3.20")


@pytest.mark.parametrize(("way", "joints"), [("divided", "14.96"), ("joined", "9.32"), ("both", "9.32")])
def test_a_scarf_of_a_blank_is_paid_once_for_all_across_it(way: str, joints: str) -> None:
    """Four sides 3600 x 290 fill a blank of two sheets: its scarf is 2 + 6 x 1.22, four joints 4 x (2 + 6 x 0.29)."""
    asked = job(panel("side", 3600, 290, quantity=4, joint="scarf"), workshop={"way": way, "trim": 0})
    assert sheets_bound(resolved(asked)).amount == Decimal("168.00") + Decimal(joints)


def narrow_job(sizes: list[tuple[int, int, int]], way: str, price: str) -> Job:
    """Return a job of panels that strips of a half or a third of a sheet can carry, of one kind of sheet."""
    panels = [panel(f"p{k}", length, width, quantity=n, joint="scarf") for k, (length, width, n) in enumerate(sizes)]
    return resolved(job(*panels, sheets=({**PLY, "price": price},), workshop={"way": way, "kerf": 3}))


@settings(max_examples=10)
@given(
    st.lists(st.tuples(st.integers(2450, 5200), st.integers(100, 590), st.integers(1, 2)), min_size=1, max_size=2),
    st.sampled_from(["joined", "both"]),
    st.sampled_from(["0", "9.00", "84.00"]),
)
def test_no_plan_from_strips_is_below_the_bound(sizes: list[tuple[int, int, int]], way: str, price: str) -> None:
    """Few narrow panels: blanks of ripped and of crosscut sheets are the cheapest, with free sheets too."""
    asked = narrow_job(sizes, way, price)
    assert sheets_bound(asked).amount <= cheapest(asked, 40)


def test_a_blank_of_two_thirds_of_one_sheet_is_proven_the_least() -> None:
    """One of 3600 x 290: one sheet, and a scarf across a third, (1200 - 2 x 3) / 3 = 398 mm wide: 2 + 6 x 0.398."""
    asked = narrow_job([(3600, 290, 1)], "joined", "84.00")
    assert sheets_bound(asked).amount == cheapest(asked, 100) == Decimal("84.00") + Decimal("4.39")


def test_a_panel_over_three_sheets_needs_both_their_scarfs_however_narrow() -> None:
    """4900 is more than 2 x 2420 - 48; over a third of a sheet, 398 wide, 150 would go twice: 2 x (2 + 6 x 0.398)."""
    asked = narrow_job([(4900, 150, 1)], "joined", "0")
    assert sheets_bound(asked).amount == cheapest(asked, 100) == 2 * Decimal("4.39")


@pytest.mark.parametrize("free", ["0", "84.00"])
def test_half_a_sheet_at_the_end_counts_only_where_a_panel_is_no_longer(free: str) -> None:
    """Two of 4700 x 590 fill a blank of two sheets, not one of a sheet and a half: 3606 with the lap."""
    asked = narrow_job([(4700, 590, 2)], "joined", free)
    assert sheets_bound(asked).amount == cheapest(asked, 100) == 2 * Decimal(free) + Decimal("9.20")


@pytest.mark.parametrize("way", WAYS)
def test_a_joint_rule_that_no_panel_names_changes_no_bound(way: str) -> None:
    """However cheap its scarfs would be."""
    asked = long_job([(4200, 300, 4), (3600, 180, 2)], way, "2.00")
    cheap = asked.joints["scarf"].model_copy(update={"cost": JointCost(each=Decimal(0), per_m=Decimal(0))})
    unused = {**asked.joints, "unused": cheap}
    assert sheets_bound(asked.model_copy(update={"joints": unused})) == sheets_bound(asked)
