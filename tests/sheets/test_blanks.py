"""Blanks of whole sheets, and panels cut from them."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.model import Job, NoPlanError, Plan, Share
from nesting.planner import plan
from nesting.sheets import sheet_plans
from nesting.sheets.tasks import tasks_of
from tests.jobs import PLY, job, panel

SIDE = panel("side", 4200, 250, quantity=4, handed=True, joint="scarf")
JOINED = {"way": "joined"}


def last_share(asked: Job, work: int = 400) -> Share:
    """Return the last share that a search yields."""
    *_, share = sheet_plans(asked, seed=0, effort=Effort(Budget(work=work)))
    return share


def planned(asked: Job, work: int = 400) -> Plan:
    """Return a plan; it has passed the audit."""
    return plan(asked, effort=Effort(Budget(work=work)))


def test_four_sides_come_from_one_blank_of_two_sheets() -> None:
    """4 x 250 and three gaps on a width of 1200; one scarf at 2.00 + 7.20, and nothing for the panels' joints."""
    share = last_share(job(SIDE, workshop=JOINED))
    (blank,) = share.blanks
    assert [member.used for member in blank.members] == ["S1", "S2"]
    assert [scarf.at for scarf in blank.scarfs] == [2396]
    assert [scarf.cost for scarf in blank.scarfs] == [Decimal("9.20")]
    assert {joint.scarf for joint in share.joints} == {"B1/F1"}
    assert {joint.cost for joint in share.joints} == {0}
    assert {piece.on for piece in share.pieces} == {"B1"}


def test_a_panel_with_a_zone_amidships_slides_along_the_blank() -> None:
    """A scarf within 1900 to 2300 is not allowed; the blank is 592 longer than the panel, which is enough."""
    share = last_share(job({**SIDE, "no_joint": [[1900, 2300]]}, workshop=JOINED))
    assert share.blanks
    assert all(joint.station + 24 <= 1900 or joint.station - 24 >= 2300 for joint in share.joints)


def test_both_ways_are_compared_and_told() -> None:
    """The plan is the cheaper of the two."""
    made = planned(job(SIDE))
    costs = {way.way: way.objective for way in made.ways}
    assert set(costs) == {"divided", "joined"}
    assert made.totals.objective == min(cost for cost in costs.values() if cost is not None)


def test_where_no_blank_can_be_handled_there_is_nothing_to_compare() -> None:
    """A longest piece below the blanks leaves only dividing."""
    made = planned(job(SIDE, workshop={"longest_piece": 4300}))
    assert (made.ways, made.blanks) == ((), ())


def test_a_way_for_which_stock_runs_out_is_told_with_its_reason() -> None:
    """Divided it comes from a sheet and an offcut; a blank takes two sheets, as half a sheet is too narrow."""
    rest = {**PLY, "name": "rest", "outline": {"rectangle": [900, 800]}, "available": 1}
    del rest["size"]
    made = planned(job(panel("side", 2900, 700, joint="scarf"), sheets=({**PLY, "available": 1}, rest)))
    (joined,) = (way for way in made.ways if way.way == "joined")
    assert joined.objective is None
    assert "stock ran out" in joined.told


def test_where_panels_must_not_be_divided_no_blank_means_no_plan() -> None:
    """The refusal says with how many joints dividing would do."""
    with pytest.raises(NoPlanError, match='Divided it can be made, with 1 joint: write way = "both"'):
        last_share(job(SIDE, workshop={**JOINED, "longest_piece": 4300}))


def test_dividing_only_makes_no_blanks() -> None:
    """As the job says."""
    assert not last_share(job(SIDE, workshop={"way": "divided"})).blanks


def test_no_more_sheets_go_into_blanks_than_there_are() -> None:
    """Three sheets: one blank of two, and what is left does not make another."""
    three = ({**PLY, "available": 3},)
    share = last_share(job(SIDE, panel("shelf", 900, 500), sheets=three, workshop=JOINED))
    assert len(share.used) <= 3


def test_a_part_comes_from_no_blank_of_a_poorer_grade() -> None:
    """Every sheet of its blanks is marine; the exterior side may come from either kind."""
    marine, exterior = {**PLY, "name": "marine", "grade": "marine"}, {**PLY, "name": "exterior", "grade": "exterior"}
    sides = [panel(grade, 3600, 300, joint="scarf", grade=grade) for grade in ("marine", "exterior")]
    asked = job(*sides, sheets=(marine, exterior), grades=["exterior", "marine"], workshop=JOINED)
    fine, plain = (
        {member.sheet.name for blank in part.blanks for member in blank.members} for part in tasks_of(asked)[0].parts
    )
    assert (fine, plain) == ({"marine"}, {"marine", "exterior"})


def test_there_are_ways_to_lie_on_every_blank() -> None:
    """With one joint on two sheets, and with two on three shorter ones: none crowds out the others."""
    long = {**PLY, "name": "long", "size": [3100, 1530], "price": "150.00"}
    task = tasks_of(job(panel("side", 5500, 330, joint="scarf"), sheets=(PLY, long), workshop=JOINED))[0]
    serving = {index for variant in task.variants[0] for kind in variant.pieces for index in kind.stocks}
    blanks = [stock for stock in task.stocks if stock.blank is not None and stock.size[0] >= 5500]
    assert {len(blank.lines) for blank in blanks} >= {1, 2}
    assert serving >= {blank.index for blank in blanks if len(blank.lines) <= 2}


def test_sheets_of_unlike_thickness_are_not_joined() -> None:
    """As measured: the faces of their scarf would not meet."""
    thin = {**PLY, "name": "thin", "measured": 5.6}
    (task,) = tasks_of(job(SIDE, sheets=(PLY, thin), workshop=JOINED))
    for stock in task.stocks:
        assert len({member.sheet.true_thickness for member in stock.members}) == 1


def test_sheets_with_faults_and_offcuts_are_not_joined() -> None:
    """Only whole sound sheets are."""
    knot = {**PLY, "name": "knotty", "faults": [{"points": [[100, 100], [150, 100], [100, 150]]}]}
    rack = {**PLY, "name": "rest", "outline": {"rectangle": [2000, 1220]}, "source": "rack", "available": 1}
    del rack["size"]
    (task,) = tasks_of(job(SIDE, sheets=(PLY, knot, rack), workshop=JOINED))
    joined = [stock for stock in task.stocks if stock.blank is not None]
    assert joined
    assert {member.sheet.name for stock in joined for member in stock.members} == {"ply"}


@settings(max_examples=8)
@given(
    st.lists(st.tuples(st.integers(2500, 4700), st.integers(100, 500)), min_size=1, max_size=3),
    st.sampled_from(["joined", "both"]),
    st.sampled_from([0, 3]),
)
def test_every_joined_plan_passes_the_audit(sizes: list[tuple[int, int]], way: str, allowance: int) -> None:
    """Neighbours keep 250 apart, everything at an allowance; what can't be made is refused in words."""
    panels = [panel(f"p{k}", length, width, joint="scarf", quantity=2) for k, (length, width) in enumerate(sizes)]
    pairs = [{"between": ["p0", "p1"], "shift": 250}] if len(panels) > 1 else []
    asked = job(*panels, panel("knee", 300, 200), neighbours=pairs, workshop={"way": way, "allowance": allowance})
    try:
        made = planned(asked, work=100)
    except NoPlanError:
        return
    assert audit(made, made.job) == ()
    assert made.totals.bound <= made.totals.objective
