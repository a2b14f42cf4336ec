"""The road from a job's strips to the timber that is cut for them."""

from nesting.effort import Budget, Effort
from nesting.model import Bound, Job, Share

from .both_ways import best_ways, effort_for_ripping_first
from .cutting import Cutting, hanging_together, measured
from .exact import exact
from .greedy import greedy
from .layout import Layout, keeps_ties
from .net_length import net_length_bound
from .outcome import Outcome
from .polishing import polished
from .proven import Proven
from .refusing import refuse_impossible, refuse_without_plan
from .sharing_out import pools_of, shared_out
from .shifting import set_apart, with_ties
from .task import task_of
from .writing import bound_of, share_of

#: Share of the effort that goes into timber where there are panels too.
SHARE_BESIDE_PANELS = 0.12


#: Work units, and seconds where they run out first, for trying whether a change would help.
TRIED, SECONDS_TRIED = 400, 0.25


def plan_lengths(job: Job, effort: Effort) -> tuple[Share, Bound]:
    """Plan all strips of a job from its lengths.

    Strips that share no stock are planned apart: first one after the other, then exactly, as far as the effort goes;
    then strips longer than planks once more, from planks that are scarfed before they are ripped. What that can miss
    shows in the bound.

    Returns
    -------
    (Share, Bound)
        What is taken, cut, joined and left over; and the cents that no plan's stock and joints together cost
        less than.

    Raises
    ------
    NoPlanError
        If some strips can't be made; it names each, the reason, and what would help.
    """
    effort = effort.share_of_rest(SHARE_BESIDE_PANELS) if job.panels else effort
    whole, measure = measured(job)
    refuse_impossible(job, whole, measure)
    cuttings, pools = tuple(hanging_together(whole)), pools_of(job, whole)
    first = effort_for_ripping_first(job, whole, cuttings, effort)
    outcomes = shared_out(cuttings, pools, lambda cutting: cheapest_cutting(cutting, first))
    chosen = best_ways(
        job, whole, tuple(zip(cuttings, outcomes, strict=True)), pools, cheapest_cutting, _bounded, effort
    )
    lacking = [(each.cutting, each.ripped) for each in chosen if not each.found]
    refuse_without_plan(job, lacking, measure, _tried)
    return share_of(job, chosen, measure), bound_of(chosen)


def cheapest_cutting(cutting: Cutting, effort: Effort) -> Outcome:
    """Return the best layout of strips that are planned together, and what is proven of all layouts.

    The cutting is in whole units and cents: for those who have such a problem without a job around it.
    """
    first = greedy(cutting, effort)
    net = net_length_bound(cutting, effort)
    if first is not None and not keeps_ties(cutting, first):
        task = task_of(cutting)
        first = with_ties(task, first, effort) or set_apart(task, effort)
    settled = net.impossible or _settled(cutting, first, net)
    outcome = Outcome(first, net) if settled else exact(cutting, first, net, effort)
    return Outcome(polished(cutting, outcome.layout, effort), outcome.proven)


def _bounded(cutting: Cutting, effort: Effort) -> Proven:
    """Return what is proven of all layouts: only by net lengths, if no effort is left to look for any."""
    return net_length_bound(cutting, effort) if effort.over else cheapest_cutting(cutting, effort).proven


def _tried(cutting: Cutting) -> Layout | None:
    """Return some layout, if little effort finds one: to tell what would help where there is none."""
    return cheapest_cutting(cutting, Effort(Budget(work=TRIED, seconds=SECONDS_TRIED))).layout


def _settled(cutting: Cutting, first: Layout | None, net: Proven) -> bool:
    """Whether a plan meets its bound with the fewest joints there can be."""
    fewest = sum((member.least_joints or 0) * member.quantity for member in cutting.members)
    return first is not None and first.price(cutting) == (net.cents, fewest)
