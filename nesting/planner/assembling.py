"""A plan put together from its sheets and its timber."""

from decimal import Decimal

from nesting.effort import Effort
from nesting.model import Bound, Job, Plan, Share, Way

from .adding_up import money_of, purchases, totals
from .resolving import job_sha256


def assembled(job: Job, sheets: Share, timber: Share, bound: Bound, seed: int, effort: Effort) -> Plan:
    """Return the plan that these sheets and this timber make, with all its totals."""
    share = Share(
        used=sheets.used + timber.used,
        blanks=sheets.blanks,
        long_planks=timber.long_planks,
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
        long_planks=share.long_planks,
        pieces=share.pieces,
        joints=share.joints,
        offcuts=share.offcuts,
        ways=tuple(_with_timber(way, timber_objective) for way in sheets.ways),
        plank_ways=timber.plank_ways,
    )


def _with_timber(way: Way, timber: Decimal) -> Way:
    """Return what a way comes to for the whole job: its timber is the same in each."""
    return way if way.objective is None else way.model_copy(update={"objective": way.objective + timber})
