"""The exact search: choose groups, lay them out, forbid those that can't be laid out, choose again."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from nesting.effort import Effort
from nesting.solving import Status

from .choosing import Choice, cheapest_choice
from .combinations import combinations
from .cutting import Cutting, Member
from .joined_groups import MOST_SETS, Group, GroupKinds, sets_of_strips
from .layout import Layout, beside
from .net_length import Proven
from .realising import realised
from .splitting import without_splittable

#: Choices of groups looked at before the search is left unfinished.
ROUNDS = 20

#: Objectives beyond this are not whole numbers in a float any more, and their bounds not to be trusted.
LARGEST_OBJECTIVE = 2**50


@dataclass(frozen=True)
class Outcome:
    """The best layout found, if any, and what is proven."""

    layout: Layout | None
    proven: Proven


def exact(cutting: Cutting, first: Layout | None, net: Proven, effort: Effort) -> Outcome:
    """Search for a cheapest layout, starting from a first one and a first bound.

    Every plan splits into groups that pass the model of :mod:`joined_groups`, and a group is forbidden only once
    it is proven that it can't be laid out: so the bound of each choice holds for all plans.
    """
    kinds = _group_kinds(cutting, first, net)
    if kinds is None:
        return Outcome(first, net)
    best, proven = first, net
    for _ in range(ROUNDS):
        if effort.stopped:
            break
        effort.spend(100)
        groups = without_splittable(cutting, tuple(kinds.all()))
        choice = cheapest_choice(cutting, groups, _weight(cutting, kinds.most_joints))
        proven = _better_bound(proven, choice, first)
        statuses, layout = _laid_out(cutting, choice.groups, effort)
        if layout is not None:
            best = layout if best is None or layout.price(cutting) < best.price(cutting) else best
            break
        if Status.IMPOSSIBLE not in statuses:
            break
        kinds.forbid(
            group for group, status in zip(choice.groups, statuses, strict=True) if status is Status.IMPOSSIBLE
        )
    return Outcome(best, _finished(cutting, best, proven))


def joints_worth_a_look(cutting: Cutting, first: Layout | None, net: Proven) -> Mapping[int, int]:
    """Return the most joints that one copy of each member has in any plan not dearer than the first.

    A plan with e joints of a member beyond the fewest costs at least the net length bound plus e such joints,
    since without them it would still satisfy the model of that bound.
    """
    spare = None if first is None else first.price(cutting)[0] - net.cents
    return {member.index: _most_joints(member, spare) for member in cutting.members}


def _most_joints(member: Member, spare: int | None) -> int:
    fewest = member.least_joints or 0
    if spare is None or member.joint_cents == 0:
        return max(member.most_joints, fewest)
    return max(min(member.most_joints, fewest + spare // member.joint_cents), fewest)


def _weight(cutting: Cutting, most_joints: Mapping[int, int]) -> int:
    """Return more than all joints together."""
    return 1 + sum(most_joints[member.index] * member.quantity for member in cutting.members)


def _group_kinds(cutting: Cutting, first: Layout | None, net: Proven) -> GroupKinds | None:
    """Return the groups to choose among; None if they are too many, or too dear for a float to hold their cost."""
    if sets_of_strips(cutting) > MOST_SETS:
        return None
    most_joints = joints_worth_a_look(cutting, first, net)
    weight = _weight(cutting, most_joints)
    most_cents = None if first is None else first.price(cutting)[0]
    taken = combinations(cutting, weight, most_cents)
    if taken is None:
        return None
    dearest = int(taken.cents.max(initial=0)) + weight * max(member.joint_cents for member in cutting.members)
    trusted = (dearest * weight + weight) * cutting.copies <= LARGEST_OBJECTIVE
    return GroupKinds(cutting, taken, most_joints, most_cents) if trusted else None


def _better_bound(proven: Proven, choice: Choice, first: Layout | None) -> Proven:
    if choice.answer.status is Status.IMPOSSIBLE and first is None:
        return replace(proven, impossible=True)
    if choice.bound_cents <= proven.cents:
        return proven
    return Proven(choice.bound_cents, "lengths joined in groups")


def _laid_out(cutting: Cutting, groups: Sequence[Group], effort: Effort) -> tuple[list[Status], Layout | None]:
    """Lay out each group, equal ones once; the whole is None unless all could be."""
    results: list[tuple[Status, Layout]] = []
    for number, group in enumerate(groups):
        if group in groups[:number]:
            results.append(results[groups.index(group)])
        else:
            effort.spend(100)
            results.append(realised(cutting, group))
    complete = bool(results) and all(layout.cuts for _, layout in results)
    return [status for status, _ in results], beside(layout for _, layout in results) if complete else None


def _finished(cutting: Cutting, best: Layout | None, proven: Proven) -> Proven:
    if best is not None and best.price(cutting)[0] == proven.cents and proven.reason != "net length and laps":
        return replace(proven, reason="exact search finished")
    return proven
