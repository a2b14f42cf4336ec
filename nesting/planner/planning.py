"""The road from a job to a plan."""

from decimal import Decimal
from itertools import chain
from typing import TYPE_CHECKING

from nesting.auditing import audit
from nesting.bounds import shortages
from nesting.effort import Budget, Effort, News, Progress, silence
from nesting.model import AuditError, Bound, Job, NoPlanError, Plan
from nesting.sheets import panel_problems, sheet_plans

from .assembling import assembled
from .resolving import resolved
from .timber import quick_timber, timber_in_earnest

if TYPE_CHECKING:
    from concurrent.futures import Executor  # a first plan need not wait for it

#: Work units spent where nobody says: about half a minute for one boat.
USUAL_WORK = 60_000

#: What is known of a plan that is shown before anything is proven.
NOTHING_PROVEN = Bound(amount=Decimal(0), reason="nothing is proven yet")


def plan(
    job: Job,
    *,
    seed: int = 0,
    effort: Effort | None = None,
    progress: Progress = silence,
    chains: int = 1,
    executor: "Executor | None" = None,
) -> Plan:
    """Return the best plan found for a job within a budget; it has passed the audit.

    Parameters
    ----------
    job : Job
    seed : int
        Fixes every choice made by chance: the same job, seed and work give the same plan.
    effort : Effort or None
        What may be spent; ``effort.stop()`` ends the search with the best plan so far. None: ``USUAL_WORK``.
    progress : Progress
        Hears of each better plan and of the bound.
    chains : int
        Searches for sheets that go on side by side; after each round of some seconds they share what they found, and
        the work is shared by them. The same job, seed, work and number of chains give the same plan.
    executor : Executor or None
        Where the chains are searched, at best with a process for each; None for here, one after another. Chains that
        lose their workers go on here. The search ends with the best plan so far at ``effort.stop()`` though workers
        may still be busy: whoever started them ends them.

    Raises
    ------
    ValueError
        If there is to be no chain.
    JobError
        If the job can't be used; it says all that is wrong.
    NoPlanError
        If no plan exists, or none was found; it says which parts and why.
    AuditError
        If a plan fails the audit: a fault of this library.
    """
    if chains < 1:
        raise ValueError("without a chain there is no search")
    effort = effort or Effort(Budget(work=USUAL_WORK))
    job = resolved(job)
    progress(News(stage="timber"))
    quick = quick_timber(job, effort)
    if short := shortages(job):
        raise NoPlanError([*panel_problems(job), *short])
    progress(News(stage="sheets", spent=effort.spent))
    best: Plan | None = None

    def is_enough() -> bool:
        return best is not None and best.totals.proven and _compared(best)

    shares = sheet_plans(job, seed=seed, effort=effort, enough=is_enough, chains=chains, executor=executor)
    first = next(shares)
    # Shown as soon as there is anything to cut from: what opens solvers and compiled loops comes after it.
    best = _audited(assembled(job, first, quick.share, NOTHING_PROVEN, seed, effort), job)
    progress(News(stage="bound", objective=best.totals.objective, spent=effort.spent))
    timber, timber_bound = timber_in_earnest(quick, job, effort)
    bound = _sum(_sheets_bound(job), timber_bound)
    for sheets in chain([first], shares):
        before, best = best, _audited(assembled(job, sheets, timber, bound, seed, effort), job)
        if sheets is first or _rank(best) != _rank(before):
            progress(News(stage="sheets", objective=best.totals.objective, bound=bound.amount, spent=effort.spent))
    return best.model_copy(update={"work": effort.spent})


def _rank(plan: Plan) -> tuple[Decimal, int, int, int]:
    """Return what is told of a plan: another that differs only in what it knows of other ways is no news."""
    totals = plan.totals
    return totals.objective, totals.joints, totals.scarfs_of_blanks, totals.sheets


def _sheets_bound(job: Job) -> Bound:
    """Return what no sheets and joints together can cost less than."""
    from nesting.bounds import sheets_bound  # only now: it opens solvers

    from .small_sets import refuted

    return sheets_bound(job, refuted)


def _compared(plan: Plan) -> bool:
    """Whether it is known what each way of joining would cost, where the job leaves a choice."""
    return all(way.tried for way in plan.ways)


def _sum(sheets: Bound, timber: Bound) -> Bound:
    """Return the bound on both together: what one costs says nothing of the other."""
    told = [("sheets", sheets), ("timber", timber)]
    reason = "; ".join(f"{kind}: {bound.reason}" for kind, bound in told if bound.amount)
    return Bound(amount=sheets.amount + timber.amount, reason=reason or "nothing costs anything")


def _audited(plan: Plan, job: Job) -> Plan:
    """Return the plan if nothing is wrong with it."""
    if findings := audit(plan, job):
        raise AuditError("a plan of our own making failed its audit:\n" + "\n".join(map(str, findings)))
    return plan
