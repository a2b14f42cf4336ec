"""All that is wrong with a job, found without improving any plan of it."""

from nesting.bounds import shortages
from nesting.effort import Budget, Effort
from nesting.lengths import quick_lengths
from nesting.model import Job, JobError, NoPlanError, Problem
from nesting.sheets import panel_problems, sheet_plans

from .planning import USUAL_WORK
from .resolving import resolved
from .set_aside import everything, looked_through
from .timber import best_timber


def check(job: Job) -> tuple[Problem, ...]:
    """Return everything that keeps a job from being planned, all at once: outlines, then panels, then strips.

    What is wrong by itself is set aside and the rest is looked at without it. A first plan of the rest is tried, so
    stock that runs out is told too. Nothing is returned if a plan exists and was found.
    """
    left, outlines = looked_through(everything(job), _outline_problems)
    _, panels = looked_through(left, _panel_problems)
    _, strips = looked_through(left, _strip_problems)
    return (*outlines, *panels, *strips)


def _outline_problems(job: Job) -> tuple[Problem, ...]:
    try:
        resolved(job)
    except JobError as error:
        return error.problems
    return ()


def _panel_problems(job: Job) -> tuple[Problem, ...]:
    try:
        job = resolved(job)
        if problems := (panel_problems(job) or shortages(job)):
            return problems
        next(sheet_plans(job, seed=0, effort=Effort(Budget(work=0))))
    except (NoPlanError, JobError) as error:
        return error.problems
    return ()


def _strip_problems(job: Job) -> tuple[Problem, ...]:
    try:
        effort = Effort(Budget(work=USUAL_WORK))
        if quick_lengths(job, effort) is None:
            best_timber(job, effort)
    except NoPlanError as error:
        return error.problems
    return ()
