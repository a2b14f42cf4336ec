"""The search for sheet goods: each plan that it yields is better than the last."""

from collections.abc import Callable, Iterator, Sequence
from random import Random
from typing import TYPE_CHECKING

from nesting.effort import Effort
from nesting.model import Job, NoPlanError, Problem, Share

from .first_plans import first_of_each
from .layouts import Pool
from .outcomes import Outcomes, ways_told
from .sharing import share_of
from .tasks import Task, tasks_of
from .widening import widened

if TYPE_CHECKING:
    from concurrent.futures import Executor  # a first plan need not wait for it


def sheet_plans(
    job: Job,
    *,
    seed: int,
    effort: Effort,
    enough: Callable[[], bool] = lambda: False,
    chains: int = 1,
    executor: "Executor | None" = None,
) -> Iterator[Share]:
    """Yield ways to make all panels, each cheaper (or equal with fewer joints or sheets) than the last.

    The first comes as soon as it is found, whatever the budget; the same job, seed and work give the same. One may be
    as good as the one before and only tell more of what the other ways of joining would cost, or leave larger offcuts.

    Parameters
    ----------
    enough : callable
        Whether nothing cheaper need be looked for, asked after each plan.
    chains : int
        Searches that go on side by side once there is a first plan, sharing what they find.
    executor : Executor or None
        Where they run; None for here, one after another. It changes nothing of what is found with the same work.

    Raises
    ------
    NoPlanError
        If a panel can't be made, or no plan was found; it says which and why.
    """
    if not job.panels:
        yield Share()
        return
    tasks = widened(tasks_of(job))
    for outcomes in _improving(tasks, seed, effort, enough, chains, executor):
        yield share_of(job, tasks[0].parts, outcomes.best).model_copy(update={"ways": ways_told(outcomes)})


def panel_problems(job: Job) -> tuple[Problem, ...]:
    """Return why panels of a resolved job can't be made, each looked at by itself; empty if each can."""
    try:
        tasks_of(job)
    except NoPlanError as error:
        return error.problems
    return ()


def _improving(
    tasks: Sequence[Task],
    seed: int,
    effort: Effort,
    enough: Callable[[], bool],
    chains: int,
    executor: "Executor | None",
) -> Iterator[Outcomes]:
    """Yield better and better selections until the budget is spent or it is enough."""
    outcomes, pool, chance = Outcomes(tasks), Pool(), Random(seed)
    yield from first_of_each(outcomes, pool, chance, effort)
    from .bettering import bettered, in_chains  # only now: they open the solvers and the packing engine

    yield from bettered(outcomes, pool, chance, effort, enough, in_chains(chains, seed, executor))
