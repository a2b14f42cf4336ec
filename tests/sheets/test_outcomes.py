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


@pytest.mark.parametrize(("joined", "weight"), [(10_000, 1.0), (10_500, 0.5), (10_900, 0.1), (20_000, 0.1)])
def test_the_nearer_a_way_is_to_the_best_the_more_work_it_has(joined: int, weight: float) -> None:
    """Half as much as the leading way at 5 % behind, and never less than a tenth."""
    outcomes, _ = outcomes_at(divided=10_000, joined=joined)
    told = shares(outcomes)
    assert told["joined"] / told["divided"] == pytest.approx(weight, rel=0.1)


def test_what_is_good_in_one_way_is_allowed_where_both_are_mixed() -> None:
    """But it has little work unless it leads by itself."""
    outcomes, ways = outcomes_at(divided=10_000, joined=30_000, mixed=12_000)
    assert outcomes.of(ways["mixed"]).cost == 12_000
    outcomes.take(ways["joined"], costing(11_000))
    assert outcomes.of(ways["mixed"]).cost == 11_000
    outcomes.take(ways["divided"], costing(9_000))
    assert outcomes.of(ways["mixed"]).cost == 9_000
    assert outcomes.best is outcomes.of(ways["divided"])
    assert shares(outcomes)["mixed"] == pytest.approx(1 / 12, rel=0.1)
    outcomes.take(ways["mixed"], costing(8_000))
    assert outcomes.of(ways["divided"]).cost == 9_000
    assert shares(outcomes)["mixed"] == pytest.approx(1 / 1.2, rel=0.1)


def test_a_way_without_a_plan_has_no_work() -> None:
    """There is nothing to make better, and nothing to mix it with."""
    outcomes, ways = outcomes_at(divided=10_000)
    assert shares(outcomes) == {"divided": 1.0}
    assert list(ways) == ["divided"]
