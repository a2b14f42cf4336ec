"""Search in rounds on several workers."""

import pickle
import time
from collections.abc import Iterator, Sequence
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from random import Random
from threading import Event, Timer
from typing import Any

import pytest

from nesting.effort import Budget, Effort, in_rounds


def drawn(state: int, share: float, work: int, effort: Effort, seed: int) -> int:
    """Add numbers drawn by chance, for a unit of work each."""
    chance = Random(seed)
    while effort.spent < work and not effort.over:
        effort.spend(1)
        state += chance.randrange(1000)
    return state + round(1000 * share)


def alike(states: Sequence[int], share: float) -> list[int]:
    """Have all go on from the greatest."""
    del share
    return [max(states)] * len(states)


def rounds(effort: Effort, executor: Executor | None = None, states: Sequence[int] = (0, 0)) -> Iterator[Sequence[int]]:
    """Go on in rounds of 5, 10, 15, ... units."""
    return in_rounds(drawn, alike, states, effort, 7, executor, lambda number: 5 * (number + 1))


class Broken(Executor):
    """Loses its workers in the third round."""

    def __init__(self) -> None:
        self.tasks = 0

    def submit(self, function: Any, /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Do it, or say that nobody is there any more."""
        self.tasks += 1
        future: Future[Any] = Future()
        if self.tasks > 6:
            raise BrokenProcessPool
        if self.tasks > 4:
            future.set_exception(BrokenProcessPool())
        else:
            future.set_result(function(*args, **kwargs))
        return future


def test_rounds_come_to_the_same_wherever_their_tasks_are_done() -> None:
    """Here, in threads, and where the workers are lost on the way."""
    alone = list(rounds(Effort(Budget(work=200))))
    assert len(alone) == 6  # rounds of 10, 20, 30, 40, 50, and the 50 that are left
    with ThreadPoolExecutor(2) as threads:
        assert list(rounds(Effort(Budget(work=200)), threads)) == alone
    assert list(rounds(Effort(Budget(work=200)), Broken())) == alone


def test_the_work_of_all_tasks_counts() -> None:
    """It is shared by them fairly, to a unit each."""
    effort = Effort(Budget(work=101))
    assert list(rounds(effort, states=(0, 0, 0)))
    assert 101 <= effort.spent <= 103


def test_there_is_a_round_whatever_the_budget() -> None:
    """In which nothing may be begun."""
    assert list(rounds(Effort(Budget(work=0)), states=(3, 4))) == [[3, 4]]


@pytest.mark.parametrize(("executor", "reached"), [(None, [[0, 0]]), (ThreadPoolExecutor(2), [])])
def test_a_stop_is_heard_while_tasks_are_done(executor: Executor | None, reached: list[list[int]]) -> None:
    """Here by the task, whose result counts; nobody waits for those that do not hear of it."""
    effort, ended = Effort(Budget()), Event()

    def waits(state: int, share: float, work: int, effort: Effort, seed: int) -> int:
        del share, work, seed
        while not (ended.is_set() or (executor is None and effort.over)):
            time.sleep(0.01)
        return state

    Timer(0.2, effort.stop).start()
    assert list(in_rounds(waits, alike, [0, 0], effort, 0, executor)) == reached
    ended.set()


def test_an_effort_apart_counts_for_itself_and_hears_of_a_stop() -> None:
    """So what one task spends ends no other."""
    whole = Effort(Budget(work=10))
    part = whole.share_of_rest(0.5).apart(Budget(work=100))
    part.spend(50)
    assert (whole.spent, part.over) == (0, False)
    whole.stop()
    assert part.stopped
    assert part.over


def test_an_effort_elsewhere_has_what_is_left_of_it() -> None:
    """Of its work and of its seconds; it belongs to nothing that is here."""
    whole = Effort(Budget(work=10))
    part = whole.part(Budget(work=30, seconds=60))
    part.spend(4)
    there = pickle.loads(pickle.dumps(part))
    assert there.budget.work == 26
    assert 50 < there.budget.seconds <= 60
    there.spend(20)
    whole.stop()
    assert (whole.spent, there.spent, there.over) == (4, 20, False)
