"""Lower bounds for sheet goods: by hand, and never above what a search finds."""

from decimal import Decimal
from typing import Any

from hypothesis import given, reject, settings
from hypothesis import strategies as st

from nesting.bounds import sheets_bound
from nesting.effort import Budget, Effort
from nesting.model import Job, NoPlanError
from nesting.sheets import sheet_plans
from tests.jobs import PLY, job, panel


def test_area_asks_for_whole_sheets() -> None:
    """Three halves of a sheet need two sheets (computed)."""
    assert sheets_bound(job(panel("half", 1200, 1200, quantity=3))).amount == Decimal("168.00")


def test_a_joint_that_must_be_is_counted_once_per_copy() -> None:
    """3600 x 300 from 2420 with a lap of 48: one joint, 2.00 + 6.00 x 0.3 = 3.80; two copies on one sheet."""
    asked = job(panel("side", 3600, 300, quantity=2, joint="scarf"))
    assert sheets_bound(asked).amount == Decimal("84.00") + 2 * Decimal("3.80")


def test_laps_count_as_area() -> None:
    """Three panels 4800 x 200 fill a sheet of 2420 x 1200 to the last: with their laps they need a second."""
    asked = {"workshop": {"kerf": 0}, "joints": {"scarf": {"slope": 8, "least_piece": 450}}}
    assert sheets_bound(job(panel("side", 4840, 200, quantity=3), **asked)).amount == Decimal("84.00")
    assert sheets_bound(job(panel("side", 4840, 200, quantity=3, joint="scarf"), **asked)).amount == Decimal("168.00")


def test_the_cheapest_mix_of_sheets_bounds_the_price() -> None:
    """1.3 sheets of area: one whole and one half at 45 are cheaper than two whole ones."""
    half = {**PLY, "name": "half", "size": [1220, 1220], "price": "45.00"}
    asked = job(panel("part", 1200, 1200, quantity=2), panel("rest", 1200, 600), sheets=(PLY, half))
    assert sheets_bound(asked).amount == Decimal("129.00")


def test_a_poorer_grade_does_not_count_for_a_better_part() -> None:
    """Marine parts need marine sheets whatever else is cheap."""
    sheets = ({**PLY, "grade": "exterior", "price": "42.00"}, {**PLY, "name": "good", "grade": "marine"})
    grades = ["exterior", "marine"]
    marine, plain = panel("side", 1200, 1000, grade="marine"), panel("seat", 1200, 1000, grade="exterior")
    assert sheets_bound(job(marine, sheets=sheets, grades=grades)).amount == Decimal("84.00")
    assert sheets_bound(job(marine, plain, sheets=sheets, grades=grades)).amount == Decimal("84.00")
    assert sheets_bound(job(*[marine], {**plain, "quantity": 2}, sheets=sheets, grades=grades)).amount == Decimal(
        "126.00"
    )


def test_different_thicknesses_never_share_a_sheet() -> None:
    """One sheet of each."""
    thick = {**PLY, "name": "thick", "thickness": 9, "price": "110.00"}
    asked = job(panel("a", 500, 500), {**panel("b", 500, 500), "thickness": 9}, sheets=(PLY, thick))
    assert sheets_bound(asked).amount == Decimal("194.00")


def test_what_lies_on_the_rack_is_free() -> None:
    """An offcut large enough brings the bound to nothing."""
    offcut = {**PLY, "name": "rest", "size": [900, 600], "price": "0.00", "available": 1, "source": "rack"}
    assert sheets_bound(job(panel("seat", 500, 500), sheets=(PLY, offcut))).amount == 0


small = st.tuples(st.integers(200, 3500), st.integers(60, 900), st.integers(1, 3))


