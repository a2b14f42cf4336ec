"""The search for sheet goods: each plan that it yields is better than the last."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random

from nesting.effort import Effort
from nesting.model import Job, NoPlanError, Problem, Share
from nesting.packing import Placer

from . import refusing
from .choosing import altered, choose, clashes
from .filling import Filled, Manner, fill_sheets, plain_manner, random_manner
from .layouts import Pool
from .master import Selection, best_selection, selection, wanted
from .parts import Part, part_of
from .sharing import share_of
from .stock import Stock, serving, stock_of
from .variants import Variant, variants_of

#: Passes after which a first plan is given up.
PATIENCE = 20

#: Coarseness of shapes in the passes that look for a first plan: what matters there is to be soon done.
FIRST_COARSENESS = 4.0

#: Every so many passes the best sheets of all passes are chosen anew.
PASSES_PER_CHOICE = 4

#: Work units that one solver call counts for.
SOLVER_WORK = 50


@dataclass(frozen=True)
class Task:
    """What is to be made and from what, worked out once."""

    job: Job
    stocks: tuple[Stock, ...]
    parts: tuple[Part, ...]
    variants: tuple[tuple[Variant, ...], ...]
    clashing: dict[tuple[Variant, Variant], None]


def sheet_plans(job: Job, *, seed: int, effort: Effort) -> Iterator[Share]:
    """Yield ways to make all panels, each cheaper (or equal with fewer joints or sheets) than the last.

    The first comes as soon as it is found, whatever the budget; the same job, seed and work give the same.

    Raises
    ------
    NoPlanError
        If a panel can't be made, or no plan was found; it says which and why.
    """
    if not job.panels:
        yield Share()
        return
    task = prepared(job)
    for found in _improving(task, Random(seed), effort):
        yield share_of(job, task.parts, found)


def panel_problems(job: Job) -> tuple[Problem, ...]:
    """Return why panels of a resolved job can't be made, each looked at by itself; empty if each can."""
    try:
        prepared(job)
    except NoPlanError as error:
        return error.problems
    return ()


def prepared(job: Job) -> Task:
    """Work out the sheets, the panels, and the ways to make each, or say which panels can't be made."""
    stocks = stock_of(job)
    serve = {k: serving(stocks, job, panel) for k, panel in enumerate(job.panels)}
    parts = {k: part_of(k, job.panels[k], those, job) for k, those in serve.items() if those}
    variants = {k: variants_of(part, job) for k, part in parts.items()}
    problems = [refusing.no_stock(k, job.panels[k], stocks) for k, those in serve.items() if not those]
    problems += [refusing.no_variant(parts[k], job) for k, several in variants.items() if not several]
    if problems:
        raise NoPlanError(problems)
    ways = tuple(variants.values())
    return Task(job, stocks, tuple(parts.values()), ways, clashes(job, ways))


def _improving(task: Task, chance: Random, effort: Effort) -> Iterator[Selection]:
    """Yield better and better selections until the budget is spent."""
    pool, placer = Pool(), Placer(task.job.workshop.gap, effort)
    best = _first(task, pool, Placer(task.job.workshop.gap, effort, FIRST_COARSENESS), chance, effort)
    yield best
    passes = 0
    while not effort.over:
        passes += 1
        better = _pass(task, pool, placer, chance, effort, best)
        if passes % PASSES_PER_CHOICE == 0 and not effort.stopped:
            effort.spend(SOLVER_WORK)
            better = best_selection(task.parts, task.variants, task.clashing, pool.layouts, better)
        if better.rank < best.rank:
            best = better
            yield best


def _first(task: Task, pool: Pool, placer: Placer, chance: Random, effort: Effort) -> Selection:
    """Return the first selection that makes everything."""
    manner = plain_manner()
    for tries in range(PATIENCE):
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
