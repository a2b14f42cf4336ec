"""What no plan for sheet goods can beat: areas, laps and joints against whole sheets."""

from collections.abc import Sequence
from decimal import Decimal

from nesting.model import Bound, Job, Panel, sheet_serves

from .asked import asked_of
from .groups import by_material
from .least_taken import taker_of
from .resources import resources_of
from .small_sets import Refuter, nothing_refuted
from .supply import Supply, supply_of
from .weighing import Least, least_cents

#: What proves the bound, by the way in which panels may be joined.
REASON = {
    "divided": "area, laps and joints of pieces against whole sheets, and how many go abreast",
    "joined": "area, laps and scarfs of blanks against whole sheets, and how many go abreast",
    "both": "area, laps and joints, divided or from blanks, against whole sheets, and how many go abreast",
}

#: What is added where it was needed.
SMALL_SETS = ", and few panels that no single sheet holds"


def sheets_bound(job: Job, refuted: Refuter = nothing_refuted) -> Bound:
    """Return an amount that no plan can be below that joins panels in a way the job allows: sheets to pay and joints.

    For each material and thickness the cheapest whole sheets, joints and scarfs of blanks that no prices refute: at any
    prices of area on each kind of sheet and of joints, what is bought must be worth at least what every panel takes
    where it takes the least, divided anywhere its rules allow into pieces no longer than the sheets they are cut from.
    Each copy of a panel is made in one manner: in one piece, divided, or from one kind of blank. Blanks are of sheets
    of one width scarfed end to end, whole or all ripped into as many equal strips, the last of them perhaps cut across
    in the middle. So their scarfs lie a sheet apart, and of those that cross two or more next to one another no more
    can be made than go abreast on every second scarf, or every third. For panels wider than any sheet blanks are joined
    edge to edge too, and of these only their area counts. Where one sheet would do by all this for a few panels that
    may not be joined, they may still be refuted to lie on it together.

    Parameters
    ----------
    job : Job
    refuted : callable
        Whether it is proven that a room can't hold all of some outlines a gap apart: see ``small_sets.Refuter``.
    """
    supplies = [supply_of(job, sheet) for sheet in job.sheets]
    found = [_least(job, panels, supplies, refuted) for panels in by_material(job.panels)]
    reason = REASON[job.workshop.way] + (SMALL_SETS if any(least.by_small_set for least in found) else "")
    return Bound(amount=Decimal(sum(least.cents for least in found)) / 100, reason=reason)


def _least(job: Job, panels: Sequence[Panel], supplies: Sequence[Supply], refuted: Refuter) -> Least:
    there = [s for s in supplies if s.length > 0 and s.width > 0]  # nothing comes from less
    serving = [s for s in there if any(sheet_serves(job, s.sheet, panel) for panel in panels)]
    if not serving:
        return Least(0, by_small_set=False)
    resources = resources_of(job, panels, serving)
    takers = [taker_of(asked_of(job, panel, resources)) for panel in panels]
    return least_cents(resources, takers, refuted)
