"""A first plan of all timber without any solver, so that something can be shown soon."""

from dataclasses import replace

from nesting.effort import Effort
from nesting.model import Job, Share

from .both_ways import Chosen, ripped_first
from .cutting import Cutting, hanging_together, measured
from .greedy import greedy
from .layout import keeps_ties
from .long_planks import scarfed_once
from .outcome import Outcome
from .plank_uses import plank_uses
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
    found = [(cutting, _quick(cutting, effort)) for cutting in hanging_together(whole)]
    chosen = [_either_way(job, whole, cutting, outcome, effort) for cutting, outcome in found]
    if not all(each.found for each in chosen):
        return None
    if not within(pools_of(job, whole), [outcome for _, outcome in found]):
        return None
    return share_of(job, chosen, measure)


def _quick(cutting: Cutting, effort: Effort) -> Outcome:
    """Return a quick plan, if it keeps what ties copies to one another."""
    layout = greedy(cutting, effort)
    return Outcome(layout if layout is not None and keeps_ties(cutting, layout) else None, NOTHING_PROVEN)


def _either_way(job: Job, whole: Cutting, cutting: Cutting, ripped: Outcome, effort: Effort) -> Chosen:
    """Return a quick plan with planks ripped first, or else one with planks scarfed once: its strips lie two ways."""
    if ripped.layout is not None or pools_of(job, whole):
        return ripped_first(cutting, ripped)
    uses = plank_uses(job, whole, cutting)
    long = (scarfed_once(cutting, use, _quick, effort) for use in uses)
    return replace(ripped_first(cutting, ripped), scarfed=next((each for each in long if each is not None), None))
