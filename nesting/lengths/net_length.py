"""A first proven bound: what stock must be taken so that its length alone covers all strips and laps."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import lcm

from ortools.sat.python import cp_model

from nesting.effort import Effort
from nesting.solving import Status, minimize

from .cutting import Cutting
from .proven import Proven

#: Solver effort for this small model; common cases need a hundredth of it.
EFFORT = 0.3


def net_length_bound(cutting: Cutting, effort: Effort) -> Proven:
    """Return the least cost of stock and joints whose lengths add up, wherever the cuts lie.

    Every plan satisfies the model: the pieces of a length with one kerf each fit its room (its length plus one
    kerf), and a strip with n joints consumes its length, n laps and n + 1 kerfs. So for each set of stock the
    rooms taken from it cover the strips that nothing else can serve. A strip has at least the joints that its
    length and zones demand.
    """
    net = _net_lengths(cutting)
    net.model.minimize(net.cost)
    effort.spend(100)
    answer = minimize(net.model, effort=EFFORT)
    bound = -(-(answer.bound or 0) // net.common)
    return Proven(max(0, bound), "net length and laps", answer.status is Status.IMPOSSIBLE)


def most_joints(cutting: Cutting, cents: int) -> int:
    """Return how many joints a plan of at most so many cents has at most, going by net lengths alone."""
    net = _net_lengths(cutting)
    net.model.add(net.cost <= cents * net.common)
    net.model.minimize(-net.joints)
    answer = minimize(net.model, effort=EFFORT)
    most = sum(max(m.least_joints or 0, m.most_joints) * m.quantity for m in cutting.members)
    if answer.status is Status.IMPOSSIBLE:
        return 0
    return most if answer.bound is None else min(most, -answer.bound)


@dataclass(frozen=True)
class _NetLengths:
    """The model of net lengths: ``cost`` counts ``common`` to the cent."""

    model: cp_model.CpModel
    cost: cp_model.LinearExprT
    common: int
    joints: cp_model.LinearExprT


def _net_lengths(cutting: Cutting) -> _NetLengths:
    model = cp_model.CpModel()
    taken = {index: model.new_int_var(0, most_of(cutting, index), f"stock {index}") for index in cutting.stocks}
    joints = {
        m.index: model.new_int_var(
            (m.least_joints or 0) * m.quantity,
            max(m.least_joints or 0, m.most_joints) * m.quantity,
            f"joints {m.index}",
        )
        for m in cutting.members
    }
    for stocks, members in cutting.levels():
        need = sum(m.quantity * cutting.need(m, 0) + (m.lap + cutting.kerf) * joints[m.index] for m in members)
        model.add(sum(cutting.stocks[index].room * taken[index] for index in sorted(stocks)) >= need)
    stock_cost = sum(cutting.stocks[index].cents * count for index, count in taken.items())
    kept, common = _kept(model, cutting, taken)
    joint_cost = sum(m.joint_cents * joints[m.index] for m in cutting.members)
    if kept:
        need = sum(m.quantity * cutting.need(m, 0) + (m.lap + cutting.kerf) * joints[m.index] for m in cutting.members)
        rooms = sum(cutting.stocks[index].room * count for index, count in taken.items())
        model.add(rooms >= need + sum(length for _, length in kept))
    cost = common * (stock_cost + joint_cost) - sum(value * length for value, length in kept)
    return _NetLengths(model, cost, common, sum(joints.values()))


def _kept(
    model: cp_model.CpModel, cutting: Cutting, taken: Mapping[int, cp_model.IntVar]
) -> tuple[list[tuple[int, cp_model.IntVar]], int]:
    """Return what can be kept of each stock with its value for the unit, and how many such values are one cent."""
    valued = [stock for stock in cutting.stocks.values() if stock.offcut]
    common = lcm(*(stock.offcut.denominator for stock in valued)) if valued else 1
    kept = []
    for stock in valued:
        length = sum(b - a for a, b in stock.stretches)
        offcuts = model.new_int_var(0, length * most_of(cutting, stock.index), f"kept {stock.index}")
        model.add(offcuts <= length * taken[stock.index])
        kept.append((int(stock.offcut * common), offcuts))
    return kept, common


def most_of(cutting: Cutting, index: int) -> int:
    """Return how many lengths of a stock any plan without idle lengths can take: one for each piece."""
    pieces = sum(m.quantity * (1 + max(m.least_joints or 0, m.most_joints)) for m in cutting.members)
    available = cutting.stocks[index].available
    return pieces if available is None else min(pieces, available)
