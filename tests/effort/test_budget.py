"""What a search may spend."""

import math
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.effort import Budget, Effort, News, Progress, silence


@pytest.mark.parametrize("limit", [{"work": -1}, {"seconds": -0.1}, {"seconds": math.nan}])
def test_a_negative_budget_is_refused(limit: dict[str, Any]) -> None:
    """A negative limit, or one that is no number, is a slip of the caller."""
    with pytest.raises(ValueError, match="negative"):
        Budget(**limit)


@given(st.integers(0, 50), st.lists(st.integers(0, 10), max_size=12))
def test_work_is_over_exactly_when_all_is_spent(work: int, steps: list[int]) -> None:
    """A budget of work alone ends by the work units and nothing else, so the same work ends at the same step."""
    effort = Effort(Budget(work=work))
    for step in steps:
        assert effort.over is (effort.spent >= work)
        effort.spend(step)
    assert effort.spent == sum(steps)
    assert effort.over is (sum(steps) >= work)


def test_no_limit_never_ends() -> None:
    """Without limits only somebody's wish ends a search."""
    effort = Effort(Budget())
    effort.spend(10**12)
    assert not effort.over


def test_no_seconds_end_at_once_and_many_seconds_do_not() -> None:
    """Seconds count from the start of the search."""
    assert Effort(Budget(seconds=0)).over
    assert not Effort(Budget(seconds=3600, work=1)).over


def test_a_stop_ends_the_search_whatever_is_left() -> None:
    """Ctrl-C has to end a search that has neither limit reached."""
    effort = Effort(Budget(work=100, seconds=3600))
    assert not effort.stopped
    effort.stop()
    assert effort.stopped
    assert effort.over


def test_two_searches_do_not_share_what_they_spent() -> None:
    """One budget may be handed to several searches."""
    budget = Budget(work=5)
    one, other = Effort(budget), Effort(budget)
    one.spend(5)
    assert one.over
    assert not other.over


def test_a_budget_is_frozen() -> None:
    """What may be spent does not change under way."""
    with pytest.raises(AttributeError):
        Budget(work=5).work = 6  # type: ignore[misc]


def test_news_can_be_kept_or_ignored() -> None:
    """Whoever takes one piece of news serves as progress; silence takes all and keeps none."""
    heard: list[News] = []
    listeners: list[Progress] = [heard.append, silence]
    news = News(stage="one joint each", objective=Decimal("84.10"), bound=Decimal("70.00"), spent=7)
    for listen in listeners:
        listen(news)
    assert heard == [news]
    assert News(stage="reading").objective is None


def test_a_part_of_an_effort_counts_in_the_whole_and_ends_with_it() -> None:
    """So that one short search may be one of many."""
    whole = Effort(Budget(work=10))
    part = whole.part(Budget(work=4))
    part.spend(4)
    assert (part.over, whole.over, whole.spent) == (True, False, 4)
    other = whole.part(Budget())
    whole.stop()
    assert other.over


def test_the_share_of_a_budget_that_is_spent() -> None:
    """From 0 to 1; without a limit it stays 0."""
    effort = Effort(Budget(work=8))
    effort.spend(2)
    assert effort.share == 0.25
    effort.spend(20)
    assert effort.share == 1.0
    assert Effort(Budget()).share == 0.0


def test_time_runs_out_by_seconds_or_a_wish_and_not_by_work() -> None:
    """Also of a part whose whole has the seconds."""
    spent = Effort(Budget(work=10))
    spent.spend(10)
    assert spent.over
    assert not spent.out_of_time
    late = Effort(Budget(seconds=0))
    assert late.part(Budget(work=5)).out_of_time
    asked = Effort(Budget())
    part = asked.part(Budget(work=5))
    assert not part.out_of_time
    asked.stop()
    assert part.out_of_time
