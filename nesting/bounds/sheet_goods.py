"""What no plan for sheet goods can beat: areas, laps and joints against whole sheets."""

from collections.abc import Sequence
from decimal import Decimal

from nesting.model import Bound, Job, Panel, sheet_serves

from .asked import asked_of
from .groups import by_material
from .least_taken import taker_of
from .resources import resources_of
from .supply import Supply, supply_of
from .weighing import least_cents

#: What proves the bound, by the way in which panels may be joined.
REASON = {
    "divided": "area, laps and joints of pieces against whole sheets, and how many go abreast",
    "joined": "area, laps and scarfs of blanks against whole sheets, and how many go abreast",
    "both": "area, laps and joints, divided or from blanks, against whole sheets, and how many go abreast",
}


def sheets_bound(job: Job) -> Bound:
    """Return an amount that no plan can be below that joins panels in a way the job allows: sheets to pay and joints.

    For each material and thickness the cheapest whole sheets, joints and scarfs of blanks that no prices refute: at any
    prices of area on each kind of sheet and of joints, what is bought must be worth at least what every panel takes
    where it takes the least, divided anywhere its rules allow into pieces no longer than the sheets they are cut from.
    Each copy of a panel is made in one manner: in one piece, divided, or from one kind of blank. Blanks are of sheets
    of one width scarfed end to end, whole or all ripped into as many equal strips, the last of them perhaps cut across
    in the middle. So their scarfs lie a sheet apart, and of those that cross two or more next to one another no more
    can be made than go abreast on every second scarf, or every third. For panels wider than any sheet blanks are joined
    edge to edge too, and of these only their area counts.
    """
    supplies = [supply_of(job, sheet) for sheet in job.sheets]
    cents = sum(_least_cents(job, panels, supplies) for panels in by_material(job.panels))
    return Bound(amount=Decimal(cents) / 100, reason=REASON[job.workshop.way])


def _least_cents(job: Job, panels: Sequence[Panel], supplies: Sequence[Supply]) -> int:
    there = [s for s in supplies if s.length > 0 and s.width > 0]  # nothing comes from less
    serving = [s for s in there if any(sheet_serves(job, s.sheet, panel) for panel in panels)]
    if not serving:
        return 0
    resources = resources_of(job, panels, serving)
    return least_cents(resources, [taker_of(asked_of(job, panel, resources)) for panel in panels])
