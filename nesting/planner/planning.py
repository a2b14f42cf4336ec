"""The road from a job to a plan."""

from decimal import Decimal

from nesting.auditing import audit
from nesting.bounds import sheets_bound, shortages
from nesting.effort import Budget, Effort, News, Progress, silence
from nesting.lengths import plan_lengths
from nesting.model import AuditError, Bound, Job, NoPlanError, Plan, Share, Way
from nesting.sheets import panel_problems, sheet_plans

from .adding_up import money_of, purchases, totals
from .resolving import job_sha256, resolved

#: Work units spent where nobody says: about twenty seconds for one boat.
USUAL_WORK = 20_000


def plan(job: Job, *, seed: int = 0, effort: Effort | None = None, progress: Progress = silence) -> Plan:
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

    Raises
    ------
    JobError
        If the job can't be used; it says all that is wrong.
    NoPlanError
        If no plan exists, or none was found; it says which parts and why.
    AuditError
        If a plan fails the audit: a fault of this library.
    """
    effort = effort or Effort(Budget(work=USUAL_WORK))
    job = resolved(job)
    progress(News(stage="timber"))
    timber, timber_bound = _timber(job, effort)
    if short := shortages(job):
        raise NoPlanError([*panel_problems(job), *short])
    bound = _sum(sheets_bound(job), timber_bound)
    progress(News(stage="sheets", bound=bound.amount, spent=effort.spent))
    best: Plan | None = None
    for sheets in sheet_plans(job, seed=seed, effort=effort):
        before, best = best, _audited(_assembled(job, sheets, timber, bound, seed, effort), job)
        if before is None or best.totals != before.totals:
            progress(News(stage="sheets", objective=best.totals.objective, bound=bound.amount, spent=effort.spent))
        if best.totals.proven and _compared(best):
            break
    assert best is not None, "the search for sheets yields at least one plan or raises"
    return best.model_copy(update={"work": effort.spent})


def _timber(job: Job, effort: Effort) -> tuple[Share, Bound]:
    """Plan the timber; if that fails tell what is wrong with the panels too, all at once."""
    try:
        return plan_lengths(job, effort)
    except NoPlanError as error:
        raise NoPlanError([*panel_problems(job), *error.problems]) from None


def _compared(plan: Plan) -> bool:
    """Whether it is known what each way of joining would cost, where the job leaves a choice."""
    return all(way.tried for way in plan.ways)


def _sum(sheets: Bound, timber: Bound) -> Bound:
    """Return the bound on both together: what one costs says nothing of the other."""
    told = [("sheets", sheets), ("timber", timber)]
    reason = "; ".join(f"{kind}: {bound.reason}" for kind, bound in told if bound.amount)
    return Bound(amount=sheets.amount + timber.amount, reason=reason or "nothing costs anything")


def _assembled(job: Job, sheets: Share, timber: Share, bound: Bound, seed: int, effort: Effort) -> Plan:
    share = Share(
        used=sheets.used + timber.used,
        blanks=sheets.blanks,
        pieces=sheets.pieces + timber.pieces,
        joints=sheets.joints + timber.joints,
        offcuts=sheets.offcuts + timber.offcuts,
    )
    timber_objective = money_of(job, timber).objective
    return Plan(
        seed=seed,
        work=effort.spent,
        job=job,
        job_sha256=job_sha256(job),
        totals=totals(job, share, bound),
        purchases=purchases(job, share),
        used=share.used,
        blanks=share.blanks,
        pieces=share.pieces,
        joints=share.joints,
        offcuts=share.offcuts,
        ways=tuple(_with_timber(way, timber_objective) for way in sheets.ways),
    )


def _with_timber(way: Way, timber: Decimal) -> Way:
    """Return what a way comes to for the whole job: its timber is the same in each."""
    return way if way.objective is None else way.model_copy(update={"objective": way.objective + timber})


def _audited(plan: Plan, job: Job) -> Plan:
    """Return the plan if nothing is wrong with it."""
    if findings := audit(plan, job):
        raise AuditError("a plan of our own making failed its audit:\n" + "\n".join(map(str, findings)))
    return plan
