"""What no plan for sheet goods can beat: areas and laps against whole sheets."""

import math
from collections.abc import Sequence
from decimal import Decimal

from ortools.sat.python import cp_model

from nesting.model import TOLERANCE, Bound, Job, sheet_serves
from nesting.solving import minimize

from .demand import Demand, demand_of
from .groups import by_material
from .supply import Supply, supply_of

#: Deterministic solver time for one material and thickness.
EFFORT = 1.0


def sheets_bound(job: Job) -> Bound:
    """Return an amount that no plan can be below that joins panels in a way the job allows: sheets to pay and joints.

    For each material and thickness a knapsack over whole sheets: for each grade, the sheets of at least that grade
    must hold the area, laps and straps of the panels that ask for at least that grade.
    """
    supplies = [supply_of(job, sheet) for sheet in job.sheets]
    demands = [demand_of(job, panel, supplies) for panel in job.panels]
    material = sum(_least_price(job, group, supplies) for group in by_material(demands))
    joints = _least_joint_cost(job, demands, supplies)
    return Bound(amount=Decimal(material + joints) / 100, reason="area and laps against whole sheets")


def _least_joint_cost(job: Job, demands: Sequence[Demand], supplies: Sequence[Supply]) -> int:
    """Return the least, in cents, that all joints cost: all divided, or some cut from a blank with a scarf at least."""
    divided = sum(demand.divided for demand in demands)
    if job.workshop.way == "divided" or divided == 0:
        return divided
    joined = max(sum(min(d.divided, d.joined) for d in demands), _least_scarf(job, supplies))
    return joined if job.workshop.way == "joined" else min(divided, joined)


def _least_scarf(job: Job, supplies: Sequence[Supply]) -> int:
    """Return the least, in cents, that a scarf right across a whole sheet costs."""
    widths = [supply.width + 2 * job.workshop.allowance for supply in supplies if supply.sheet.size is not None]
    scarfs = [rule for rule in job.joints.values() if rule.kind == "scarf"]
    return min((int(rule.cost.of(max(0.0, width - TOLERANCE)) * 100) for rule in scarfs for width in widths), default=0)


def _least_price(job: Job, demands: Sequence[Demand], supplies: Sequence[Supply]) -> int:
    """Return the least price, in cents, of whole sheets with enough area for all grades."""
    usable = [s for s in supplies if any(sheet_serves(job, s.sheet, demand.panel) for demand in demands)]
    model = cp_model.CpModel()
    total = sum(demand.area for demand in demands)
    counts = [
        model.new_int_var(0, supply.sheet.available or math.ceil(total / supply.area) + 1, f"n{k}")
        for k, supply in enumerate(usable)
    ]
    for rank in sorted({demand.rank for demand in demands}):
        need = math.floor(sum(demand.area for demand in demands if demand.rank >= rank))
        model.add(sum(math.ceil(s.area) * n for s, n in zip(usable, counts, strict=True) if s.rank >= rank) >= need)
    model.minimize(sum(int(s.sheet.price * 100) * n for s, n in zip(usable, counts, strict=True)))
    return minimize(model, effort=EFFORT).bound or 0
