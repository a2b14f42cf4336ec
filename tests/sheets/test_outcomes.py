"""The best of each way, and how the work is shared among them."""

from collections import Counter

import pytest

from nesting.sheets.outcomes import Outcomes
from nesting.sheets.selecting import Selection
from nesting.sheets.tasks import Task, tasks_of
from tests.jobs import job, panel


def costing(cents: int) -> Selection:
    """Return a selection of which nothing but its cost matters."""
    return Selection((), (), cents, 0)


def outcomes_at(**cents: int) -> tuple[Outcomes, dict[str, Task]]:
    """Return the outcomes of ways that cost so much."""
    outcomes = Outcomes(tasks_of(job(panel("side", 4200, 250, quantity=2, joint="scarf"))))
    ways = {task.way: task for task in outcomes.tasks}
    for way, cost in cents.items():
        outcomes.take(ways[way], costing(cost))
    return outcomes, {way: task for way, task in ways.items() if way in cents}


def shares(outcomes: Outcomes, steps: int = 1000) -> dict[str, float]:
    """Return what share of so many steps, each of as much work, every way has."""
    had: Counter[Task] = Counter()
    for _ in range(steps):
        had[outcomes.next_task(had)] += 1
    return {task.way: count / steps for task, count in had.items()}


@pytest.mark.parametrize(
    ("leading", "asked"),
    [
        ("divided", {"divided": 1.0, "joined": 0.1, "mixed": 0.1}),
        ("joined", {"divided": 0.5, "joined": 1.0, "mixed": 0.1}),
        ("mixed", {"divided": 0.5, "joined": 0.1, "mixed": 1.0}),
    ],
)
def test_the_leading_way_has_most_work_and_the_first_half_as_much(leading: str, asked: dict[str, float]) -> None:
    """However far the others are behind."""
    outcomes, _ = outcomes_at(**{way: 9_000 if way == leading else 10_000 for way in asked})
    told = shares(outcomes)
    for way, weight in asked.items():
        assert told[way] == pytest.approx(weight / sum(asked.values()), abs=0.01)


def test_only_what_is_better_is_taken_and_the_best_leads() -> None:
    """Of its own way; of equal ones that which was looked at first leads."""
    outcomes, ways = outcomes_at(divided=10_000, joined=9_000)
    outcomes.take(ways["joined"], costing(9_500))
    assert outcomes.best.cost == outcomes.of(ways["joined"]).cost == 9_000
    outcomes.take(ways["divided"], costing(9_000))
    assert outcomes.best is outcomes.of(ways["divided"])


def test_a_way_without_a_plan_has_no_work() -> None:
    """There is nothing to make better, and nothing to mix it with."""
    outcomes, ways = outcomes_at(divided=10_000)
    assert shares(outcomes) == {"divided": 1.0}
    assert list(ways) == ["divided"]
