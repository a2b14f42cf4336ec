"""Chooses one variant of each panel by a solver: neighbours' joints keep apart, pieces suit the sheets there are."""

import math
from collections.abc import Collection, Sequence
from random import Random

from ortools.sat.python import cp_model

from nesting.effort import Effort
from nesting.solving import minimize

from .abreast import taken_at_middle
from .limits import most_of, respect_stock
from .one_of_each import one_of_each, variants_taken
from .parts import Part
from .rebates import MOST_SHEETS, rebates
from .stock import Stock
from .tasks import Task
from .variants import Variant

#: Deterministic solver time for a choice with a rough count of sheets, and for one by joints alone.
EFFORT, EFFORT_WITHOUT_SHEETS = 0.15, 2.0

#: Work units that one solver call counts for.
SOLVER_WORK = 50

#: Share of a sheet that is reckoned to be filled, in hundredths, when sheets are counted before they are laid out.
FILLED = 72

#: Square millimetres in the unit in which areas are reckoned: 10 cm2 keeps the solver's figures small.
UNIT = 1000


def chosen(task: Task, chance: Random | None, effort: Effort) -> tuple[Variant, ...] | None:
    """Return one variant of each panel of a task as ``choose`` does, and count the work."""
    effort.spend(SOLVER_WORK)
    return choose(task.parts, task.variants, task.clashing, task.stocks, chance)


def choose(
    parts: Sequence[Part],
    variants: Sequence[Sequence[Variant]],
    clashing: Collection[tuple[Variant, Variant]],
    stocks: Sequence[Stock],
    chance: Random | None,
) -> tuple[Variant, ...] | None:
    """Return one variant for each panel, cheapest by a rough count of sheets; None if there is no choice.

    The count takes each sheet as filled to a fixed share of its area, whatever the shapes, and respects what is
    available; where that leaves nothing, availability is disregarded.

    Parameters
    ----------
    chance : Random or None
        Adds a random cost to each variant, so that different choices come out.
    """
    for limited in (True, False):
        model = cp_model.CpModel()
        chosen = one_of_each(model, variants, clashing)
        costs = [_cost(parts[v.panel], v, chance) * taken for v, taken in chosen.items()]
        costs += _rough_sheets(model, parts, chosen, stocks) if limited else []
        model.minimize(cp_model.LinearExpr.sum(costs))
        answer = minimize(model, effort=EFFORT if limited else EFFORT_WITHOUT_SHEETS)
        if answer.found:
            return variants_taken(variants, answer.values)
    return None


def _rough_sheets(
    model: cp_model.CpModel,
    parts: Sequence[Part],
    chosen: dict[Variant, cp_model.IntVar],
    stocks: Sequence[Stock],
) -> list[cp_model.LinearExpr]:
    """Add a rough count of sheets by area, and return what those of each kind cost in cents."""
    counts = counted(model, parts, chosen, stocks, FILLED)
    less = rebates(model, stocks, [counts[stock.index] for stock in stocks])
    return [*(stock.price * counts[stock.index] for stock in stocks), -1 * less]


def counted(
    model: cp_model.CpModel,
    parts: Sequence[Part],
    chosen: dict[Variant, cp_model.IntVar],
    stocks: Sequence[Stock],
    filled: int,
) -> dict[int, cp_model.IntVar]:
    """Add a rough count of sheets by area, and by width where pieces lie over the middle; return it by their index."""
    there = {stock.index: stock for stock in stocks}
    load: dict[int, list[cp_model.LinearExpr]] = {index: [] for index in there}
    abreast: dict[int, list[cp_model.LinearExpr]] = {index: [] for index in there}
    for number, (variant, taken) in enumerate(chosen.items()):
        for place, kind in enumerate(variant.pieces):
            need = parts[kind.panel].hands[kind.hand]
            area = math.ceil(kind.area / UNIT)
            shares = {
                t: model.new_int_var(0, need, f"y{number}/{place}/{t}") for t in sorted(kind.stocks & there.keys())
            }
            model.add(sum(shares.values()) == need * taken)
            for t, share in shares.items():
                load[t].append(area * share)
                abreast[t].append(math.floor(taken_at_middle(kind, there[t])) * share)
    counts: dict[int, cp_model.IntVar] = {}
    for stock in stocks:
        most = most_of(stock)
        counts[stock.index] = model.new_int_var(0, MOST_SHEETS if most is None else most, f"n{stock.index}")
        full = math.floor(filled * stock.area / UNIT)
        model.add(100 * sum(load[stock.index]) <= full * counts[stock.index])
        model.add(sum(abreast[stock.index]) <= math.floor(stock.size[1]) * counts[stock.index])
    respect_stock(model, stocks, list(counts.values()))
    return counts


def altered(
    choice: Sequence[Variant],
    variants: Sequence[Sequence[Variant]],
    clashing: Collection[tuple[Variant, Variant]],
    chance: Random,
) -> tuple[Variant, ...]:
    """Return the choice with the variant of one panel, drawn by chance, exchanged for one that clashes with none."""
    panel = chance.randrange(len(choice))
    others = [variant for variant in choice if variant.panel != panel]
    free = [v for v in variants[panel] if not any((v, o) in clashing or (o, v) in clashing for o in others)]
    return tuple(chance.choice(free) if variant.panel == panel else variant for variant in choice)


def _cost(part: Part, variant: Variant, chance: Random | None) -> int:
    joints = part.panel.quantity * variant.joint_cost
    return joints if chance is None else joints + chance.randrange(1 + part.panel.quantity * 1000)
