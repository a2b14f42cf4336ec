"""The cheapest whole sheets and joints that satisfy all that is known to be needed: an integer programme of cuts."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from ortools.sat.python import cp_model

from nesting.solving import minimize

from .resources import Floats, Resources

#: Deterministic solver time for one choice.
EFFORT = 0.03

#: What the largest coefficient of a cut is scaled to before it is rounded to whole numbers.
SCALE = 10**9

#: Share by which a float sum may be wrong: a thousand times what it can be.
SLACK = 1e-9

#: More than any job takes of anything.
PLENTY = 100_000


#: Cents; times ``SCALE`` it is well within what CP-SAT adds up.
MOST_MONEY = 10**9


@dataclass(frozen=True)
class Cut:
    """Something proven of every plan: what it buys, in whole numbers by resource, comes to ``least`` at the least."""

    gives: tuple[int, ...]
    least: int


@dataclass(frozen=True)
class Choice:
    """The cheapest choice by the cuts: an amount in cents that no plan can be below, and what it buys and so has.

    ``counts`` and ``have`` are empty if time ran out before any choice was found.
    """

    cents: int
    counts: Floats
    have: Floats


def cut_of(resources: Resources, prices: Floats, each: Floats, needed: float) -> Cut:
    """Return a cut: at these prices all that is bought is worth at least what is needed; rounded to the safe side.

    Parameters
    ----------
    each : ndarray
        What one sheet, one cent of joint money or one scarf gives of each resource.
    """
    worth = np.bincount(resources.owners, weights=prices * each)
    scale = SCALE / max(worth.max(), 1e-12)
    gives = tuple(math.ceil(float(value) * scale * (1 + SLACK)) for value in worth)
    return Cut(gives, math.floor(min(needed * scale * (1 - SLACK), SCALE * 1e6)))


def cheapest_choice(resources: Resources, cuts: Sequence[Cut]) -> Choice | None:
    """Return the cheapest whole sheets, joint money and scarfs that satisfy every cut; None if nothing is proven."""
    model = cp_model.CpModel()
    sheets = [
        model.new_int_var(0, supply.sheet.available or PLENTY, f"sheet {k}")
        for k, supply in enumerate(resources.supplies)
    ]
    money = model.new_int_var(0, MOST_MONEY, "money")
    scarfs = _scarfs(model, resources, sheets)
    bought = [*sheets, money, *scarfs]
    for cut in cuts:
        model.add(sum(give * count for give, count in zip(cut.gives, bought, strict=True)) >= cut.least)
    model.minimize(sum(cost * count for cost, count in zip(costs_of(resources), bought, strict=True)))
    answer = minimize(model, effort=EFFORT)
    if answer.bound is None:
        return None
    if not answer.found:
        return Choice(answer.bound, np.zeros(0), np.zeros(0))
    counts = np.array([answer.values[variable.name] for variable in bought], dtype=float)
    return Choice(answer.bound, counts, counts[list(resources.owners)] * resources.each)


def costs_of(resources: Resources) -> list[int]:
    """Return, in cents, what one sheet costs, one cent of joint money, one scarf."""
    prices = [int(supply.sheet.price * 100) for supply in resources.supplies]
    return [*prices, 1, *(scarf.cents for scarf in resources.scarfs)]


def _scarfs(model: cp_model.CpModel, resources: Resources, sheets: Sequence[Any]) -> list[Any]:
    """Add the numbers of scarfs: of a blank's members all but the last are of whole length, and that of half at least.

    So one with n scarfs takes n and a half sheets at least, or as many strips; twelfths of a sheet are counted. If
    none shorter than n + 1 whole sheets carries a panel, half a sheet at the end will do from n + 1 scarfs on.
    """
    counts: list[Any] = []
    by_members: dict[tuple[int, ...], list[Any]] = {}
    for kind, scarf in enumerate(resources.scarfs):
        count = model.new_int_var(0, PLENTY, f"scarf {kind}")
        some = model.new_bool_var(f"any {kind}")
        more = model.new_bool_var(f"more {kind}")
        model.add(count <= PLENTY * some)
        model.add(count >= scarf.least * some + more)
        model.add(more <= some)
        half = 12 // scarf.strips // 2
        last = 2 * half * some - half * more if scarf.whole else half * some
        by_members.setdefault(scarf.members, []).append(2 * half * count + last)
        counts.append(count)
    for members, taken in by_members.items():
        model.add(sum(taken) <= 12 * sum(sheets[k] for k in members))
    return counts
