"""Chooses which sheets to buy over all layouts found: exact over the pool, by cost, within what is available."""

from collections.abc import Collection, Sequence

from ortools.sat.python import cp_model

from nesting.solving import minimize

from .layouts import Layout
from .limits import most_of, respect_stock
from .one_of_each import one_of_each, variants_taken
from .parts import Part
from .pieces import PieceKind
from .rebates import rebates
from .selecting import Selection, selection
from .variants import Variant

#: Deterministic solver time for one choice.
EFFORT = 0.3


def best_selection(
    parts: Sequence[Part],
    variants: Sequence[Sequence[Variant]],
    clashing: Collection[tuple[Variant, Variant]],
    layouts: Sequence[Layout],
    best: Selection,
) -> Selection:
    """Return the cheapest way over the pool that the solver finds, or ``best`` if it finds none cheaper."""
    model = cp_model.CpModel()
    asked = {kind for several in variants for variant in several for kind in variant.pieces}
    layouts = [layout for layout in layouts if asked.issuperset(layout.counts)]
    made = {kind for layout in layouts for kind in layout.counts}
    usable = [[v for v in several if made.issuperset(v.pieces)] for several in variants]
    chosen = one_of_each(model, usable, clashing)
    cut = [model.new_int_var(0, _most(layout, parts), f"x{k}") for k, layout in enumerate(layouts)]
    _cover_demand(model, parts, chosen, layouts, cut)
    stocks = [layout.stock for layout in layouts]
    respect_stock(model, stocks, cut)
    sheets = sum(stock.price * x for stock, x in zip(stocks, cut, strict=True)) - rebates(model, stocks, cut)
    joints = sum(parts[v.panel].panel.quantity * v.joint_cost * r for v, r in chosen.items())
    cost = sheets + joints
    model.add(cost <= best.cost)
    # Of equal costs the one with fewer sheets: there are never as many as the factor.
    model.minimize(cost * 1000 + sum(len(stock.members) * x for stock, x in zip(stocks, cut, strict=True)))
    answer = minimize(model, effort=EFFORT)
    if not answer.found:
        return best
    bought = [layout for k, layout in enumerate(layouts) for _ in range(answer.values[f"x{k}"])]
    found = selection(parts, variants_taken(usable, answer.values), bought)
    return min(best, found, key=lambda s: s.rank)


def _most(layout: Layout, parts: Sequence[Part]) -> int:
    """Return how often a layout can be of use."""
    need = max(parts[kind.panel].hands[kind.hand] for kind in layout.counts)
    most = most_of(layout.stock)
    return need if most is None else min(need, most)


def _cover_demand(
    model: cp_model.CpModel,
    parts: Sequence[Part],
    chosen: dict[Variant, cp_model.IntVar],
    layouts: Sequence[Layout],
    cut: Sequence[cp_model.IntVar],
) -> None:
    """Every piece of a chosen variant is cut at least as often as there are copies; a surplus can be left out."""
    supply: dict[PieceKind, list[cp_model.LinearExprT]] = {}
    for layout, x in zip(layouts, cut, strict=True):
        for kind, count in layout.counts.items():
            supply.setdefault(kind, []).append(count * x)
    for variant, r in chosen.items():
        for kind in variant.pieces:
            model.add(sum(supply[kind]) >= parts[kind.panel].hands[kind.hand] * r)
