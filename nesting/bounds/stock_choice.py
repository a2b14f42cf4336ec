"""The cheapest whole sheets and joints that satisfy all that is known to be needed: an integer programme of cuts."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any

import numpy as np
from ortools.sat.python import cp_model

from nesting.model import Sheet
from nesting.solving import Answer, Status, minimize, rebate

from .least_taken import Taker
from .resources import Floats, Resources
from .scarf_counts import PLENTY, ScarfCount, give_room, scarf_counts

#: What the largest coefficient of a cut is scaled to before it is rounded to whole numbers.
SCALE = 10**9

#: Share by which a float sum may be wrong: a thousand times what it can be.
SLACK = 1e-9

#: Cents; times ``SCALE`` it is well within what CP-SAT adds up.
MOST_MONEY = 10**9


@dataclass(frozen=True)
class Cut:
    """Something proven of every plan: what it buys gives at least what its panels take, in whole numbers.

    ``gives`` is by what is bought, ``takes`` for one copy of each panel in each of its manners.
    """

    gives: tuple[int, ...]
    takes: tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class Choice:
    """The cheapest choice by the cuts: an amount in cents that no plan can be below, and what it buys and so has.

    ``counts`` and ``have`` are empty if time ran out before any choice was found; ``made`` are the copies of each panel
    in each of its manners. ``cheapest`` tells whether no choice by the cuts costs less.
    """

    cents: int
    counts: Floats
    have: Floats
    made: tuple[Floats, ...]
    cheapest: bool


def cut_of(resources: Resources, prices: Floats, each: Floats, taken: Sequence[Floats]) -> Cut:
    """Return a cut: at these prices all that is bought is worth at least what panels take; rounded to the safe side.

    Parameters
    ----------
    each : ndarray
        What one sheet, one cent of joint money or one scarf gives of each resource.
    taken : sequence of ndarray
        What one copy of each panel is worth, by manner.
    """
    worth = np.bincount(resources.owners, weights=prices * each)
    scale = SCALE / max(worth.max(), 1e-12)
    gives = tuple(math.ceil(float(value) * scale * (1 + SLACK)) for value in worth)
    takes = (np.floor(np.minimum(values * scale * (1 - SLACK), SCALE * 1e3)) for values in taken)
    return Cut(gives, tuple(tuple(int(value) for value in values) for values in takes))


def cheapest_choice(
    resources: Resources, takers: Sequence[Taker], cuts: Sequence[Cut], *, proven: int, effort: float
) -> Choice | None:
    """Return the cheapest whole sheets, joint money and scarfs that satisfy every cut; None if nothing is proven.

    Parameters
    ----------
    proven : int
        Cents that no choice can be below.
    effort : float
        Deterministic solver time.
    """
    model = cp_model.CpModel()
    sheets = [
        model.new_int_var(0, supply.sheet.available or PLENTY, f"sheet {k}")
        for k, supply in enumerate(resources.supplies)
    ]
    money = model.new_int_var(0, MOST_MONEY, "money")
    scarfs = scarf_counts(model, resources, sheets)
    bought = [*sheets, money, *(scarf.count for scarf in scarfs)]
    made = [_copies(model, f"panel {k}", taker) for k, taker in enumerate(takers)]
    _cross(model, resources, scarfs, takers, made)
    for cut in cuts:
        model.add(_sum(cut.gives, bought) >= _sum(chain.from_iterable(cut.takes), chain.from_iterable(made)))
    less = [_rebate(model, supply.sheet, count) for supply, count in zip(resources.supplies, sheets, strict=True)]
    cost = _sum(costs_of(resources), bought) - sum(less)
    model.add(cost >= proven)
    model.minimize(cost)
    return _chosen(resources, minimize(model, effort=effort), bought, made)


def _chosen(
    resources: Resources, answer: Answer, bought: Sequence[Any], made: Sequence[Sequence[Any]]
) -> Choice | None:
    """Return the choice that an answer tells of."""
    if answer.bound is None:
        return None
    if not answer.found:
        return Choice(answer.bound, np.zeros(0), np.zeros(0), (), cheapest=False)
    counts, *copies = (np.array([answer.values[one.name] for one in some], dtype=float) for some in (bought, *made))
    have = counts[list(resources.owners)] * resources.each
    return Choice(answer.bound, counts, have, tuple(copies), cheapest=answer.status is Status.OPTIMAL)


def _copies(model: cp_model.CpModel, name: str, taker: Taker) -> list[Any]:
    """Add how many copies of a panel are made in each manner."""
    quantity = taker.asked.panel.quantity
    counts = [model.new_int_var(0, quantity, f"{name} {manner}") for manner in range(len(taker.manners))]
    model.add(sum(counts) == quantity)
    return counts


def _cross(
    model: cp_model.CpModel,
    resources: Resources,
    scarfs: Sequence[ScarfCount],
    takers: Sequence[Taker],
    made: Sequence[Sequence[Any]],
) -> None:
    """Let every panel that is cut from a blank find as many scarfs as it crosses, and room on them."""
    pairs = [zip(taker.manners, copies, strict=True) for taker, copies in zip(takers, made, strict=True)]
    across = [(crossing, copies) for crossing, copies in chain.from_iterable(pairs) if crossing is not None]
    for crossing, copies in across:
        some = model.new_bool_var(f"any of {copies.name}")
        model.add(copies <= PLENTY * some)
        model.add(scarfs[crossing.kind].count >= crossing.least * some)
    give_room(model, resources, scarfs, across)


def _sum(factors: Iterable[int], counts: Iterable[Any]) -> Any:
    return sum(factor * count for factor, count in zip(factors, counts, strict=True))


def costs_of(resources: Resources) -> list[int]:
    """Return, in cents, what one sheet costs, one cent of joint money, one scarf."""
    prices = [int(supply.sheet.price * 100) for supply in resources.supplies]
    return [*prices, 1, *(scarf.cents for scarf in resources.scarfs)]


def _rebate(model: cp_model.CpModel, sheet: Sheet, count: Any) -> Any:
    """Return what price breaks take off so many of a kind of sheet."""
    prices = [(least, int(price * 100)) for least, price in sheet.prices]
    return rebate(model, count, prices, sheet.available or PLENTY) if sheet.price_breaks else 0