@settings(max_examples=25)
@given(st.lists(small, min_size=1, max_size=4), st.sampled_from([0, 3, 6]), st.booleans())
def test_no_plan_is_below_the_bound(sizes: list[tuple[int, int, int]], kerf: int, two_kinds: bool) -> None:
    """Whatever is asked for: what the search pays is at least the bound."""
    larger = {**PLY, "name": "large", "size": [3100, 1530], "price": "139.00"}
    panels: list[dict[str, Any]] = [
        panel(f"p{k}", length, width, quantity=count, joint="scarf") for k, (length, width, count) in enumerate(sizes)
    ]
    asked: Job = job(*panels, sheets=(PLY, larger) if two_kinds else (PLY,), workshop={"kerf": kerf})
    price = {sheet.name: sheet.price for sheet in asked.sheets}
    share = next(sheet_plans(asked, seed=0, effort=Effort(Budget())))
    paid = sum(price[used.stock] for used in share.used) + sum(joint.cost for joint in share.joints)
    assert sheets_bound(asked).amount <= paid


@settings(max_examples=25)
@given(
    st.lists(st.tuples(st.integers(1800, 3500), st.integers(20, 700), st.integers(-600, 600)), min_size=1, max_size=3),
    st.integers(0, 20),
    st.sampled_from(["along", "across"]),
)
def test_no_plan_with_leaning_pieces_is_below_the_bound(
    sizes: list[tuple[int, int, int]], tolerance: int, grain: str
) -> None:
    """Whatever is asked for, slanting panels among it, which gain most: what the search pays is at least the bound."""
    panels = [
        panel(f"p{k}", 1, 1, joint="scarf", grain=grain, grain_tolerance=tolerance)
        | {"outline": {"points": [[0, 0], [length, slant], [length, slant + width], [0, width]]}}
        for k, (length, width, slant) in enumerate(sizes)
    ]
    asked: Job = job(*panels, sheets=({**PLY, "size": [3100, 1530]},))
    price = asked.sheets[0].price
    try:
        share = next(sheet_plans(asked, seed=0, effort=Effort(Budget())))
    except NoPlanError:
        reject()
    paid = price * len(share.used) + sum(joint.cost for joint in share.joints)
    assert sheets_bound(asked).amount <= paid


def test_a_slanting_panel_may_be_longer_than_any_upright_one_and_the_bound_knows() -> None:
    """2440 long and drawn 8 degrees aslant: 5 more and its middle line takes 2464 x cos 13 = 2401 of 2420 (computed).

    No upright panel could be so long: 2420 / cos 5 = 2429 (computed).
    """
    asked = job(
        panel("side", 1, 1, joint="scarf", grain_tolerance=5)
        | {"outline": {"points": [[0, 0], [2440, 343], [2440, 353], [0, 10]]}}
    )
    share = next(sheet_plans(asked, seed=0, effort=Effort(Budget())))
    assert share.joints == ()
    assert sheets_bound(asked).amount == Decimal("84.00")


def test_straps_count_as_area_and_butts_as_joints() -> None:
    """Three panels 4840 x 200 fill a sheet of 2420 x 1200 to the last: a strap behind each butt asks for a second.

    Each butt costs 1.00 and 4.00 a metre on 200 mm: 1.80 (computed).
    """
    asked = job(panel("side", 4840, 200, quantity=3, joint="butt"), workshop={"kerf": 0})
    assert sheets_bound(asked).amount == Decimal("168.00") + 3 * Decimal("1.80")


@settings(max_examples=25)
@given(st.lists(small, min_size=1, max_size=4), st.sampled_from([0, 3]), st.sampled_from(["divided", "both"]))
def test_no_plan_with_butts_is_below_the_bound(sizes: list[tuple[int, int, int]], kerf: int, way: str) -> None:
    """Butts beside scarfs, tapered panels among them: sheets, joints and scarfs of blanks cost at least the bound."""
    panels = [
        panel(f"p{k}", 1, 1, quantity=count, joint="scarf" if k == 1 else "butt")
        | {"outline": {"points": [[0, 0], [length, 0], [length, width / 2], [0, width]]}}
        for k, (length, width, count) in enumerate(sizes)
    ]
    asked: Job = job(*panels, workshop={"kerf": kerf, "way": way})
    share = next(sheet_plans(asked, seed=0, effort=Effort(Budget())))
    scarfs = [scarf for blank in share.blanks for scarf in blank.scarfs]
    paid = asked.sheets[0].price * len(share.used) + sum(joint.cost for joint in (*share.joints, *scarfs))
    assert sheets_bound(asked).amount <= paid
