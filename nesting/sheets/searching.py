"""The search for sheet goods: each plan that it yields is better than the last."""

from collections.abc import Iterator, Sequence
from random import Random

from nesting.effort import Effort
from nesting.model import Job, NoPlanError, Problem, Share
from nesting.packing import Placer, compiled, wait_until_compiled

from . import refusing
from .choosing import altered, choose
from .filling import Filled, Manner, fill_sheets, plain_manner, random_manner
from .improving import Improver, bench_for
from .layouts import Pool
from .master import Selection, best_selection, selection, wanted
from .outcomes import Outcomes, ways_told
from .sharing import share_of
from .tasks import Task, tasks_of
from .variants import Variant

#: Passes after which a first plan is given up.
PATIENCE = 20

#: Coarseness of shapes in the passes that look for a first plan: what matters there is to be soon done.
FIRST_COARSENESS = 4.0

#: So many plain passes come first, within a share of the budget; of the later steps one in so many is a plain pass.
PLAIN_PASSES, PLAIN_SHARE, STEPS_PER_PASS = 40, 0.5, 4

#: Every so many steps the best sheets of all layouts are chosen anew.
STEPS_PER_CHOICE = 6

#: Work units that one solver call counts for.
SOLVER_WORK = 50

#: Passes after which a way is given up that is looked at beside one that has a plan.
PATIENCE_BESIDE = 4


def sheet_plans(job: Job, *, seed: int, effort: Effort) -> Iterator[Share]:
    """Yield ways to make all panels, each cheaper (or equal with fewer joints or sheets) than the last.

    The first comes as soon as it is found, whatever the budget; the same job, seed and work give the same. One may be
    as good as the one before and only tell more of what the other ways of joining would cost.

    Raises
    ------
    NoPlanError
        If a panel can't be made, or no plan was found; it says which and why.
    """
    if not job.panels:
        yield Share()
        return
    tasks = tasks_of(job)
    for outcomes in _improving(tasks, Random(seed), effort):
        yield share_of(job, tasks[0].parts, outcomes.best).model_copy(update={"ways": ways_told(outcomes)})


def panel_problems(job: Job) -> tuple[Problem, ...]:
    """Return why panels of a resolved job can't be made, each looked at by itself; empty if each can."""
    try:
        tasks_of(job)
    except NoPlanError as error:
        return error.problems
    return ()


def _improving(tasks: Sequence[Task], chance: Random, effort: Effort) -> Iterator[Outcomes]:
    """Yield better and better selections until the budget is spent."""
    outcomes = Outcomes(tasks)
    pool, placer = Pool(), Placer(tasks[0].job.workshop.gap, effort)
    yield from _first_of_each(outcomes, pool, chance, effort)
    bench = bench_for(tasks[0].job)
    improvers = {task: Improver(task, pool, bench, effort, chance) for task in tasks}
    steps, told = 0, ways_told(outcomes)
    while not effort.over:
        task = outcomes.next_task(steps)
        steps += 1
        before, best = outcomes.best.rank, outcomes.of(task)
        if _begins(steps, effort) or steps % STEPS_PER_PASS == 0 or not _engine_is_ready(effort):
            better = _pass(task, pool, placer, chance, effort, best)
        else:
            better = improvers[task].step(best)
        if steps % STEPS_PER_CHOICE == 0 and not effort.over:
            effort.spend(SOLVER_WORK)
            layouts = [layout for layout in pool.layouts if layout.stock in task.stocks]
            better = best_selection(task.parts, task.variants, task.clashing, layouts, better)
        outcomes.take(task, better)
        if outcomes.best.rank < before:
            told = ways_told(outcomes)
            yield outcomes
    if ways_told(outcomes) != told:
        yield outcomes


def _begins(steps: int, effort: Effort) -> bool:
    """Whether the search has only begun: plain passes soon find much, and show what sheets hold."""
    return steps <= PLAIN_PASSES and effort.share < PLAIN_SHARE


def _engine_is_ready(effort: Effort) -> bool:
    """Whether the packing engine can be used; where the outcome may not depend on time, wait for it."""
    if effort.budget.seconds is None and not effort.over:
        wait_until_compiled()
    return compiled()


def _first_of_each(outcomes: Outcomes, pool: Pool, chance: Random, effort: Effort) -> Iterator[Outcomes]:
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
        raise outcomes.failure


def _first(task: Task, pool: Pool, placer: Placer, chance: Random, effort: Effort, patience: int) -> Selection:
    """Return the first selection that makes everything."""
    manner = plain_manner()
    for tries in range(patience):
        variants = _choice(task, chance if tries else None, effort)
        if variants is None:
            raise NoPlanError(refusing.clashing(task.job))
        filled = _filled(task, variants, placer, manner, chance)
        pool.add(filled.tried)
        if not filled.left:
            return selection(task.parts, variants, filled.used)
        manner = random_manner(chance)
        if effort.stopped:
            break
    raise NoPlanError(refusing.stock_ran_out(task.job, filled.left, task.stocks))


def _pass(task: Task, pool: Pool, placer: Placer, chance: Random, effort: Effort, best: Selection) -> Selection:
    """Fill sheets in a manner and with variants drawn by chance; return it if it is better."""
    variants = _next_choice(task, chance, effort, best)
    filled = _filled(task, variants, placer, random_manner(chance), chance)
    pool.add(filled.tried)
    if filled.left:
        return best
    return min(best, selection(task.parts, variants, filled.used), key=lambda s: s.rank)


def _next_choice(task: Task, chance: Random, effort: Effort, best: Selection) -> tuple[Variant, ...]:
    """Return the best choice of variants so far, or it with one panel made otherwise, or a fresh one."""
    draw = chance.random()
    if draw < 0.35:
        return best.variants
    if draw < 0.85:
        return altered(best.variants, task.variants, task.clashing, chance)
    return _choice(task, chance, effort) or best.variants


def _choice(task: Task, chance: Random | None, effort: Effort) -> tuple[Variant, ...] | None:
    effort.spend(SOLVER_WORK)
    return choose(task.parts, task.variants, task.clashing, task.stocks, chance)


def _filled(task: Task, variants: Sequence[Variant], placer: Placer, manner: Manner, chance: Random) -> Filled:
    return fill_sheets(wanted(task.parts, variants), task.stocks, placer, manner, task.job.workshop.gap, chance)
