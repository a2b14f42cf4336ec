"""Column generation: the cheapest choice of groups in fractions, and a bound in whole numbers."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import gcd

import numpy as np

from nesting.effort import Effort
from nesting.solving.programme import Floats

from .filling import Whole
from .groups import Group
from .master import Master
from .pricing import Priced, Pricing
from .safe_bound import Proof, proof, scale_of, whole_prices
from .task import Task

#: How much of the prices that gave the best bound so far is mixed into the next ones (dual smoothing).
SMOOTHING = 0.7

#: Groups added in one round, and rounds after which the prices are taken as they are.
GROUPS_A_ROUND = 60
MOST_ROUNDS = 3000

#: Groups of other strips added beside the best one, where there are few openings.
FURTHER_GROUPS = 6

#: Reduced costs nearer to nought than this, in cents, are noise of the linear programme.
NOISE = 1e-6

#: What proves a bound that no whole-number arithmetic alone does: HiGHS searches whole programmes in floats.
EXACT_SEARCH = "exact search finished, within the tolerances of its solver"


@dataclass(frozen=True)
class Prices:
    """Prices of strips and openings in cents, in floats: nothing is proven from them until they are made whole."""

    strips: Floats
    openings: Floats

    def mixed(self, other: "Prices") -> "Prices":
        """Return prices between these and others."""
        return Prices(
            SMOOTHING * self.strips + (1 - SMOOTHING) * other.strips,
            SMOOTHING * self.openings + (1 - SMOOTHING) * other.openings,
        )


def money_step(task: Task) -> int:
    """Return the cents of which every plan's cost is a multiple: one where offcuts are worth something."""
    if task.cutting.keeps:
        return 1
    joints = [member.joint_cents for member in task.members if member.joinable]
    return gcd(*task.cents.tolist(), *joints) or 1


def rounded_up(cents: Fraction, step: int) -> int:
    """Return the least multiple of a step that is not below an amount."""
    return -int(-cents // step) * step


def generated(master: Master, pricing: Pricing, effort: Effort) -> Proof | None:
    """Add groups to a master until more would not raise the rounded bound; return the best, None if stopped before."""
    step = money_step(pricing.task)

    def enough(found: Proof) -> bool:
        return not master.makeshift and rounded_up(found.cents, step) >= master.objective - NOISE

    return _priced(master, pricing, effort, None, enough)


def completed(master: Master, pricing: Pricing, effort: Effort, found: Proof) -> Proof:
    """Add groups to a master until none is worth adding; return the best bound, or the one before if that is better.

    Rounded it seldom is higher. But the nearer it is to the cost of a plan, the fewer are the groups that the plan can
    hold.
    """
    return _priced(master, pricing, effort, found, lambda _: False) or found


def _priced(
    master: Master, pricing: Pricing, effort: Effort, best: Proof | None, enough: Callable[[Proof], bool]
) -> Proof | None:
    centre: Prices | None = None
    for _ in range(MOST_ROUNDS):
        if effort.stopped or effort.seconds_left == 0 or not master.solve(effort.seconds_left):
            break
        effort.spend(5)
        true = Prices(*master.prices)
        tried = true if centre is None else centre.mixed(true)
        added, found = _round(master, pricing, tried, true)
        if best is None or found.cents > best.cents:
            best, centre = found, tried
        if not added and tried is not true:
            added, found = _round(master, pricing, true, true)
            if found.cents > best.cents:
                best, centre = found, true
        if not added or enough(best):
            break
    return best


def _round(master: Master, pricing: Pricing, tried: Prices, true: Prices) -> tuple[int, Proof]:
    """Price groups once; add those that the true prices make worth it."""
    task = pricing.task
    scale = scale_of(np.append(tried.strips, task.cents.max()) if task.cutting.keeps else tried.strips)
    strips = whole_prices(tried.strips, scale)
    openings = np.ceil(tried.openings * scale).astype(np.int64)
    priced = pricing.look(strips, openings, scale, task.demand)
    openings = covering(pricing, priced, openings)
    reduced = priced.reduced + pricing.unions.counts @ (openings - np.ceil(tried.openings * scale).astype(np.int64))
    found = proof(task, strips, openings, scale, int(reduced.min(initial=0)))
    offered = [
        *candidates(pricing, priced, strips, scale),
        *pricing.around_each(strips, openings, scale, task.demand),
    ]
    worth = [group for group in offered if gain(task, true, group) > NOISE]
    return master.add(worth, task.joint_cents), found


def covering(pricing: Pricing, priced: Priced, openings: Whole) -> Whole:
    """Return prices of openings high enough that no group on a single one is worth more than it."""
    raised = openings.copy()
    for row in np.flatnonzero(pricing.unions.openings == 1):
        kind = int(pricing.unions.counts[row].argmax())
        raised[kind] = (
            priced.best[row] if len(raised) == len(pricing.unions.room) else max(raised[kind], priced.best[row])
        )
    return raised


def candidates(pricing: Pricing, priced: Priced, strips: Whole, scale: int) -> list[Group]:
    """Return the best group on each of the best unions, and on single openings further ones of other strips."""
    rows = np.argsort(priced.reduced, kind="stable")[:GROUPS_A_ROUND]
    groups = [pricing.group(priced, int(row)) for row in rows]
    if len(pricing.unions.room) <= 4:
        groups += _others(pricing, strips, scale, groups[0])
    return groups


def _others(pricing: Pricing, strips: Whole, scale: int, first: Group) -> list[Group]:
    """Return groups that go well with a first one: each is the best of the strips that those before leave."""
    left, groups = pricing.task.demand - np.array(first.strips), []
    nothing = np.zeros(len(pricing.task.openings), dtype=np.int64)
    for _ in range(FURTHER_GROUPS):
        priced = pricing.look(strips, nothing, scale, left)
        group = pricing.group(priced, int(priced.reduced.argmin()))
        if not any(group.strips):
            break
        groups.append(group)
        left = left - np.array(group.strips)
    return groups


def gain(task: Task, prices: Prices, group: Group) -> float:
    """Return the cents that a group is worth more than it takes."""
    worth = float(prices.strips @ np.array(group.strips)) - float(prices.openings @ np.array(group.openings))
    return worth - group.joints * task.joint_cents + group.kept
