"""Panels parted by what they may be cut from."""

from collections.abc import Sequence

from nesting.model import TOLERANCE, Panel


def by_material(panels: Sequence[Panel]) -> list[list[Panel]]:
    """Part the panels such that no sheet serves two groups: what they need at the least then adds up."""
    ordered = sorted(panels, key=lambda panel: (panel.material, panel.thickness))
    groups: list[list[Panel]] = []
    for panel in ordered:
        if groups and _alike(groups[-1][-1], panel):
            groups[-1].append(panel)
        else:
            groups.append([panel])
    return groups


def _alike(one: Panel, other: Panel) -> bool:
    """Whether one sheet might serve both: each may differ from it by the tolerance."""
    return one.material == other.material and abs(one.thickness - other.thickness) <= 2 * TOLERANCE
