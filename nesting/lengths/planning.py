"""The road from a job's strips to the timber that is cut for them."""

from nesting.effort import Effort
from nesting.model import Bound, Job, Share

from .cutting import Cutting, hanging_together, measured
from .exact import Outcome, exact
from .greedy import greedy
from .improving import STRIPS_AT_A_TIME, improved
from .layout import Layout
from .net_length import Proven, net_length_bound
from .refusing import refuse_impossible, refuse_without_plan
from .writing import bound_of, share_of


def plan_lengths(job: Job, effort: Effort) -> tuple[Share, Bound]:
    """Plan all strips of a job from its lengths.

    Strips that share no stock are planned apart: first one after the other, then a few at a time exactly, then, if
    they are few enough kinds and copies, all at once exactly within a fixed solver effort. What that can miss shows
    in the bound.

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
    whole, measure = measured(job)
    refuse_impossible(job, whole, measure)
    cuttings = tuple(hanging_together(whole))
    outcomes = tuple(_planned(cutting, effort) for cutting in cuttings)
    refuse_without_plan(job, cuttings, outcomes)
    return share_of(job, cuttings, outcomes, measure), bound_of(outcomes)


def _planned(cutting: Cutting, effort: Effort) -> Outcome:
    first = greedy(cutting, effort)
    net = net_length_bound(cutting, effort)
    if net.impossible or _settled(cutting, first, net):
        return Outcome(first, net)
    if first is not None and cutting.copies > STRIPS_AT_A_TIME:
        first = improved(cutting, first, effort)
    return exact(cutting, first, net, effort)


def _settled(cutting: Cutting, first: Layout | None, net: Proven) -> bool:
    """Whether a plan meets its bound with the fewest joints there can be."""
    fewest = sum((member.least_joints or 0) * member.quantity for member in cutting.members)
    return first is not None and first.price(cutting) == (net.cents, fewest)
