"""The first selection for each way of joining: sheets filled plainly, without solver or packing engine if possible."""

from collections.abc import Iterator, Sequence
from random import Random

from nesting.effort import Effort
from nesting.model import NoPlanError
from nesting.packing import Placer

from . import refusing
from .costs import by_the_many
from .filling import Filled, Manner, fill_sheets, manner_by_the_many, plain_manner, random_manner
from .layouts import Pool
from .outcomes import Outcomes
from .plain_choice import plain_choice
from .selecting import Selection, selection, wanted
from .tasks import Task
from .variants import Variant

#: Passes after which a first plan is given up.
PATIENCE = 20

#: Coarseness of shapes in the passes that look for a first plan: what matters there is to be soon done.
FIRST_COARSENESS = 4.0

#: Passes after which a way is given up that is looked at beside one that has a plan.
PATIENCE_BESIDE = 4


def first_of_each(outcomes: Outcomes, pool: Pool, chance: Random, effort: Effort) -> Iterator[Outcomes]:
    """Look for a first plan in each way, and yield each time; a way for which none is found is given up."""
    placer = Placer(outcomes.tasks[0].job.workshop.gap, effort, FIRST_COARSENESS)
    for task in outcomes.tasks:
        before = outcomes.best.rank if outcomes.found else None
        if before and effort.over:
            break
        if task.way == "mixed" and before:  # what is good in one way is allowed in both
            outcomes.take(task, outcomes.best)
            continue
        patience = PATIENCE_BESIDE if before else PATIENCE
        try:
            outcomes.take(task, _first(task, pool, placer, chance, effort, patience))
        except NoPlanError as error:
            outcomes.give_up(task, error)
        if outcomes.found:
            yield outcomes
    if not outcomes.found:
        raise _explained(outcomes)
    before = outcomes.best.rank
    _by_the_many(outcomes, pool, placer, chance, effort)
    if outcomes.best.rank < before:
        yield outcomes


def _by_the_many(outcomes: Outcomes, pool: Pool, placer: Placer, chance: Random, effort: Effort) -> None:
    """Look what it costs if of one kind of sheet, of which many cost less, many are bought."""
    for task in outcomes.tasks:
        for index in by_the_many(task.stocks):
            if effort.over or not outcomes.has(task):
                return
            variants = outcomes.of(task).variants
            done = filled(task, variants, placer, manner_by_the_many(index), chance)
            pool.add(done.tried)
            if not done.left:
                outcomes.take(task, selection(task.parts, variants, done.used))


def _first(task: Task, pool: Pool, placer: Placer, chance: Random, effort: Effort, patience: int) -> Selection:
    """Return the first selection that makes everything."""
    manner = plain_manner()
    for tries in range(patience):
        variants = _choice(task, tries, chance, effort)
        if variants is None:
            raise NoPlanError(refusing.shifts_not_kept(task.job))
        done = filled(task, variants, placer, manner, chance)
        pool.add(done.tried)
        if not done.left:
            return selection(task.parts, variants, done.used)
        manner = random_manner(chance)
        if effort.stopped:
            break
    raise NoPlanError(refusing.stock_ran_out(task.job, done.left, task.stocks))


def _explained(outcomes: Outcomes) -> NoPlanError:
    """Return why no way has a plan; where joints of neighbours don't keep apart, with the facts that clash."""
    if all(problem.code != refusing.SHIFT for problem in outcomes.failure.problems):
        return outcomes.failure
    from .refusing_neighbours import clashing  # opens the solver

    task = outcomes.tasks[0]
    return NoPlanError(clashing(task.job, task.parts, task.way))


def _choice(task: Task, tries: int, chance: Random, effort: Effort) -> tuple[Variant, ...] | None:
    """Return a plain choice, if there is one, then the solver's best, then others of its; None if there are none."""
    if not tries and (plain := plain_choice(task)) is not None:
        return plain
    from .choosing import chosen  # opens the solver, which takes longer than most first plans

    return chosen(task, chance if tries > 1 else None, effort)


def filled(task: Task, variants: Sequence[Variant], placer: Placer, manner: Manner, chance: Random) -> Filled:
    """Fill sheets of a task with all pieces of these variants."""
    return fill_sheets(wanted(task.parts, variants), task.stocks, placer, manner, task.job.workshop.gap, chance)
