"""Search on several workers in rounds, so that the result does not depend on how many there are."""

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, wait
from dataclasses import dataclass
from typing import Any, ParamSpec, TypeVar

from .budget import Budget, Effort

Sent = TypeVar("Sent")
Reached = TypeVar("Reached")
Parameters = ParamSpec("Parameters")
Result = TypeVar("Result")

#: Work units after which a task of a round begins nothing new: some seconds.
ROUND = 8000

#: Seconds after which whoever waits for a round looks whether somebody asked the search to end.
LOOK = 0.1


class Alone(Executor):
    """Does at once, here, what it is given."""

    def submit(
        self, function: Callable[Parameters, Result], /, *args: Parameters.args, **kwargs: Parameters.kwargs
    ) -> Future[Result]:
        """Return a future that is done."""
        future: Future[Result] = Future()
        try:
            future.set_result(function(*args, **kwargs))
        except BaseException as error:
            future.set_exception(error)
        return future


def of_equal_work(number: int) -> int:
    """Return the work of every round."""
    del number
    return ROUND


def in_rounds(
    advanced: Callable[[Sent, float, int, Effort, int], Reached],
    merged: Callable[[Sequence[Reached], float], Sequence[Sent]],
    states: Sequence[Sent],
    effort: Effort,
    seed: int,
    executor: Executor | None,
    work: Callable[[int], int] = of_equal_work,
) -> Iterator[Sequence[Reached]]:
    """Yield what is reached after each round until the effort is spent.

    Where workers are lost, the round is begun anew here, and so are those that follow.

    Parameters
    ----------
    advanced : callable
        Takes a state, the share of the effort that was spent before, the work after which it is to begin nothing new,
        an effort that ends it in any case, and a seed; must be fit to be sent to another process.
    merged : callable
        Takes all that is reached and the share that is spent; returns the states of the next round.
    effort : Effort
        Its work is shared by the states; its seconds pass for all of them at once.
    executor : Executor or None
        Where the tasks of a round are done; None for here, one after another.
    work : callable
        Takes the number of a round, from 0; returns the work after which its tasks begin nothing new.
    """
    workers, number = executor or Alone(), 0
    while not number or not effort.over:
        share, fair, most = effort.share, _fair_work(effort, len(states)), work(number)
        tasks = [
            _Task(advanced, state, share, most, fair, seed * 1_000_003 + number * 1009 + k)
            for k, state in enumerate(states)
        ]
        try:
            results = _done(tasks, effort, workers)
        except BrokenExecutor:
            workers = Alone()
            results = _done(tasks, effort, workers)
        if not results:
            return
        effort.spend(sum(spent for _, spent in results))
        reached = [state for state, _ in results]
        yield reached
        states, number = merged(reached, effort.share), number + 1


@dataclass(frozen=True)
class _Task:
    """One part of a round: what is done, with what, and what it may spend, beside the seconds that are left."""

    advanced: Callable[..., Any]
    state: Any
    share: float
    work: int
    fair: int | None
    seed: int

    def done(self, effort: Effort) -> tuple[Any, int]:
        """Return what was reached, and the work units it took."""
        return self.advanced(self.state, self.share, self.work, effort, self.seed), effort.spent


def _fair_work(effort: Effort, tasks: int) -> int | None:
    """Return a fair part of the work that is left."""
    work = effort.budget.work
    return None if work is None else -(-max(0, work - effort.spent) // tasks)


def _done(tasks: Sequence[_Task], effort: Effort, executor: Executor) -> list[tuple[Any, int]]:
    """Return what each task comes to and the work it took; nothing if the effort is stopped meanwhile."""
    futures = [
        executor.submit(task.done, effort.apart(Budget(work=task.fair, seconds=effort.seconds_left))) for task in tasks
    ]
    while wait(futures, timeout=LOOK).not_done:
        if effort.stopped:
            for future in futures:
                future.cancel()
            return []
    return [future.result() for future in futures]
