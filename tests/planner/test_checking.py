"""Checking tells everything at once that keeps a job from being planned."""

from typing import Any

import pytest

from nesting.effort import Budget, Effort
from nesting.model import Job, JobError, NoPlanError
from nesting.planner import check, plan
from tests.jobs import PLY, job, panel

BOW_TIE = {"points": [[0, 0], [500, 500], [500, 0], [0, 500]]}
SPRUCE = {"name": "spruce", "material": "spruce", "section": [45, 20], "length": 3600, "price": 9}


def strip(name: str, length: float, **more: Any) -> dict[str, Any]:
    """Return a strip of spruce."""
    return {"name": name, "material": "spruce", "section": [45, 20], "length": length, **more}


def told(asked: Job) -> list[tuple[str, tuple[Any, ...]]]:
    """Return code and place of every problem."""
    return [(problem.code, problem.path[:2]) for problem in check(asked)]


def test_a_job_that_can_be_planned_has_no_problem() -> None:
    """Panels and timber."""
    assert check(job(panel("shelf", 800, 300), lengths=[SPRUCE], strips=[strip("batten", 3000)])) == ()


def test_every_kind_of_trouble_is_told_at_once_in_its_place() -> None:
    """Outlines, missing stock, size and timber: none hides another, and paths are those of the whole job."""
    wrong = job(
        {**panel("tie", 1, 1), "outline": BOW_TIE},
        panel("sound", 800, 300),
        {**panel("oak", 800, 300), "material": "oak"},
        panel("long", 5000, 300),
        panel("also sound", 800, 300),
        panel("joined but wide", 5000, 1300, joint="butt"),
        lengths=[SPRUCE],
        strips=[strip("sound batten", 3000), strip("too long", 5000), strip("thin", 900, section=[45, 10])],
    )
    assert told(wrong) == [
        ("self-crossing", ("panels", 0)),
        ("no-stock", ("panels", 2)),
        ("too-large", ("panels", 3)),
        ("too-wide", ("panels", 5)),
        ("too-long", ("strips", 1)),
        ("no-timber", ("strips", 2)),
    ]


def test_stock_that_runs_out_is_told_beside_what_is_wrong_by_itself() -> None:
    """For sheets and for timber; the parts that can't be made at all take no stock."""
    short = job(
        panel("long", 5000, 300),
        panel("too many", 2000, 1000, quantity=2),
        sheets=({**PLY, "available": 1},),
        lengths=[{**SPRUCE, "available": 1}],
        strips=[strip("too long", 5000), strip("battens", 3000, quantity=2)],
    )
    assert told(short) == [
        ("too-large", ("panels", 0)),
        ("too-little-stock", ("sheets", 0)),
        ("too-long", ("strips", 0)),
        ("too-little-timber", ("strips", 1)),
    ]


def test_a_sheet_that_is_trimmed_away_is_told_and_its_panels_are_not_judged() -> None:
    """That there is no sheet for them would be untrue."""
    asked = job(panel("shelf", 800, 300), sheets=({**PLY, "size": [300, 15]},))
    assert told(asked) == [("trimmed-away", ("sheets", 0))]


def test_joints_of_neighbours_that_cant_keep_apart_are_told() -> None:
    """A shift longer than both panels, each of which could be made alone."""
    parts = [panel(name, 3000, 300, joint="scarf") for name in ("bilge", "sheer")]
    assert told(job(*parts, neighbours=[{"between": ["bilge", "sheer"], "shift": 2900}])) == [
        ("shift", ("neighbours",))
    ]


def test_neighbours_of_a_panel_that_cant_be_made_are_left_out() -> None:
    """Nothing can be said of them."""
    parts = [panel("bilge", 3000, 300, joint="scarf"), {**panel("sheer", 1, 1), "outline": BOW_TIE}]
    asked = job(*parts, neighbours=[{"between": ["bilge", "sheer"], "shift": 2900}])
    assert told(asked) == [("self-crossing", ("panels", 1))]


@pytest.mark.parametrize(
    ("part", "refused"),
    [
        (panel("shelf", 800, 300), None),
        (panel("long", 5000, 300), NoPlanError),
        ({**panel("tie", 1, 1), "outline": BOW_TIE}, JobError),
    ],
)
def test_what_has_a_problem_is_what_planning_refuses(part: dict[str, Any], refused: type[Exception] | None) -> None:
    """The one is empty just where the other raises nothing."""
    asked = job(part)
    assert bool(check(asked)) is (refused is not None)
    if refused is None:
        assert plan(asked, effort=Effort(Budget(work=0))).totals.sheets == 1
    else:
        with pytest.raises(refused):
            plan(asked, effort=Effort(Budget(work=0)))
