"""Demands parted by what they may be cut from."""

from collections.abc import Sequence

from nesting.model import TOLERANCE, Panel

from .demand import Demand


def by_material(demands: Sequence[Demand]) -> list[list[Demand]]:
    """Part the demands such that no sheet serves two groups: what they need at the least then adds up."""
    ordered = sorted(demands, key=lambda demand: (demand.panel.material, demand.panel.thickness))
    groups: list[list[Demand]] = []
    for demand in ordered:
        if groups and _alike(groups[-1][-1].panel, demand.panel):
            groups[-1].append(demand)
        else:
            groups.append([demand])
    return groups


def _alike(one: Panel, other: Panel) -> bool:
    """Whether one sheet might serve both: each may differ from it by the tolerance."""
    return one.material == other.material and abs(one.thickness - other.thickness) <= 2 * TOLERANCE
