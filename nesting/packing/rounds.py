"""Search on several workers in rounds, so that the result does not depend on how many there are."""

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor, Future, wait
from typing import Any, ParamSpec, TypeVar

from nesting.effort import Budget, Effort

State = TypeVar("State")
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


def in_rounds(
    advanced: Callable[[State | None, float, int, Effort, int], State],
    merged: Callable[[Sequence[State], float], Sequence[State]],
    states: Sequence[State | None],
    effort: Effort,
    seed: int,
    executor: Executor,
) -> Iterator[Sequence[State]]:
    """Yield the states after each round until the effort is spent.

    Parameters
    ----------
    advanced : callable
        Takes a state, the share of the effort that was spent before, the work after which it is to begin nothing new,
        an effort that ends it in any case, and a seed; must be fit to be sent to another process.
    merged : callable
        Takes all states and the share that is spent; returns the states of the next round.
    effort : Effort
        Its work is shared by the states; its seconds pass for all of them at once.
    """
    number = 0
    while not number or not effort.over:
        share, budget = effort.share, _budget_of_a_task(effort, len(states))
        futures = [
            executor.submit(_task, advanced, state, share, budget, seed * 1_000_003 + number * 1009 + k)
            for k, state in enumerate(states)
        ]
        while wait(futures, timeout=LOOK).not_done:
            if effort.stopped:
                return
        results = [future.result() for future in futures]
        effort.spend(sum(spent for _, spent in results))
        reached = [state for state, _ in results]
        yield reached
        states, number = merged(reached, effort.share), number + 1


def _budget_of_a_task(effort: Effort, tasks: int) -> Budget:
    """Return a fair part of the work that is left, and all the time."""
    work = effort.budget.work
    fair = None if work is None else -(-max(0, work - effort.spent) // tasks)
    return Budget(work=fair, seconds=effort.seconds_left)


def _task(advanced: Callable[..., Any], state: Any, share: float, budget: Budget, seed: int) -> tuple[Any, int]:
    """Return the state that was reached, and the work units it took."""
    effort = Effort(budget)
    return advanced(state, share, ROUND, effort, seed), effort.spent
