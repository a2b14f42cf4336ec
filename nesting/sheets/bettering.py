"""Makes selections better: plain passes at first, then steps of the packing engine, and the best of all layouts."""

from collections.abc import Callable, Iterator
from random import Random

from nesting.effort import Effort
from nesting.packing import Placer, compiled, wait_until_compiled

from .batch import Batch
from .choosing import SOLVER_WORK, altered, chosen
from .filling import plain_manner, random_manner
from .first_plans import filled
from .gathering import gathered
from .giving_back import give_memory_back
from .improving import Improver, bench_for
from .layouts import Pool
from .master import best_selection
from .outcomes import Outcomes, ways_told
from .selecting import Selection, selection
from .tasks import Task
from .variants import Variant

#: So many plain passes come first, within a share of the budget; of the later steps one in so many is a plain pass.
PLAIN_PASSES, PLAIN_SHARE, STEPS_PER_PASS = 2, 0.5, 40

#: Share of the budget in which the pieces on each sheet are gathered in the end.
GATHERING = 0.05

#: Every so many steps the best sheets of all layouts are chosen anew, if there are new ones.
STEPS_PER_CHOICE = 6


def bettered(
    outcomes: Outcomes, pool: Pool, chance: Random, effort: Effort, enough: Callable[[], bool]
) -> Iterator[Outcomes]:
    """Yield better selections, starting from the first of each way, until the budget is spent or it is enough.

    The last has the pieces on each sheet gathered.
    """
    whole, effort = effort, effort.share_of_rest(1 - GATHERING)
    job = outcomes.tasks[0].job
    placer, bench = Placer(job.workshop.gap, effort), bench_for(job)
    improvers = {task: Improver(task, pool, bench, effort, chance) for task in outcomes.tasks}
    batches = {task: Batch(task, improver) for task, improver in improvers.items()}
    steps, told, first, seen = 0, ways_told(outcomes), outcomes.best.rank, 0
    if not enough():
        _as_the_solver_chooses(outcomes, pool, placer, chance, effort)
    if outcomes.best.rank < first:
        told = ways_told(outcomes)
        yield outcomes
    while not effort.over and not enough():
        task = outcomes.next_task(steps)
        steps += 1
        before, best = outcomes.best.rank, outcomes.of(task)
        if _begins(steps, effort) or steps % STEPS_PER_PASS == 0 or not _engine_is_ready(effort):
            better = _pass(task, pool, placer, chance, effort, best)
        elif batches[task].is_next:
            better = batches[task].step(best)
        else:
            better = improvers[task].step(best)
        if steps % STEPS_PER_CHOICE == 0 and len(pool) > seen and not effort.over:
            effort.spend(SOLVER_WORK)
            seen, layouts = len(pool), [layout for layout in pool.layouts if layout.stock in task.stocks]
            better = best_selection(task.parts, task.variants, task.clashing, layouts, better)
        give_memory_back()  # steps leave holes behind them: a tenth of all memory
        outcomes.take(task, better)
        if outcomes.best.rank < before:
            told = ways_told(outcomes)
            yield outcomes
    if _engine_is_ready(whole) and not whole.stopped:
        outcomes.settle(gathered(job, outcomes.best, bench, whole, chance.randrange(2**31)))
        yield outcomes
    elif ways_told(outcomes) != told:
        yield outcomes


def _as_the_solver_chooses(outcomes: Outcomes, pool: Pool, placer: Placer, chance: Random, effort: Effort) -> None:
    """Make one plain pass in each way with the solver's choice of variants, for which the first plans did not wait."""
    for task in outcomes.tasks:
        if effort.over or not outcomes.has(task) or (variants := chosen(task, None, effort)) is None:
            continue
        done = filled(task, variants, placer, plain_manner(), chance)
        pool.add(done.tried)
        if not done.left:
            outcomes.take(task, selection(task.parts, variants, done.used))


def _begins(steps: int, effort: Effort) -> bool:
    """Whether the search has only begun: plain passes soon find much, and show what sheets hold."""
    return steps <= PLAIN_PASSES and effort.share < PLAIN_SHARE


def _engine_is_ready(effort: Effort) -> bool:
    """Whether the packing engine can be used; where the outcome may not depend on time, wait for it."""
    if effort.budget.seconds is None and not effort.over:
        wait_until_compiled()
    return compiled()


def _pass(task: Task, pool: Pool, placer: Placer, chance: Random, effort: Effort, best: Selection) -> Selection:
    """Fill sheets in a manner and with variants drawn by chance; return it if it is better."""
    variants = _next_choice(task, chance, effort, best)
    done = filled(task, variants, placer, random_manner(chance), chance)
    pool.add(done.tried)
    if done.left:
        return best
    return min(best, selection(task.parts, variants, done.used), key=lambda s: s.rank)


def _next_choice(task: Task, chance: Random, effort: Effort, best: Selection) -> tuple[Variant, ...]:
    """Return the best choice of variants so far, or it with one panel made otherwise, or a fresh one."""
    draw = chance.random()
    if draw < 0.35:
        return best.variants
    if draw < 0.85:
        return altered(best.variants, task.variants, task.clashing, chance)
    return chosen(task, chance, effort) or best.variants
