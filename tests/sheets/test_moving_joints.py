"""Attempts to lay all at once, and joints moved to where there may be more room."""

from collections import Counter
from dataclasses import replace
from random import Random

import pytest

from nesting.effort import Budget, Effort
from nesting.joints import stations_hold
from nesting.model import Job
from nesting.sheets.clashing import clashes
from nesting.sheets.crowd import MOST, PATIENCE, Crowd, Member
from nesting.sheets.improving import bench_for
from nesting.sheets.moving_joints import JointMover, joint_costs
from nesting.sheets.realising import attempted
from nesting.sheets.selecting import wanted
from nesting.sheets.tasks import Task, tasks_of
from tests.jobs import job, panel


def neighbours(way: str = "divided") -> Job:
    """Two panels whose joints keep 250 apart and off the middle."""
    return job(
        panel("side", 4300, 330, joint="scarf", quantity=2, no_joint=[[2000, 2200]]),
        panel("bilge", 4100, 280, joint="scarf", quantity=2),
        neighbours=[{"between": ["side", "bilge"], "shift": 250}],
        workshop={"way": way},
    )


def begun(task: Task, sheets: int, stock: int = 0) -> Member:
    """Return an attempt with the first variants that don't clash, on so many sheets of the first or another kind."""
    choice = next(
        (one, other)
        for one in task.variants[0]
        for other in task.variants[1]
        if not clashes(task.job, [[one], [other]])
    )
    effort = Effort(Budget(work=100))
    attempt = attempted(wanted(task.parts, choice), [task.stocks[stock]] * sheets, bench_for(task.job), effort, 0)
    assert attempt is not None
    return Member(choice, attempt, 0)


@pytest.mark.parametrize("seed", range(3))
def test_moved_joints_keep_all_rules_and_the_price(seed: int) -> None:
    """Zones, least pieces and shifts, through many moves; and one panel is moved at a time."""
    task = tasks_of(neighbours())[0]
    member, mover = begun(task, 1), JointMover(task, Random(seed))
    choice = member.choice
    most = joint_costs(task, choice) + 500
    for _ in range(40):
        moved = mover.moved(choice, member.attempt, most)
        assert moved is not None
        assert sum(one is not other for one, other in zip(choice, moved, strict=True)) == 1
        assert not clashes(task.job, [[variant] for variant in moved])
        assert joint_costs(task, moved) <= most
        assert all(stations_hold(variant.stations, task.parts[variant.panel].reach) for variant in moved)
        choice = moved


def test_joints_go_where_nobody_thought_of_at_first() -> None:
    """Moved by ten millimetres and more from the stations that were worth trying."""
    task = tasks_of(neighbours())[0]
    member, mover = begun(task, 1), JointMover(task, Random(1))
    first = {variant.stations for several in task.variants for variant in several}
    found = {v.stations for _ in range(30) for v in mover.moved(member.choice, member.attempt, 10**6) or ()}
    assert found - first


@pytest.mark.parametrize("seed", range(3))
def test_a_panel_slides_along_its_blank_within_all_rules(seed: int) -> None:
    """A blank of two sheets is 4792 long, its scarf at 2396; laid either way round, and to stations new to it."""
    task = tasks_of(neighbours("joined"))[0]
    blank = next(stock for stock in task.stocks if stock.lines == (2396,))
    member, mover = begun(task, 1, blank.index), JointMover(task, Random(seed))
    choice, first = member.choice, {v.stations for several in task.variants for v in several}
    for _ in range(40):
        moved = mover.moved(choice, member.attempt, 0)
        assert moved is not None
        assert not clashes(task.job, [[variant] for variant in moved])
        for variant in moved:
            reach, (station,) = task.parts[variant.panel].reach, variant.stations
            assert all(station + 24 <= start or station - 24 >= end for start, end in reach.zones)
            assert min(station, reach.length - station) >= 450
            # The scarf is there, and either end of the panel within the blank.
            assert any(
                at <= 2396 and at + reach.length <= 4792 for at in (2396 - station, 2396 - reach.length + station)
            )
            assert {kind.stocks >= {blank.index} for kind in variant.pieces} == {True}
        first |= {variant.stations for variant in moved}
        choice = moved
    assert first > {v.stations for several in task.variants for v in several}


def test_nothing_is_moved_where_no_panel_has_a_joint() -> None:
    """There is but one way to make each."""
    task = tasks_of(job(panel("a", 900, 400), panel("b", 700, 300)))[0]
    member = begun(task, 1)
    assert JointMover(task, Random(0)).moved(member.choice, member.attempt, 10**6) is None


def test_an_attempt_goes_on_where_the_last_one_ended() -> None:
    """Pieces that were apart are found apart at once, on the same sheets."""
    task = tasks_of(neighbours())[0]
    member = begun(task, 3)
    assert member.attempt.arrangement.apart
    pieces = wanted(task.parts, member.choice)
    effort = Effort(Budget(work=0))
    again = attempted(pieces, member.attempt.stocks, bench_for(task.job), effort, 5, member.attempt)
    assert again is not None
    assert again.arrangement.apart
    assert [on for on, _ in again.arrangement.places] == [on for on, _ in member.attempt.arrangement.places]
    assert sum((layout.counts for layout in again.layouts), Counter()) == pieces


def test_of_a_crowd_the_dear_and_the_hopeless_are_given_up() -> None:
    """Those that would cost too much at once, others when no change did good for long enough."""
    task = tasks_of(neighbours())[0]
    crowd = Crowd()
    for cost in range(MOST):
        crowd.join(Member(begun(task, 1).choice, begun(task, 1).attempt, cost))
    assert crowd.is_full
    crowd.drop_from(2)
    assert not crowd.is_full
    member = crowd.drawn(Random(0))
    assert [crowd.go_on(member, None) for _ in range(PATIENCE + 1)] == [False] * PATIENCE + [True]


def test_of_a_crowd_the_nearest_is_drawn_most_and_none_never() -> None:
    """One that overlaps a quarter as much is drawn four times as often."""
    start, crowd, chance = begun(tasks_of(neighbours())[0], 1), Crowd(), Random(1)
    for overlap in (0.25, 1.0):
        arrangement = replace(start.attempt.arrangement, overlaps=(overlap,))
        crowd.join(Member(start.choice, replace(start.attempt, arrangement=arrangement), 0))
    drawn = Counter(crowd.drawn(chance).overlap for _ in range(2000))
    assert drawn[0.25] / drawn[1.0] == pytest.approx(4, rel=0.2)
