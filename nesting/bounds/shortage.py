"""Which stock can't suffice, whatever the plan: what the panels need at the least against all that there is."""

import math
from collections.abc import Sequence

from nesting.model import Job, Panel, Problem, sheet_serves

from .demand import Demand, demand_of
from .groups import by_material
from .supply import Supply, supply_of

#: Square millimetres in a square metre.
SQUARE_METRE = 1e6


def shortages(job: Job) -> tuple[Problem, ...]:
    """Return, for each material and thickness of which there is too little, by how much, proven by area and laps.

    Parameters
    ----------
    job : Job
        Resolved: outlines are usable.
    """
    supplies = [supply_of(job, sheet) for sheet in job.sheets]
    found = (_shortage(job, panels, supplies) for panels in by_material(job.panels))
    return tuple(problem for problem in found if problem is not None)


def _shortage(job: Job, panels: Sequence[Panel], supplies: Sequence[Supply]) -> Problem | None:
    """Return what is short for one material, by the poorest grade for which it is."""
    serving = [s for s in supplies if any(sheet_serves(job, s.sheet, panel) for panel in panels)]
    for rank in sorted({job.rank(panel.grade) for panel in panels}):
        there = [supply for supply in serving if supply.rank >= rank]
        if not there or any(supply.sheet.available is None for supply in there):
            continue
        demands = [demand_of(job, panel, supplies) for panel in panels if job.rank(panel.grade) >= rank]
        need = sum(demand.area for demand in demands)
        have = sum(supply.area * (supply.sheet.available or 0) for supply in there)
        if need > have:
            return _told(job, demands, there, need, have)
    return None


def _told(job: Job, demands: Sequence[Demand], there: Sequence[Supply], need: float, have: float) -> Problem:
    panel = demands[0].panel
    largest = max(there, key=lambda supply: supply.area)
    more = math.ceil((need - have) / largest.area)
    counts = ", ".join(f'{supply.sheet.available} of "{supply.sheet.name}"' for supply in there)
    names = ", ".join(f'"{demand.panel.name}"' for demand in demands)
    needs = "needs" if len(demands) == 1 else "need"
    return Problem(
        code="too-little-stock",
        where=f"sheets of {panel.material} {panel.thickness:g} mm",
        path=("sheets", job.sheets.index(largest.sheet), "available"),
        reason=(
            f"stock runs out: {names} {needs} {need / SQUARE_METRE:.2f} m2 at the least, laps, straps and half a cut "
            f"around each included, and all there is ({counts}) gives {have / SQUARE_METRE:.2f} m2, "
            f"{(need - have) / SQUARE_METRE:.2f} m2 too little"
        ),
        remedy=f'Raise available: it takes at least {more} more of "{largest.sheet.name}".',
    )
