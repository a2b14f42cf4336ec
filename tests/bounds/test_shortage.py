"""Stock that can't suffice is told with what is short, and never where a plan exists."""

from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.bounds import shortages
from nesting.effort import Budget, Effort
from nesting.model import Job, NoPlanError
from nesting.planner import check
from nesting.sheets import sheet_plans
from tests.jobs import PLY, job, panel


def told(asked: Job) -> list[str]:
    """Return the reasons and remedies told."""
    return [f"{problem.reason}. {problem.remedy}" for problem in shortages(asked)]


def test_what_is_short_is_told_with_how_much_and_how_many_more() -> None:
    """Nine sides of 3.6 m by 0.3 from one sheet of 2.9 m2: 9 x 1.105 m2 with a lap and half a cut; three more."""
    (words,) = told(job(panel("side", 3600, 300, quantity=9, joint="scarf"), sheets=({**PLY, "available": 1},)))
    assert '"side" needs 9.95 m2 at the least' in words
    assert '(1 of "ply") gives 2.91 m2, 7.04 m2 too little' in words
    assert 'it takes at least 3 more of "ply"' in words


def test_where_a_sheet_is_not_limited_nothing_is_short() -> None:
    """As many as needed can be bought."""
    assert told(job(panel("side", 2400, 1100, quantity=90))) == []


def test_a_better_grade_may_be_short_by_itself() -> None:
    """Plenty of exterior does not help a panel that asks for marine."""
    sheets = ({**PLY, "grade": "marine", "available": 1}, {**PLY, "name": "cheap", "grade": "exterior"})
    asked = job(panel("side", 2400, 1100, quantity=2, grade="marine"), sheets=sheets, grades=["exterior", "marine"])
    (words,) = told(asked)
    assert '1 of "ply"' in words
    assert "cheap" not in words


def test_checking_tells_what_is_short_in_place_of_panels_without_room() -> None:
    """Once, at the sheet that is limited."""
    asked = job(panel("a", 2400, 1100, quantity=2), panel("b", 2000, 900), sheets=({**PLY, "available": 1},))
    assert [(problem.code, problem.path) for problem in check(asked)] == [
        ("too-little-stock", ("sheets", 0, "available"))
    ]


@settings(max_examples=15)
@given(st.lists(st.tuples(st.integers(300, 2400), st.integers(100, 1100)), min_size=1, max_size=4), st.integers(1, 3))
def test_nothing_is_called_short_for_which_a_plan_exists(sizes: list[tuple[int, int]], available: int) -> None:
    """Whatever was planned is a proof that there was enough."""
    panels = [panel(f"p{k}", length, width) for k, (length, width) in enumerate(sizes)]
    asked = job(*panels, sheets=({**PLY, "available": available},))
    try:
        next(sheet_plans(asked, seed=0, effort=Effort(Budget(work=0))))
    except NoPlanError:
        return
    assert told(asked) == []
