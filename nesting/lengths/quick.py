"""A first plan of all timber without any solver, so that something can be shown soon."""

from nesting.effort import Effort
from nesting.model import Job, Share

from .both_ways import ripped_first
from .cutting import hanging_together, measured
from .greedy import greedy
from .layout import keeps_ties
from .outcome import Outcome
from .proven import Proven
from .refusing import refuse_impossible
from .sharing_out import pools_of, within
from .writing import share_of

NOTHING_PROVEN = Proven(0, "nothing is proven yet")


def quick_lengths(job: Job, effort: Effort) -> Share | None:
    """Return timber for all strips of a job as quick plans find it; None if for some they find none that may be used.

    Raises
    ------
    NoPlanError
        If some strips can't be made; it names each, the reason, and what would help.
    """
    whole, measure = measured(job)
    refuse_impossible(job, whole, measure)
    cuttings = tuple(hanging_together(whole))
    layouts = [greedy(cutting, effort) for cutting in cuttings]
    outcomes = [Outcome(layout, NOTHING_PROVEN) for layout in layouts]
    for cutting, layout in zip(cuttings, layouts, strict=True):
        if layout is None or not keeps_ties(cutting, layout):
            return None
    if not within(pools_of(job, whole), outcomes):
        return None
    return share_of(job, [ripped_first(*pair) for pair in zip(cuttings, outcomes, strict=True)], measure)
